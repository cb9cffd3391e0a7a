"""Gaps as wide as what lies before the next space: underarms and openings without a number.

The texts are ours and the sums by hand; the custom is common practice, no source.
Below lie 14, 20, 30, 20 and 14 stitches with a chain space between each: fronts, sleeves, back.
"""

from __future__ import annotations

import pytest

from tests.notation.rows import came_to

YOKE = "hdc 14, ch1, hdc 20, ch1, hdc 30, ch1, hdc 20, ch1, hdc 14"


@pytest.mark.parametrize(
    "skip",
    [
        "skip all sts to next ch-1 sp",
        "sk sts up to next ch-1 sp",
        "skip each st until next ch-1 sp",
        "skip all sts between ch-1 sps",
    ],
)
def test_both_sleeves_are_passed_over_with_the_spaces_beside_them(skip: str) -> None:
    text = (
        f"Row 9: Ch 1, *hdc in each st to ch-1 sp, ch 2, {skip}; rep from * once more, hdc in each "
        "st to end. (58 hdc, 2 ch-2 sps)"
    )
    assert came_to(YOKE, text) == "ok 98/4 -> 58/2"  # 14 + 30 + 14
    assert came_to(YOKE, text.replace("58 hdc", "60 hdc")) == "count-mismatch"


def test_the_space_at_the_far_end_may_be_worked() -> None:
    text = (
        "Row 9: Ch 1, hdc in each of next 14 sts, hdc in ch-1 sp, sk all sts to next ch-1 sp, hdc "
        "in ch-1 sp, hdc in next 30 sts, hdc in ch-1 sp, sk all sts to next ch-1 sp, hdc in next "
        "ch-1 sp, hdc in each st across. (62 hdc)"
    )
    assert came_to(YOKE, text) == "ok 98/4 -> 62"  # 14 + 2 + 30 + 2 + 14


def test_a_gap_needs_a_space_to_end_at() -> None:
    text = (
        "Row 9: Ch 1, hdc in each of next 14 sts, sk all sts to next ch-1 sp, hdc in last 14 sts."
    )
    assert came_to("hdc 42", text) == "no-such-place"
