"""Corner to corner: rows of blocks, each hung in the chain of a block below.

Row n of the growing half has n blocks: 3 stitches and a chain each. A square of 5 blocks a side is
9 rows and 25 blocks (n x n, common practice). The texts are ours.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from coach.craft.problem import Verdict
from tests.notation.rows import came_to

DC = """US terms
Row 1: Ch 6, dc in 4th ch from hook and in next 2 ch. Turn. {one}
Row 2: Ch 6, dc in 4th ch from hook and in next 2 ch, sl st in ch-3 sp of Row 1, ch 3, 3 dc in same sp. Turn. {two}
Row 3: Ch 6, dc in 4th ch from hook and in next 2 ch, *sl st in next ch-3 sp, ch 3, 3 dc in same sp; rep from * across. Turn. {three}
Rows 4-5: Rep Row 3.
Row 6: Sl st in next 3 dc and in ch-3 sp, ch 3, 3 dc in same sp, *sl st in next ch-3 sp, ch 3, 3 dc in same sp; rep from * to last ch-3 sp, sl st in last ch-3 sp. Turn. {four}
Rows 7-9: Rep Row 6.
"""
HDC = """US terms
Row 1: Ch 5, hdc in 3rd ch from hook and in next 2 ch, turn. {one}
Row 2: Ch 5, hdc in 3rd ch from hook and in next 2 ch, sl st in ch-2 sp, ch 2, 3 hdc in same sp, turn. {two}
Row 3: Ch 5, hdc in 3rd ch from hook and in next 2 ch, (sl st, ch 2, 3 hdc) in each ch-2 sp across, turn. {three}
Rows 4-5: Rep Row 3.
Row 6: Sl st in next 3 hdc and in ch-2 sp, ch 2, 3 hdc in same sp, (sl st, ch 2, 3 hdc) in each ch-2 sp to last sp, sl st in last sp, turn. {four}
Rows 7-9: Rep Row 6.
"""
NAMED = """US terms
Beg tile: Ch 6, dc in 4th ch from hook and in each of next 2 ch.
Tile: Sl st in ch-3 sp of next tile, ch 3, 3 dc in same sp.

Row 1: Beg tile, turn. {one}
Row 2: Beg tile, tile in ch-3 sp of Row 1, turn. {two}
Row 3: Beg tile, tile in each ch-3 sp across, turn. {three}
Rows 4-5: Rep Row 3.
Row 6: Sl st in next 3 dc and in ch-3 sp, ch 3, 3 dc in same sp, tile in each ch-3 sp across to last sp, sl st in last ch-3 sp, turn. {four}
Rows 7-9: Rep Row 6.
"""
COUNTS = {
    "none": ("", "", "", ""),
    "blocks": ("(1 block)", "(2 blocks)", "(3 blocks)", "(4 blocks)"),
    "plain": ("(1)", "(2)", "(3)", "(4)"),
}


@pytest.mark.parametrize("text", [DC, HDC, NAMED])
@pytest.mark.parametrize("counts", sorted(COUNTS))
def test_each_row_has_one_block_more_then_one_fewer(text: str, counts: str) -> None:
    one, two, three, four = COUNTS[counts]
    proof = prove_text(text.format(one=one, two=two, three=three, four=four))
    assert not proof.problems
    blocks = [1, 2, 3, 4, 5, 4, 3, 2, 1]
    assert [(row.made, row.spaces) for row in proof.rows] == [(3 * n, n) for n in blocks]


@pytest.mark.parametrize("text", [DC, HDC, NAMED])
@pytest.mark.parametrize("wrong", ["(4 blocks)", "(4)"])
def test_one_block_too_many_stated_is_told(text: str, wrong: str) -> None:
    proof = prove_text(text.format(one="(1 block)", two="(2 blocks)", three=wrong, four=""))
    assert [(problem.code, problem.row) for problem in proof.problems] == [
        (Verdict.COUNT_MISMATCH, 3)
    ]


def test_each_space_up_to_the_last_leaves_one() -> None:
    # 4 of 5 spaces take 3 dc, the last one a sc.
    words = "5 x (dc 3, ch3)"
    for last in ("last sp", "last ch-3 sp"):
        text = f"Row 4: Ch 1, 3 dc in each ch-3 sp to {last}, sc in last ch-3 sp, turn."
        assert came_to(words, text) == "ok 15/5 -> 13"
