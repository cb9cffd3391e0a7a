"""The stages of a piece: foundation, rows in order, finishing, each with what is true of it."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.ends import ends_of
from coach.craft.finishing import Caution, Fibre, Finish, Task, fibre_of, finishing, task_of
from coach.craft.proof import Foundation, Proof
from coach.craft.stage import Stage
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.craft.steps import Pace, StageKind
from coach.craft.working import Block, Into, Where
from tests.craft.rows_by_hand import (
    TURN,
    colored,
    each,
    join,
    piece,
    repeat,
    row,
    skipped_chains,
    top_of_chain,
    turning,
)


def test_a_piece_goes_from_foundation_through_its_rows_to_the_finishing() -> None:
    proof = piece(
        row(1, skipped_chains(1), each("sc", 16, into=Into.CHAIN), TURN),
        row(2, turning(1), each("sc", 16), TURN),
        chains=17,
        finishing=((20, "Fasten off. Weave in ends."),),
    )

    told = stages(proof)

    assert [stage.kind for stage in told[:3]] == [
        StageKind.FOUNDATION,
        StageKind.ROW,
        StageKind.ROW,
    ]
    assert [stage.label for stage in told[3:5]] == ["Fasten off", "Weave in"]
    assert [stage.number for stage in told] == list(range(1, len(told) + 1))
    assert all(stage.of == len(told) for stage in told)


def test_a_long_chain_is_made_in_lots_of_twenty_with_a_running_total() -> None:
    # R10: Ch 198: nine lots of 20, then one of 18; "back" after 120 returns to 100.
    (foundation, *_) = stages(piece(row(1, each("sc", 3)), chains=198))
    told = steps(foundation)

    assert [step.last for step in told] == [20, 40, 60, 80, 100, 120, 140, 160, 180, 198]
    assert [step.last - step.first + 1 for step in told] == [20] * 9 + [18]
    assert [step.left_after for step in told][-2:] == [18, 0]


def test_a_short_chain_is_one_step_and_so_is_any_chain_at_the_row_pace() -> None:
    (short, *_) = stages(piece(row(1, each("sc", 3)), chains=17))
    (long, *_) = stages(piece(row(1, each("sc", 3)), chains=198))

    assert len(steps(short)) == 1
    assert len(steps(long, Pace.ROW)) == 1


def test_a_ring_is_chained_then_joined() -> None:
    proof = Proof("Ring", "US", Foundation(6, "ring"), (row(1, each("dc", 16)),))
    (foundation, *_) = stages(proof)

    assert [step.task for step in steps(foundation)] == ["chain", "ring"]


def test_foundation_stitches_have_no_chain_before_them() -> None:
    foundation = Foundation(kind="foundation stitches", loops=45)
    proof = Proof("Chainless", "US", foundation, (row(1, each("fsc", 45)),))

    assert stages(proof)[0].kind is StageKind.ROW


def test_a_row_of_a_repeat_knows_which_row_of_which_repeat_it_is() -> None:
    # R24: Rows 6-37: Rep Rows 2-5. Row 24 is the third row of the fifth repeat of 8.
    rows = [row(number, each("dc", 20)) for number in range(1, 6)]
    for number in range(6, 38):
        which, of = (number - 6) // 4 + 1, 8
        worked_as = f"Row {(number - 6) % 4 + 2}"
        rows.append(row(number, each("dc", 20), worked_as=worked_as, repeat=(which, of)))
    by_number = {stage.row.number: stage for stage in stages(piece(*rows)) if stage.row}

    row_24 = by_number[24]
    assert (row_24.worked_as, row_24.repeat) == ("Row 4", (5, 8))
    assert (row_24.row_in_repeat, row_24.rows_in_repeat) == (3, 4)
    assert by_number[25].worked_as == "Row 5"
    assert (row_24.place, row_24.places) == (24, 37)
    assert by_number[5].rows_in_repeat == 0


def row_stages(*rows: object) -> list[Stage]:
    return [stage for stage in stages(piece(*rows)) if stage.row]  # type: ignore[arg-type]


def test_the_chain_that_counts_below_is_met_at_the_end_of_a_turned_row() -> None:
    below = row(1, skipped_chains(3, "dc"), each("dc", 76, into=Into.CHAIN), TURN)
    above = row(2, turning(3, "dc"), each("dc", 75), top_of_chain(), TURN, turned=True)
    plain = row(3, turning(1), each("sc", 77), turned=True)
    first, second, third = row_stages(below, above, plain)

    assert first.counted_below is None
    assert second.counted_below is not None
    assert second.counted_below.role == "skipped chains"
    assert third.counted_below is not None
    assert third.counted_below.role == "turning"


def test_a_round_that_is_not_turned_does_not_meet_the_chain_last() -> None:
    below = row(1, turning(3, "dc"), each("dc", 15), join("dc"), kind="round")
    above = row(2, turning(3, "dc"), each("dc", 15), join("dc"), kind="round")

    assert row_stages(below, above)[1].counted_below is None
    assert row_stages(below, above)[1].joined


def test_a_turn_that_no_words_tell_is_told_at_the_beginning() -> None:
    silent = row_stages(row(1, each("sc", 9)), row(2, turning(1), each("sc", 9), turned=True))
    told = row_stages(row(1, each("sc", 9), TURN), row(2, turning(1), each("sc", 9), turned=True))

    assert silent[1].turns_first
    assert steps(silent[1])[0].before == (TURN,)
    assert not told[1].turns_first
    assert steps(told[1])[0].before == ()


def test_the_yarn_of_the_next_row_is_known_in_the_last_stitch_of_this_one() -> None:
    first, second = row_stages(row(1, colored("sc", 40, "A")), row(2, colored("sc", 40, "B")))

    assert steps(first)[-1].color_next == "B"
    assert steps(second)[-1].color_next is None


def test_a_row_without_words_is_still_a_stage_with_a_step() -> None:
    (stage,) = row_stages(row(7, text="Follow chart."))

    assert [step.task for step in steps(stage)] == ["no words"]


def test_twelve_stripes_have_24_ends_that_take_3_point_6_metres() -> None:
    # R64: 12 stripes, new yarn cut for each: 24 ends, at 15 cm each 3.6 m.
    rows = [row(number, colored("sc", 40, "ABC"[(number - 1) // 2 % 3])) for number in range(1, 25)]
    ends = ends_of(piece(*rows))

    assert (ends.lengths, ends.count) == (12, 24)
    assert float(ends.metres) == 3.6


def test_stripes_of_two_rows_that_wait_at_their_edge_are_not_cut() -> None:
    """A and B in turn, two rows each: either waits two rows at the edge where it is wanted."""
    rows = [
        replace(row(number, colored("sc", 40, "AB"[(number - 1) // 2 % 2])), turned=True)
        for number in range(1, 25)
    ]
    ends = ends_of(piece(*rows))
    assert (ends.lengths, ends.count, ends.carried) == (2, 4, 10)


def test_stripes_of_one_row_are_wanted_at_the_other_edge_and_cut() -> None:
    rows = [
        replace(row(number, colored("sc", 40, "AB"[number % 2])), turned=True)
        for number in range(1, 13)
    ]
    assert ends_of(piece(*rows)).count == 24


def test_a_piece_in_one_yarn_has_two_ends() -> None:
    assert ends_of(piece(row(1, each("sc", 9)), chains=10)).count == 2


def test_two_yarns_carried_through_every_row_are_two_lengths() -> None:
    spots = repeat(6, colored("sc", 4, "A"), colored("sc", 1, "B"))
    ends = ends_of(piece(row(1, spots), row(2, spots)))

    assert ends.lengths == 2
    assert ends.changes == 2 * 11  # in each row A B A B ... six times both


def test_many_ends_are_steps_of_their_own_when_they_are_woven_in() -> None:
    rows = [row(number, colored("sc", 40, "AB"[number % 2])) for number in range(1, 13)]
    weave = next(
        stage
        for stage in stages(piece(*rows))
        if stage.finish is not None and stage.finish.task is Task.WEAVE_IN
    )

    assert sum(step.task == "end" for step in steps(weave)) == 24


def tasks(*sentences: str, gauge: str | None = None) -> list[tuple[Task, bool]]:
    proof = piece(
        row(1, each("sc", 9)),
        finishing=tuple((line, sentence) for line, sentence in enumerate(sentences, 30)),
        gauge=gauge,
    )
    return [(finish.task, finish.usual) for finish in finishing(proof)]


def test_what_the_pattern_leaves_out_is_added_as_the_usual() -> None:
    assert tasks(gauge="14 sts = 10 cm") == [
        (Task.FASTEN_OFF, True),
        (Task.MEASURE, True),
        (Task.WEAVE_IN, True),
        (Task.BLOCK, True),
        (Task.CARE, True),
        (Task.COUNT_IN, True),
    ]


def test_what_the_pattern_says_stands_in_its_own_order() -> None:
    told = tasks(
        'Fasten off, leaving a 6" (15 cm) tail.',
        "Weave in ends along the ribs on the wrong side. Pin to size, damp lightly and leave to "
        "dry. Sew to a fabric back on three sides, slip the pad in and close the last side.",
    )

    assert told == [
        (Task.FASTEN_OFF, False),
        (Task.WEAVE_IN, False),
        (Task.BLOCK, False),
        (Task.JOIN, False),
        (Task.CARE, True),
        (Task.COUNT_IN, True),
    ]


def test_two_tasks_in_one_sentence_are_parted() -> None:
    assert tasks("Fasten off and weave in all ends.")[:2] == [
        (Task.FASTEN_OFF, False),
        (Task.WEAVE_IN, False),
    ]


def test_a_sentence_finds_its_task() -> None:
    assert task_of("Break off.") is Task.FASTEN_OFF
    assert task_of("Wet block lightly.") is Task.BLOCK
    assert task_of("Begin stuffing, and keep adding a little as you close.") is Task.STUFF
    assert task_of("Join with dc through the back loops.") is Task.JOIN
    assert task_of("Enjoy it.") is Task.OTHER


def test_the_fibre_is_the_one_that_the_materials_name() -> None:
    assert fibre_of(["Worsted weight (#4) cotton, about 25 yds"]) is Fibre.COTTON
    assert fibre_of(["DK merino"]) is Fibre.WOOL
    assert fibre_of(["wool or wool blend"]) is Fibre.MIXED
    assert fibre_of(["50% wool, 50% acrylic"]) is Fibre.MIXED
    assert fibre_of(["Worsted weight yarn"]) is Fibre.UNKNOWN


def test_a_lap_blanket_is_told_of_wheels_and_oxygen_and_a_toy_is_not_told_of_wheels() -> None:
    def care(title: str) -> Finish:
        proof = Proof(title, "US", None, (row(1, each("sc", 9)),))
        return next(finish for finish in finishing(proof) if finish.task is Task.CARE)

    assert {Caution.WHEELS, Caution.OXYGEN} <= set(care("Harbour lap blanket").cautions)
    assert Caution.INFANT in care("Cradle Tide Baby Blanket").cautions
    assert Caution.WHEELS not in care("Nest toy").cautions
    assert Caution.TOY in care("Nest toy").cautions


def test_a_round_in_a_ring_has_a_ring_made_before_it() -> None:
    into_ring = Block("sc", 6, Where(Into.RING), makes=6)
    untold = Proof("Egg", "US", None, (row(1, into_ring, kind="round"),))
    closed = Proof(
        "Square", "UK", Foundation(4, "joined chain"), (row(1, into_ring, kind="round"),)
    )

    assert [step.task for step in steps(stages(untold)[0])] == ["magic ring"]
    assert [step.task for step in steps(stages(closed)[0])] == ["chain", "ring"]


def test_a_repeated_row_has_the_count_that_its_model_states() -> None:
    first, second, third = row_stages(
        row(1, each("sc", 9)),
        row(2, each("sc", 9), stated=None, worked_as="Row 1", repeat=(1, 1)),
        row(3, each("sc", 9), stated=None),
    )

    assert [stage.stated for stage in (first, second, third)] == [True, True, False]


def test_a_ring_chained_within_its_round_needs_no_other() -> None:
    # "Rnd 1: Ch 4, sl st in first ch to form ring; ch 3 (counts as dc), 11 dc in ring"
    chain = Block("ch", 4, Where(Into.NOTHING), role="foundation")
    into_ring = Block("dc", 11, Where(Into.RING), makes=11)
    proof = Proof("Ring", "US", None, (row(1, chain, into_ring, kind="round"),))

    assert stages(proof)[0].kind is StageKind.ROUND
