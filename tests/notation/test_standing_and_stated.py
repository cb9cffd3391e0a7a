"""Stitches that stand where yarn is joined, remarks after the first chain, and counts of what a pattern names.

The texts are ours and the sums by hand. A standing stitch is worked without a beginning chain,
in the place where the yarn is joined (common practice, no source).
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

STRIPED = """Striped strip (US terms)
With A, ch 22.
Row 1: Sc in 2nd ch from hook and in each ch across. Fasten off. (21 sc)
Row 2: {begun}. Fasten off. (21 sc)
"""


@pytest.mark.parametrize(
    "begun",
    [
        "Join B in first st with a standing sc, sc blo in next 19 sts, sc in last st",
        "Join B in first st with a standing sc and sc in each st across",
        "Attach B to first st with sc, sc in next 20 sts",
        "Join B with a standing sc in first st, sc in each st to end",
    ],
)
def test_a_standing_stitch_is_the_first_of_its_row(begun: str) -> None:
    proof = prove_text(STRIPED.format(begun=begun))
    assert not proof.problems
    assert [(row.worked, row.made) for row in proof.rows] == [(22, 21), (21, 21)]


def test_a_standing_stitch_and_one_place_too_many_is_told() -> None:
    begun = "Join B in first st with a standing sc, sc blo in next 20 sts, sc in last st"
    proof = prove_text(STRIPED.format(begun=begun))
    assert [(problem.row, str(problem.code)) for problem in proof.problems] == [
        (2, "too-many-stitches")
    ]


@pytest.mark.parametrize(
    "said",
    [
        "(3 skipped ch = first dc)",
        "(ch-3 = 1 dc)",
        "(first 2 dc made)",
        "(3 skipped ch count as dc)",
    ],
)
def test_a_remark_stands_between_the_first_chain_and_the_rest(said: str) -> None:
    proof = prove_text(
        f"US terms\nCh 25.\nRow 1: Dc in 4th ch from hook {said} and in each ch across. (23 dc)\n"
    )
    assert not proof.problems
    assert [(row.worked, row.made) for row in proof.rows] == [(25, 23)]  # 3 and 22


BOBBLES = """US terms
Bobble (bob): [Yarn over, insert hook in st, pull up a loop, yarn over, draw through 2 loops] 4 times in same st, yarn over, draw through all 5 loops on hook.
Ch 16.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (15 sc)
Row 2: Ch 1, sc in first 3 sts, *bob in next st, sc in next 3 sts; rep from * across, turn. ({stated})
"""


@pytest.mark.parametrize(
    "stated", ["3 bobs, 12 sc", "3 bobbles, 12 sc", "12 sc and 3 bobbles", "15 sts"]
)
def test_a_stitch_is_counted_by_its_name_and_by_its_short_name(stated: str) -> None:
    proof = prove_text(BOBBLES.format(stated=stated))
    assert not proof.problems
    assert proof.rows[-1].stated == 15


def test_one_bobble_too_many_is_told_whichever_way_it_is_named() -> None:
    for stated in ("4 bobs, 12 sc", "4 bobbles, 12 sc"):
        proof = prove_text(BOBBLES.format(stated=stated))
        assert [problem.row for problem in proof.problems] == [2]


FANS = """US terms
Fan: (3 dc, ch 2, 3 dc) in same place.
Chain 40, join with sl st in first ch.
Rnd 1: Ch 3 (counts as dc), (2 dc, ch 2, 3 dc) in same ch, sk 4 ch, *fan in next ch, sk 4 ch; rep from * around; join with sl st in top of ch-3. (8 fans)
Rnd 2: Sl st in next 2 dc and in ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, *fan in next ch-2 sp; rep from * around; join. ({stated} fans)
"""


def test_a_beginning_group_with_its_chain_is_one_of_those_counted() -> None:
    proof = prove_text(FANS.format(stated=8))
    assert not proof.problems
    assert [(row.made, row.spaces, row.stated) for row in proof.rows] == [(48, 8, 48)] * 2


def test_a_fan_too_many_is_told() -> None:
    proof = prove_text(FANS.format(stated=9))
    assert [problem.row for problem in proof.problems] == [2]
