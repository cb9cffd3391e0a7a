"""Groups that a row begins with, and what its words say of the end: instead, ending with, to the marker.

The texts are ours and the sums by hand; the customs are common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.rows import came_to
from tests.notation.test_what_makers_met import made

V_ST = {"V-st": "(dc, ch 1, dc) in same st"}
SHELL = {"shell": "5 tr into same st"}


@pytest.mark.parametrize(
    "ending",
    [
        "working 3tr instead of a shell into last dc, turn. (14 shells)",
        "ending last rep with 3 tr in last dc, turn.",
        "but working only 3 tr into last dc, turn.",
        "ending with 3 tr in last dc instead of shell, turn.",
    ],
)
def test_the_last_group_is_another(ending: str) -> None:
    text = (
        "3rd row: 3ch (counts as 1tr), 2tr into first dc, *miss 2tr, 1dc into next tr, miss 2tr, "
        f"shell into next dc; rep from * to end, {ending}"
    )
    # 3 + 14 x (1 + 5) + 1 + 3
    fan = "15 x (sc, dc 5), sc"
    assert came_to(fan, text, terms="UK", special_stitches=SHELL) == "ok 91 -> 91"


def test_a_petal_round_closes_with_the_slip_stitch_that_is_said() -> None:
    text = (
        "Round 2: *3ch, 2tr in same st, 3ch, ss in same st, ss in next st; repeat from * 9 more "
        "times, ending last repeat with ss in first st"
    )
    assert came_to("round sc 10", text, terms="UK").startswith("ok 10 -> ")
    assert came_to("round sc 9", text, terms="UK") != "ok"


def test_ending_with_a_chain_stops_the_last_repeat_at_that_chain() -> None:
    text = (
        "6th rnd: Sc in same place as sl st, * ch 5, skip 3 dc, sc in next dc. Rep from * around, "
        "ending with ch 5. Join to first sc (20 loops)"
    )
    assert came_to("round dc 80", text) == "ok 80 -> 20/20"
    assert came_to("round dc 79", text) == "repeat-does-not-fit"


@pytest.mark.parametrize(
    "words", ["Sc around to marker, move marker up", "Sc in each st to marker"]
)
def test_the_marker_of_a_spiral_is_its_end(words: str) -> None:
    assert came_to("round sc 24", f"Rnd 12: {words}. (24 sc)") == "ok 24 -> 24"
    assert came_to("round sc 24", f"Rnd 12: {words}. (23 sc)") == "count-mismatch"


def test_each_kind_of_place_to_the_next_corner() -> None:
    text = (
        "Rnd 4: Join Cream with sl st in any corner ch-2 sp, ch 1, *3 sc in corner sp, sc in each "
        "dc and ch-1 sp to next corner; rep from * 3 more times; join. (56 sc)"
    )
    side = "4 x (dc 3, ch2, dc 3, ch1, dc 3, ch1)"
    assert came_to(f"round {side}", text) == "ok 36/12 -> 56"  # 4 x (3 + 9 + 2)


def test_a_count_of_stitches_whose_name_ends_in_stitch() -> None:
    puff = {"puff st": "[yo, draw up a loop] 3 times in same st, yo, draw through all; counts as 1"}
    text = (
        "Row 5: Ch 1, sc in first 2 sts, *puff st in next st, sc in next 3 sts; rep from * to last "
        "3 sts, puff st in next st, sc in last 2 sts. (22 sc, 7 puff sts)"
    )
    assert came_to("sc 29", text, special_stitches=puff) == "ok 29 -> 29"
    wrong = text.replace("7 puff", "6 puff")
    assert came_to("sc 29", wrong, special_stitches=puff) == "count-mismatch"


@pytest.mark.parametrize("where", ["ch-1 sp", "first ch-1 sp", "next ch-1 sp"])
def test_the_counted_chain_and_its_stitch_are_the_first_group(where: str) -> None:
    text = (
        f"Rnd 3: Sl st in {where}, ch 4 (counts as dc and ch 1), dc in same sp, *V-st in ch-1 sp of "
        "next V-st; rep from * around, join to 3rd ch. (32 V-sts)"
    )
    round_below = "round 32 x (dc, ch1, dc)"
    assert came_to(round_below, text, special_stitches=V_ST) == "ok 64/32 -> 64/32"
    wrong = text.replace("(32", "(33")
    assert came_to(round_below, wrong, special_stitches=V_ST) == "count-mismatch"


def test_a_beginning_shell_is_one_of_the_shells() -> None:
    proof = prove_text(
        "US terms\nBeginning shell (beg shell): Ch 3, (dc, ch 2, 2 dc) in same sp.\n"
        "Shell: (2 dc, ch 2, 2 dc) in indicated sp.\n\n"
        "Ch 6, join with sl st in first ch to form ring.\n"
        "Rnd 1: Ch 4 (counts as dc and ch 1), *dc in ring, ch 1; rep from * 6 more times, join. "
        "(8 dc, 8 ch-1 sps)\n"
        "Rnd 2: Sl st in first ch-1 sp, beg shell, *ch 3, sk next ch-1 sp**, shell in next ch-1 sp; "
        "rep from * around, ending last rep at **, join. (4 shells, 4 ch-3 sps)\n"
        "Rnd 3: Sl st in next dc and in ch-2 sp, beg shell, *ch 2, sc in next ch-3 sp, ch 2**, "
        "shell in ch-2 sp of next shell; rep from * around, ending last rep at **, join. "
        "(4 shells, 4 sc, 8 ch-2 sps)"
    )
    assert proof.verdict == "proved"
    assert [(row.made, row.spaces) for row in proof.rows] == [(8, 8), (16, 8), (20, 12)]


def test_a_chain_and_a_stitch_that_count_as_a_decrease_are_one() -> None:
    text = (
        "Row 5: Ch 2, dc in next st (counts as dc2tog), dc in next 57 sts, dc2tog over last 2 sts. "
        "(59)"
    )
    assert came_to("dc 61, counted 3", text) == "ok 61 -> 59"
    assert came_to("dc 61, counted 3", text.replace("(59", "(60")) == "count-mismatch"


@pytest.mark.parametrize(
    "words",
    [
        "Sc in next 17 sts, sc in each of next 5 chs, sc in next 10 sts",
        "Sc in next 17 sts, sc in next 5 ch, sc in next 10 sts",
        "Sc in each sc and ch around",
        "Sc in each st and in each ch around",
    ],
)
def test_the_chains_of_a_space_may_be_worked_one_by_one(words: str) -> None:
    assert came_to("round sc 17, ch5, sc 10", f"Rnd 28: {words}. (32 sc)") == "ok 27/1 -> 32"
    wrong = came_to("round sc 17, ch5, sc 10", f"Rnd 28: {words}. (31 sc)")
    assert wrong == "count-mismatch"


@pytest.mark.parametrize(
    "words", ["(MC 5 sc, CC 1 sc) 6 times", "[A: 5 sc, B: 1 sc] 6 times", "A 5 sc, B 26 sc, A 5 sc"]
)
def test_a_colour_may_stand_before_its_stitches(words: str) -> None:
    assert came_to("sc 36", f"Row 3: Ch 1, {words}. (36)") == "ok 36 -> 36"


@pytest.mark.parametrize("join", ["Join with sc in first st", "With B, join with sc in first st"])
def test_a_stitch_that_new_yarn_is_joined_with_is_worked(join: str) -> None:
    text = f"Row 2: {join}, sc in next 31 sts, sc in last st. Fasten off. (33 sts)"
    assert came_to("sc 33", text) == "ok 33 -> 33"
    assert came_to("sc 32", text) == "too-many-stitches"


@pytest.mark.parametrize(
    "turn",
    [
        "Rotate and work along the opposite side of the foundation chain:",
        "Turn the work and work in the unused loops on the other side:",
    ],
)
def test_the_other_side_of_the_chain_is_worked_after_a_turn_of_the_piece(turn: str) -> None:
    text = (
        "Round 1: Sc in 2nd ch from hook and in next 18 ch, 3 sc in last ch. "
        f"{turn} sc in next 18 ch, 2 sc in last ch. Join. (42 sts)"
    )
    assert came_to("chain 21", text).endswith("-> 42")


def test_a_row_of_spaces_is_worked_to_the_center_space() -> None:
    begun = "US terms\nCh 4 at the beginning of a row counts as dc + ch 1 throughout.\n\n"
    third = (
        "Ch 4, 3 dc in first ch-1 sp, ch 1, *3 dc in next ch-1 sp, ch 1; rep from * to center ch-2 "
        "sp, (3 dc, ch 2, 3 dc) in ch-2 sp, ch 1, **3 dc in next ch-1 sp, ch 1; rep from ** to "
        "end, dc in 3rd ch of beg ch-4. Turn."
    )
    proof = prove_text(
        f"{begun}Row 1: Make a magic ring. Ch 4, (3 dc, ch 2, 3 dc, ch 1, dc) in ring. Turn. (8 dc, "
        "3 sps)\nRow 2: Ch 4, 3 dc in first ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) in center ch-2 sp, "
        "ch 1, 3 dc in last ch-1 sp, ch 1, dc in 3rd ch of beg ch-4. Turn. (14 dc, 5 sps)\n"
        f"Row 3: {third} (20 dc, 7 sps)\nRows 4-6: Rep Row 3. (38 dc, 13 sps)"
    )
    assert (proof.verdict, made(proof)) == ("proved", [8, 14, 20, 26, 32, 38])


@pytest.mark.parametrize(
    ("text", "terms", "wanted"),
    [
        ("ss across first 4 sts, 1 ch, 1 dc in next st and each st to last 4 sts", "UK", 12),
        ("Sl st in first 4 sts, ch 1, sc in next st and in each st to last 4 sts", "US", 12),
        ("Ch 1, sc in each st to last 4 sts", "US", 16),
    ],
)
def test_what_a_row_stops_before_is_left_where_its_count_says_so(
    text: str, terms: str, wanted: int
) -> None:
    assert came_to("sc 20", f"Row 5: {text}, turn. ({wanted})", terms) == f"ok 20 -> {wanted}"
    silent = came_to("sc 20", f"Row 5: {text}, turn.", terms)
    assert silent == "stitches-left-over"
    assert came_to("sc 20", f"Row 5: {text}, turn. ({wanted - 1})", terms) == "stitches-left-over"


def test_that_stitches_are_left_at_the_end_is_told() -> None:
    proof = prove_text(
        "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)\n"
        "Row 2: Ch 1, sc in each st to last 4 sts, turn. (16 sc)"
    )
    assert [(reading.what, reading.taken) for reading in proof.readings] == [
        ("the stitches that a row stops before, with nothing after them", "are left unworked")
    ]


def test_a_stitch_in_the_first_stitch_says_that_the_chain_of_two_does_not_count() -> None:
    begun = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\n"
    told = prove_text(f"{begun}Row 2: Ch 2, turn, hdc in first st, hdc in each st across.")
    assert (made(told), told.questions) == ([20, 20], ())
    assert told.readings[0].because == "the stitch after it goes into the first stitch"


def test_rows_to_the_corner_and_three_in_each_corner() -> None:
    square = "round 4 x (dc 3, ch2, dc 3, ch1)"
    for words in (
        "sc in each dc and ch-1 sp around, working 3 sc in each corner sp",
        "sc in each dc and each ch-1 sp, and 3 sc in each corner sp, all the way round",
    ):
        assert came_to(square, f"Rnd 3: Ch 1, {words}. (40)") == "ok 24/8 -> 40"
    spoken = (
        "One chain, then one double crochet into each treble and each one-chain space, and three "
        "double crochet into each corner space, all the way round. Forty double crochet."
    )
    assert came_to(square, f"Third round. {spoken}", terms="UK") == "ok 24/8 -> 40"


def test_a_wrong_count_without_spaces_does_not_take_the_spaces_away() -> None:
    proof = prove_text(
        "US terms\nCh 4, join to form ring.\n"
        "Rnd 1: Ch 3 (counts as dc), 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more "
        "times, join to top of ch-3. (13 dc)\n"
        "Rnd 2: Ch 1, *sc in next 3 dc, 3 sc in ch-2 sp; rep from * around, join. (24 sc)"
    )
    assert [problem.label for problem in proof.problems] == ["Rnd 1"]


def test_of_two_readings_with_one_fault_the_one_that_fits_more_rows_is_taken() -> None:
    fan = "US terms\nFan: (2 dc, ch 1, 2 dc) all in same st or sp.\n\nChain 51.\n"
    rows = (
        "Row 1: dc in 4th ch from hook, *sk 2 chs, fan in next ch, sk 2 chs**, dc in each of next 3 "
        "chs; rep from *, ending last rep at **, dc in each of last 2 chs, turn. (6 fans, 19 dc)\n"
        "Row 2: ch 3 (counts as dc), dc in next dc, *fan in ch-1 sp of next fan**, dc in each of "
        "next 3 dc between fans; rep from *, ending last rep at **, dc in next dc, dc in top of "
        "turning ch, turn. (6 fans, 19 dc)\nRows 3 through 10: repeat row 2. (6 fans, 19 dc)\n"
        "Row 11: ch 1, sc in each of first 2 dc, *ch 2, sc in ch-1 sp of next fan, ch 2**, sc in "
        "each of next 3 dc; rep from *, ending last rep at **, sc in next dc, sc in top of turning "
        "ch. (25 sc, 11 ch-2 sps)"
    )
    assert [problem.label for problem in prove_text(fan + rows).problems] == ["Row 11"]
