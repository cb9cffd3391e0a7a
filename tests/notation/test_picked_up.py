"""Edgings: how many are picked up where an edge has no stitches of its own to count."""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from coach.craft.stage import blocks

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
        "Rnd 1: Ch 1, sc around the blanket, 3 sc in each corner; join. (68 sc)",
        "Rnd 1: Sc all around, working 3 sc in each corner. (68 sc)",
        "Rnd 1: Ch 1, sc around the edge of the mat, 3 sc in each corner; join. (68 sc)",
        "Rnd 1: Ch 1, sc around, 3 sc in each corner; join. (68 sc)",
        "Rnd 1: Ch 1, sc around the outer edge, making 3 sc in corners; join. (68)",
        "Rnd 1: Ch 1, *sc across to corner, 3 sc in corner; rep from * around; join. (68)",
        "Work one round of sc around the mat, 3 sc in each corner. Join. (68 sc)",
        "Join B at any corner. Sc evenly round the outside of the mat, placing 3 sc in every corner, sl st to first sc. (68 sc)",
        "Single crochet evenly around the whole piece, putting three in each corner. Join. You should have 68.",
    ],
)
def test_an_edging_whose_number_stands_in_its_count_alone(edging: str) -> None:
    proof = prove_text(MAT.format(edging=edging))

    assert proof.problems == ()
    assert (proof.rows[-1].part, proof.rows[-1].worked, proof.rows[-1].made) == ("Border", None, 68)


def test_corners_with_spaces_leave_the_rest_to_the_edges() -> None:
    proof = prove_text(
        MAT.format(
            edging="Rnd 1: Join B in any corner, ch 1, (sc, ch 2, sc) in each corner and sc evenly along each side; "
            "join. (64 sc, 4 ch-2 sps)"
        )
    )

    assert proof.problems == ()
    assert (proof.rows[-1].made, proof.rows[-1].spaces) == (64, 4)


@pytest.mark.parametrize(
    "first", ["join. (68)", "join."], ids=["with its count", "without a count"]
)
def test_a_second_round_grows_at_corners_that_the_first_left_open(first: str) -> None:
    # Two more at each of four corners: 68 + 8.
    proof = prove_text(
        MAT.format(
            edging=f"Rnd 1: Ch 1, sc around the blanket, 3 sc in each corner; {first}\n"
            "Rnd 2: Ch 1, sc in each st around, 3 sc in each corner st; join. (76)\n"
            "Rnd 3: Ch 1, sc in each st around; join. (76)"
        )
    )

    assert proof.problems == ()
    assert [row.made for row in proof.rows[-2:]] == [76, 76]


def test_an_edging_without_its_count_is_left_to_the_finishing() -> None:
    proof = prove_text(MAT.format(edging="Sc around the mat, 3 sc in each corner. Fasten off."))

    assert len(proof.rows) == 12
    assert proof.finishing[0][1].startswith("Sc around the mat")


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
