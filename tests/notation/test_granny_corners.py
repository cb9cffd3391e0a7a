"""Granny squares: how a round reaches its first corner, and how it leads back to it.

The texts are ours and the sums by hand; the customs are common practice, no source.
Round 3 has four sides of two gaps: 4 x (3 + 3 + 3) = 36 dc. Round 4 has three groups on each
side: 4 x (3 + 3 + 3 + 3) = 48 dc, four corners of 2 chains and 4 x 3 chains between the groups.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.rows import came_to
from tests.notation.test_what_makers_met import codes, made

SQUARE = (
    "Gatehouse Square\nUS terms\n{special}\n"
    "Ch 4, sl st to form ring.\n"
    "Rnd 1: Ch 3 (counts as dc here and throughout), 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep "
    "from * 2 more times, join to top of ch-3. 12 dc, 4 ch-2 corner sps.\n"
    "Rnd 2: Sl st in next 2 dc and in corner sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *ch 1, "
    "(3 dc, ch 2, 3 dc) in next corner sp; rep from * 2 more times, ch 1, join. (24 dc)\n"
    "Rnd 3: Sl st to corner, ch 3, (2 dc, ch 2, 3 dc) in same sp, *ch 1, 3 dc in next ch-1 sp, "
    "ch 1, (3 dc, ch 2, 3 dc) in next corner; rep from * around, omitting last corner, join. "
    "(36 dc)\n"
)
CORNERS = (
    "Special stitches:\n"
    "Beginning corner (beg corner): ch 3, (2 dc, ch 2, 3 dc) in indicated sp.\n"
    "Corner: (3 dc, ch 2, 3 dc) in indicated sp.\n"
)
SIDES = (
    "*(ch 1, 3 dc in next sp) across to corner, ch 1, (3 dc, ch 2, 3 dc) in corner sp; rep from * "
    "2 more times, ch 1, 3 dc in next sp, ch 1, 3 dc in next sp, ch 1, join. (48 dc)"
)


@pytest.mark.parametrize(
    "begins",
    [
        "Sl st to corner sp, (ch 3, 2 dc, ch 2, 3 dc) in corner sp",
        "Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in corner sp",
        "Sl st to corner sp, ch 3, 2 dc in corner sp, ch 2, 3 dc in same corner sp",
        "Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in ch-2 sp",
        "Sl st in next 2 sts and corner sp, (ch 3, 2 dc, ch 2, 3 dc) in same corner sp",
        "Sl st in next 2 dc, (ch 3, 2 dc, ch 2, 3 dc) in corner sp",
        "Sl st to next corner ch-2 sp, (ch 3, 2 dc, ch 2, 3 dc) in corner",
        "Join B in any corner sp, (ch 3, 2 dc, ch 2, 3 dc) in corner sp",
    ],
)
def test_the_corner_that_slip_stitches_reach_is_the_first_corner(begins: str) -> None:
    proof = prove_text(f"{SQUARE.format(special='')}Rnd 4: {begins}, {SIDES}\n")
    assert (proof.verdict, made(proof)) == ("proved", [12, 24, 36, 48])


@pytest.mark.parametrize(
    "begins",
    [
        "Sl st to corner sp, beg corner in corner sp",
        "Sl st in next 2 dc, sl st in corner sp, beg corner in corner",
        "Sl st over to corner ch-2 sp, beg corner",
        "Join B with sl st to any corner sp, beg corner",
        "With B, beg corner in any corner sp",
    ],
)
def test_a_group_called_corner_goes_into_a_corner(begins: str) -> None:
    around = SIDES.replace("(3 dc, ch 2, 3 dc) in corner sp", "corner in corner sp")
    proof = prove_text(f"{SQUARE.format(special=CORNERS)}Rnd 4: {begins}, {around}\n")
    assert (proof.verdict, made(proof)) == ("proved", [12, 24, 36, 48])
    assert not proof.readings


@pytest.mark.parametrize(
    "side",
    [
        "(ch 1, 3 dc in next sp) to next corner",
        "(ch 1, 3 dc in next sp) across to corner",
        "[ch 1, 3 dc in next ch-1 sp] across to next corner sp",
    ],
)
def test_the_last_side_leads_back_to_the_corner_of_the_beginning(side: str) -> None:
    corner = "ch 1, (3 dc, ch 2, 3 dc) in corner sp"
    for text in (
        f"*{side}, {corner}; rep from * 2 more times, {side}, ch 1, join. (48 dc)",
        f"*{side}, {corner}; rep from * around, ending at first corner, join. (48 dc)",
    ):
        proof = prove_text(
            f"{SQUARE.format(special='')}Rnd 4: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in "
            f"same sp, {text}\n"
        )
        assert (proof.verdict, made(proof)) == ("proved", [12, 24, 36, 48])


def test_a_side_that_is_forgotten_is_still_told() -> None:
    proof = prove_text(
        f"{SQUARE.format(special='')}Rnd 4: Sl st to corner sp, (ch 3, 2 dc, ch 2, 3 dc) in corner "
        f"sp, {SIDES.replace('2 more times', '1 more time')}\n"
    )
    assert proof.verdict == "faults"
    assert len(codes(proof)) == 1


SQUARE_BELOW = "round 4 x (ch2, dc 6)"


@pytest.mark.parametrize(
    "row",
    [
        "Rnd 4: Ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in first sp, dc in next 6 dc, *corner, dc in next 6 dc; rep from * around.",
        "Rnd 4: Ch 1, *work corner in next ch-2 sp, sc in next 6 dc; rep from * around, join.",
        "Rnd 4: Ch 1, *work corner, sc in next 6 dc; rep from * around, join.",
    ],
)  # fmt: skip
def test_a_corner_that_is_told_nowhere_is_no_remark(row: str) -> None:
    assert came_to(SQUARE_BELOW, row) == "unknown-word"


@pytest.mark.parametrize(
    "row",
    [
        "Rnd 4: Ch 1, *(sc, ch 2, sc) in next ch-2 sp, corner made, sc in next 6 dc; rep from * around, join.",
        "Rnd 4: Ch 1, *(sc, ch 2, sc) in next ch-2 sp for corner, sc in next 6 dc; rep from * around, join.",
        "Rnd 4: Ch 1, *corner: (sc, ch 2, sc) in next ch-2 sp, sc in next 6 dc; rep from * around, join.",
    ],
)
def test_a_corner_whose_stitches_are_told_is(row: str) -> None:
    # Two in each of 4 corners, 6 along each of 4 sides.
    assert came_to(SQUARE_BELOW, row) == "ok 24/4 -> 32/4"
