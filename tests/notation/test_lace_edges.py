"""Rows that begin and end in a group's space, and corner to corner in other words.

The texts are ours and the sums by hand. Where a fan row begins by slip stitches to the first space,
the outer stitches of the groups below stay free at both edges (common practice, no source).
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

FAN = """US terms
Special stitches
Shell: (2 dc, ch 2, 2 dc) in same sp.
Beginning shell (beg shell): Sl st in next dc and in next ch-2 sp, ch 3 (counts as dc), (dc, ch 2, 2 dc) in same sp.
Ch 4, sl st in first ch to form ring.
Row 1: Ch 3 (counts as dc), (dc, ch 2, 2 dc) in ring, ch 2, (2 dc, ch 2, 2 dc) in ring, turn. (8 dc, 3 ch-2 sps)
Row 2: Beg shell, ch 2, 5 dc in next ch-2 sp, ch 2, shell in next ch-2 sp, turn. ({second})
Row 3: Beg shell, ch 3, sc in first dc of 5-dc group, (ch 3, sc in next dc) 4 times, ch 3, shell in ch-2 sp of last shell, turn. (2 shells, 5 sc, 6 ch-3 sps)
Row 4: Beg shell, ch 3, sk next ch-3 sp, sc in next ch-3 sp, (ch 3, sc in next ch-3 sp) {times} times, ch 3, shell in last shell, turn. (2 shells, 4 sc, 5 ch-3 sps)
"""


def test_the_outer_stitches_of_a_fan_stay_free() -> None:
    proof = prove_text(FAN.format(second="2 shells, 5 dc, 2 ch-2 sps", times=3))
    assert not proof.problems
    # 4 + 5 + 4; 4 + 5 + 4 with 4 + 2 spaces of 3 and the shells' own; 4 + 4 + 4.
    assert [(row.made, row.spaces) for row in proof.rows] == [(8, 3), (13, 4), (13, 8), (12, 7)]
    assert [row.stated for row in proof.rows] == [8, 13, 13, 12]


def test_a_loop_too_many_in_a_fan_is_told_where_it_is() -> None:
    proof = prove_text(FAN.format(second="2 shells, 5 dc, 2 ch-2 sps", times=4))
    assert [problem.row for problem in proof.problems] == [4]


def test_a_wrong_number_between_two_shells_is_told() -> None:
    proof = prove_text(FAN.format(second="2 shells, 6 dc, 2 ch-2 sps", times=3))
    assert [problem.row for problem in proof.problems] == [2]


def test_a_plain_row_that_ends_in_a_space_still_leaves_its_edge_over() -> None:
    proof = prove_text(
        "US terms\nV-st: (dc, ch 1, dc) in same place.\nCh 15.\n"
        "Row 1: Dc in 4th ch from hook (3 skipped ch count as dc) and in each ch across, turn. (13 dc)\n"
        "Row 2: Ch 3 (counts as dc), sk next st, *V-st in next st, sk next 2 sts; rep from * to last 2 sts, sk next st, dc in last st, turn. (3 V-sts, 2 dc)\n"
        "Row 3: Ch 3 (counts as dc), V-st in ch-1 sp of each of next 3 V-sts, turn. (3 V-sts, 1 dc)\n"
    )
    assert [(problem.row, str(problem.code)) for problem in proof.problems][-1:] == [
        (3, "stitches-left-over")
    ]


CORNER = """US terms
Row 1: Ch 6, dc in 4th ch from hook and in each of next 2 ch. (1 block)
Row 2: Ch 6, turn. Dc in 4th ch from hook and in each of next 2 ch, sl st in ch-3 sp of {below}, ch 3, 3 dc in same sp. (2 blocks)
Row 3: Ch 6, turn. Dc in 4th ch from hook and in each of next 2 ch, *sl st in ch-3 sp of next block, ch 3, 3 dc in same sp; rep from * across. (3 blocks)
Row 4: Turn. {away} and in ch-3 sp, ch 3, 3 dc in same sp, *sl st in ch-3 sp of next block, ch 3, 3 dc in same sp; rep from * to last block, sl st in ch-3 sp of last block. ({fewer} blocks)
Row 5: Rep Row 4. (1 block)
"""


@pytest.mark.parametrize(
    "below", ["block in row below", "block of previous row", "block below", "first block"]
)
@pytest.mark.parametrize(
    "away", ["Sl st in each of first 3 dc", "Sl st in first 3 dc", "Sl st in next 3 dc"]
)
def test_a_corner_to_corner_square_of_three(below: str, away: str) -> None:
    proof = prove_text(CORNER.format(below=below, away=away, fewer=2))
    assert not proof.problems
    assert [row.spaces for row in proof.rows] == [1, 2, 3, 2, 1]


def test_a_block_too_many_on_the_way_down_is_told() -> None:
    text = CORNER.format(below="block in row below", away="Sl st in each of first 3 dc", fewer=3)
    assert [problem.row for problem in prove_text(text).problems] == [4]
