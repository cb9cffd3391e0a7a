"""Gaps between groups, picots closed in the stitch that they sit on, and rings told in many words.

The texts are ours and the sums by hand; a granny stripe has a gap on each side of every group
(common practice, no source).
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.rows import came_to

STRIPE = """UK terms
Ch 21.
Row 1: 1 dc in 2nd ch from hook and in every ch along. Turn. (20 dc)
Row 2: Ch 3 (counts as 1 tr), skip 1 st, 3 tr in next st, *skip 2 sts, 3 tr in next st; repeat from * to last 2 sts, skip 1 st, 1 tr in last st. Turn. (6 groups, 2 tr)
Row 3: Ch 3 (counts as 1 tr), 1 tr in sp before first group, *3 tr in next sp between groups; repeat from * to end, 1 tr in sp after last group, 1 tr in top of turning ch. Turn. (5 groups, 4 tr)
Row 4: Ch 3 (counts as 1 tr), 3 tr in each sp along, 1 tr in top of turning ch. Turn. (6 groups, 2 tr)
"""


def test_a_granny_stripe_is_worked_in_the_gaps_between_groups() -> None:
    proof = prove_text(STRIPE)
    assert not proof.problems
    # 2 + 6 x 3, then 4 + 5 x 3, then 2 + 6 x 3.
    assert [row.made for row in proof.rows] == [20, 20, 19, 20]


def test_a_wrong_count_beside_the_groups_is_told() -> None:
    proof = prove_text(STRIPE.replace("(5 groups, 4 tr)", "(5 groups, 3 tr)"))
    assert [problem.row for problem in proof.problems] == [3]


@pytest.mark.parametrize(
    "closing",
    [
        "sl st in last sc made",
        "sl st in top of last sc made",
        "sl st in side of sc just made",
        "sl st in same sc (picot made)",
        "sl st in last sc made (picot)",
        "sl st in first ch",
    ],
)
def test_a_picot_leaves_no_space(closing: str) -> None:
    text = f"Rnd 9: Ch 1, *sc in next 5 sts, ch 3, {closing}; rep from * around; join."
    assert came_to("round sc 60", text) == "ok 60 -> 60"


def test_a_chain_back_to_the_same_stitch_stays_a_space_where_nobody_calls_it_a_picot() -> None:
    text = "Rnd 9: Ch 1, *sc in next 5 sts, ch 3, sl st in same sc; rep from * around; join."
    assert came_to("round sc 60", text) == "ok 60 -> 60/12"


@pytest.mark.parametrize(
    ("work", "made"),
    [
        (
            "ch 3 (counts as dc), work 13 dc; pull ring closed and join with sl st in top of ch-3.",
            14,
        ),
        ("ch 3 (counts as dc) and work 13 dc, join.", 14),
        ("ch 1, then work 14 sc, join.", 14),
        ("ch 3 (counts as first dc). Work 13 dc. Join.", 14),
    ],
)
def test_what_follows_a_magic_ring_goes_into_it(work: str, made: int) -> None:
    assert came_to("nothing", f"Rnd 1: In a magic ring, {work} ({made})") == f"ok - -> {made}"


@pytest.mark.parametrize("tail", ["that around six times", "that all the way around", "six times"])
def test_a_spoken_repeat_may_follow_and(tail: str) -> None:
    # 6 x (1 + 1) used, 6 x (1 + 2) made.
    text = (
        f"Round three: one single crochet, then an increase, and repeat {tail}. Eighteen stitches."
    )
    assert came_to("round sc 12", text) == "ok 12 -> 18"
