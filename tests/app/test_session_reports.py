"""What makers, leaders and teachers struggle with, told by a session from the pattern's own words.

The numbers (R01 …) are those of the project's list of needs; the right answers were counted by
hand. The patterns are our own.
"""

from __future__ import annotations

from coach.app.settings import Settings
from coach.guide.place import Mode
from coach.ports import View
from tests.app.maker import Maker
from tests.fakes import MemoryProgress

BLANKET = """\
Blanket
Ch 27.
Row 1: Sc in 2nd ch from hook and in each ch across. (26 sc)
Rows 2-10: Ch 1, turn, sc in each sc across. (26 sc)
"""


def test_r01_a_blanket_that_grows_on_every_row() -> None:
    maker = Maker(BLANKET)
    maker.to_the_end_of_row(9)

    told = maker.types("thirty four")

    assert told.startswith(
        "Row 9 comes to 26. 34 is 8 too many. They came in over 8 rows, Rows 2 to 9. "
        "That is one extra a row. Likely: an extra stitch at one edge"
    )
    assert "Last row known right: Row 1." in told
    assert "carry on" not in told.lower()


def test_r02_no_stated_count_is_worked_out_and_row_2_does_not_begin() -> None:
    maker = Maker(
        """\
        Throw
        Ch 43.
        Row 1: Sc in 2nd ch from hook and in each ch across.
        Row 2: Ch 1, turn, sc in each st across.
        """
    )
    maker.to_the_end_of_row(1)

    assert "42 stitches. The pattern does not say; the coach worked it out." in maker.types(
        "how many"
    )
    told = maker.types("forty one")
    assert "41 is 1 too few" in told
    assert "a chain was missed. Or only 42 were chained" in told
    assert "Do not start the next row yet. The pattern is right here." in told
    maker.types("next")
    assert maker.display.view.at["row"] == 1


CHAIN_OF_TWO = """\
Scarf
Ch 20.
Row 1: Hdc in 3rd ch from hook and in each ch across.
Row 2: Ch 2, turn, hdc in each st across.
"""


def test_r03_whether_the_turning_chain_counts_is_asked_once_and_kept() -> None:
    progress = MemoryProgress()
    maker = Maker(CHAIN_OF_TWO, progress=progress)
    assert "Does the beginning chain of 2 count as a stitch?" in maker.first
    assert len(maker.display.view.choices) == 2
    maker.types("2")

    maker.to_row(1)
    assert maker.display.view.row_stitches == 19
    again = Maker(CHAIN_OF_TWO, progress=progress)
    assert "Does the beginning chain" not in again.first
    assert again.display.view.row_stitches == 19
    other = Maker(CHAIN_OF_TWO)
    other.types("1")
    other.to_row(1)
    assert other.display.view.row_stitches == 18
    other.to_row(2)
    assert "The first stitch goes in the very first stitch." in other.said


def test_r03_undo_takes_the_answer_back() -> None:
    maker = Maker(CHAIN_OF_TWO)
    maker.types("2")
    maker.to_row(1)
    while maker.session.guide.answers:
        maker.types("undo")

    maker.to_row(1)
    assert maker.display.view.row_stitches == 18


def test_r05_a_width_by_tape_is_told_as_stitches_and_asks_for_a_count() -> None:
    maker = Maker(
        """\
        Throw
        Gauge: 14 sts = 4 in
        Ch 57.
        Row 1: Sc in 2nd ch from hook and in each ch across. (56)
        Rows 2-60: Ch 1, turn, sc in each st across. (56)
        """
    )
    maker.to_the_end_of_row(1)
    assert "about 56 stitches, by the gauge: as planned" in maker.types("it measures 16 in")
    maker.to_the_end_of_row(40)

    told = maker.types("12.5 in")

    assert "about 44 stitches, by the gauge. That is about 12 fewer than the 56 planned" in told
    assert "Count one row now." in told
    assert "Blocking does not cure" in told


