"""Stitches that a pattern defines in its own words and calls by its own names.

The texts are ours and the sums by hand; a stitch set into a row further down takes the place
behind it (common practice, no source).
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.rows import came_to

MOSAIC = """
With A, ch 14.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (13 sc)
Row 2: With B, ch 1, sc in each st across, turn. (13 sc)
Row 3: With A, ch 1, sc in first st, *{name} in next st, blo sc in next 3 sts; rep from * across, turn. (13 sts)
"""


@pytest.mark.parametrize(
    ("name", "told"),
    [
        (
            "mdc",
            "mosaic dc (mdc): double crochet in the front loop of the corresponding stitch two rows "
            "below; skip the stitch behind it.",
        ),
        ("MDC", "Mosaic double crochet (MDC) = dc in FLO of st 2 rows below"),
        ("dd", "Drop-down dc (dd): dc in front loop 2 rows below."),
        ("spike", "Spike: insert hook in st 2 rows below, yo and pull up a loop, complete as sc."),
    ],
)
def test_a_stitch_set_two_rows_lower_takes_one_place_and_makes_one(name: str, told: str) -> None:
    proof = prove_text(f"Stitches used (US terms)\n{told}\n{MOSAIC.format(name=name)}")
    assert not proof.problems
    assert [(row.worked, row.made) for row in proof.rows] == [(14, 13), (13, 13), (13, 13)]


def test_a_cross_may_be_told_with_whole_words() -> None:
    proof = prove_text(
        "Cross stitch (Xst) – skip next stitch, dc in next stitch, dc in skipped stitch.\n"
        "Ch 14. Row 1: Sc in 2nd ch from hook and in each ch across, turn. (13 sc)\n"
        "Row 2: Ch 3 (counts as dc), *Xst over next 2 sts; rep from * across, turn. (13 dc)"
    )
    assert not proof.problems
    assert proof.rows[1].made == 13


@pytest.mark.parametrize("place", ["in front loop of next st", "in FLO", "in front loop"])
def test_rows_below_are_no_number_of_stitches(place: str) -> None:
    # 1 + 7 x 4 + 4 = 33 places, a stitch in each.
    text = (
        f"Row 4: Ch 1, sc in first st, *dc {place} 2 rows below, BLO sc in next 3 sts; "
        "rep from * to last 4 sts, sc in last 4 sts."
    )
    assert came_to("sc 33", text) == "ok 33 -> 33"


@pytest.mark.parametrize("source", ["Rows 2-5, 3 more times", "Rows 2-5 3 more times"])
def test_a_number_of_times_after_a_comma_is_no_row(source: str) -> None:
    proof = prove_text(
        "Ch 11. Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
        "Rows 2-5: Ch 1, sc in each st across, turn. (10 sc)\n"
        f"Rows 6-17: Repeat {source}."
    )
    assert not proof.problems
    assert len(proof.rows) == 17
