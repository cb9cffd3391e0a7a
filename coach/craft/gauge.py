"""Gauge as the trade writes it ("14 sts and 8 rows = 4 in"), exact, and rows for a length."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction

CM_PER_INCH = Fraction(254, 100)
_FRACTIONS = {"¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4)}
_COUNT = re.compile(
    r"(?P<number>\d+(?:\.\d+)?)\s*(?P<part>[¼½¾])?\s*(?P<what>sts?\b|stitches|sc\b|dc\b|hdc\b|tr\b|htr\b|rows?\b|rnds?\b|rounds?\b|squares\b|shells?\b|blocks\b)",
    re.IGNORECASE,
)
_SPAN = re.compile(
    r"(?P<number>\d+(?:\.\d+)?)\s*(?P<part>[¼½¾])?\s*(?P<unit>\"|''|″|cm\b|in\b|inch(?:es)?\b|mm\b)",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Gauge:
    """Stitches and rows to one centimetre, exact; None where the gauge does not say."""

    stitches_per_cm: Fraction | None
    rows_per_cm: Fraction | None
    text: str = ""

    def rows_for(self, length_cm: Fraction) -> int:
        """Return the fewest rows that reach *length_cm*; 0 when the gauge has no rows."""
        if self.rows_per_cm is None:
            return 0
        return math.ceil(self.rows_per_cm * length_cm)

    def stitches_for(self, width_cm: Fraction) -> int:
        """Return the stitches nearest to *width_cm*; 0 when the gauge has no stitches."""
        return round(self.stitches_per_cm * width_cm) if self.stitches_per_cm is not None else 0


def gauge_from(text: str | None) -> Gauge | None:
    """Read a gauge; None where it gives no count over a length."""
    if not text:
        return None
    span = _SPAN.search(text)
    if span is None:
        return None
    unit = span["unit"].lower()
    length = Fraction(span["number"]) + _FRACTIONS.get(span["part"] or "", Fraction(0))
    if unit == "mm":
        length /= 10
    elif unit != "cm":
        length *= CM_PER_INCH
    if not length:
        return None
    stitches = rows = None
    for found in _COUNT.finditer(text[: span.start()] or text):
        number = Fraction(found["number"]) + _FRACTIONS.get(found["part"] or "", Fraction(0))
        if found["what"].lower().startswith(("row", "rnd", "round")):
            rows = rows or number / length
        else:
            stitches = stitches or number / length
    if stitches is None and rows is None:
        return None
    return Gauge(stitches, rows, text)