def test_r05_a_width_by_hand_spans_is_told_by_the_first_one() -> None:
    maker = Maker(BLANKET)
    maker.to_the_end_of_row(1)
    assert "I keep this width" in maker.types("2 hands")
    maker.to_the_end_of_row(9)

    told = maker.types("3 hands")  # 26 stitches were 2 hands wide, so 3 hands are 39
    assert "about 39 stitches, going by the first width you told" in told
    assert "13 more than the 26 planned" in told


def test_r05_a_check_is_offered_every_ten_rows_without_one() -> None:
    maker = Maker(REPEATS)
    offers = {}
    while maker.display.view.at["row"] < 33:
        told = maker.types("next")
        if "since the last count" in told:
            offers[maker.display.view.at["row"]] = told.split(".")[0]
        if maker.display.view.at == {"row": 15, "block": 1, "repeat": 0, "stitch": 0}:
            maker.types("16")  # Row 14 is counted

    assert offers == {
        11: "10 rows since the last count",
        25: "10 rows since the last count",
    }
    quiet = Maker(REPEATS, settings=Settings(check_rows=0))
    while quiet.display.view.at["row"] < 12:
        assert "since the last count" not in quiet.types("next")


def test_r07_the_first_round_is_a_gate() -> None:
    maker = Maker(
        """\
        Bowl (US terms)
        Ch 6, join with sl st to form a ring.
        Rnd 1: Ch 3 (counts as dc), 15 dc in ring, join with sl st to top of ch-3. (16 dc)
        Rnd 2: Ch 4 (counts as dc and ch 1), *dc in next dc, ch 1; rep from * around, join to 3rd ch of ch-4. (16 dc, 16 ch-1 sps)
        """
    )
    if maker.session.guide.now is Mode.ASKING:
        maker.types("1")
    maker.to_the_end_of_row(1)

    told = maker.types("seventeen")

    assert "17 is 1 too many" in told
    assert "Take one out now." in told
    assert "17 stitches and 17 spaces. Nothing in its words would stop it" in told


def test_r08_the_joining_slip_stitch_is_not_a_stitch() -> None:
    maker = Maker(
        """\
        Hat
        Ch 4, join with sl st to form a ring.
        Rnd 1: Ch 1, 6 sc in ring, join with sl st to first sc. (6)
        Rnd 2: Ch 1, 2 sc in each st around, join. (12)
        Rnd 3: Ch 1, [sc in next st, 2 sc in next st] 6 times, join. (18)
        Rnd 4: Ch 1, [sc in next 2 sts, 3 sc in next st] 6 times, join. (30)
        Rnd 5: Ch 1, sc in same st and in each st around, join with sl st to first sc. (30 sc)
        Rnds 6-8: Rep Rnd 5.
        """
    )
    maker.to_the_end_of_row(8)

    told = maker.types("thirty four")

    assert (
        "4 too many. They came in over 4 rounds, Rounds 5 to 8. That is one extra a round" in told
    )
    assert "the joining slip stitch was worked into like a stitch" in told
    assert "Last round known right: Round 4." in told


def test_r10_a_long_chain_goes_by_lots_of_twenty() -> None:
    """198 chains: nine lots of 20, then 18; back after 120 returns to 100; spare chains are safe."""
    maker = Maker(
        "Blanket\nCh 198 (multiple of 3).\nRow 1: Sc in 2nd ch from hook and across. (197)"
    )
    totals = [maker.display.view.big[1]]
    last = ""
    while len(totals) < 10:
        last = maker.types("next")
        totals.append(maker.display.view.big[1])
        if totals[-1].startswith("120"):
            assert "That makes 100 of 198" in maker.types("back")
            maker.types("next")

    assert [total.split()[0] for total in totals] == [str(20 * lot) for lot in range(1, 10)] + [
        "198"
    ]
    assert last.startswith("Chain 18. That makes 198 of 198.")
    assert "spare chains do no harm" in last


REPEATS = """\
Blanket
Ch 17.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (16)
Row 2: Ch 1, turn, sc in each st across. (16)
Row 3: Ch 1, turn, *sc in next st, dc in next st; rep from * across. (16)
Row 4: Ch 1, turn, sc in each st across. (16)
Row 5: Ch 1, turn, *dc in next st, sc in next st; rep from * across. (16)
Rows 6-37: Rep Rows 2-5.
"""


