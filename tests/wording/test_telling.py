"""The words of a step: what is said, in which order, and nothing that a voice would stumble on."""

from __future__ import annotations

from typing import Any

from coach.craft.problem import Verdict
from coach.craft.proof import Foundation, Proof
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.craft.steps import Pace
from coach.craft.working import Action, Block, Group, Into, Where, Work
from coach.wording.plain_text import size_told
from coach.wording.telling import view_parts, words_for_step
from tests.craft.rows_by_hand import (
    TURN,
    chain,
    colored,
    decrease,
    each,
    in_space,
    increase,
    join,
    piece,
    repeat,
    row,
    skip,
    skipped_chains,
    top_of_chain,
    turning,
)


def told(*work: Work, terms: str = "US", pace: Pace = Pace.BLOCK, **facts: Any) -> list[str]:
    """What is said of each step of Row 2, without the facts of the row."""
    (stage, *_) = stages(piece(row(2, *work, **facts)))
    return [words_for_step(stage, step, terms, opens=False).full for step in steps(stage, pace)]


def test_a_run_of_one_stitch() -> None:
    assert told(each("sc", 8), TURN)[0] == (
        "Single crochet in each of the next 8 stitches. That makes: 8 stitches. Turn."
    )


def test_a_group_in_one_place_tells_the_place_first() -> None:
    # R48, in two sentences
    shell = in_space(each("dc", 3), chain(2), each("dc", 3))
    said = told(repeat(4, shell, each("sl st", 1)), decrease("sc2tog"))

    assert said[0] == (
        "Group 1 of 4. Work into the next chain-2 space. Make all of these: "
        "3 double crochet, chain 2, 3 double crochet."
    )
    assert said[1] == "Then slip stitch in the next stitch."
    assert said[8].startswith("Decrease: single crochet the next 2 stitches together.")


def test_a_decrease_without_a_stitch_of_its_own() -> None:
    # R48: dec over next 2 sts
    dec = Block("dec", 1, Where(Into.TOGETHER, 2), uses=2, makes=1)

    assert told(dec, each("sc", 2))[0] == "Decrease: work the next 2 stitches together."


def test_the_size_is_settled_and_the_group_is_told_as_one() -> None:
    # R15, size M: sc in next 8 sts, (sc, ch 1, sc) in next st, sc in last 2 sts
    corner = Group((each("sc", 1), chain(1), each("sc", 1)), Where(Into.NEXT), uses=1)
    said = told(turning(1), TURN, each("sc", 8), corner, each("sc", 2, position="last"))

    assert said[1:] == [
        "Single crochet in each of the next 8 stitches.",
        "Work in the next stitch. Make all of these: single crochet, chain 1, single crochet.",
        "Single crochet in each of the last 2 stitches. That makes: 12 stitches, and 1 space.",
    ]


def test_a_repeat_within_a_repeat_tells_both_numbers() -> None:
    # R17: group 2 of 4, then 1 of 3 inside
    said = told(repeat(4, each("sc", 2), repeat(3, each("dc", 1), chain(1))), each("sc", 2))

    assert said[4] == "Group 2 of 4. Single crochet in each of the next 2 stitches."
    assert said[5] == "Inside it, 1 of 3. Double crochet in the next stitch, chain 1."


def test_an_alternation_is_one_step() -> None:
    (said,) = told(repeat(2, each("FPdc", 1), each("BPdc", 1)), each("FPdc", 1))

    assert said.startswith(
        "The next 5 stitches go in turn. First front post double, then back post double, and so on."
    )


def test_a_chain_that_counts_says_which_stitch_to_skip() -> None:
    said = told(turning(3, "dc"), TURN, each("dc", 19))

    assert said[0] == (
        "Chain 3. Turn. It counts as a double crochet, the first of the row. "
        "Skip the first stitch: the chain stands on it."
    )


def test_a_chain_that_does_not_count_says_where_the_first_stitch_goes() -> None:
    said = told(turning(1), TURN, each("sc", 20))

    assert said[0] == (
        "Chain 1. Turn. The chain does not count as a stitch. "
        "The first stitch goes in the very first stitch."
    )


