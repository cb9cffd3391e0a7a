"""Which recognised words are a command: whole phrases only, of a plausible length, on their own.

A command inside a sentence is no command. A pause inside a phrase is joined. What is not sure
is left, or reported as unsure. Pure: time is the ear's own clock, in seconds of sound.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from coach.adapters.ear_grammar import UNKNOWN
from coach.guide.dialogue import NUMBER
from coach.guide.spoken_numbers import NUMBER_WORDS, SOUNDS_LIKE, heard_number

JOIN = 0.7  # seconds: parts of a phrase may lie so far apart
SHORTEST, LONGEST = 0.2, 2.5  # seconds that a phrase may last, breath and all
LONGEST_NUMBER = 6.0  # "ripped back to the end of row one three", said slowly
FASTEST_SYLLABLE = 0.055  # seconds: no mouth is faster; a click is
UNACCOUNTED = 0.45  # seconds of voice before or after the words: something else was said
SURE = 0.5  # the lowest confidence of any word in a phrase
UNSURE = 0.25  # below this it was no word of ours
WARY_FOR = 6.0  # seconds after talk in the room during which more is asked
WARY_SURE = 0.8  # confidence asked then
WARY_SILENCE = 0.45  # seconds of silence asked after a phrase then

_NUMBER_WORDS = frozenset(NUMBER_WORDS) | frozenset(SOUNDS_LIKE)


@dataclass(frozen=True, slots=True)
class Word:
    """One recognised word: when it was said, and how sure the recogniser is, 0 to 1."""

    text: str
    start: float
    end: float
    confidence: float


@dataclass(frozen=True, slots=True)
class Part:
    """What was recognised between two silences, from *began* to *ended*."""

    words: tuple[Word, ...]
    began: float
    ended: float


@dataclass(frozen=True, slots=True)
class Accepted:
    """A whole phrase, heard surely enough; it ended at *at*."""

    text: str
    confidence: float
    at: float


@dataclass(frozen=True, slots=True)
class Unsure:
    """Something like a phrase, not sure enough to act on."""

    confidence: float
    at: float


Verdict = Accepted | Unsure


class WholePhrases:
    """Judges part after part. Keep the order: `voice_began`, `offer`; and `tick` in between."""

    def __init__(self) -> None:
        self._meanings: Mapping[str, str] = {}
        self._stems: frozenset[str] = frozenset()
        self._open: list[Part] = []  # parts that may belong together, not decided yet
        self._due: float | None = None  # when they are decided as they are
        self._accepted: tuple[str, float] = ("", float("-inf"))
        self._talk_until = float("-inf")
        self._speaking = False

    def listen_for(self, meanings: Mapping[str, str]) -> None:
        """Take only these phrases from now on, each with its meaning; "#" stands for a number.

        Of two phrases with one meaning the shorter needs no waiting for the longer.
        """
        self._meanings = {
            phrase: meaning for phrase, meaning in meanings.items() if NUMBER not in phrase.split()
        }
        self._stems = frozenset(
            phrase.replace(NUMBER, "").strip() for phrase in meanings if NUMBER in phrase.split()
        )

    def reset(self) -> None:
        """Forget what was half heard."""
        self._open, self._due, self._speaking = [], None, False

    def voice_began(self, at: float) -> None:
        """A voice began: what waits for more goes on waiting until it has ended."""
        self._speaking = True
        if self._open and self._due is None and at - self._open[-1].ended > JOIN:
            self._open = []

    def tick(self, now: float) -> Verdict | None:
        """Decide what has waited long enough."""
        if self._due is None or now < self._due:
            return None
        if self._speaking and now < self._due + JOIN:
            return None
        parts, self._open, self._due = self._open, [], None
        return self._judge(parts)

    def offer(self, part: Part) -> Verdict | None:
        """Take the part that has just ended; return a verdict when there is one at once."""
        self._speaking = False
        if not part.words or (part.ended - part.began < SHORTEST and _is_noise(part)):
            return None  # a clink between two words
        if self._open and part.began - self._open[-1].ended <= JOIN:
            self._open.append(part)
        else:
            self._open = [part]
        self._due = None
        text = _text(self._open)
        if self._is_tail(part):
            self._open = []
            return None
        if not self._is_phrase(text):
            if not self._may_go_on(text):
                self._note_talk(part)
            return None
        wait = JOIN if self._may_become_another(text) else 0.0
        if part.began < self._talk_until:
            wait = max(wait, WARY_SILENCE)
        if wait:
            self._due = part.ended + wait
            return None
        parts, self._open = self._open, []
        return self._judge(parts)

    def _judge(self, parts: Sequence[Part]) -> Verdict | None:
        words = [word for part in parts for word in part.words]
        text = self._once(_text(parts))
        began, ended = parts[0].began, parts[-1].ended
        if not self._is_plausible(words, text, began, ended):
            return None
        confidence = min(word.confidence for word in words)
        wanted = WARY_SURE if began < self._talk_until else SURE
        if confidence >= wanted:
            self._accepted = (text, ended)
            return Accepted(text, confidence, ended)
        return Unsure(confidence, ended) if confidence >= UNSURE else None

    def _is_plausible(self, words: Sequence[Word], text: str, began: float, ended: float) -> bool:
        spoken = words[-1].end - words[0].start
        longest = LONGEST if text in self._meanings else LONGEST_NUMBER
        least = max(SHORTEST, FASTEST_SYLLABLE * _syllables(text))
        return (
            least <= spoken <= longest
            and words[0].start - began <= UNACCOUNTED
            and ended - words[-1].end <= UNACCOUNTED
        )

    def _is_phrase(self, text: str) -> bool:
        return self._once(text) in self._meanings or self._number_of(text) is not None

    def _once(self, text: str) -> str:
        """Take "next next", said in one breath, for one "next" (user need L03)."""
        words = text.split()
        half = len(words) // 2
        once = " ".join(words[:half])
        doubled = len(words) % 2 == 0 and words[:half] == words[half:]
        return once if doubled and text not in self._meanings and once in self._meanings else text

    def _is_tail(self, part: Part) -> bool:
        """Return whether *part* only lengthens the phrase just taken: "next", then "row"."""
        text, ended = self._accepted
        longer = f"{text} {_text([part])}"
        near = part.began - ended <= JOIN
        return near and longer in self._meanings and self._same(text, longer)

    def _same(self, one: str, other: str) -> bool:
        return self._meanings.get(one) == self._meanings.get(other)

    def _may_go_on(self, text: str) -> bool:
        """Return whether *text* is the beginning of a phrase that isn't whole yet."""
        wholes = (*self._meanings, *self._stems)
        if any(f"{whole} ".startswith(f"{text} ") for whole in wholes):
            return True
        return any(
            text.startswith(stem) and _all_numbers(text[len(stem) :]) for stem in self._stems
        )

    def _may_become_another(self, text: str) -> bool:
        """Return whether more words would make a phrase of another meaning, or another number."""
        if text not in self._meanings and self._number_of(text) is not None:
            return True
        return any(
            whole.startswith(f"{text} ") and not self._same(text, whole) for whole in self._meanings
        )

    def _number_of(self, text: str) -> int | None:
        for stem in self._stems:
            if text.startswith(f"{stem} " if stem else ""):
                number = heard_number(text[len(stem) :])
                if number is not None:
                    return number
        return None

    def _note_talk(self, part: Part) -> None:
        """Talk in the room: for a while more is asked of a command."""
        known = [word for word in part.words if word.text != UNKNOWN]
        if part.ended - part.began > 1.0 or len(known) > 2:
            self._talk_until = max(self._talk_until, part.ended + WARY_FOR)


def _is_noise(part: Part) -> bool:
    return all(word.text == UNKNOWN for word in part.words)


def _text(parts: Sequence[Part]) -> str:
    return " ".join(word.text for part in parts for word in part.words)


def _all_numbers(text: str) -> bool:
    return all(word in _NUMBER_WORDS for word in text.split())


def _syllables(text: str) -> int:
    """Count groups of vowels: near enough for a least length."""
    count, before = 0, False
    for sign in text:
        vowel = sign in "aeiouy"
        count += vowel and not before
        before = vowel
    return max(1, count)
