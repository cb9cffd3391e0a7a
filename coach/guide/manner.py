"""How the coach tells: pace, terms, hand, gentleness, speed and loudness of the voice.

A manner belongs to one maker and can be changed in the middle of a row. It knows no words and
no sound: the figures are handed to whoever speaks.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from coach.craft.steps import Pace

SLOWEST, USUAL_RATE, FASTEST = 80, 150, 320  # words a minute
RATE_STEP = 20
SOFTEST, USUAL_LOUDNESS, LOUDEST = 20, 80, 100  # percent
LOUDNESS_STEP = 10


@dataclass(frozen=True, slots=True)
class Manner:
    """One maker's manner. gentle: one stitch a step, nothing counted, no word of mistakes.

    terms: "US" or "UK". hand: "right" or "left". rest_minutes: offer a rest at the end of a
    block after so long; 0 for never. usual_pace: the pace to go back to after gentle time.
    microphone: off, no spoken word reaches the coach at all.
    """

    pace: Pace = Pace.BLOCK
    terms: str = "US"
    hand: str = "right"
    gentle: bool = False
    rate: int = USUAL_RATE
    loudness: int = USUAL_LOUDNESS
    rest_minutes: int = 0
    usual_pace: Pace = Pace.BLOCK
    microphone: bool = True


def at_rate(manner: Manner, change: int) -> Manner:
    """Return *manner* with another speed of speech, within what can be understood."""
    return replace(manner, rate=min(max(manner.rate + change, SLOWEST), FASTEST))


def at_loudness(manner: Manner, change: int) -> Manner:
    """Return *manner* with another loudness, never silent."""
    return replace(manner, loudness=min(max(manner.loudness + change, SOFTEST), LOUDEST))


def with_other_terms(manner: Manner) -> Manner:
    """Return *manner* with the stitches' other names."""
    return replace(manner, terms="UK" if manner.terms == "US" else "US")


def with_other_hand(manner: Manner) -> Manner:
    """Return *manner* for the other hand."""
    return replace(manner, hand="left" if manner.hand == "right" else "right")


def gentle(manner: Manner) -> Manner:
    """Return *manner* made gentle, or as it was before if it is gentle now."""
    if manner.gentle:
        return replace(manner, gentle=False, pace=manner.usual_pace)
    return replace(manner, gentle=True, pace=Pace.STITCH, usual_pace=manner.pace)
