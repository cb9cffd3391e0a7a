"""The coach's own words, kept by time, so that it doesn't obey what it says itself.

A phrase heard while one of its words, or one that rhymes with it, comes out of the loudspeaker
is the coach's own. When each word sounds is known to half a second. Knows no sound.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence

from coach.guide.sound_alikes import sounds_like
from coach.guide.typed_lines import plain_words
from coach.ports import SaidWord
from coach.wording.numbers import LARGEST, number_words

AROUND = 0.8  # seconds before and after a word: the room rings, and its time is an estimate
KEPT = 60.0  # seconds after which a word said is forgotten

# Too short and too common to make a phrase the coach's own: "go to row" is known by its "row".
_SMALL = frozenset(
    ("a", "am", "an", "and", "at", "i", "in", "is", "it", "me", "of", "or", "the", "to")
)


class OwnWords:
    """What the coach said lately, says now, or is about to say."""

    def __init__(self) -> None:
        self._said: deque[tuple[str, float, float]] = deque()

    def say(self, words: Sequence[SaidWord]) -> None:
        """Note words and when they sound, in monotonic seconds."""
        for each in words:
            for word in _spoken(each.text):
                self._said.append((word, each.began, each.ended))
        latest = self._said[-1][2] if self._said else 0.0
        while self._said and self._said[0][2] < latest - KEPT:
            self._said.popleft()

    def cut(self, at: float) -> None:
        """The coach fell silent at *at*: what was to come after it was not said."""
        self._said = deque(each for each in self._said if each[1] < at)

    def holds(self, phrase: str, began: float, ended: float) -> bool:
        """Return whether *phrase*, heard from *began* to *ended*, may be what the coach said."""
        words = frozenset(plain_words(phrase))
        telling = (words - _SMALL) or words
        return any(
            _alike(word, said)
            for said, begins, ends in self._said
            if begins - AROUND <= ended and ends + AROUND >= began
            for word in telling
        )


def _spoken(text: str) -> list[str]:
    """Return the words that *text* is spoken with: "77" is "seventy" and "seven"."""
    words: list[str] = []
    for word in plain_words(text):
        figure = word.isascii() and word.isdigit() and int(word) <= LARGEST
        words += number_words(int(word)).split() if figure else [word]
    return words


def _alike(word: str, said: str) -> bool:
    """Return whether *said* may be taken for *word*: the same, its plural, or a near rhyme."""
    return said in (f"{word}s", f"{word}ed", f"{word}ing") or sounds_like(word, said)
