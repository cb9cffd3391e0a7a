"""A measured width as a number of stitches: by the gauge, or by a width measured before.

A tape gives centimetres or inches; a hand-span is a unit too, as long as the same hand measures.
A width tells of many stitches only: one or two more or fewer it can't see.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from coach.craft.gauge import CM_PER_INCH, gauge_from

HANDS = "hand"
_INCHES = re.compile(r"\d\s*[¼½¾]?\s*(?:\"|″|''|in\b|inch)", re.IGNORECASE)
_CENTIMETRES = re.compile(r"\d\s*(?:cm|mm)\b", re.IGNORECASE)

# A tape laid on cloth is read to about a twentieth: common practice, no source.
_BLUR = Fraction(1, 20)


@dataclass(frozen=True, slots=True)
class Width:
    """A width as measured: how much, in "cm", "in" or "hand", and of how many planned stitches."""

    measure: Fraction
    unit: str
    stitches: int


@dataclass(frozen=True, slots=True)
class WidthCheck:
    """What a width comes to. blur: stitches that the measuring itself can't tell apart."""

    stitches: int
    expected: int
    by_gauge: bool
    blur: int


def check_width(width: Width, gauge: str | None, first: Width | None = None) -> WidthCheck | None:
    """Return what *width* comes to in stitches, or None where nothing can tell.

    gauge: as the pattern writes it. first: an earlier width of the same piece, in the same
    unit, taken for right; a hand-span can be told only by it.
    """
    expected = width.stitches
    blur = max(1, round(expected * _BLUR))
    known = gauge_from(gauge)
    per_cm = known.stitches_per_cm if known is not None else None
    if width.unit != HANDS and per_cm is not None:
        cm = width.measure * (CM_PER_INCH if width.unit == "in" else 1)
        return WidthCheck(round(cm * per_cm), expected, True, blur)
    if first is None or first.unit != width.unit or not first.measure:
        return None
    stitches = round(first.stitches * width.measure / first.measure)
    return WidthCheck(stitches, expected, False, blur)


def unit_of(gauge: str | None) -> str:
    """Return the unit that a gauge is written in: "in" or "cm"."""
    inches = _INCHES.search(gauge or "")
    centimetres = _CENTIMETRES.search(gauge or "")
    if inches is None or (centimetres is not None and centimetres.start() < inches.start()):
        return "cm"
    return "in"