def test_r24_a_row_of_a_repeat_is_told_by_three_facts() -> None:
    """Row 24 is worked as Row 4: third row of the fifth repeat of 8; then Row 25 as Row 5."""
    maker = Maker(REPEATS)
    maker.to_row(24)
    place = maker.session.guide

    told = maker.types("which row")

    assert told.startswith("Row 24 of 37")
    assert "Worked as Row 4: third row of the fifth repeat of 8. Wrong side" in told
    assert maker.session.guide == place
    assert "Next: Row 25. Worked as Row 5: fourth row of the fifth repeat of 8." in maker.types(
        "what is left"
    )
    maker.to_row(25)
    assert "Worked as Row 5" in maker.types("where am i")


def test_r27_only_what_was_confirmed_is_claimed() -> None:
    """48 stitches in 8 repeats of 6; 'next' after repeat 5, then 'where'."""
    maker = Maker(
        """\
        Blanket
        Ch 49.
        Row 1: Sc in 2nd ch from hook and in each ch across. (48)
        Row 2: Ch 1, turn, *sc in next 4 sts, dc in next 2 sts; rep from * across. (48)
        """
    )
    maker.to_row(2)
    while maker.display.view.at["repeat"] < 6:
        maker.types("next")

    told = maker.types("where")

    assert "5 of 8 repeats confirmed, 30 stitches." in told
    assert "Count back only to the start of repeat 6." in told
    assert "18 stitches remain after the confirmed ones" in maker.types("what's left")


def test_r28_ripped_back_to_the_end_of_a_round() -> None:
    rounds = "".join(
        f"Rnd {number}: [Sc in next {number - 2} sts, 2 sc in next st] 6 times. ({6 * number})\n"
        for number in range(3, 9)
    )
    maker = Maker(
        "Basket\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
        f"{rounds}Rnds 9-20: Sc in each st around. (48)\n"
    )
    maker.to_row(14)

    asked = maker.types("ripped back to the end of round seven")
    assert "end of Round 7" in asked
    assert maker.display.view.at["row"] == 14
    told = maker.types("yes")

    assert "Check 42 now." in told
    assert "Round 8. It comes to 48 stitches." in told
    assert (maker.display.view.at["row"], maker.display.view.at["block"]) == (8, 1)


LENGTH = """\
Panel
Gauge: 14 sts and 14 rows = 10 cm
Ch 21.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (20)
Row 2: Ch 1, turn, sc in each st across. (20)
Rep Row 2 until piece measures 12 cm, ending with a WS row.
Fasten off.
"""


def test_r29_a_length_becomes_rows_that_end_on_the_side_asked_for() -> None:
    """12 cm is 16.8 rows; Row 17 is a right-side row; so to the end of Row 18, 12.9 cm."""
    maker = Maker(LENGTH)
    maker.to_row(3)
    assert "Work until it measures 12 centimetres." in maker.said
    assert "to the end of Row 18. That is a wrong side row. It is 16 rows from here." in maker.said
    maker.to_the_end_of_row(18)

    told = maker.types("what should i see")

    assert "Feel for the starting tail before you turn. After Row 18 it hangs at the right." in told
    left_handed = Maker(LENGTH, settings=Settings(hand="left"))
    left_handed.to_the_end_of_row(18)
    assert "After Row 18 it hangs at the left." in left_handed.types("what should i see")


def test_r29_the_maker_s_own_cloth_has_the_last_word_on_a_length() -> None:
    maker = Maker(LENGTH)
    maker.to_row(3)
    maker.types("one more row", "one more row")
    assert "to the end of Row 20" in maker.said
    maker.to_the_end_of_row(10)
    maker.types("it is long enough", "next")
    assert maker.display.view.at["row"] == 0, "Row 10 was the last one"
    maker.types("undo", "undo")
    maker.to_row(20)
    assert "Row 20 of 20" in maker.types("where")


def test_r29_one_more_row_asked_for_after_the_last_one_comes_now() -> None:
    maker = Maker(LENGTH)
    maker.to_the_end_of_row(18)
    maker.types("next")
    assert maker.display.view.at["row"] == 0

    maker.types("one more row")

    assert maker.display.view.at["row"] == 19
    assert maker.display.view.side == "right side"


