"""What the ear makes of a sound: a phrase that is taken, one that may grow, or something unsure.

Values only. Pure: time is the ear's own clock, in seconds of sound.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Accepted:
    """A whole phrase, heard surely enough, from *began* to *at*."""

    text: str
    confidence: float
    at: float
    began: float = 0.0


@dataclass(frozen=True, slots=True)
class Unsure:
    """Something like a phrase, not sure enough to act on, from *began* to *at*."""

    confidence: float
    at: float
    began: float = 0.0


@dataclass(frozen=True, slots=True)
class Noticed:
    """A whole phrase, surely heard, that may still grow: taken or told to be unsure afterwards."""

    at: float
    began: float


Verdict = Accepted | Unsure
