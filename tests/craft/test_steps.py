"""Which blocks are one step, and where each step stands in its row."""

from __future__ import annotations

import pytest

from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.craft.step_tree import Steps
from coach.craft.steps import Pace, Pass, Step
from coach.craft.working import Action, Block, Group, Into, Where, Work
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
    top_of_chain,
    turning,
)


def steps_of(*work: Work, pace: Pace = Pace.BLOCK) -> list[Step]:
    (stage, *_) = stages(piece(row(2, *work)))
    return list(steps(stage, pace))


def stitches(step: Step) -> list[str]:
    return [part.stitch if isinstance(part, Block) else "group" for part in step.parts]


def test_a_repeat_counts_its_passes_and_its_stitches() -> None:
    # Row 2 of a rib: ch 3 (counts as dc), turn, *FPdc in next 3, dc in next, BPdc in next 3,
    # dc in next; rep 9 times, FPdc in next 3, dc in top of turning ch: 1 + 72 + 3 + 1 = 77.
    pattern = (each("FPdc", 3), each("dc", 1), each("BPdc", 3), each("dc", 1))
    told = steps_of(turning(3, "dc"), TURN, repeat(9, *pattern), each("FPdc", 3), top_of_chain())

    assert len(told) == 1 + 9 * 4 + 2
    third_of_second_group = told[7]
    assert third_of_second_group.passes == (Pass(2, 9),)
    assert stitches(third_of_second_group) == ["BPdc"]
    # before it: chain 1, group 1 makes 8, then 3 and 1 of group 2
    assert (third_of_second_group.first, third_of_second_group.last) == (14, 16)
    assert (told[0].first, told[0].last) == (1, 1)
    assert (told[-1].first, told[-1].last) == (77, 77)
    assert told[-1].closes_stage
    assert (told[7].done_before, told[7].left_after) == (13, 77 - 13 - 3)


def test_only_the_first_step_of_a_pass_opens_it() -> None:
    told = steps_of(repeat(3, each("sc", 4), each("dc", 2)))

    assert [step.opens for step in told] == [1, 0, 1, 0, 1, 0]
    assert [step.closes for step in told] == [0, 0, 0, 0, 0, 1]


def test_a_repeat_within_a_repeat_has_both_numbers() -> None:
    # R17: 4 outer groups of (2 sc and 3 times [dc, ch 1]), then 2 sc: 10 sc, 12 dc, 12 spaces.
    told = steps_of(repeat(4, each("sc", 2), repeat(3, each("dc", 1), chain(1))), each("sc", 2))

    assert len(told) == 4 * (1 + 3) + 1
    assert told[6].passes == (Pass(2, 4), Pass(2, 3))
    assert [step.opens for step in told[:5]] == [1, 1, 1, 1, 1]
    assert told[4].passes == (Pass(2, 4),)
    assert told[-1].last == 22


def test_a_repeat_that_begins_with_a_repeat_opens_both() -> None:
    told = steps_of(repeat(2, repeat(2, each("dc", 3), each("sc", 3)), each("hdc", 4)))

    assert [step.opens for step in told[:5]] == [2, 0, 1, 0, 0]
    assert told[5].opens == 2


def test_a_last_pass_that_differs_is_counted_as_a_pass() -> None:
    told = steps_of(repeat(2, each("sc", 4), each("dc", 2), last=(each("sc", 4),)))

    assert [step.passes[0] for step in told] == [
        Pass(1, 3),
        Pass(1, 3),
        Pass(2, 3),
        Pass(2, 3),
        Pass(3, 3),
    ]
    assert told[-1].closes == 1
    assert told[-1].last == 16


def test_a_repeat_of_two_single_stitches_is_one_alternation() -> None:
    told = steps_of(repeat(4, each("FPdc", 1), each("BPdc", 1)))

    assert len(told) == 1
    assert told[0].turns == 8
    assert (told[0].first, told[0].last, told[0].uses) == (1, 8, 8)


