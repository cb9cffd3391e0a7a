"""Border rounds that grow at corners of three stitches: the middle one of each gets three again.

The texts are ours and the sums by hand. Three stitches in a corner turn it flat; each round adds
two at each of the four corners (common practice, no source).
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

SQUARE = """US terms
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
Rows 2-10: Ch 1, sc in each st across, turn. (10 sc)
Rnd 1: Ch 1, 3 sc in first st, sc in next 8 sts, 3 sc in last st; 8 sc evenly down the side; 3 sc in first ch of the foundation, sc in next 8 ch, 3 sc in last ch; 8 sc evenly up the other side; join. (44 sc)
Rnd 2: Ch 1, {around}; join. ({stated} sc)
"""

ROUNDS = [
    "sc in each st around, working 3 sc in the center sc of each corner",
    "sc in each st around, with 3 sc in each corner st",
    "sc in each sc, 3 sc in center sc of each 3-sc corner",
    "sc in each st around, 3 sc in each corner",
    "sc in each st and 3 sc in the middle st of each corner around",
    "sc around, working 3 sc in 2nd sc of each corner",
    "*sc in each st to corner, 3 sc in corner st; rep from * 3 more times, sc in each st to end",
    "*sc in each st to center sc of next 3-sc corner, 3 sc in center sc; rep from * 3 more times, sc in each st to end",
]


@pytest.mark.parametrize("around", ROUNDS)
def test_each_corner_gets_three_in_its_middle_stitch(around: str) -> None:
    proof = prove_text(SQUARE.format(around=around, stated=52))
    assert not proof.problems
    assert (proof.rows[-1].worked, proof.rows[-1].made) == (44, 52)  # 44 and two at each corner


@pytest.mark.parametrize("around", ROUNDS)
def test_a_count_that_forgets_one_corner_is_told(around: str) -> None:
    proof = prove_text(SQUARE.format(around=around, stated=50))
    assert [problem.label for problem in proof.problems] == ["Rnd 2"]


def test_corners_are_those_that_there_are_four_of() -> None:
    text = SQUARE.format(around=ROUNDS[0], stated=52) + (
        "Rnd 3: Ch 1, *sc in next 6 sts, 3 sc in next st, sc in next 6 sts; rep from * 3 more times; join. (60 sc)\n"
        "Rnd 4: Ch 1, hdc in each st around, 3 hdc in center st of each corner; join. (68 hdc)\n"
    )
    proof = prove_text(text)
    assert not proof.problems
    assert [row.made for row in proof.rows[-2:]] == [60, 68]
