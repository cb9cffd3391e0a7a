"""What the recogniser made of a sound: words in time, several readings of it, part by part.

Values only. Pure: time is the ear's own clock, in seconds of sound.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

READINGS = 12  # kept when parts are joined


@dataclass(frozen=True, slots=True)
class Word:
    """One recognised word and when it was said."""

    text: str
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to read a sound, with its log likelihood: only differences mean anything."""

    words: tuple[Word, ...]
    score: float

    @property
    def text(self) -> str:
        return " ".join(word.text for word in self.words)


@dataclass(frozen=True, slots=True)
class Part:
    """What was recognised between two silences, best reading first, from *began* to *ended*.

    level: how loud it was, in decibels; only differences mean anything. among_talk: it was cut
    out of softer talk that went on around it.
    """

    readings: tuple[Reading, ...]
    began: float
    ended: float
    level: float = 0.0
    among_talk: bool = False


def joined(parts: Sequence[Part]) -> tuple[Reading, ...]:
    """Return the likeliest readings of *parts* as one sound, best first, each text once."""
    if len(parts) == 1:
        return parts[0].readings
    best: dict[str, Reading] = {}
    for chosen in product(*(part.readings[:READINGS] for part in parts[-3:])):
        words = tuple(word for reading in chosen for word in reading.words)
        whole = Reading(words, sum(reading.score for reading in chosen))
        known = best.get(whole.text)
        if known is None or whole.score > known.score:
            best[whole.text] = whole
    return tuple(sorted(best.values(), key=lambda each: -each.score)[:READINGS])
