"""How a round begins and closes: travelling, the last space, the bare slip stitch, the other corners.

The texts are ours and the sums by hand; the customs are common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.rows import came_to
from tests.notation.test_what_makers_met import codes, made

SQUARE = (
    "US terms\nCh 4, join to form ring.\n"
    "Rnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times, "
    "join to top of ch-3. (12 dc, 4 ch-2 sps)\n"
)


@pytest.mark.parametrize(
    "travel", ["Sl st in next 2 dc and in ch-2 sp", "Sl st across to first ch-2 sp"]
)
def test_what_slip_stitches_travel_over_is_worked_at_the_end_of_the_round(travel: str) -> None:
    proof = prove_text(
        f"{SQUARE}Rnd 2: {travel}, ch 3 (counts as dc), dc, ch 2, 2 dc in same sp, *dc in each dc "
        "to next ch-2 sp, (2 dc, ch 2, 2 dc) in ch-2 sp; rep from * 2 more times, dc in each rem "
        "st, join to top of ch-3. (28 dc, 4 ch-2 sps)"
    )
    assert (proof.verdict, made(proof)) == ("proved", [12, 28])  # 4 corners of 4, 4 sides of 3


def test_what_slip_stitches_travel_over_may_be_skipped_before_the_join() -> None:
    text = (
        "Rnd 4: Sl st in first ch-1 sp, ch 1, sc in same sp, ch 1, skip 1 sc, *sc in next ch-1 sp, "
        "ch 1, skip 1 sc; rep from * around, join. (6 sc, 6 ch-1 sps)"
    )
    assert came_to("round 6 x (sc, ch1)", text) == "ok 6/6 -> 6/6"
    text = (
        "Rnd 3: Sl st in next 2 sts, ch 1, sc in same st, *ch 3, sk 2, sc in next st; rep from * 2 "
        "more times, ch 3, sk 2, join. (4 sc, 4 ch-3 sps)"
    )
    assert came_to("round sc 12", text) == "ok 12 -> 4/4"


def test_a_round_may_begin_in_the_center_of_a_loop_and_end_with_its_chain() -> None:
    text = (
        "Rnd 5: Ss to centre of first loop, 1 dc into same loop, *6 ch, 1 dc into next loop; "
        "repeat from * ending 6 ch, ss to first dc."
    )
    assert came_to("round 12 x (sc, ch5)", text, terms="UK") == "ok 12/12 -> 12/12"


def test_the_closing_stitch_makes_the_last_space_as_long_as_the_others() -> None:
    text = (
        "Rnd 4: Ch 1, sc in same st as join, *ch 5, sk next 2 sts, sc in next st; rep from * to "
        "last 2 sts, ch 2, sk last 2 sts, dc in first sc to form last ch-5 sp. (16 ch-5 sps)"
    )
    assert came_to("round sc 48", text) == "ok 48 -> 16/16"
    assert came_to("round sc 48", text.replace("(16", "(15")) == "count-mismatch"


@pytest.mark.parametrize("ending", ["", "ending with "])
@pytest.mark.parametrize(
    "where",
    [
        "in sp just formed",
        "in sp formed by joining dc",
        "in joining dc sp",
        "around post of dc just made",
        "around the dc just made",
    ],
)
def test_the_next_round_begins_in_the_space_that_the_join_made(where: str, ending: str) -> None:
    text = (
        f"Rnd 5: Ch 1, sc {where}, *ch 5, sc in next ch-5 sp; rep from * around, {ending}ch 2, dc in "
        "first sc. (16 ch-5 sps)"
    )
    assert came_to("round 16 x (sc, ch5)", text) == "ok 16/16 -> 16/16"
    # "ending with ch 2" adds no further ch 5 before it to meet the count
    assert came_to("round 15 x (sc, ch5)", text) == "count-mismatch"


def test_a_bare_slip_stitch_at_the_end_is_the_join() -> None:
    text = "Rnd 4: Ch 1, *sc in 5 sts, (sc, ch 1, sc) in next st* 6 times, ss (42 sc, 6 ch-1 sps)"
    assert came_to("round sc 36", text) == "ok 36 -> 42/6"


def test_a_bare_slip_stitch_at_the_end_takes_the_one_stitch_that_is_left() -> None:
    assert came_to("round sc 12", "Rnd 4: Sc in next 11 sts, sl st. (11 sc)") == "ok 12 -> 11"


@pytest.mark.parametrize("again", ["do that for the other three corners", "repeat twice more"])
def test_the_other_corners_are_as_many_as_there_are(again: str) -> None:
    proof = prove_text(
        SQUARE + "Rnd 2: Slip stitch along to the corner space, ch 3 (counts as dc), 2 dc, ch 2, "
        "3 dc in same space, ch 1. *Now (3 dc, ch 2, 3 dc) into the next corner space, ch 1; "
        "rep from * twice more, join. (24 dc, 4 ch-2 sps, 4 ch-1 sps)"
        if again == "repeat twice more"
        else SQUARE
        + "Rnd 2: Slip stitch along to the corner space. Ch 3 (counts as dc), 2 dc, ch 2 and 3 dc "
        "all into that space. Chain 1. Now (3 dc, ch 2, 3 dc) into the next corner space, then ch "
        f"1, and {again}. Join. (24 dc, 4 ch-2 sps, 4 ch-1 sps)"
    )
    assert (proof.verdict, made(proof)) == ("proved", [12, 24])


def test_what_stands_between_stars_comes_again_after_other_work() -> None:
    text = (
        "Row 6: Ch 3, dc in next 7 dc, *ch 2, skip 5 dc*, dc in next 15 dc, rep from * to * once, "
        "dc in last 8 dc. (31 dc, 2 ch-2 sps)"
    )
    assert came_to("dc 41, counted 3", text) == "ok 41 -> 31/2"
    assert came_to("dc 42, counted 3", text) == "stitches-left-over"


TWELVE = "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st. (12)\n"


def test_a_wrong_count_is_told_once_where_the_next_rounds_say_nothing() -> None:
    proof = prove_text(
        f"{TWELVE}Rnd 3: [2 sc in next st, sc in next st] 6 times. (17)\n"
        "Rnds 4-5: Sc in each st around.\nRnd 6: [2 sc in next st, sc in next 2 sts] 6 times. (24)"
    )
    assert [problem.label for problem in proof.problems] == ["Rnd 3"]
    assert made(proof) == [6, 12, 18, 18, 18, 24]


def test_the_rounds_after_a_wrong_round_go_on_from_its_count() -> None:
    proof = prove_text(
        f"{TWELVE}Rnd 3: [2 sc in next st, sc in next st] 5 times, sc in next 2 sts. (18)\n"
        "Rnds 4-5: Sc in each st around.\nRnd 6: [2 sc in next st, sc in next 2 sts] 6 times. (24)"
    )
    assert [problem.label for problem in proof.problems] == ["Rnd 3"]
    assert made(proof) == [6, 12, 17, 18, 18, 24]


def test_still_so_many_is_a_count() -> None:
    proof = prove_text(f"{TWELVE}Rnd 3: Sc in each st around. Still eleven.")
    assert [str(code) for code in codes(proof)] == ["count-mismatch"]
    assert prove_text(f"{TWELVE}Rnd 3: Sc in each st around. Still twelve.").rows[2].stated == 12


def test_a_stitch_named_by_letter_and_number_may_be_defined_after_a_dash() -> None:
    proof = prove_text(
        "Special stitches (US)\nC4 – 4-st cable: sk next 2 sts, FPtr around each of next 2 sts, "
        "working in front of sts just made FPtr around each of 2 skipped sts.\n\nCh 15.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (14)\n"
        "Row 2: Ch 1, turn, sc in next 3 sts, C4 twice, sc in last 3 sts. (14)"
    )
    assert (proof.verdict, made(proof)) == ("proved", [14, 14])


def test_rows_worked_again_go_on_without_the_count_that_was_wrong() -> None:
    proof = prove_text(
        "Ch 33.\nRow 1: Sc in 2nd ch from hook and in each ch across. (32)\n"
        "Row 2: Ch 1, turn, sc in each st to last 2 sts, sc2tog. (30 sts)\n"
        "Row 3: Ch 1, turn, sc in each st across. (31 sts)\nRows 4-9: Repeat Rows 2 and 3. (28 sts)"
    )
    assert [problem.label for problem in proof.problems] == ["Row 2"]
    assert made(proof) == [32, 31, 31, 30, 30, 29, 29, 28, 28]


def test_a_slip_stitch_without_a_place_takes_none_of_the_round() -> None:
    proof = prove_text(
        "UK terms\n4ch, ss to form a ring.\nRnd 1: 3ch (counts as 1tr), 11tr into ring, ss to top of 3-ch. 12tr\n"
        "Rnd 2: 1ch, 1dc in each st around, ss.\nRnds 3-4: As Rnd 2.\n"
        "Rnd 5: 1ch, *1dc in next st, 2dc in next st; rep from * around, ss."
    )
    assert (proof.verdict, made(proof)) == ("proved", [12, 12, 12, 12, 18])
    # where the row says how many, the slip stitch may be one of them
    assert came_to("round sc 12", "Rnd 9: sc in next 11 sts, sl st in next st.") == "ok 12 -> 11"


def test_a_stitch_joins_though_a_bracket_after_it_explains() -> None:
    text = (
        "Rnd 2: Ch 1, sc in first st, *ch 5, sk next 2 sts, sc in next st; rep from * to last 2 sts, "
        "ch 2, sk last 2 sts, dc in first sc to join (counts as ch-5 lp). (20 lps)"
    )
    assert came_to("round sc 60", text) == "ok 60 -> 20/20"  # 1 + 19 x 3 + 2


@pytest.mark.parametrize("name", ["cluster", "puff", "popcorn", "bobble"])
def test_a_cluster_named_as_a_place_is_a_stitch_though_there_are_spaces(name: str) -> None:
    proof = prove_text(
        "US terms\nMagic ring.\nRnd 1: Ch 1, 12 sc in ring, join. (12 sc)\n"
        f"Rnd 2: Ch 2, *{name} in next st, ch 1, sk next st; rep from * around, join.\n"
        f"Rnd 3: Ch 1, *sc in next {name}, sc in next ch-1 sp; rep from * around, join. (12 sc)"
    )
    assert (proof.verdict, made(proof)) == ("proved", [12, 6, 12])


POINT = (
    "US terms\nCh 4, join with sl st in first ch.\nRow 1: Ch 4 (counts as dc and ch 1), 3 dc in ring, "
    "ch 2, 3 dc in ring, ch 1, dc in ring, turn. (8 dc, 2 ch-1 sps, 1 ch-2 sp)\nRow 2: Ch 1, "
)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("sc in each dc and in each ch-1 sp across, working 3 sc in center ch-2 sp, turn.", 13),
        ("sc in each dc and ch-1 sp across, 3 sc in ch-2 sp, turn.", 13),  # 8 + 2 + 3
        ("sc in each dc and ch-1 sp across, working (sc, ch 2, sc) in ch-2 sp, turn.", 12),
        ("sc in each st across, with 3 sc in ch-2 sp and sc in each ch-1 sp, turn.", 13),
    ],
)
def test_the_space_that_is_named_after_going_across_gets_its_own(text: str, expected: int) -> None:
    proof = prove_text(POINT + text)
    assert (proof.verdict, made(proof)) == ("proved", [8, expected])


def test_a_group_around_the_turning_chain_uses_it_up() -> None:
    text = (
        POINT.split("Row 2", maxsplit=1)[0]
        + "Row 2: Ch 4, 3 dc in first ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) in ch-2 sp, ch 1, "
        "(3 dc, ch 1, dc) in last ch-1 sp, turn. (14 dc)"
    )
    proof = prove_text(text)
    assert (proof.verdict, made(proof)) == ("proved", [8, 14])
    one_short = prove_text(text.replace("(3 dc, ch 1, dc) in last", "(2 dc, ch 1, dc) in last"))
    assert codes(one_short) == ["count-mismatch"]


@pytest.mark.parametrize(
    "round_",
    [
        # The chain and one more in the first of 12 spaces, two in each of 11: 24.
        "Ch 3 (counts as dc), dc in same sp, 2 dc in each ch-1 sp around, join.",
        "Ch 3 (counts as dc), dc in same sp, 2 dc in each rem ch-1 sp around, join.",
        "Ch 3 (counts as dc), dc in same sp, *2 dc in next ch-1 sp; rep from * around, join.",
        "Sl st in ch-1 sp, ch 3 (counts as dc), dc in same sp, 2 dc in each ch-1 sp around, join.",
    ],
)
def test_the_space_beside_the_chain_is_the_same_space(round_: str) -> None:
    assert came_to("round 12 x (dc, ch1)", f"Rnd 3: {round_}") == "ok 12/12 -> 24"