def test_r29_the_changed_length_is_there_after_days() -> None:
    progress = MemoryProgress()
    before = Maker(LENGTH, progress=progress)
    before.to_row(3)
    before.types("one more row", "one more row")
    before.to_row(20)

    assert Maker(LENGTH, progress=progress).display.view.at["row"] == 20


def test_r37_the_spaces_between_groups_were_worked_too() -> None:
    """20 groups of 3; Row 8 told as 79 = 60 + 19 spaces."""
    from tests.craft.test_drift import granny_stripe  # noqa: PLC0415

    maker = Maker(granny_stripe())
    maker.to_the_end_of_row(8)

    assert "the 19 spaces between the groups" in maker.types("seventy nine")


def test_r37_from_the_words_of_a_pattern() -> None:
    """Row 4 has 8 groups of 3 and one stitch at each edge: 26, with 7 spaces between the groups."""
    maker = Maker(
        """\
        Runner (US terms)
        Ch 26.
        Row 1: Sc in 2nd ch from hook and in each ch across. (25)
        Row 2: Ch 1, turn, sc across. (25)
        Row 3: Ch 3 (counts as dc), turn, dc in same st, *sk 2 sts, 3 dc in next st; rep from * to last 3 sts, sk 2 sts, 2 dc in last st. (25 dc)
        Row 4: Ch 3 (counts as dc), turn, 3 dc in each sp between groups across, dc in top of turning ch. (26 dc)
        Row 5: Ch 1, turn, hdc in each dc across. (26 hdc)
        """
    )
    maker.to_the_end_of_row(5)

    told = maker.types("thirty three")

    assert "33 is 7 too many. Most likely: 33 is 26 and the 7 spaces between the groups" in told
    assert "the 7 spaces" not in maker.types("thirty four")


SHAWL = """\
Shawl
Ch 31.
Row 1: Sc in 2nd ch from hook and in each ch across. (30)
Rows 2-40: Ch 1, turn, sc across. (30)
"""


def test_r06_one_wedge_among_several_makers() -> None:
    """11 too many over Rows 2 to 12: one a row; rip back to Row 1, or keep 41. The others go on."""
    wedge, other = Maker(SHAWL), Maker(SHAWL)
    for maker in (wedge, other):
        maker.to_the_end_of_row(12)

    told = wedge.types("forty one")

    assert (
        "41 is 11 too many. They came in over 11 rows, Rows 2 to 12. That is one extra a row"
        in told
    )
    assert "Rip back to the end of Row 1. Or keep 41 and the shape that comes of it." in told
    assert other.types("thirty").startswith("30")
    other.types("next")
    assert other.display.view.at["row"] == 13
    wedge.types("next", "yes")
    assert wedge.display.view.at["row"] == 13


def test_r11_the_stitch_beside_each_corner_was_missed() -> None:
    """Round 2 is 7 a side, 28; told 24: 4 short is one on each of the 4 sides."""
    maker = Maker(
        """\
        Square (US terms)
        Ch 4, join with sl st to form a ring.
        Rnd 1: Ch 3 (counts as dc), 2 dc in ring, [ch 2, 3 dc in ring] 3 times, ch 2, join. (12 dc)
        Rnd 2: Ch 3 (counts as dc), dc in next 2 dc, *(2 dc, ch 2, 2 dc) in corner sp, dc in next 3 dc; rep from * 2 more times, (2 dc, ch 2, 2 dc) in last corner sp, join. (7 dc per side, 28 dc)
        """
    )
    maker.to_the_end_of_row(2)

    told = maker.types("twenty four")

    assert "24 is 4 too few. Most likely: 1 stitch fewer on each of the 4 sides" in told
    assert "the first stitch after each corner was missed" in told


