"""Which recognised words are a command: whole phrases only, of a plausible length, on their own.

The recogniser gives several readings of a sound, each with a score. Its word list is no grammar:
it mixes parts of phrases ("go neck"), and its own confidence is near 1 for whatever it forces
onto the list. So the readings are weighed here: the best whole phrase against the best other
phrase, the best decoy, and the best mixture, of which a little is forgiven. A command inside a
sentence is no command. A pause inside a phrase is joined. Pure: time is the ear's own clock, in
seconds of sound.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from coach.adapters.ear_certainty import certainty
from coach.adapters.ear_grammar import UNKNOWN
from coach.adapters.ear_phrase_list import PhraseList, is_complete
from coach.adapters.ear_readings import Part, Reading, joined
from coach.adapters.ear_verdicts import Accepted, Noticed, Unsure, Verdict

JOIN = 0.7  # seconds: parts of a phrase may lie so far apart
FOR_UNIT = 0.35  # seconds for the unit after a number that can't grow: "thirty two … stitches"
SHORTEST, LONGEST = 0.2, 2.5  # seconds that a phrase may last, breath and all
LONGEST_NUMBER = 6.0  # "ripped back to the end of row one three", said slowly
FASTEST_SYLLABLE = 0.055  # seconds: no mouth is faster; a click is
UNACCOUNTED = 0.6  # seconds of voice before or after the words: something else was said
MIXED = 4.0  # log likelihood that a mixture may be ahead of a whole phrase of several words
MIXED_NUMBER = 7.0  # and of a phrase with a number, which is read back before it is acted on
MIXED_ONE = 0.4  # and of a phrase of one word, which needs less luck to come about
RIVAL = 0.5  # log likelihood that a command must lead by before another command, over the rest
STRANGER = 5.0  # and before a word that is none of the list's: where it fits so nearly, it was one
SURE = 0.6  # confidence asked of a phrase: a lead of 0.5 in log likelihood
UNSURE = 0.55  # below this it was no word of ours
WITHOUT_RIVAL = 5.0  # log likelihood: the lead of a phrase that is the only reading
WARY_FOR = 6.0  # seconds after talk in the room during which more is asked
WARY_SURE = 0.75  # confidence asked then
WARY_SILENCE = 0.45  # seconds of silence asked after a phrase then
FARTHER = 6.0  # decibels softer than the word beside it: another mouth, farther away


@dataclass(frozen=True, slots=True)
class _Weighed:
    """A whole phrase and how far it leads before everything else that was possible."""

    text: str
    confidence: float
    began: float
    ended: float


class WholePhrases:
    """Judges part after part. Keep the order: `voice_began`, `offer`; and `tick` in between."""

    def __init__(self) -> None:
        self._list = PhraseList({})
        self._open: list[Part] = []  # parts that may belong together, not decided yet
        self._due: float | None = None  # when they are decided as they are
        self._accepted: tuple[str, float] = ("", float("-inf"))
        self._talk_until = float("-inf")
        self._speaking = False
        self.notices = True  # whether a phrase that may still grow is told as noticed
        self._noticed: Noticed | None = None
        self._untold: Noticed | None = None

    def listen_for(self, meanings: Mapping[str, str]) -> None:
        """Take only these phrases from now on, each with its meaning; "#" stands for a number.

        Of two phrases with one meaning the shorter needs no waiting for the longer.
        """
        self._list = PhraseList(meanings)

    def reset(self) -> None:
        """Forget what was half heard."""
        self._open, self._due, self._speaking = [], None, False
        self._noticed = self._untold = None

    def forget_talk(self) -> None:
        """Be no more wary: the talk was the coach's own, and it is over."""
        self._talk_until = float("-inf")

    def meaning(self, text: str) -> str:
        """Return the meaning of a whole phrase of the list; "" for anything else."""
        return self._list.meaning(text) or ""

    def voice_began(self, at: float) -> None:
        """A voice began: what waits for more goes on waiting until it has ended."""
        self._speaking = True
        if self._open and self._due is None and at - self._open[-1].ended > JOIN:
            self._open = []

    def take_notice(self) -> Noticed | None:
        """Return a phrase that now waits for more, once: it can be answered with a tone."""
        untold, self._untold = self._untold, None
        return untold

    def tick(self, now: float) -> Verdict | None:
        """Decide what has waited long enough."""
        return self._settle(self._tick(now))

    def offer(self, part: Part) -> Verdict | None:
        """Take the part that has just ended; return a verdict when there is one at once."""
        return self._settle(self._offer(part))

    def _settle(self, verdict: Verdict | None) -> Verdict | None:
        """Tell of a noticed phrase what became of it, if only that it isn't understood."""
        noticed = self._noticed
        if noticed is None or (verdict is None and self._due is not None):
            return verdict
        self._noticed = self._untold = None
        return verdict or Unsure(UNSURE, noticed.at, noticed.began)

    def _tick(self, now: float) -> Verdict | None:
        if self._due is None or now < self._due:
            return None
        if self._speaking and now < self._due + JOIN:
            return None
        parts, self._open, self._due = self._open, [], None
        found = self._weigh(parts)
        return self._judge(found) if found is not None else None

    def _offer(self, part: Part) -> Verdict | None:
        self._speaking = False
        if not part.readings:  # nothing was heard in it, or it was far too long
            if part.ended - part.began > LONGEST_NUMBER:
                self._open, self._due = [], None
                self._talk_until = part.ended + WARY_FOR
            return None
        if self._is_aside(part):
            return None
        if part.among_talk:
            self._talk_until = max(self._talk_until, part.ended + WARY_FOR)
        self._open = [*self._open, part] if self._joins(part) else [part]
        self._due = None
        if self._is_tail(part):
            self._open = []
            return None
        found = self._weigh(self._open)
        if found is None and self._is_stray_before(part):
            self._open, self._talk_until = [part], part.ended
            found = self._weigh(self._open)
        if found is None:
            if not self._may_go_on(self._open):
                self._note_talk(part)
            return None
        wait = self._wait(part, found)
        if wait:
            self._due = part.ended + wait
            self._notice(found)
            return None
        self._open = []
        return self._judge(found)

    def _wait(self, part: Part, found: _Weighed) -> float:
        """Return for how many seconds after *part* the phrase found in it may still change."""
        wait = JOIN if self._list.may_become_another(found.text) else 0.0
        if not self._list.is_listed(found.text) and is_complete(found.text.split()):
            wait = FOR_UNIT
        if found.confidence < SURE and self._list.has_longer(found.text):
            wait = JOIN  # "next", not surely heard: "row" may come and settle it
        return max(wait, WARY_SILENCE) if part.began < self._talk_until else wait

    def _notice(self, found: _Weighed) -> None:
        """Note that a phrase waits; in talk nothing is told before it is taken."""
        wary = found.began < self._talk_until
        if self.notices and self._noticed is None and not wary and found.confidence >= SURE:
            self._noticed = self._untold = Noticed(found.ended, found.began)

    def _is_aside(self, part: Part) -> bool:
        """Return whether *part* is a clink between two words, or talk farther off meanwhile."""
        if part.ended - part.began < SHORTEST and _is_noise(part):
            return True
        waits = self._due is not None and self._is_close(part)
        softer = waits and part.level <= self._open[-1].level - FARTHER
        return softer and not self._may_belong(part)

    def _joins(self, part: Part) -> bool:
        """Return whether *part* was said with what is open, and by the same mouth."""
        if not self._is_close(part):
            return False
        near = any(each.level > part.level - FARTHER for each in self._open)
        return near or self._may_belong(part)

    def _is_close(self, part: Part) -> bool:
        return bool(self._open) and part.began - self._open[-1].ended <= JOIN

    def _may_belong(self, part: Part) -> bool:
        """Return whether *part* and what is open are a phrase together, or may become one."""
        together = [*self._open, part]
        return self._weigh(together) is not None or self._may_go_on(together)

    def _is_stray_before(self, part: Part) -> bool:
        """Return whether the beginning of another phrase came just before *part*.

        A false start ("go … next row") must not spoil a command: that is judged alone, as
        warily as after talk. Any other word before it is talk, and the command a part of that.
        """
        before = self._open[:-1]
        alone = bool(before) and part.began >= self._talk_until
        return alone and self._may_go_on(before) and not self._may_go_on(self._open)

    def _judge(self, found: _Weighed) -> Verdict | None:
        wary = found.began < self._talk_until
        if found.confidence >= (WARY_SURE if wary else SURE):
            self._accepted = (found.text, found.ended)
            return Accepted(found.text, found.confidence, found.ended, found.began)
        if wary or found.confidence < UNSURE:
            return None  # talk in the room must not make the coach talk
        return Unsure(found.confidence, found.ended, found.began)

    def _weigh(self, parts: Sequence[Part]) -> _Weighed | None:
        """Return the best whole phrase in *parts*, weighed against all else they may be."""
        readings = joined(parts)
        whole = [reading for reading in readings if self._list.meaning(reading.text) is not None]
        began, ended = parts[0].began, parts[-1].ended
        if not whole or not self._is_plausible(whole[0], began, ended):
            return None
        best = whole[0]
        if len(best.words) == 1 and any(part.among_talk for part in parts):
            return None  # "my BACK aches": one loud word is too easily part of that talk
        meaning = self._list.meaning(best.text)
        leads = [
            best.score - other.score - RIVAL
            for other in whole
            if self._list.meaning(other.text) != meaning
        ]
        number = not self._list.is_listed(self._list.once(best.text))
        said = best.text.split()
        forgiven = MIXED_NUMBER if number else MIXED if len(best.words) > 1 else MIXED_ONE
        for other in readings:
            if self._list.meaning(other.text) is None:
                # A part of the phrase itself ("carry", of "carry on") is no word of its own.
                single = len(other.words) == 1 and other.text not in said
                lead = best.score - other.score
                if other.text == UNKNOWN:
                    lead -= STRANGER
                leads.append(lead if single else lead + forgiven)
        confidence = certainty(min(leads, default=WITHOUT_RIVAL))
        return _Weighed(self._list.once(best.text), confidence, began, ended)

    def _is_plausible(self, reading: Reading, began: float, ended: float) -> bool:
        first, last = reading.words[0].start, reading.words[-1].end
        listed = self._list.is_listed(self._list.once(reading.text))
        longest = LONGEST if listed else LONGEST_NUMBER
        least = max(SHORTEST, FASTEST_SYLLABLE * _syllables(reading.text))
        return (
            least <= last - first <= longest
            and first - began <= UNACCOUNTED
            and ended - last <= UNACCOUNTED
        )

    def _is_tail(self, part: Part) -> bool:
        """Return whether *part* only lengthens the phrase just taken: "next", then "row"."""
        text, ended = self._accepted
        if part.began - ended > JOIN:
            return False
        longer = (f"{text} {reading.text}" for reading in part.readings)
        return any(self._list.is_listed(each) and self._list.same(text, each) for each in longer)

    def _may_go_on(self, parts: Sequence[Part]) -> bool:
        """Return whether *parts* may be the beginning of a phrase that isn't whole yet."""
        readings = joined(parts)
        likely = (each.text for each in readings if each.score >= readings[0].score - MIXED)
        return any(self._list.begins_phrase(text) for text in likely)

    def _note_talk(self, part: Part) -> None:
        """Talk in the room: for a while more is asked of a command."""
        known = [word for word in part.readings[0].words if word.text != UNKNOWN]
        if part.ended - part.began > 1.0 or len(known) > 2:
            self._talk_until = max(self._talk_until, part.ended + WARY_FOR)


def _is_noise(part: Part) -> bool:
    return all(word.text == UNKNOWN for word in part.readings[0].words)


def _syllables(text: str) -> int:
    """Count groups of vowels: near enough for a least length."""
    count, before = 0, False
    for sign in text:
        vowel = sign in "aeiouy"
        count += vowel and not before
        before = vowel
    return max(1, count)
