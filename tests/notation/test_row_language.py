"""The words inside one row: which places a stitch goes into, how often, and what is only said.

The texts are ours and the sums by hand; where the trade itself is the rule it is common
practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.rows import came_to


@pytest.mark.parametrize(
    "text",
    [
        "Rnd 3: Sc2tog around, join.",
        "Rnd 3: Ch 1, dec around, join. (6)",
        "Rnd 3: Ch 1, sc2tog in each pair around.",
        "Rnd 3: Ch 2, hdc2tog around. (6 hdc)",
        "Rnd 3: [sc2tog] around. (6)",
        "Rnd 3: Inv dec around. (6)",
    ],
)
def test_a_decrease_goes_over_pairs_never_one_in_one(text: str) -> None:
    assert came_to("round sc 12", text) == "ok 12 -> 6"


def test_a_decrease_over_pairs_does_not_fit_an_odd_number() -> None:
    assert came_to("sc 21", "Row 3: Ch 1, sc2tog across.") == "repeat-does-not-fit"


@pytest.mark.parametrize("loop", ["BLO", "FLO", "In BLO,", "BLO:", "Working in back loops only,"])
@pytest.mark.parametrize(
    "work", ["(5 sc, dec) x 4 [24]", "[5 sc, dec] 4 times (24)", "*5 sc, dec; rep from * around."]
)
def test_a_loop_word_may_stand_before_any_repeat(loop: str, work: str) -> None:
    assert came_to("round sc 28", f"Rnd 8: {loop} {work}") == "ok 28 -> 24"


def test_a_decrease_told_loop_by_loop_is_one_stitch_over_two() -> None:
    told = "draw up a loop in each of next 2 sc, yarn over and through all 3 loops"
    for text in (
        f"({told}—a decrease made) 4 times, sc in next 4 sc.",
        f"({told} on hook) 4 times, sc in next 4 sc.",
        "(decrease over next 2 sc) 4 times, sc in next 4 sc.",
    ):
        assert came_to("round sc 12", f"Rnd 8: {text}") == "ok 12 -> 8"


@pytest.mark.parametrize(
    ("text", "answer_wanted"),
    [
        ("hdc over 1st 3 sts, sc in last 17 sts.", "ok 20 -> 20"),
        ("2 sc in each of the 1st 2 sts, sc in last 18 sts.", "ok 20 -> 22"),
        ("sc in next 19 sts, 2 sc in last 1 st.", "ok 20 -> 21"),
        ("sc in all sts.", "ok 20 -> 20"),
        ("inc in all 20 sts. (40)", "ok 20 -> 40"),
        ("sc into every one of the 20 sts.", "ok 20 -> 20"),
        ("sc in every other st across.", "ok 20 -> 10"),
        ("sc in alternate sts across.", "ok 20 -> 10"),
        ("dc, ch 1 in every other st across.", "ok 20 -> 10/10"),
        ("(dc, ch 1) in every other st across.", "ok 20 -> 10/10"),
        ("2 sc in every 5th st, sc in all other sts.", "ok 20 -> 24"),
        ("sc + dc in next st, sc in next 19 sts.", "ok 20 -> 21"),
    ],
)
def test_the_places_meant(text: str, answer_wanted: str) -> None:
    assert came_to("sc 20", f"Row 3: Ch 1, {text}") == answer_wanted


@pytest.mark.parametrize("joiner", ["+", "and", "&"])
def test_two_stitches_joined_go_into_one_place(joiner: str) -> None:
    text = f"Row 3: Ch 1, *sc {joiner} dc in next st, sk next st; rep from * across."
    assert came_to("sc 20", text) == "ok 20 -> 20"


def test_same_stitch_at_the_head_of_a_repeat_is_the_next_one_where_nothing_was_worked() -> None:
    text = "Row 3: Ch 1, *[sc, dc] in same st, sk next st; rep from * across."
    assert came_to("sc 20", text) == "ok 20 -> 20"


@pytest.mark.parametrize(
    ("text", "made"),
    [
        ("sc across, inc 4 sts evenly spaced across. (24 sc)", "24"),
        ("sc around, inc 3 sts evenly. (23 sc)", "23"),
        ("inc 4 sts evenly spaced across. (24 sc)", "24"),
        ("sc across, dec 4 sts evenly across.", "16"),
    ],
)
def test_shaping_spread_evenly_takes_the_whole_row(text: str, made: str) -> None:
    assert came_to("sc 20", f"Row 3: Ch 1, {text}") == f"ok 20 -> {made}"


def test_more_decreases_than_there_are_stitches_for_can_not_be_spread() -> None:
    assert came_to("sc 20", "Row 3: Ch 1, sc2tog, dec 12 sts evenly across.") == "too-many-stitches"


@pytest.mark.parametrize(
    "told",
    [
        "repeat between * and * 3 more times",
        "repeat between *s 4 times",
        "rep between asterisks 4 times",
        "repeat between ** around",
        "rep from * to * around",
    ],
)
def test_a_repeat_between_stars(told: str) -> None:
    assert came_to("round sc 20", f"Rnd 3: *sc in next 4 sts, inc*, {told}. (24)") == "ok 20 -> 24"


@pytest.mark.parametrize(
    "told",
    [
        "Keep repeating from * to the end of the row.",
        "Continue repeating from * around.",
        "Carry on from * to end.",
    ],
)
def test_a_repeat_told_as_going_on(told: str) -> None:
    assert came_to("round sc 20", f"Rnd 3: *sc in next 4 sts, inc. {told}") == "ok 20 -> 24"


def test_a_repeat_may_name_its_work_after_the_verb() -> None:
    text = "Rnd 3: Repeat [2 sc in next st, sc in next 3 sts] 5 times."
    assert came_to("round sc 20", text) == "ok 20 -> 25"


@pytest.mark.parametrize("way", ["linked dc", "twisted dc"])
def test_a_way_of_working_that_nobody_defined_is_an_unknown_word(way: str) -> None:
    assert came_to("sc 20", f"Row 3: Ch 2, {way} in each st across.") == "unknown-word"


@pytest.mark.parametrize("words", ["no increases", "without increasing", "no shaping"])
def test_what_is_not_done_is_only_said(words: str) -> None:
    assert came_to("round sc 20", f"Rnd 3: Sc around, {words}. (20)") == "ok 20 -> 20"


def test_a_remark_in_brackets_works_nothing() -> None:
    text = "Row 2: Ch 3, turn. Skip the first dc (the ch-3 takes its place), dc in the next 9 dc."
    assert came_to("dc 10", text) == "ok 10 -> 10"


def test_an_invisible_decrease_keeps_its_name() -> None:
    text = "Rnd 3: *sc in next 3 sts, invdec; rep from * around. (16)"
    assert came_to("round sc 20", text) == "ok 20 -> 16"


@pytest.mark.parametrize("joins", ["Attach yarn with a standing sc", "Join yarn with sc"])
def test_yarn_joined_with_a_stitch_makes_that_stitch(joins: str) -> None:
    text = f"Rnd 3: {joins} in first st, sc in next 19 sts."
    assert came_to("round sc 20", text) == "ok 20 -> 20"


@pytest.mark.parametrize(
    ("text", "used"),
    [
        ("Starting in 3rd ch from hook, work 1 hdc into every ch, turn – 24 hdc.", "ok 26 -> 24"),
        ("Beginning with the 2nd ch from hook, sc in each ch across. (25)", "ok 26 -> 25"),
    ],
)
def test_a_row_begun_at_a_chain_from_the_hook_passes_those_before(text: str, used: str) -> None:
    assert came_to("chain 26", f"Row 1: {text}") == used


def test_the_invisible_decrease_is_named_to_the_maker() -> None:
    proof = prove_text(
        "Rnd 1: 6 sc in magic ring. (6) Rnd 2: 2 sc in each st around. (12) "
        "Rnd 3: *sc in next st, inv dec; rep from * around. (8)"
    )
    assert proof.verdict == "proved"
    assert "pattern_stitch='inv dec'" in repr(proof.rows[-1])


SQUARE = "round 4 x (dc 3, ch2)"


@pytest.mark.parametrize(
    "text",
    [
        "Ch 1, sc in each dc around, working 3 sc in each corner sp, join. (24 sc)",
        "1 sc in each dc around, with 3 sc in each ch-2 sp.",
        "Sc in each dc around, placing (3 sc) in each ch-2 sp.",
    ],
)
def test_the_places_that_get_something_else_are_told_after(text: str) -> None:
    # 12 dc get one each, 4 spaces three each
    assert came_to(SQUARE, f"Rnd 3: {text}") == "ok 12/4 -> 24"


@pytest.mark.parametrize(
    ("text", "made"),
    [
        ("with 3 sc in last st.", 22),
        ("working 2 sc in the last st.", 21),
        ("working 2 sc in each of last 2 sts.", 22),
    ],
)
def test_the_last_stitch_may_get_more(text: str, made: int) -> None:
    assert came_to("sc 20", f"Row 3: Ch 1, sc in each st across, {text}") == f"ok 20 -> {made}"


@pytest.mark.parametrize(
    "omitted",
    ["omitting 1 sc at end of last repeat", "omitting last sc", "omit 1 sc at end of last rep"],
)
def test_what_the_last_pass_omits(omitted: str) -> None:
    text = (
        f"Rnd 4: Ch 1, sc in first st, *ch 5, sk 3 sts, sc in next st; rep from * {omitted}, join."
    )
    assert came_to("round sc 48", text) == "ok 48 -> 12/12"


@pytest.mark.parametrize("told", ["and from * to ** once", "then work from * to ** once more"])
def test_a_part_pass_after_the_repeat(told: str) -> None:
    # 3 passes of 6 places and one of 5; 4 of 3 dc, 3 dc between
    text = (
        f"Rnd 4: *dc in next 3 sts, ch 2, sk 2 sts**, dc in next st; rep from * twice more {told}."
    )
    assert came_to("round sc 23", text) == "ok 23 -> 15/4"


@pytest.mark.parametrize(
    "skip",
    [
        "skip (next ch-1 sp, 13 dc, next ch-1 sp) for sleeve",
        "sk next ch-1 sp, next 13 dc and next ch-1 sp",
    ],
)
def test_several_places_skipped_at_once(skip: str) -> None:
    text = f"Row 3: Ch 1, sc in next 3 sc, ch 2, {skip}, sc in next 3 sc."
    assert came_to("sc 3, ch1, dc 13, ch1, sc 3", text) == "ok 19/2 -> 6/1"


@pytest.mark.parametrize(
    "words", ["work 2 sts. together", "work 2 together", "work next 2 sts tog"]
)
def test_old_words_for_a_decrease(words: str) -> None:
    assert came_to("sc 20", f"Row 3: Ch 1, {words}, sc in next 18 sts.") == "ok 20 -> 19"


@pytest.mark.parametrize("name", ["C4", "C4F", "CL3", "T2R"])
def test_a_stitch_may_have_a_figure_in_its_name(name: str) -> None:
    told = "sk next 2 sts, FPtr around each of next 2 sts, FPtr around each of 2 skipped sts"
    text = f"Row 3: Ch 1, dc in first 4 sts, *{name}, dc in next 4 sts; rep from * across."
    assert came_to("sc 28", text, special_stitches={name: told}) == "ok 28 -> 28"


def test_a_name_with_a_figure_that_nobody_defined_is_unknown() -> None:
    assert came_to("dc 24", "Row 3: *C4F, dc in next 4 sts; rep from * across.") == "unknown-word"


@pytest.mark.parametrize(
    "text",
    [
        "With A, sc in next 10 sts, with B, sc in next 10 sts.",
        "In A sc in next 10 sts, change to B, sc in last 10 sts.",
        "(sc 5 in red, sc 5 in blue) 2 times.",
        "With cream, sc in next 10 sts, change to navy, sc in last 10 sts.",
    ],
)
def test_colours_work_no_stitch(text: str) -> None:
    assert came_to("sc 20", f"Row 3: {text}") == "ok 20 -> 20"


@pytest.mark.parametrize("how", ["loosely", "carefully"])
def test_how_a_stitch_is_worked_changes_no_place(how: str) -> None:
    assert (
        came_to("sc 24", f"Row 2: Ch 1, sc {how} in each st across, turn – 24 sts") == "ok 24 -> 24"
    )


def test_more_in_every_so_many_places() -> None:
    text = "Rnd 9: Ch 2 (not a st), dc around, placing 2 dc in every 6th st. Join. (42 dc)"
    assert came_to("round dc 36", text) == "ok 36 -> 42"


@pytest.mark.parametrize("opening", ["buttonhole", "handle", "eyelet"])
def test_an_opening_by_its_use_is_a_chain_space(opening: str) -> None:
    text = f"Row 13: Ch 1, sc in each sc and 2 sc in each {opening} across. (30 sc)"
    assert came_to("sc 8, ch2, sc 10, ch2, sc 8", text) == "ok 26/2 -> 30"


@pytest.mark.parametrize(
    "told",
    [", and do that six times altogether.", ", six times in all.", ", six times altogether."],
)
def test_a_list_told_so_many_times_in_all(told: str) -> None:
    text = (
        f"Rnd 4: Single crochet in the first two stitches, then an increase in the next one{told}"
    )
    assert came_to("round sc 18", text) == "ok 18 -> 24"


@pytest.mark.parametrize(
    "text",
    [
        "dc in each st and (2 dc, ch 2, 2 dc) in each corner sp",
        "dc in each st around and (2 dc, ch 2, 2 dc) in each ch-2 sp",
        "dc in each st around, working (2 dc, ch 2, 2 dc) in each corner sp",
    ],
)
def test_a_square_grows_at_its_corners(text: str) -> None:
    # 36 dc and 4 corners of 4 dc
    assert came_to("round 4 x (dc 9, ch2)", f"Rnd 3: {text}") == "ok 36/4 -> 52/4"


def test_a_stitch_defined_with_its_long_name_answers_to_both() -> None:
    told = "sk next 2 sts, FPtr around each of next 2 sts, FPtr around each of 2 skipped sts"
    for name in ("C4F", "cable 4 front"):
        text = f"Row 3: Ch 1, dc in first 4 sts, *{name}, dc in next 4 sts; rep from * across."
        got = came_to("sc 28", text, special_stitches={"C4F (cable 4 front)": told})
        assert got == "ok 28 -> 28"


@pytest.mark.parametrize("stop", ["down your chain", "all the way down the chain", "along the row"])
def test_a_row_goes_down_the_whole_chain(stop: str) -> None:
    text = f"Sc in the second chain from your hook, and then sc {stop}. You'll end up with 17 sc."
    assert came_to("chain 18", text) == "ok 18 -> 17"
    assert came_to("chain 18", text.replace("17", "18")) == "count-mismatch"


def test_slip_stitches_taken_in_turn_with_others_are_stitches_where_the_count_says_so() -> None:
    text = "Row 9: Ch 1, FLO *sl st, hdc; rep from * to end of row <16 sts>"
    assert came_to("sc 16", text) == "ok 16 -> 16"
    assert came_to("sc 16", text.replace("<16", "<15")) == "count-mismatch"


def test_a_stitch_in_its_own_kind_follows_a_definition_that_says_more() -> None:
    v_st = {"V-st": "(dc, ch 1, dc) in st or sp indicated; V-st in V-st is worked in its ch-1 sp"}
    words = "dc, 8 x (dc, ch1, dc), dc, counted 3"
    text = "Row 2: Ch 3 (counts as dc), V-st in each V-st across, dc in last st. (8 V-sts, 2 dc)"
    assert came_to(words, text, special_stitches=v_st) == "ok 18/8 -> 18/8"


def test_a_count_of_puffs_alone_leaves_no_room_for_a_counted_chain() -> None:
    puff = {"puff": "[yo, insert hook, pull up a loop] 3 times in same st, yo, draw through all"}
    text = "Rnd 5: Ch 2, puff in first st, ch 2, *puff in next st, ch 2; rep from * around; join. 16 puffs"
    assert came_to("round sc 16", text, special_stitches=puff) == "ok 16 -> 16/16"
    silent = text.replace(" 16 puffs", "")
    assert came_to("round sc 16", silent, special_stitches=puff) == "ok 16 -> 16/16"