def test_r26_a_row_put_down_after_the_second_group() -> None:
    """Row 14 on 18 stitches: 5 and two groups of 2 are used, 9 are left; group 3 of 4 is next."""
    rows = "".join(
        f"Row {number}: Ch 1, turn, sc in each st across. (18)\n" for number in range(2, 14)
    )
    text = (
        "Quay Cloth\nCh 19.\n"
        f"Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (18)\n{rows}"
        "Row 14 (WS): Ch 1, turn, sc in next 5 sts, "
        "[dc in next st, ch 1, sk next st] 4 times, sc in last 5 sts.\n"
    )
    before = Maker(text)
    before.to_row(14)
    while before.display.view.at["repeat"] < 3:
        before.types("next")

    assert Maker(text, progress=before.progress).first.startswith(
        "Quay Cloth. Row 14, wrong side facing. "
        "2 of 4 groups done. 9 stitches of the row below used, 9 left. "
        "Next: group 3 of 4. Double crochet in the next stitch, chain 1, skip 1."
    )


def test_r41_terms_that_nothing_tells_are_asked_before_row_1() -> None:
    maker = Maker(
        "Square\nCh 29.\nRow 1: 1 tr in 4th ch from hook, 1 tr in each ch to end, turn. (27 tr)\n"
    )
    assert "US or UK terms?" in maker.first
    assert "Likely UK: the chains skipped at the hook suit" in maker.first
    assert [choice[:2] for choice in maker.display.view.choices] == ["US", "UK"]
    maker.types("2")

    maker.to_the_end_of_row(1)
    assert "reble crochet" in maker.said
    other = maker.types("the other name")
    assert "US names from now on." in other
    assert "ouble crochet" in other


def test_r43_only_directions_in_space_are_mirrored_and_for_one_maker_only() -> None:
    text = """\
        Edging
        Ch 21.
        Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (20)
        Fasten off.
        FINISHING
        With right side facing, join yarn in top right corner; working from right to left, sc in each st across.
        """
    told = {}
    for hand in ("right", "left"):
        maker = Maker(text, settings=Settings(hand=hand))
        while "join yarn" not in maker.display.view.sentence.lower():
            maker.types("next")
        told[hand] = maker.said

    assert "top right corner" in told["right"]
    assert "right to left" in told["right"]
    assert "right side facing" in told["left"].lower()
    assert "top left corner" in told["left"]
    assert "left to right" in told["left"]


def test_r45_a_colour_is_changed_inside_the_stitch_before() -> None:
    maker = Maker(
        """\
        Band
        Ch 24.
        Row 1: Sc in 2nd ch from hook and in each ch across. (23)
        Row 2: With A sc in next 9 sts, with B sc in next 5 sts, with A sc in last 9 sts. (23)
        """
    )
    maker.to_row(2)

    assert "8 in A; the ninth: bring in B on its last pull" in maker.said
    maker.types("next")
    assert "4 in B; the fourteenth: bring in A on its last pull" in maker.said
    maker.types("next")
    assert "last 9 stitches, in A" in maker.said


def test_r46_colours_that_the_words_leave_open_are_told_and_may_be_given() -> None:
    maker = Maker(
        """\
        Panel
        Ch 41.
        Row 1: Sc in 2nd ch from hook and in each ch across. (40)
        Row 2: Ch 1, turn, sc in each st across. (40)
        Row 3: In next colour, ch 1, turn, sc in each st across. (40)
        Row 4: In next colour, ch 1, turn, sc in each st across. (40)
        """
    )
    assert "The words do not say which colour." in maker.first
    assert "list of colours" in maker.first
    maker.types("colours blue, white and moss green")

    maker.to_row(1)
    assert maker.said.startswith("Begin with blue.")
    maker.to_row(2)
    assert "olour" not in maker.said
    maker.to_row(3)
    assert maker.said.startswith("Next colour: white.")
    maker.to_row(4)
    assert maker.said.startswith("Next colour: moss green.")
    assert maker.display.view.row_stitches == 40


EDGED = """\
Runner
Ch 19.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (18)
Row 2: Turn, sc in next 5 sts, dc in next 8 sts, sc in last 5 sts. (18)
Rows 3-40: Rep Row 2.
"""


