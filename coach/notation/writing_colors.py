"""The plan of colours written back: a line for what is told of each part."""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.color_plan import ColorStretch, Stripe
from coach.craft.pattern import Draft


def color_lines(draft: Draft, part: str | None) -> list[str]:
    """Return the lines that tell the yarn of *part*'s rows, each read as one stretch."""
    return [_told(each) for each in draft.color_plan.stretches if each.part == part]


def repeated_in(stripes: Sequence[Stripe], period: int) -> str:
    """Return the yarns of rows worked again: " in B, C and A", or nothing."""
    if not stripes:
        return ""
    if len(stripes) == 1:
        return f" in {stripes[0].color}"
    if any(stripe.rows != period for stripe in stripes):
        return f", alternating {_stripes(stripes)}"
    *most, last = (stripe.color for stripe in stripes)
    return f" in {', '.join(most)} and {last}"


def _told(stretch: ColorStretch) -> str:
    if stretch.change:
        return f"Change to {stretch.stripes[0].color} at Row {stretch.first}."
    if stretch.repeats:
        to = f" to Row {stretch.last}" if stretch.last is not None else ""
        return f"Stripes from Row {stretch.first}{to}: {_stripes(stretch.stripes)}."
    span = f"-{stretch.last}" if stretch.last != stretch.first else ""
    return f"Row{'s' if span else ''} {stretch.first}{span} in {stretch.stripes[0].color}."


def _stripes(stripes: Sequence[Stripe]) -> str:
    return ", ".join(
        f"{each.rows} row{'' if each.rows == 1 else 's'} in {each.color}" for each in stripes
    )
