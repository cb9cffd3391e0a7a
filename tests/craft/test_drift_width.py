"""A width by tape or hand-span tells of stitches that are gone long before the piece is done."""

from __future__ import annotations

from fractions import Fraction

import pytest

from coach.craft.width import Width, WidthCheck, check_width, unit_of
from coach.wording import drift as words


def inches(measure: str, stitches: int = 56) -> Width:
    return Width(Fraction(measure), "in", stitches)


def test_twelve_inches_and_a_half_of_sixteen_is_twelve_stitches_lost() -> None:
    """R05: 14 sts = 4 in, 56 planned: 16 in is right, 12.5 in is about 44."""
    gauge = "14 sts = 4 in"

    assert check_width(inches("16"), gauge) == WidthCheck(56, 56, True, 3)
    found = check_width(inches("12.5"), gauge)
    assert found == WidthCheck(44, 56, True, 3)
    assert words.width(found).full == (
        "That is about 44 stitches, by the gauge. That is about 12 fewer than the 56 planned. "
        "Count one row now. Blocking does not cure a difference of stitches."
    )


def test_a_width_as_planned_is_said_to_be() -> None:
    told = words.width(check_width(inches("16"), "14 sts = 4 in")).full

    assert told == "That is about 56 stitches, by the gauge: as planned."


def test_a_hand_span_is_told_by_the_first_one() -> None:
    """Three spans for 60 stitches, then two and a half: 50."""
    first = Width(Fraction(3), "hand", 60)
    later = Width(Fraction(5, 2), "hand", 60)

    assert check_width(first, "14 sts = 4 in") is None
    found = check_width(later, "14 sts = 4 in", first)
    assert found == WidthCheck(50, 60, False, 3)
    assert "going by the first width you told" in words.width(found).full
    assert "count one row" in words.width(None).full.lower()


def test_without_a_gauge_a_tape_is_told_by_the_first_one_too() -> None:
    found = check_width(inches("12.5"), None, inches("16"))

    assert found is not None
    assert found.stitches == 44


@pytest.mark.parametrize(
    ("gauge", "unit"),
    [
        ('14 sts and 8 rows = 4" (10 cm)', "in"),
        ("15 sts x 8 rows = 10 cm", "cm"),
        ("14 sts = 4 in", "in"),
        ("16 dc to 10 cm (4 in)", "cm"),
        (None, "cm"),
    ],
)
def test_a_width_without_a_unit_is_in_that_of_the_gauge(gauge: str | None, unit: str) -> None:
    assert unit_of(gauge) == unit