def test_r50_what_row_twice_then_repeat_moves_nothing() -> None:
    """Row 17 of 40, second block of three; 23 rows after it, and it is Row 2 the 15th time again."""
    maker = Maker(EDGED)
    maker.to_row(17, step=2)
    block = maker.said

    first, second = maker.types("what row"), maker.types("what row")

    assert first == second
    assert first == (
        "Row 17 of 40, 23 to go after this one. Block 2 of 3. "
        "Worked as Row 2: the fifteenth repeat of 38. Right side."
    )
    maker.types("repeat")
    assert maker.said == block


def test_tell_me_more_after_the_place_tells_what_was_left_out_and_then_how_it_is_made() -> None:
    maker = Maker(REPEATS)
    maker.to_row(17, step=2)
    assert maker.types("where am i") == (
        "Row 17 of 37, 20 to go, block 2 of 2. "
        "Worked as Row 5: fourth row of the third repeat of 8. Right side."
    )

    assert maker.types("tell me more") == "No stitches confirmed yet."
    explained = maker.types("tell me more")
    assert explained.startswith("Double crochet.")
    assert maker.display.view.at["row"] == 17


def test_r51_someone_else_made_the_first_rows() -> None:
    """Start at Row 3: check 25 first; 7 groups in the middle, 2 + 21 + 2 = 25."""
    maker = Maker(
        """\
        Mat
        Ch 26.
        Row 1: Sc in 2nd ch from hook and in each ch across. (25)
        Row 2: Ch 1, turn, sc across. (25)
        Row 3: Ch 3 (counts as dc), turn, dc in same st, *sk 2 sts, 3 dc in next st; rep from * to last 3 sts, sk 2 sts, 2 dc in last st. (25 dc)
        """,
        at_row=3,
    )

    assert maker.first.startswith("Check 25 first.")
    assert "It comes to 25 stitches." in maker.first
    while not maker.display.view.group:
        maker.types("next")
    assert maker.display.view.group == "group 1 of 7"
    assert "in the next stitch" in maker.said


def test_r52_only_the_present_block_stands_on_the_screen() -> None:
    maker = Maker(
        """\
        Band
        Ch 19.
        Row 1: Sc in 2nd ch from hook and in each ch across. (18)
        Row 2: Ch 1, turn, sc in next 5 sts, [dc in next st, ch 1, sk next st] 4 times, sc in last 5 sts.
        """
    )
    maker.to_row(2, step=3)
    view: View = maker.display.view
    shown = len(maker.display.views)

    assert view.group == "group 1 of 4"
    assert "double" in " ".join(view.big)
    assert "5" not in " ".join(view.big), "no other block"
    maker.clock.wait(3600)
    assert len(maker.display.views) == shown, "without input nothing is drawn again"


def test_r53_what_rests_on_sight_is_told_before_the_start() -> None:
    maker = Maker(
        """\
        Shawl
        Ch 7.
        Row 1: Sc in 2nd ch from hook and in each ch across. (6)
        Row 2: Work as shown in photo 3.
        Row 3: Sc in each of the darker sts.
        """
    )

    assert maker.first.startswith("Row 2 to Row 3 have no words; they can't be guided.")
    maker.to_row(2)
    assert "has no words. It cannot be guided." in maker.said


def test_rows_that_do_not_add_up_are_told_before_the_start() -> None:
    maker = Maker(
        """\
        Band
        Ch 11.
        Row 1: Sc in 2nd ch from hook and in each ch across. (10)
        Row 2: Ch 1, turn, sc in next 8 sts. (10)
        Row 3: Ch 1, turn, sc in each st across. (10)
        """
    )

    assert "the pattern has a fault in 1 row: Row 2. I'll say so there." in maker.first


def test_r56_a_rest_is_offered_once_at_the_end_of_a_block() -> None:
    """Reminder at 20 minutes; 'next' at 20:40: the rest is offered; 'next' again goes on."""
    maker = Maker(REPEATS)
    maker.to_row(6)
    maker.types("remind me to rest every 20 minutes")
    steps = len(
        maker.session.piece.steps(maker.session.guide.stage, maker.session.guide.manner.pace)
    )
    entries = len(maker.log.entries)
    maker.clock.wait(20 * 60)
    assert len(maker.log.entries) == entries, "nothing at 20:00"
    maker.clock.wait(40)

    told = maker.types("next")

    assert told == f"Twenty minutes. Rest here? Row 6, block 1 of {steps} is done."
    assert "paused" in maker.display.view.signs
    maker.types("next")
    assert (maker.display.view.at["row"], maker.display.view.at["block"]) == (6, 2)
    assert "Rest here" not in maker.said
    maker.types("next")
    assert "Rest here" not in maker.said, "one reminder"


