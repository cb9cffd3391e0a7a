"""Groups that a pattern names only in a row's count, and what begins a round with one.

The texts are ours and the sums by hand; the customs are common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.test_what_makers_met import codes, made

RING = "US terms\nCh 6, join to form ring.\nRnd 1: Ch 1, 8 sc in ring, join. (8 sc)\n"


def test_the_count_of_its_first_round_names_the_shell() -> None:
    text = (
        f"{RING}Rnd 2: Ch 3 (counts as dc), (dc, ch 2, 2 dc) in same st, *(2 dc, ch 2, 2 dc) in next "
        "st; rep from * around, join. (8 shells)\n"
        "Rnd 3: Sl st to ch-2 sp, beg shell in same sp, ch 1, *shell in next shell, ch 1; rep from * "
        "around, join. (8 shells)\n"
    )
    proof = prove_text(text)
    assert (proof.verdict, made(proof)) == ("proved", [8, 32, 32])  # 8 shells of 4, not of 5
    assert codes(prove_text(text.replace("ch 1; rep from * around, join. (8", "ch 1; rep from * around, join. (9"))) == [
        "count-mismatch"
    ]  # fmt: skip


def test_so_it_is_in_uk_terms() -> None:
    proof = prove_text(
        "UK terms\n6ch, ss to form ring.\n"
        "Rnd 1: 4ch (counts as 1tr and 1ch), (1tr, 1ch) 7 times into ring, ss to 3rd of 4-ch. (8 1-ch sps)\n"
        "Rnd 2: Ss into first sp, 3ch (counts as 1tr), (1tr, 2ch, 2tr) in same sp, *(2tr, 2ch, 2tr) in "
        "next sp; rep from * to end, ss to top of 3-ch. (8 shells)\n"
        "Rnd 3: Ss to 2-ch sp, beg shell in same sp, 1ch, *shell in next shell, 1ch; rep from * to end, ss."
    )
    assert (proof.verdict, made(proof)) == ("proved", [8, 32, 32])


def test_a_shell_that_no_count_explains_is_five_in_one_place() -> None:
    proof = prove_text(
        "US terms\nCh 14.\nRow 1: Sc in 2nd ch from hook, *sk 2 ch, shell in next ch, sk 2 ch, sc in "
        "next ch; rep from * across, turn. (2 shells)"
    )
    assert (proof.verdict, made(proof)) == ("proved", [13])  # 3 sc and 2 x 5


@pytest.mark.parametrize(
    "told",
    [
        "",
        "V-st: (dc, ch 1, dc) in same st. Beg V-st: Ch 4, dc in same st.\n",
        "V-st: (dc, ch 1, dc) in same st.\nBeg V-st: Ch 4 (counts as dc and ch 1), dc in same st.\n",
    ],
)
def test_what_begins_the_round_is_one_of_its_groups(told: str) -> None:
    proof = prove_text(
        f"{told}{RING}Rnd 2: Ch 4 (counts as dc and ch 1), dc in same st, *(dc, ch 1, dc) in next st; "
        "rep from * around, join. (8 V-sts)\n"
        "Rnd 3: Sl st to ch-1 sp, beg V-st in same sp, ch 1, *V-st in next V-st, ch 1; rep from * "
        "around, join. (8 V-sts)"
    )
    assert (proof.verdict, made(proof)) == ("proved", [8, 16, 16])


def test_what_is_worked_so_often_into_the_ring_goes_into_the_ring() -> None:
    proof = prove_text(
        "US terms\nCh 5, join to form ring.\nRnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, "
        "[3 dc, ch 2] 3 times in ring, join. (12 dc, 4 ch-2 sps)"
    )
    assert (proof.verdict, made(proof)) == ("proved", [12])
