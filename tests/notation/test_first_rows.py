"""First rows on a chain, and chains that a later row works into: where a row begins.

The texts are ours and the sums by hand; the customs are common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.rows import came_to
from tests.notation.test_what_makers_met import codes, made


@pytest.mark.parametrize(
    "words", ["Sc across.", "Sc in each ch across.", "Sc in each chain to end."]
)
def test_a_first_row_of_single_crochet_leaves_the_chain_beside_the_hook(words: str) -> None:
    proof = prove_text(f"Ch 41. Row 1: {words} (40 sc) Row 2: Ch 1, turn, sc across. (40 sc)")
    assert (proof.verdict, made(proof)) == ("proved", [40, 40])
    assert [reading.taken for reading in proof.readings] == [
        "leaves the stitch's height of chains at the hook"
    ]


def test_the_chain_beside_the_hook_is_left_where_no_count_is_given() -> None:
    assert made(prove_text("Ch 41. Row 1: Sc across. Row 2: Ch 1, turn, sc across.")) == [40, 40]


def test_every_chain_is_worked_where_the_count_says_so() -> None:
    proof = prove_text("Ch 40. Row 1: Sc in each ch across. (40 sc)")
    assert (proof.verdict, made(proof)) == ("proved", [40])
    assert proof.readings[0].taken == "goes into every chain"


def test_a_count_that_fits_neither_way_is_a_fault() -> None:
    assert [str(code) for code in codes(prove_text("Ch 41. Row 1: Sc across. (39 sc)"))] == [
        "count-mismatch"
    ]


def test_double_crochet_leaves_three_chains_that_count_as_one() -> None:
    assert made(prove_text("US terms\n\nCh 42. Row 1: Dc in each ch across. (40 dc)")) == [40]


def test_a_chain_of_its_own_in_the_row_leaves_none_at_the_hook() -> None:
    proof = prove_text("Ch 20. Row 1: Ch 1, sc in each ch across. (20 sc)")
    assert (proof.verdict, made(proof)) == ("proved", [20])


def test_a_first_row_that_is_repeated_has_no_chain_to_leave() -> None:
    proof = prove_text(
        "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\n"
        "Row 2: Ch 1, turn, dc in each st across. (20)\nRows 3-10: Rep Rows 1 and 2. (20)"
    )
    assert (proof.verdict, made(proof)) == ("proved", [20] * 10)


def test_a_first_row_of_double_crochet_repeated_begins_with_the_counted_chain() -> None:
    proof = prove_text(
        "Ch 22.\nRow 1: Dc in 4th ch from hook and in each ch across. (20)\n"
        "Row 2: Ch 1, turn, sc in each st across. (20)\nRow 3: Rep Row 1. (20)"
    )
    assert (proof.verdict, made(proof)) == ("proved", [20] * 3)


def test_chains_before_a_row_lengthen_it() -> None:
    text = "Row 2: Ch 7, sc in 2nd ch from hook and in next 5 ch, sc in each sc across. (17 sc)"
    assert came_to("sc 11", text) == "ok 11 -> 17"
    assert came_to("sc 11", text.replace("17", "18")) == "count-mismatch"
    assert came_to("sc 11, counted 7 made", text.replace("Ch 7, s", "S")) == "ok 11 -> 17"


def test_chains_made_before_the_turn_lengthen_the_next_row() -> None:
    proof = prove_text(
        "Ch 12.\nRow 1: Sc in 2nd ch from hook and in each ch across, ch 7, turn. (11 sc)\n"
        "Row 2: Sc in 2nd ch from hook and in next 5 ch, sc in each sc across. (17 sc)"
    )
    assert (proof.verdict, made(proof)) == ("proved", [11, 17])


def test_points_are_worked_down_their_own_chains() -> None:
    text = (
        "Row 2: Ch 1, sc in first sc, *ch 4, sc in 2nd ch from hook, hdc in next ch, dc in next "
        "ch, sk 3 sc, sc in next sc; rep from * across."
    )
    assert came_to("sc 9", text) == "ok 9 -> 9"  # 1 + 2 points of 4
    assert came_to("sc 10", text) == "repeat-does-not-fit"
