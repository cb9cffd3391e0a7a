"""Filet told in squares, by the names that a designer gives them.

Five squares: 5 x 3 + 1 = 16 stitches where all are filled, 6 stitches and 5 spaces where all are
open (n squares are 3n + 1 stitches: Encyclopedia of Needlework). Each filled square in place of
an open one adds 2 stitches and takes a space away. The texts are ours.
"""

from __future__ import annotations

import pytest

from coach.app.proving import proof_json, prove_text

NAMES = {
    "both ways in one line": (
        "Open mesh (om): Ch 2, sk next 2 sts or next ch-2 sp, dc in next dc.\n"
        "Solid mesh (sm): Over an open mesh, 2 dc in ch-2 sp, dc in next dc; over a solid mesh, dc "
        "in each of next 3 dc.\n"
        "Beginning open mesh (beg om): Ch 5 (counts as dc and ch 2), sk next ch-2 sp, dc in next dc.",
        ("Beg om", "om", "sm"),
    ),
    "shortest words": (
        "Open square: ch 2, dc in next dc.\nFilled square: dc in next 3 sts.\n"
        "First open square: ch 5 (counts as dc and ch 2), sk next 2 sts, dc in next st.",
        ("First open square", "open square", "filled square"),
    ),
    "blocks": (
        "Open sq = ch 2, skip 2 sts, dc in next st.\nBlock (bl) = 2 dc in next ch-2 sp, dc in next dc.\n"
        "Beg open sq = ch 5, skip 2 sts, dc in next st.",
        ("Beg open sq", "open sq", "bl"),
    ),
    "bare abbreviations, told apart by the square below": (
        "Sp: ch 2, sk next 2 dc or next ch-2 sp, dc in next dc.\n"
        "Bl over a bl: dc in each of next 3 dc. Bl over a sp: 2 dc in next ch-2 sp, dc in next dc.\n"
        "Beg sp: ch 5 (counts as dc and ch 2), sk next 2 dc or next ch-2 sp, dc in next dc.",
        ("Beg sp", "sp", "bl"),
    ),
    "a label and the squares in one paragraph": (
        "Filet mesh: sp = ch 2, sk 2, dc in next dc. Bl = dc in next 3 sts (over a bl) or 2 dc in sp, dc in next dc (over a sp). "
        "Beg sp = ch 5 (counts as dc and ch 2), sk 2, dc in next dc.",
        ("Beg sp", "sp", "bl"),
    ),
    "a key with what each looks like": (
        "Key\nsk = skip; sp = space; blk = block\n"
        "sp (open square): ch 2, sk 2 dc or 2 ch, dc in next dc.\n"
        "blk (filled square): 2 dc in ch-2 sp and dc in next dc over a sp, or dc in next 3 dc over a blk.\n"
        "Beg sp (first open square): ch 5 (counts as dc and ch 2), sk 2 dc or 2 ch, dc in next dc.",
        ("Beg sp", "sp", "blk"),
    ),
}


@pytest.mark.parametrize("told", sorted(NAMES))
def test_a_square_is_worked_by_what_lies_below_it(told: str) -> None:
    words, (first, open_one, filled) = NAMES[told]
    proof = prove_text(
        f"Special stitches (US terms)\n{words}\n\nCh 20.\n"
        "Row 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across, turn. "
        "(6 dc, 5 ch-2 sps)\n"
        f"Row 2: {first}, 3 {filled}, 1 {open_one}, turn.\n"
        f"Row 3: {first}, 1 {open_one}, 1 {filled}, 2 {open_one}, turn.\n"
        f"Row 4: {first}, 4 {filled}, turn.\n"
    )
    rows = proof_json(proof)["rows"]
    assert not proof.problems
    assert [(row["worked"], row["spaces_worked"], row["made"], row["spaces"]) for row in rows] == [
        (20, 0, 6, 5),
        (6, 5, 12, 2),
        (12, 2, 8, 4),
        (8, 4, 14, 1),
    ]


def test_one_square_too_many_is_told_in_its_row() -> None:
    words, (first, open_one, filled) = NAMES["both ways in one line"]
    proof = prove_text(
        f"Special stitches (US terms)\n{words}\n\nCh 20.\n"
        "Row 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across, turn.\n"
        f"Row 2: {first}, 4 {filled}, 1 {open_one}, turn.\n"
        f"Row 3: {first}, 4 {open_one}, turn.\n"
    )
    assert [problem.row for problem in proof.problems] == [2]


COUNTED = """\
Sp: ch 2, sk 2 dc or ch-2 sp, dc in next dc. Blk: 2 dc in next ch-2 sp or in 2 dc, dc in next dc.
Ch 20.
Row 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across, turn. 5 sps.
Row 2: Ch 3 (counts as dc), blk, 3 sps, blk, turn. {count}
"""


@pytest.mark.parametrize(
    "count", ["(3 sps, 2 blks)", "1 blk, 3 sps, 1 blk.", "(2 blks and 3 sps)", "(10 dc, 3 sps)"]
)
def test_squares_are_counted_however_they_are_listed(count: str) -> None:
    # Two filled of five: 6 stitches + 2 x 2 = 10 less the two spaces they fill: 3 left.
    proof = prove_text(COUNTED.format(count=count))
    assert not proof.problems
    assert (proof.rows[-1].made, proof.rows[-1].spaces) == (10, 3)


@pytest.mark.parametrize("count", ["(3 sps, 3 blks)", "(2 sps, 2 blks)", "1 blk, 2 sps, 1 blk."])
def test_a_wrong_count_of_squares_is_told(count: str) -> None:
    codes = [problem.code.value for problem in prove_text(COUNTED.format(count=count)).problems]
    assert codes == ["count-mismatch"]


def test_uk_squares_are_trebles() -> None:
    proof = prove_text(
        "UK terms\nOpen mesh (om): 2ch, miss next 2 sts or next 2-ch sp, 1tr in next tr.\n"
        "Block (blk): 2tr in next 2-ch sp, 1tr in next tr; over a block, 1tr in each of next 3tr.\n"
        "Make 20ch.\n"
        "Row 1: 1tr in 8th ch from hook, *2ch, miss 2ch, 1tr in next ch; rep from * to end, turn.\n"
        "Row 2: 1 om, 3 blk, 1 om, turn.\n"
        "Row 3: 1 om, 1 blk, 1 om, 1 blk, 1 om, turn.\n"
    )
    assert not proof.problems
    # 3 filled squares: 6 + 6 = 12; 2 filled: 6 + 4 = 10.
    assert [row.made for row in proof.rows] == [6, 12, 10]


def test_squares_of_a_finer_mesh_are_two_wide() -> None:
    # Ten squares are 21 stitches; 6 open of them: 21 - 6 = 15; 4 open: 17.
    proof = prove_text(
        "US terms\nOpen mesh (om): ch 1, sk next st or ch-1 sp, dc in next dc. "
        "Solid mesh (sm): dc in next st or ch-1 sp, dc in next dc.\nCh 23.\n"
        "Row 1: Dc in 4th ch from hook and in each ch across, turn. (21 dc)\n"
        "Row 2: Ch 3 (counts as dc), 2 sm, 6 om, 2 sm, turn. (4 sm, 6 om)\n"
        "Row 3: Ch 3, 2 sm, 2 om, 2 sm, 2 om, 2 sm, turn. (6 sm, 4 om)\n"
    )
    assert not proof.problems
    assert [(row.made, row.spaces) for row in proof.rows] == [(21, 0), (15, 6), (17, 4)]