def test_the_last_stitch_of_a_row_over_a_counted_chain_is_told() -> None:
    proof = piece(
        row(1, skipped_chains(3, "dc"), each("dc", 19, into=Into.CHAIN), TURN),
        row(2, turning(1), each("sc", 20), turned=True),
    )
    second = stages(proof)[1]
    said = words_for_step(second, steps(second)[-1]).full

    assert said == (
        "Single crochet in each of the next 20 stitches. "
        "The last stitch goes in the top of the turning chain. That makes: 20 stitches."
    )


def test_the_first_row_names_the_chain_to_start_in() -> None:
    assert told(skipped_chains(1), each("sc", 42, into=Into.CHAIN))[0] == (
        "Start in the second chain from the hook. The skipped chain does not count."
    )
    assert told(skipped_chains(3, "dc"), each("dc", 76, into=Into.CHAIN))[0] == (
        "Start in the fourth chain from the hook. "
        "The 3 skipped chains count as the first double crochet."
    )


def test_a_change_of_yarn_is_told_inside_the_stitch_before_it() -> None:
    # R45: 8 in A; the ninth: bring in B on its last pull. 4 in B; the fourteenth: bring in A.
    said = told(
        colored("sc", 9, "A"), colored("sc", 5, "B"), colored("sc", 9, "A", position="last")
    )

    assert said == [
        "Single crochet in each of the next 9 stitches. "
        "8 in A; the ninth: bring in B on its last pull.",
        "Single crochet in each of the next 5 stitches. "
        "4 in B; the fourteenth: bring in A on its last pull.",
        "Single crochet in each of the last 9 stitches, in A. That makes: 23 stitches.",
    ]


def test_a_single_stitch_of_another_yarn_tells_both() -> None:
    said = told(colored("sc", 4, "A"), colored("sc", 1, "B"), colored("sc", 4, "A"))

    assert said[1] == "Single crochet in the next stitch, in B. Bring in A on its last pull."


def test_a_change_at_the_end_of_a_row_says_how_long_a_tail_to_leave() -> None:
    first = stages(piece(row(1, colored("sc", 40, "A")), row(2, colored("sc", 40, "B"))))[0]
    said = words_for_step(first, steps(first)[-1], opens=False).full

    assert "the fortieth: bring in B on its last pull." in said
    assert "If you cut the yarn, leave 15 centimetres." in said


def test_skips_and_chains_are_told_with_their_stitch() -> None:
    said = told(repeat(4, each("dc", 1), chain(1), skip(1)), each("dc", 1))

    assert said[0] == "Group 1 of 4. Double crochet in the next stitch, chain 1, skip 1."


def test_a_skip_before_a_stitch_of_several() -> None:
    said = told(repeat(3, skip(2), increase("dc", 5)), each("sc", 1))

    assert said[0] == (
        "Group 1 of 3. Skip the next 2 stitches. Then 5 double crochet, all in the next stitch."
    )


def test_increases_are_called_so() -> None:
    assert (
        told(increase("sc"), each("sc", 1))[0] == "Increase: 2 single crochet in the next stitch."
    )
    assert told(increase("dc", 2, 3), each("sc", 1))[0] == (
        "Increase: 2 double crochet in each of the next 3 stitches."
    )


def test_several_decreases_are_counted() -> None:
    assert told(decrease("hdc2tog", 8), each("sc", 1))[0] == (
        "Decrease 8 times: each time, half double crochet the next 2 stitches together."
    )


def test_post_stitches_go_around_and_spaces_are_gone_into() -> None:
    # R51: always say whether the hook goes into a stitch, a space or a loop.
    space = Block("dc", 3, Where(Into.SPACE, chain_length=3), each=3, uses_spaces=1, makes=3)
    back = each("sc", 5, loop="back")
    said = told(each("FPdc", 3), space, back, each("dc", 1, named="sc"))

    assert said == [
        "Front post double crochet around each of the next 3 stitches.",
        "3 double crochet, all into the next chain-3 space.",
        "Single crochet in each of the next 5 stitches, back loop only.",
        "Double crochet in the next single crochet. That makes: 12 stitches.",
    ]


