"""Edges told by name and number: how the stitches lie there is told after it, and makes no more."""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

MAT = """\
Slipway Mat (US terms)
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20)
Rows 2-12: Ch 1, turn, sc in each st across. (20)
BORDER
{edging}
"""


@pytest.mark.parametrize(
    ("edging", "made"),
    [
        # 3 + 18 + 3 across the top, 12 rows, 20 chains, 12 rows.
        ("Rnd 1: Ch 1, 3 sc in first sc, sc in each of next 18 sc, 3 sc in last sc; 12 sc along side edge, "
         "1 sc in each row end; 20 sc along foundation ch; 12 sc along other side edge; join. (68 sc)", 68),
        ("Rnd 1: Ch 1, sc in each of 20 sc, 12 sc down side, sc in end of each row, 20 sc along foundation "
         "edge, 12 sc up other side, sc in end of each row; join. (64 sc)", 64),
        ("Rnd 1: Ch 1, 12 sc along side, one in the end of every row, 20 sc along foundation edge, 12 sc "
         "along second side, 20 sc across top; join. (64 sc)", 64),
        ("Rnd 1: Ch 1, 24 sc along side edge, 2 sc in each row end, 20 sc along foundation edge, 24 sc along "
         "second side, 20 sc across top; join. (88 sc)", 88),
        # Along the top there are no row ends: those are the side's own twelve.
        ("Rnd 1: Ch 1, 20 sc across top, sc in each row end along side. (32 sc)", 32),
        ("Rnd 1: Ch 1, 20 sc along top edge, sc in each row end down side, 20 sc along foundation edge, sc in "
         "each row end up other side; join. (64 sc)", 64),
        ("Row 1: Ch 1, 20 sc along foundation edge, sc in end of each row. (32 sc)", 32),
        ("Row 1: Ch 1, 12 sc evenly along left edge, 1 sc to each row. (12 sc)", 12),
        ("Row 1: Ch 1, 12 sc along left edge, 1 sc per row. (12 sc)", 12),
        ("Row 1: Ch 1, work 24 hdc along left edge, 2 hdc in end of each row, turn. (24 hdc)", 24),
    ],
)  # fmt: skip
def test_how_the_stitches_of_an_edge_lie_makes_no_more_of_them(edging: str, made: int) -> None:
    proof = prove_text(MAT.format(edging=edging))

    assert proof.problems == ()
    assert proof.rows[-1].made == made
    assert proof.rows[-1].worked is None


@pytest.mark.parametrize(
    "edging",
    [
        "Row 1: Ch 1, 12 sc along left edge, 1 sc in each row end. (13 sc)",
        "Rnd 1: Ch 1, 12 sc down side, sc in end of each row, 20 sc along foundation edge; join. (44 sc)",
    ],
)
def test_a_count_that_an_edge_does_not_make_is_told(edging: str) -> None:
    assert [problem.code.value for problem in prove_text(MAT.format(edging=edging)).problems] == [
        "count-mismatch"
    ]


@pytest.mark.parametrize(
    ("row", "made"),
    [
        ("Row 13: Ch 1, turn, 20 sc across. (20 sc)", 20),
        ("Row 13: Ch 1, turn, sc 20 across. (20 sc)", 20),
        ("Row 13: Ch 1, turn, sc in next 5 sc, 10 sc along the row, sc in last 5 sc. (20 sc)", 20),
        ("Row 13: Ch 3 (counts as dc), turn, sk first st, 5 dc in each st across. (96 dc)", 96),
    ],
)
def test_a_number_across_is_a_number_in_all(row: str, made: int) -> None:
    proof = prove_text(MAT.format(edging="").replace("BORDER\n", row))

    assert proof.problems == ()
    assert (proof.rows[-1].worked, proof.rows[-1].made) == (20, made)
