"""A measured width as a number of stitches: by the gauge, or by a width measured before.

A tape gives centimetres or inches; a hand-span is a unit too, as long as the same hand measures.
A width tells of many stitches only: one or two more or fewer it can't see.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

INCH = Fraction(254, 100)  # centimetres, exact by definition
HANDS = "hand"

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


_GAUGE = re.compile(
    r"(?P<stitches>\d+(?:\.\d+)?)\s*"
    r"(?:sts?|stitches|sc|hdc|dc|htr|tr|single|half|double|treble)\b.*?"
    r"(?:=|\bin\b|\bto\b|\bover\b|\bper\b|\bmeasures?\b|\u2248|:)\s*"
    r"(?P<width>\d+(?:\.\d+)?)\s*(?:cm|centimet|(?P<inches>in\b|inch|\"|\u2033))?",
    re.IGNORECASE,
)


def stitches_per_cm(gauge: str | None) -> Fraction | None:
    """Return how many stitches there are to a centimetre by a gauge as written, or None.

    "14 sts = 4 in", "15 sts x 8 rows = 10 cm", "16 dc and 9 rows to 10 cm".
    """
    found = _GAUGE.search(gauge or "")
    if found is None:
        return None
    width = Fraction(found["width"])
    if found["inches"]:
        width *= INCH
    return Fraction(found["stitches"]) / width if width else None


def check_width(width: Width, gauge: str | None, first: Width | None = None) -> WidthCheck | None:
    """Return what *width* comes to in stitches, or None where nothing can tell.

    gauge: as the pattern writes it. first: an earlier width of the same piece, in the same
    unit, taken for right; a hand-span can be told only by it.
    """
    expected = width.stitches
    blur = max(1, round(expected * _BLUR))
    per_cm = stitches_per_cm(gauge)
    if width.unit != HANDS and per_cm is not None:
        cm = width.measure * (INCH if width.unit == "in" else 1)
        return WidthCheck(round(cm * per_cm), expected, True, blur)
    if first is None or first.unit != width.unit or not first.measure:
        return None
    stitches = round(first.stitches * width.measure / first.measure)
    return WidthCheck(stitches, expected, False, blur)


def unit_of(gauge: str | None) -> str:
    """Return the unit that a gauge is written in: "in" or "cm"."""
    found = _GAUGE.search(gauge or "")
    return "in" if found is not None and found["inches"] else "cm"
