"""The closed list of whole phrases, and what may still become of a few words of it.

"#" in a phrase stands for a number. Knows words only: no sound, no time.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coach.guide.dialogue import NUMBER
from coach.guide.spoken_numbers import NUMBER_WORDS, ONES, SOUNDS_LIKE, TENS, heard_number

_NUMBER_WORDS = frozenset(NUMBER_WORDS) | frozenset(SOUNDS_LIKE)


class PhraseList:
    """Whole phrases, each with its meaning; of a phrase with a number, what stands before it."""

    def __init__(self, meanings: Mapping[str, str]) -> None:
        self._meanings = {
            phrase: meaning for phrase, meaning in meanings.items() if NUMBER not in phrase.split()
        }
        self._stems = frozenset(_stem(phrase) for phrase in meanings if NUMBER in phrase.split())
        self._units = frozenset(
            phrase.split()[-1] for phrase in meanings if NUMBER in phrase.split()[:-1]
        )

    def is_listed(self, text: str) -> bool:
        """Return whether *text* is a whole phrase without a number."""
        return text in self._meanings

    def meaning(self, text: str) -> str | None:
        """Return the meaning of a whole phrase, or None for anything else."""
        once = self.once(text)
        if once in self._meanings:
            return self._meanings[once]
        stem = self._stem_of(text)
        return None if stem is None else f"{stem} {NUMBER}"

    def once(self, text: str) -> str:
        """Take "next next", said in one breath, for one "next" (user need L03)."""
        words = text.split()
        half = len(words) // 2
        once = " ".join(words[:half])
        doubled = len(words) % 2 == 0 and words[:half] == words[half:]
        return once if doubled and text not in self._meanings and once in self._meanings else text

    def same(self, one: str, other: str) -> bool:
        """Return whether two whole phrases mean the same."""
        return self._meanings.get(one) == self._meanings.get(other)

    def begins_phrase(self, text: str) -> bool:
        """Return whether *text* is the beginning of a phrase, or a whole one."""
        wholes = (*self._meanings, *self._stems)
        if any(f"{whole} ".startswith(f"{text} ") for whole in wholes):
            return True
        return any(
            text.startswith(stem) and _all_numbers(text[len(stem) :]) for stem in self._stems
        )

    def has_longer(self, text: str) -> bool:
        """Return whether a longer phrase begins with *text*."""
        return any(whole.startswith(f"{text} ") for whole in self._meanings)

    def may_become_another(self, text: str) -> bool:
        """Return whether more words would make a phrase of another meaning, or another number."""
        if text not in self._meanings:
            return True  # a number
        return any(
            whole.startswith(f"{text} ") and not self.same(text, whole) for whole in self._meanings
        )

    def _stem_of(self, text: str) -> str | None:
        """Return the stem of a whole phrase with a number, a unit after it or not."""
        for stem in self._stems:
            if not text.startswith(f"{stem} " if stem else ""):
                continue
            rest = text[len(stem) :].split()
            if len(rest) > 1 and rest[-1] in self._units:
                rest = rest[:-1]
            if heard_number(rest) is not None:
                return stem
        return None


def _stem(phrase: str) -> str:
    return phrase[: phrase.index(NUMBER)].strip()


def is_complete(words: Sequence[str]) -> bool:
    """Return whether no number word may follow: after a teen, and after a ten with its one."""
    if words[-1] in ONES[10:]:
        return True
    return len(words) > 1 and words[-2] in TENS and words[-1] in ONES


def _all_numbers(text: str) -> bool:
    return all(word in _NUMBER_WORDS for word in text.split())