def test_a_ring_and_stitches_worked_into_it() -> None:
    ring = Block("sc", 6, Where(Into.RING), makes=6)
    proof = Proof("Ring", "US", Foundation(kind="magic ring"), (row(1, ring, kind="round"),))
    foundation, first = stages(proof)[:2]

    assert words_for_step(foundation, steps(foundation)[0], opens=False).full == (
        "Make an adjustable ring."
    )
    assert words_for_step(first, steps(first)[0], opens=False).full == (
        "6 single crochet into the ring. That makes: 6 stitches."
    )


def test_in_a_joined_round_the_join_is_not_a_stitch() -> None:
    # R08: said at the start of every round, with the first stitch to mark.
    rounds = [
        row(
            number,
            turning(1),
            each("sc", 30),
            join(),
            kind="round",
            label=f"Rnd {number}",
            joined=True,
        )
        for number in (4, 5)
    ]
    first, second = (stage for stage in stages(piece(*rounds)) if stage.row)

    assert "The join below" not in words_for_step(first, steps(first)[0]).full
    assert words_for_step(second, steps(second)[0]).full == (
        "Round 5. It comes to 30 stitches. "
        "The join below is not a stitch. Do not work into it. Mark the first stitch. "
        "Chain 1. It does not count as a stitch. The first stitch goes in the very first stitch."
    )
    assert words_for_step(second, steps(second)[-1]).full == (
        "Join with a slip stitch in the first single crochet. That makes: 30 stitches."
    )


def test_uk_terms_name_the_same_stitches_otherwise() -> None:
    work = (turning(3, "dc"), each("dc", 1), skip(1), each("sc", 2), decrease("dc2tog"))
    said = told(*work, terms="UK")

    assert said == [
        "Chain 3. It counts as a treble crochet, the first of the row. "
        "Miss the first stitch: the chain stands on it.",
        "Treble crochet in the next stitch.",
        "Miss the next stitch. Then double crochet in each of the next 2 stitches.",
        "Decrease: treble crochet the next 2 stitches together. That makes: 5 stitches.",
    ]