def test_the_odd_stitch_after_an_alternation_belongs_to_it() -> None:
    told = steps_of(repeat(2, each("FPdc", 1), each("BPdc", 1)), each("FPdc", 1), each("dc", 3))

    assert [step.turns for step in told] == [5, 0]
    assert told[0].last == 5
    assert told[1].first == 6


def test_stitches_written_out_turn_about_are_an_alternation_too() -> None:
    told = steps_of(each("sc", 1), each("dc", 1), each("sc", 1), each("dc", 1), each("sc", 1))

    assert [step.turns for step in told] == [5]


def test_two_different_stitches_are_two_steps() -> None:
    assert len(steps_of(each("sc", 1), each("dc", 1))) == 2


def test_a_short_chain_and_the_skip_below_it_belong_to_the_stitch() -> None:
    # R26: [dc in next st, ch 1, sk next st] is held in the head as one thing.
    told = steps_of(each("sc", 5), repeat(4, each("dc", 1), chain(1), skip(1)), each("sc", 5))

    assert [stitches(step) for step in told[:3]] == [["sc"], ["dc", "ch", "sk"], ["dc", "ch", "sk"]]
    assert len(told) == 6
    assert (told[3].done_before, told[3].left_after + told[3].uses) == (9, 9)


def test_a_skip_belongs_to_the_stitch_after_it() -> None:
    told = steps_of(repeat(3, skip(2), each("sc", 1), skip(2), increase("dc", 5)))

    assert [stitches(step) for step in told[:2]] == [["sk", "sc"], ["sk", "dc"]]
    assert [(step.uses, step.last - step.first + 1) for step in told[:2]] == [(3, 1), (3, 5)]


def test_a_skip_at_the_end_of_a_pass_belongs_to_the_stitch_before_it() -> None:
    told = steps_of(repeat(3, each("sc", 1), skip(1)))

    assert [stitches(step) for step in told] == [["sc", "sk"]] * 3


def test_chain_and_skip_without_a_single_stitch_stand_by_themselves() -> None:
    # R18: dc in next 4 sts, ch 3, sk next 3 sts, dc in each of last 8 sts.
    told = steps_of(each("dc", 4), chain(3), skip(3), each("dc", 8))

    assert [stitches(step) for step in told] == [["dc"], ["ch", "sk"], ["dc"]]


def test_a_group_in_one_place_is_one_step() -> None:
    # R48: *(3 dc, ch 2, 3 dc) in next ch-2 sp, sl st in next st; 4 times
    shell = in_space(each("dc", 3), chain(2), each("dc", 3))
    told = steps_of(repeat(4, shell, each("sl st", 1)))

    assert [stitches(step) for step in told[:2]] == [["group"], ["sl st"]]
    assert (told[0].first, told[0].last) == (1, 6)
    assert (told[0].uses, told[0].uses_spaces) == (0, 1)


def test_turning_is_told_with_the_turning_chain() -> None:
    told = steps_of(turning(1), TURN, each("sc", 20))

    assert len(told) == 2
    assert told[0].after == (TURN,)
    assert (told[0].first, told[0].last) == (0, 0)


def test_turning_before_the_chain_is_told_before_it() -> None:
    told = steps_of(TURN, turning(1), each("sc", 20))

    assert told[0].before == (TURN,)
    assert told[0].after == ()


def test_what_ends_the_row_is_told_with_its_last_step() -> None:
    told = steps_of(repeat(4, each("sc", 4), each("dc", 2)), TURN)

    assert told[-1].after == (TURN,)
    assert all(step.after == () for step in told[:-1])


def test_a_marker_in_the_middle_uses_no_stitch() -> None:
    # R23: sc in next 6 sts, pm, sc in next 6 sts: pm uses no stitch; 12 holds.
    told = steps_of(each("sc", 6), Action("marker"), each("sc", 6))

    assert [step.last for step in told] == [6, 12]
    assert told[1].before == (Action("marker"),)


