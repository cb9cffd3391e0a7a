"""Whole sayings as the recogniser makes them out, for a lesson: no rule, no closed phrase.

Parts that lie close together are one saying. Pure: time is the ear's own clock.
"""

from __future__ import annotations

from dataclasses import dataclass

from coach.adapters.ear_phrases import JOIN, SHORTEST
from coach.adapters.ear_readings import Part, joined

READINGS = 6  # handed over of one saying


@dataclass(frozen=True, slots=True)
class Saying:
    """One saying: its readings in words, the likeliest first, from *began* to *at*."""

    readings: tuple[str, ...]
    at: float
    began: float


class Sayings:
    """Joins part after part. Keep the order: `offer`; and `tick` in between."""

    def __init__(self) -> None:
        self._parts: list[Part] = []

    def reset(self) -> None:
        self._parts = []

    def offer(self, part: Part) -> None:
        """Take what was recognised between two silences; a click is nothing."""
        if part.readings and part.ended - part.began >= SHORTEST:
            self._parts.append(part)

    def tick(self, now: float) -> Saying | None:
        """Return the saying that has ended, once nothing more can belong to it."""
        if not self._parts or now - self._parts[-1].ended < JOIN:
            return None
        parts, self._parts = self._parts, []
        texts = dict.fromkeys(reading.text for reading in joined(parts))
        return Saying(tuple(texts)[:READINGS], parts[-1].ended, parts[0].began)
