"""Clusters that a round begins with, and groups that are defined where they are first worked.

The texts are ours and the sums by hand; the customs are common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.rows import came_to


@pytest.mark.parametrize(
    ("text", "right"),
    [
        # Six spaces, a cluster in each: the chain is the first leg of the first.
        ("Sl st in ch-3 sp, ch 3, dc2tog in same sp, ch 3, *dc3tog in next ch-3 sp, ch 3; rep from * around, join.", "ok 6/6 -> 6/6"),
        ("Sl st in ch-3 sp, ch 2, 2-dc cl in same sp, ch 3, *3-dc cl in next ch-3 sp, ch 3; rep from * around, join. (6 cl)", "ok 6/6 -> 6/6"),
        # Two in each of six.
        ("Sl st in ch-3 sp, (ch 3, 2-dc cl, ch 3, 3-dc cl) in same sp, *ch 1, (3-dc cl, ch 3, 3-dc cl) in next ch-3 sp; rep from * around, ch 1, join. (12 cl)", "ok 6/6 -> 12/12"),
        ("Sl st in ch-3 sp, ch 3, dc2tog in same sp, ch 3, *dc3tog in next ch-3 sp, ch 3; rep from * around, join. (7 sts)", "count-mismatch"),
        # Where all are of two legs, the chain is a stitch of its own; so it is where it says so.
        ("Sl st in ch-3 sp, ch 3, dc2tog in same sp, ch 3, *dc2tog in next ch-3 sp, ch 3; rep from * around, join.", "ok 6/6 -> 7/6"),
        ("Sl st in ch-3 sp, ch 3 (counts as dc), dc2tog in same sp, ch 3, *dc3tog in next ch-3 sp, ch 3; rep from * around, join.", "ok 6/6 -> 7/6"),
    ],
)  # fmt: skip
def test_the_chain_is_the_first_leg_of_the_first_cluster(text: str, right: str) -> None:
    assert came_to("round 6 x (sc, ch3)", f"Rnd 3: {text}") == right


def test_the_chain_before_the_decrease_of_a_ripple_is_no_leg_of_it() -> None:
    # 33 = 2 + 6 + 1 + 6 + (3 + 6 + 1 + 6) + 2: 1 + 6 + 3 + 6 + (1 + 6 + 3 + 6) + 1, and the chain 0.
    text = (
        "Row 2: Ch 2 (does not count), dc2tog, dc in next 6 sts, 3 dc in next st, dc in next 6 sts, "
        "*dc3tog, dc in next 6 sts, 3 dc in next st, dc in next 6 sts; rep from * to last 2 sts, dc2tog, turn."
    )
    assert came_to("dc 33", text) == "ok 33 -> 33"
    assert (
        came_to("sc 33", text.replace("dc", "sc").replace("Ch 2 (does not count)", "Ch 1"))
        == "ok 33 -> 33"
    )


@pytest.mark.parametrize(
    ("shell", "right"),
    [
        # 1, and four times 2 + 1 + 2 with 1 after it: 4 x 5 + 5, 4 x 7 + 5, 4 x 6 + 5.
        ("shell (5 dc) in next sc", "ok 25 -> 25"),
        ("(shell: 5 dc) in next sc", "ok 25 -> 25"),
        ("shell (7 dc) in next sc", "ok 25 -> 33"),
        ("fan (3 dc, ch 1, 3 dc) in next sc", "ok 25 -> 29/4"),
    ],
)
def test_a_group_defined_where_it_is_first_worked(shell: str, right: str) -> None:
    text = f"Row 2: Ch 1, sc in first sc, *sk 2 sc, {shell}, sk 2 sc, sc in next sc; rep from * across."
    assert came_to("sc 25", text) == right


def test_what_was_defined_in_passing_holds_for_later_rows() -> None:
    # 13 = 1 + 2 x 6; shells of 4: 2 x 4 + 3 = 11; then one shell over each: 1 + 4 + 1 + 4 + 1.
    proof = prove_text(
        "US terms\nCh 14.\nRow 1: Sc in 2nd ch from hook, *sk 2 ch, shell (4 dc) in next ch, sk 2 ch, "
        "sc in next ch; rep from * across, turn. (2 shells, 3 sc)\n"
        "Row 2: Ch 1, sc in first sc, *shell in center of next shell, sc in next sc; rep from * across. (2 shells, 3 sc)\n"
    )
    assert proof.problems == ()
    assert [row.made for row in proof.rows] == [11, 11]


@pytest.mark.parametrize(
    ("words", "right"),
    [
        ("chain one, sc in each stitch until you get to the last one, and put two single crochet in that one.", "ok 20 -> 21"),
        ("chain one, sc in each stitch to last st, 2 sc in it.", "ok 20 -> 21"),
        ("chain one, two single crochet in the first stitch, one in each stitch till the last one, two in that one.", "ok 20 -> 22"),
        ("chain one, sc in each stitch until you reach the last one, three in that one. (23)", "count-mismatch"),
    ],
)  # fmt: skip
def test_that_one_is_the_last_one_come_to(words: str, right: str) -> None:
    assert came_to("sc 20", f"Row 5: {words}") == right