def test_a_join_makes_no_stitch() -> None:
    told = steps_of(each("sc", 30), join())

    assert [(step.first, step.last) for step in told] == [(1, 30), (0, 0)]


def test_at_the_stitch_pace_each_stitch_is_a_step() -> None:
    told = steps_of(
        turning(1), TURN, each("sc", 3), increase("dc", 2), decrease("sc2tog"), pace=Pace.STITCH
    )

    assert [step.last for step in told] == [0, 1, 2, 3, 4, 5, 6]
    assert [step.uses for step in told] == [0, 1, 1, 1, 1, 0, 2]


def test_a_group_at_the_stitch_pace_goes_on_in_the_same_place() -> None:
    told = steps_of(in_space(each("dc", 2), chain(1), each("dc", 2)), pace=Pace.STITCH)

    assert [stitches(step) for step in told] == [["dc"], ["dc"], ["ch"], ["dc"], ["dc"]]
    assert [step.uses_spaces for step in told] == [1, 0, 0, 0, 0]
    assert told[-1].last == 4


def test_at_the_row_pace_a_row_is_one_step() -> None:
    told = steps_of(turning(1), repeat(9, each("sc", 2), each("dc", 2)), TURN, pace=Pace.ROW)

    assert len(told) == 1
    assert (told[0].first, told[0].last, told[0].uses) == (1, 36, 36)
    assert told[0].after == (TURN,)


def test_the_next_yarn_is_known_inside_the_stitch_before_it() -> None:
    # R45: 9 in A, 5 in B, 9 in A: two changes.
    told = steps_of(colored("sc", 9, "A"), colored("sc", 5, "B"), colored("sc", 9, "A"))

    assert [step.color_next for step in told] == ["B", "A", None]


def test_a_repeat_in_two_yarns_changes_at_each_seam_but_the_last() -> None:
    # *With A sc in next 4 sts, with B sc in next st; rep from * around (6 times).
    told = steps_of(repeat(6, colored("sc", 4, "A"), colored("sc", 1, "B")))

    assert [step.color_next for step in told] == ["B", "A"] * 5 + ["B", None]


def test_a_very_long_repeat_is_looked_up_not_written_out() -> None:
    (stage, *_) = stages(piece(row(2, repeat(100_000, each("sc", 2), each("dc", 3)))))
    told = steps(stage)

    assert isinstance(told, Steps)
    assert len(told) == 200_000
    assert told[199_999].last == 500_000
    assert told[123_457].passes == (Pass(61_729, 100_000),)


def test_a_step_is_found_by_the_stitch_it_makes() -> None:
    (stage, *_) = stages(piece(row(2, turning(1), repeat(8, each("sc", 4), each("dc", 2)))))
    told = steps(stage)

    assert isinstance(told, Steps)
    assert told[told.at_stitch(31)].passes == (Pass(6, 8),)  # R27: 30 stitches after 5 repeats
    assert [told.at_stitch(stitch) for stitch in (1, 4, 5, 6, 7)] == [1, 1, 2, 2, 3]


def test_equal_neighbours_are_one_run() -> None:
    # "Dc in 4th ch from hook and in each ch across" is one thing to do.
    first, rest = each("dc", 1, into=Into.CHAIN), each("dc", 58, into=Into.CHAIN)

    assert [(step.first, step.last) for step in steps_of(first, rest)] == [(1, 59)]


def test_the_chain_for_the_next_row_is_told_at_the_end_of_this_one() -> None:
    told = steps_of(each("sc", 20), TURN, turning(1))

    assert len(told) == 1
    assert told[0].after == (TURN, Action("turning chain", "1"))


def test_a_yarn_told_by_its_blocks_needs_no_action_of_its_own() -> None:
    told = steps_of(
        Action("colour", "A"), colored("sc", 9, "A"), Action("colour", "B"), colored("sc", 5, "B")
    )

    assert [step.before for step in told] == [(), ()]
    assert [step.color_before for step in told] == [None, "A"]