def test_a_row_opens_with_its_three_facts_its_side_and_its_count() -> None:
    rows = [
        row(number, each("dc", 20), side="RS" if number % 2 == 0 else "WS")
        for number in range(1, 6)
    ]
    for number in range(6, 38):
        rows.append(
            row(
                number,
                each("dc", 20),
                worked_as=f"Row {(number - 6) % 4 + 2}",
                repeat=((number - 6) // 4 + 1, 8),
                side="WS" if number == 24 else "RS",
            )
        )
    stage = stages(piece(*rows))[23]

    # R24
    assert words_for_step(stage, steps(stage)[0]).full.startswith(
        "Row 24, worked as Row 4. It is the third row of the fifth repeat of 8. Wrong side facing. "
        "It comes to 20 stitches."
    )


def test_a_count_that_the_pattern_leaves_out_is_marked_as_worked_out() -> None:
    # R02
    (stage, *_) = stages(piece(row(1, each("sc", 42), stated=None)))

    assert "It comes to 42 stitches, worked out by the coach." in (
        words_for_step(stage, steps(stage)[0]).full
    )


def test_a_long_chain_tells_its_running_total() -> None:
    (stage, *_) = stages(piece(row(1, each("sc", 3)), chains=198))
    said = [words_for_step(stage, step, opens=False).full for step in steps(stage)]

    assert said[5] == "Chain 20. That makes 120 of 198. Put a marker in the last one."
    assert said[9] == (
        "Chain 18. That makes 198 of 198. "
        "A few spare chains do no harm. They come out later from the knot's end."
    )


def test_a_row_without_words_says_so() -> None:
    (stage, *_) = stages(piece(row(7, text="Follow chart.")))

    assert words_for_step(stage, steps(stage)[0], opens=False).full.startswith(
        "Row 7 has no words."
    )


def test_a_remark_of_the_designer_is_told_in_whole_words() -> None:
    remark = Action("remark", "RS of sts faces you")

    assert told(each("sc", 3), remark, each("sc", 2))[1] == (
        "Right side of stitches faces you. Single crochet in each of the next 2 stitches. "
        "That makes: 5 stitches."
    )


def test_the_screen_shows_number_and_stitch_and_nothing_else() -> None:
    # R52: only the present block: group, stitch, number, and the row.
    work = (turning(1), TURN, each("sc", 5), repeat(4, each("dc", 1), chain(1), skip(1)))
    (stage, *_) = stages(piece(row(7, *work, side="RS")))
    told_steps = steps(stage)

    run = view_parts(stage, told_steps[1])
    assert (run.headline, run.big, run.group) == ("Row 7", ("5", "single crochet"), "")
    assert (run.count, run.side) == ("9 stitches and 4 spaces", "right side")
    mesh = view_parts(stage, told_steps[2])
    assert mesh.big == ("1 double", "chain 1", "skip 1")
    assert mesh.group == "group 1 of 4"


def test_the_big_lines_are_short() -> None:
    work = (
        turning(3, "dc"),
        TURN,
        each("FPdc", 3),
        repeat(3, each("FPtr", 1), each("BPtr", 1)),
        decrease("dc3tog"),
        in_space(each("dc", 3), chain(2), each("dc", 3)),
        top_of_chain(),
    )
    (stage, *_) = stages(piece(row(7, *work)))

    for step in steps(stage):
        shown = view_parts(stage, step)
        assert len(shown.big) <= 4, shown.big
        assert all(len(line.split()) <= 6 for line in shown.big), shown.big


def test_a_whole_row_in_one_breath() -> None:
    pattern = (each("FPdc", 3), each("dc", 1))
    (said,) = told(turning(3, "dc"), TURN, repeat(9, *pattern), top_of_chain(), pace=Pace.ROW)

    assert said == (
        "Chain 3. It counts as a double crochet. Turn. Work this group 9 times. Front post "
        "double crochet around each of the next 3 stitches. Double crochet in the next stitch. "
        "That is the group. Double crochet in the top of the turning chain. That makes: 38 stitches."
    )


def test_a_chain_after_a_group_is_told_apart_from_it() -> None:
    shell = in_space(each("dc", 3), chain(2), each("dc", 3))

    assert told(shell, chain(1), each("sc", 1))[0] == (
        "Work into the next chain-2 space. Make all of these: "
        "3 double crochet, chain 2, 3 double crochet. Then chain 1."
    )


def test_a_join_is_told_by_what_the_round_began_with() -> None:
    chained = told(turning(3, "dc"), each("dc", 11), join("dc"), kind="round")
    third = Block("sl st", 1, Where(Into.NEXT, remark="3rd ch of beg ch-4"), role="join")
    nth = told(turning(4, "dc+ch-1"), each("dc", 11), third, kind="round")
    uk = told(each("sc", 12), join("sc"), kind="round", terms="UK")

    assert chained[-1].startswith("Join with a slip stitch in the top of the beginning chain.")
    assert nth[-1].startswith("Join with a slip stitch in the third of the beginning chains.")
    assert uk[-1].startswith("Join with a slip stitch in the first double crochet.")


def test_the_last_round_of_legs_in_one_place_is_no_decrease() -> None:
    cluster = Block("dc3tog", 1, Where(Into.SPACE, chain_length=1), uses_spaces=1, makes=1)

    assert told(cluster, chain(2))[0] == (
        "Double crochet 3 together, all into the next chain-1 space. Then chain 2. "
        "That makes: 1 stitch, and 1 space."
    )


def test_stitches_over_a_mesh_say_what_is_passed() -> None:
    over = Block(
        "dc", 5, Where(Into.NEXT, 5, named="dc"), uses=5, uses_spaces=4, makes=5, passing=4
    )

    assert told(over)[0].startswith(
        "Double crochet in each of the next 5 double crochet. Past the spaces between."
    )


def test_a_chain_made_at_the_turn_is_told_there_and_counted_here() -> None:
    rows = (
        row(1, each("sc", 20), TURN, turning(1)),
        row(2, each("sc", 20), TURN, turning(3), turned=True),
        row(3, Block("ch", 3, Where(Into.NOTHING), uses=1, makes=1, counts_as="dc", role="turning",
                     already_made=True), each("dc", 19), turned=True),
    )  # fmt: skip
    first, second, third = (stage for stage in stages(piece(*rows)) if stage.row)

    assert words_for_step(first, steps(first)[0]).full.endswith(
        "That makes: 20 stitches. Turn. Chain 1 for the next row."
    )
    assert (
        "The chain at the turn does not count. The first stitch goes in the very first stitch."
        in (words_for_step(second, steps(second)[0]).full)
    )
    assert words_for_step(third, steps(third)[0], opens=False).full == (
        "The 3 chains at the turn are made already. They count as a double crochet, "
        "the first of the row. Skip the first stitch: the chain stands on it."
    )


def test_a_row_at_fault_is_told_with_care() -> None:
    (stage, *_) = stages(piece(row(6, each("sc", 76), verdict=Verdict.COUNT_MISMATCH)))

    assert "Take care: the pattern has a fault in this row." in (
        words_for_step(stage, steps(stage)[0]).full
    )


def test_a_remark_stands_before_the_count_and_the_last_stitch_is_told_once() -> None:
    proof = piece(
        row(1, skipped_chains(3, "dc"), each("dc", 19, into=Into.CHAIN), TURN),
        row(
            2, turning(1), each("sc", 20), Action("remark", "working last sc in top of turning ch")
        ),
    )
    second = stages(proof)[1]

    assert words_for_step(second, steps(second)[-1]).full == (
        "Single crochet in each of the next 20 stitches. "
        "The last stitch goes in the top of the turning chain. That makes: 20 stitches."
    )


def test_a_whole_row_is_shown_in_a_few_lines() -> None:
    (stage, *_) = stages(
        piece(row(2, turning(3, "dc"), repeat(9, each("FPdc", 3), each("dc", 1)), top_of_chain()))
    )

    shown = view_parts(stage, steps(stage, Pace.ROW)[0])
    assert shown.big == ("chain 3", "9 groups", "1 double")


def test_a_row_that_ends_in_a_skip_leaves_stitches_unworked() -> None:
    assert told(each("sc", 21), skip(4))[-1] == (
        "Single crochet in each of the next 21 stitches. Leave the last 4 stitches unworked. "
        "That makes: 21 stitches."
    )
    assert (
        told(turning(1), TURN, skip(1))[-1]
        == "Leave the last stitch unworked. That makes: 0 stitches."
    )


def test_a_join_on_a_decrease_or_a_cluster_names_what_fingers_find() -> None:
    top = Block("sl st", 1, Where(Into.NEXT, remark="top of beg cl"), role="join")
    cluster = Block("beg cl", 1, Where(Into.SPACE, chain_length=1), uses_spaces=1, makes=1,
                    role="beginning")  # fmt: skip

    assert told(decrease("hdc2tog"), each("hdc", 6), join(), kind="round")[-1].startswith(
        "Join with a slip stitch in the first stitch."
    )
    assert told(cluster, each("cl", 3), top, kind="round")[-1].startswith(
        "Join with a slip stitch in the top of the first cluster."
    )


def test_the_screen_never_leaves_a_loop_out() -> None:
    front = Block("sc", 60, Where(Into.NEXT, 30, loop="front"), each=2, uses=30, makes=60)
    mosaic = Block("dc", 1, Where(Into.BELOW, loop="front", rows_below=2), uses=1, makes=1)
    (stage, *_) = stages(piece(row(13, front, mosaic)))
    big = [view_parts(stage, step).big for step in steps(stage)]

    assert big == [
        ("2", "single crochet", "in each of the next 30, front loop only"),
        ("1", "double crochet", "2 rows below, front loop only"),
    ]


def test_the_ends_are_told_before_the_first_chain() -> None:
    # R64: count the ends from the colour plan before the start: 24 ends, 3.6 m more yarn.
    rows = [row(number, colored("sc", 40, "ABC"[number % 3])) for number in range(1, 13)]
    (foundation, *_) = stages(piece(*rows, chains=41))

    assert words_for_step(foundation, steps(foundation)[0]).full.startswith(
        "Foundation: 41 chains. 24 ends to weave in. "
        "At 15 centimetres each, they take 3.6 metres more yarn."
    )


def test_a_size_is_called_by_its_name_or_its_number() -> None:
    assert size_told("M") == "size M"
    assert size_told("size 2") == "size 2"
