"""Which yarn each row is worked in, where the pattern tells it by rows and not in their words.

"Rows 4-21 in A, Rows 22-42 in B", "2 rows A, 2 rows B, repeat", "change to B at the end of
Row 21": such words stand outside the rows. Here they are one plan. What a row's own words say
of its yarn goes before the plan (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Stripe:
    """So many rows on end in one yarn."""

    color: str
    rows: int = 1


@dataclass(frozen=True, slots=True)
class ColorStretch:
    """Rows *first* to *last* in stripes, taken again from the first one where they *repeat*.

    last: None where no end is told. change: yarn that is brought in at row *first* and kept until
    something else is told. part: the heading it stands under; None for the first rows.
    """

    first: int
    last: int | None
    stripes: tuple[Stripe, ...]
    repeats: bool = False
    change: bool = False
    part: str | None = None

    def color_at(self, number: int) -> str | None:
        """Return the yarn of row *number*, or None where this says nothing of it."""
        if number < self.first or (self.last is not None and number > self.last):
            return None
        if self.change:
            return self.stripes[0].color if number == self.first else None
        return striped(self.stripes, number - self.first, repeats=self.repeats)


@dataclass(frozen=True, slots=True)
class ColorPlan:
    """All that is told of the rows' yarn outside the rows, in the order of the text."""

    stretches: tuple[ColorStretch, ...] = ()

    def color_at(self, number: int, parts: Sequence[str | None]) -> str | None:
        """Return the yarn that row *number* of any of *parts* begins in; the last word counts.

        A sequence of stripes that goes on for ever says less than rows that are named.
        """
        named = [each for each in self.stretches if each.part in parts and not each.repeats]
        striped_rows = [each for each in self.stretches if each.part in parts and each.repeats]
        for stretch in (*reversed(named), *reversed(striped_rows)):
            color = stretch.color_at(number)
            if color is not None:
                return color
        return None


def striped(stripes: Sequence[Stripe], index: int, *, repeats: bool) -> str | None:
    """Return the yarn of the row *index* (from 0) of *stripes*; None past their end."""
    total = sum(stripe.rows for stripe in stripes)
    if total < 1 or (index >= total and not repeats):
        return None
    index %= total
    for stripe in stripes:
        if index < stripe.rows:
            return stripe.color
        index -= stripe.rows
    return None