def test_the_same_place_is_a_space_where_the_hook_was_in_one() -> None:
    # "Ss in next 2 tr and in 2-ch sp, (3ch, 2tr, 2ch, 3tr) in same sp"
    travel = Block("sl st", 1, Where(Into.SPACE, chain_length=2), uses_spaces=1, role="travel")
    corner = Group((each("dc", 2), chain(2), each("dc", 3)), Where(Into.SAME))
    told = steps_of(travel, corner)

    assert told[1].parts[0].where.named == "sp"


def test_a_place_that_a_join_stands_on_is_not_waiting() -> None:
    # A round of 12 whose first place is the join's: 11 are left to slip stitch over and work.
    (stage, *_) = stages(piece(row(2, each("sc", 11), worked=12, before=12)))

    assert steps(stage)[-1].left_after == 0


def test_the_first_stitch_and_the_rest_are_one_run() -> None:
    # "dc in first st and in each st across"
    told = steps_of(each("dc", 1, position="first"), each("dc", 29))

    assert [(step.first, step.last) for step in told] == [(1, 30)]


def test_a_skip_after_a_run_closes_its_group() -> None:
    # *sc in next 7 sts, sk 1 st; rep from * 5 more times
    told = steps_of(repeat(6, each("sc", 7), skip(1)))

    assert len(told) == 6
    assert [(step.uses, step.last) for step in told[:2]] == [(8, 7), (8, 14)]


def test_what_is_skipped_in_a_row_into_the_chain_is_chain() -> None:
    # Row 1: sc in 2nd ch from hook, *sk 2 ch, 5 dc in next ch ...; dc3tog over chains
    into = {"into": Into.CHAIN}
    drawn = Block("dc3tog", 1, Where(Into.TOGETHER, 3), uses=3, makes=1)
    told = steps_of(repeat(2, skip(2), each("sc", 1, **into), last=(skip(1),)), drawn)

    assert told[0].parts[0].where.into is Into.CHAIN
    assert told[2].parts[0].where.into is Into.CHAIN
    assert told[3].parts[0].where.named == "ch"


def test_a_yarn_inside_a_repeat_needs_no_action_before_it() -> None:
    told = steps_of(Action("colour", "B"), repeat(3, colored("sc", 4, "B"), colored("dc", 1, "B")))

    assert told[0].before == ()


def test_a_pair_worked_once_is_no_alternation() -> None:
    assert [step.turns for step in steps_of(repeat(1, each("sc", 1), each("dc", 1)))] == [0, 0]


def test_an_alternation_needs_one_yarn_and_two_stitches() -> None:
    same = repeat(3, each("sc", 1), each("sc", 1, named="dc"))
    yarns = repeat(3, colored("sc", 1, "A"), colored("dc", 1, "B"))
    written = [colored("sc", 1, "A"), colored("sc", 1, "B")] * 2

    assert not any(step.turns for step in steps_of(same))
    assert not any(step.turns for step in steps_of(yarns))
    assert not any(step.turns for step in steps_of(*written))


def test_an_alternation_may_stop_before_its_last_stitch() -> None:
    stops = repeat(2, each("FPdc", 1), each("BPdc", 1), last=(each("FPdc", 1),))
    differs = repeat(2, each("FPdc", 1), each("BPdc", 1), last=(each("dc", 1),))

    assert [step.turns for step in steps_of(stops)] == [5]
    assert [step.turns for step in steps_of(differs)] == [0] * 5


def test_a_remark_without_words_is_no_step() -> None:
    assert len(steps_of(each("sc", 3), Action("remark"), each("dc", 3))) == 2


def test_a_stitch_that_the_row_has_not_got_is_refused() -> None:
    (stage, *_) = stages(piece(row(2, each("sc", 9))))
    told = steps(stage)

    assert isinstance(told, Steps)
    with pytest.raises(ValueError, match="9 stitches, not 10"):
        told.at_stitch(10)
    with pytest.raises(IndexError):
        told[1]
    assert list(told[0:1]) == [told[0]]
