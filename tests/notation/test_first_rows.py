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


def test_chains_before_a_turn_in_the_same_row_lengthen_it() -> None:
    text = (
        "Row 2: Ch 7, turn, sc in 2nd ch from hook and in next 5 ch, sc in each sc across. (17 sc)"
    )
    assert came_to("sc 11", text) == "ok 11 -> 17"


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


def test_a_part_may_make_its_own_chain_in_its_first_round() -> None:
    proof = prove_text(
        "EARS\nR1: 5 sc in MR [5]\nR2: inc in each st [10]\n\nFEET\n"
        "R1: Ch 4. Starting in second ch from hook: 2 sc, 3 sc in last ch; on the other side of the "
        "chain: 1 sc, 2 sc in the last one [8]\nR2: sc around [8]"
    )
    assert (proof.verdict, made(proof)) == ("proved", [5, 10, 8, 8])


def test_the_last_stitch_of_an_oval_may_go_into_the_chain_of_the_first() -> None:
    oval = (
        "1st rnd: 2 sc in 2nd ch from hook, 1 sc in each of next 8 ch, 3 sc in last ch; working "
        "along opposite side of chain, 1 sc in each of next 8 ch, 1 sc in same ch as first 2 sc."
    )
    assert came_to("chain 11", f"{oval} (22 sc)").endswith("-> 22")
    assert came_to("chain 11", f"{oval} (21 sc)") == "count-mismatch"


def test_chains_left_in_the_first_row_are_met_at_the_end_of_the_second() -> None:
    proof = prove_text(
        "US terms\nCh 14.\nRow 1: Dc in 8th ch from hook (first sp made), *ch 2, sk 2 ch, dc in next "
        "ch; rep from * across; turn. (3 sps)\n"
        "Row 2: Ch 5 (counts as dc and ch 2), dc in next dc, 2 dc in next sp, dc in next dc, ch 2, "
        "sk 2 ch of the 7 skipped at beginning, dc in next ch; turn. (6 dc, 2 ch-2 sps)"
    )
    assert proof.verdict == "proved"
    assert [(row.made, row.spaces) for row in proof.rows] == [(4, 3), (6, 2)]


@pytest.mark.parametrize(
    "words",
    [
        "Fold flat and work 4sc through both layers",
        "Flatten, working through both layers, sc in next 4 sts",
        "Ch 1, sc across through both layers",
    ],
)
def test_a_folded_edge_is_worked_through_both_layers(words: str) -> None:
    assert came_to("round sc 8", f"Rnd 6: {words}. (4)") == "ok 8 -> 4"
    assert came_to("round sc 8", f"Rnd 6: {words}. (5)") == "count-mismatch"


@pytest.mark.parametrize(
    "words",
    [
        "Ch 5 (counts as dc and ch 2), turn, *sk 2 ch, dc in next dc, ch 2; rep from * 8 times more, "
        "sk 2 ch, dc in 3rd ch of turning ch",
        "Ch 5, sk 2 ch, dc in next dc, *ch 2, sk 2 ch, dc in next dc; rep from * across",
        "Ch 5, turn, sk next 2 chs, dc in next dc, *ch 2, dc in next dc; rep from * across",
    ],
)
def test_chains_skipped_in_a_mesh_are_its_spaces(words: str) -> None:
    text = f"Row 2: {words}. (11 dc, 10 ch-2 sps)"
    assert came_to("10 x (dc, ch2), dc, counted 5", text) == "ok 11/10 -> 11/10"
    assert came_to("9 x (dc, ch2), dc, counted 5", text) != "ok 10/9 -> 11/10"


def test_a_row_number_with_a_figure_too_many_is_told_before_any_row_is_worked() -> None:
    proof = prove_text(
        "Ch 20. Row 1: Sc in 2nd ch from hook and in each ch across. (19)\n"
        "Rows 2-1000000000: Ch 1, turn, sc in each st across. (19)"
    )
    assert [str(code) for code in codes(proof)] == ["broken-notation"]
    assert len(proof.rows) == 2


@pytest.mark.parametrize("before", ["Magic ring.\n", "Start with a magic ring.\n", ""])
def test_a_first_round_that_names_no_place_is_worked_into_a_ring(before: str) -> None:
    proof = prove_text(f"US terms\n{before}Rnd 1: 8 sc. (8)\nRnd 2: 2 sc in each st. (16)")
    assert (proof.verdict, made(proof)) == ("proved", [8, 16])
    wrong = prove_text(f"US terms\n{before}Rnd 1: 8 sc. (7)\nRnd 2: 2 sc in each st. (16)")
    assert [str(code) for code in codes(wrong)] == ["count-mismatch"]
