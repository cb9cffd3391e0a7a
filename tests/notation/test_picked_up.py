"""Edgings: how many are picked up where an edge has no stitches of its own to count."""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from coach.craft.stages import blocks

MAT = """\
Quay Mat (US terms)
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20)
Rows 2-12: Ch 1, turn, sc in each st across. (20)
BORDER
{edging}
"""


@pytest.mark.parametrize(
    ("edging", "made"),
    [
        ("Rnd 1: Ch 1, sc evenly around; join. (64 sc)", 64),
        ("Rnd 1: Ch 1, sc evenly around, working 3 sc in each corner; join. (72 sc)", 72),
        ("Rnd 1: Join B in any corner and work sc evenly around. (60 sc)", 60),
        ("Rnd 1: Ch 1, work 40 sc evenly around the edge (1 in each row end). 40 sc.", 40),
        ("Rnd 1: Ch 1, sc 48 evenly around the opening; join. (48 sc)", 48),
        ("Row 1: Pick up and sc 30 along side edge. (30 sc)", 30),
        ("Row 1: Ch 1, sc in the end of each row along the side. (12 sc)", 12),
        ("Row 1: With RS facing, join yarn, ch 1, sc in each row end along edge. (12 sc)", 12),
        # 3 at each of 4 corners and 11 + 18 + 11 + 18 along the sides: 12 + 58.
        ("Rnd 1: Ch 1, 3 sc in the corner, 11 sc evenly down the side, 3 sc in the corner, 18 sc along "
         "the foundation ch, 3 sc in the corner, 11 sc evenly up the other side, 3 sc in the corner, "
         "18 sc across the top; join. (70 sc)", 70),
        # 12 + 20 + 12 + 20.
        ("Rnd 1: Ch 1, work sc evenly all the way round: 12 along the short side, 20 along the foundation "
         "edge, 12 along the other short side and 20 across the top. Join. (64 sc)", 64),
    ],
)  # fmt: skip
def test_an_edging_makes_what_its_words_or_its_count_say(edging: str, made: int) -> None:
    proof = prove_text(MAT.format(edging=edging))

    assert proof.problems == ()
    assert proof.rows[-1].made == made
    assert proof.rows[-1].worked is None


@pytest.mark.parametrize(
    "edging",
    [
        "Rnd 1: Ch 1, work 40 sc evenly around the edge. (42 sc)",
        "Rnd 1: Ch 1, work sc evenly round: 12 along one side, 20 along the other. Join. (34 sc)",
        "Row 1: Ch 1, sc in the end of each row along the side. (14 sc)",
    ],
)
def test_an_edging_that_does_not_add_up_is_told_once(edging: str) -> None:
    assert [problem.code.value for problem in prove_text(MAT.format(edging=edging)).problems] == [
        "count-mismatch"
    ]


def test_the_side_that_faces_is_no_yarn() -> None:
    proof = prove_text(MAT.format(edging="Row 1: With RS facing, ch 1, sc in each st across. (20)"))

    assert {block.color for block in blocks(proof.rows[-1].work)} == {None}