def test_r56_the_caution_for_hands_is_told_when_a_reminder_is_asked_for_and_not_before() -> None:
    maker = Maker(REPEATS)
    told = [maker.first, *(maker.types("next") for _ in range(40))]
    assert "therapist" not in " ".join(told)

    asked = maker.types("remind me to rest every 20 minutes")

    assert asked == (
        "I'll offer a rest after every 20 minutes. It comes at the end of a block. "
        "Short rests often are better than one long one. "
        "If a hand hurts, tingles or goes numb, stop. Ask your doctor or therapist."
    )
    assert "therapist" not in maker.types("remind me to rest every 0 minutes")


def test_r56_the_offer_is_answered_by_voice_and_is_off_until_asked_for() -> None:
    quiet = Maker(REPEATS)
    quiet.clock.wait(5 * 3600)
    assert "Rest here" not in quiet.types("next")

    for word, mode in (("yes please", Mode.PAUSED), ("no thank you", Mode.WORKING)):
        maker = Maker(REPEATS, settings=Settings(rest_minutes=20))
        maker.clock.wait(21 * 60)
        maker.types("next")
        maker.clock.wait(5)
        maker.says(word)
        assert maker.session.guide.mode is mode


def test_r59_gentle_time_has_one_stitch_a_step_no_counts_and_no_word_of_mistakes() -> None:
    maker = Maker(
        """\
        Square
        Ch 21.
        Row 1: Sc in 2nd ch from hook and in each ch across. (20)
        Rows 2-20: Ch 1, turn, sc in each st across. (20)
        """,
        settings=Settings(gentle=True),
    )
    maker.to_row(2, step=2)
    told = [maker.types("next") for _ in range(5)]
    assert len(set(told)) == 1, "one stitch after another, in the same words"
    assert "20" not in " ".join(told)
    assert maker.display.view.count == ""
    assert maker.types("7") == "Thank you. Lovely work.", "in the middle of a row too"
    maker.to_the_end_of_row(2)
    assert "20" not in maker.said
    assert maker.types("22") == "Thank you. Lovely work."
    assert maker.types("next").startswith("Lovely. That is done.")
    assert maker.session.guide.count_of(2) is not None, "the leader's card has the count"
    for _ in range(3):
        assert "From here, then. Lovely." in maker.types("go to row 2")
        assert maker.display.view.at["row"] == 2


def test_r64_the_ends_are_counted_before_the_start_and_woven_in_at_the_finish() -> None:
    """12 stripes, new yarn cut for each: 24 ends."""
    stripes = "".join(
        f"Row {number}: With {'BA'[number % 2]}, ch 1, turn, sc in each st across. (20)\n"
        for number in range(2, 13)
    )
    maker = Maker(
        f"Blanket\nCh 21.\nRow 1: With A, sc in 2nd ch from hook and in each ch across. (20)\n{stripes}"
    )
    told = [maker.first]
    while not maker.display.view.done:
        told.append(maker.types("next"))

    assert "24 ends" in told[0]
    whole = " ".join(told)
    assert "15 centimetres" in whole
    assert whole.count("24 ends") >= 2 or "24" in whole[len(told[0]) :]


def test_a_ring_with_nothing_to_count_tells_no_count() -> None:
    maker = Maker(
        "Daisy (US terms)\nMake a magic ring.\nRnd 1: Ch 1, 6 sc in ring. (6)\n"
        "Rnd 2: 2 sc in each st around. (12)\n"
    )
    assert maker.display.view.count == ""
    assert maker.types("how many") == "There is nothing to count yet."
    maker.types("next")
    assert maker.display.view.count == "6 stitches"
