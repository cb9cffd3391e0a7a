"""Any command at any time is answered, the guide stays at a step, and undo goes all the way back."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from coach.craft.proof import Proof
from coach.craft.stages import stages
from coach.craft.steps import Pace
from coach.guide.answer import Answer, Reply
from coach.guide.commands import TAKES_NUMBER, Command, Order
from coach.guide.machine import MOVES, take
from coach.guide.place import (
    Ask,
    Guide,
    Mode,
    Piece,
    Question,
    at_pace,
)
from coach.guide.questions import MENU
from coach.guide.storing import from_plain, to_plain
from tests.guide.pieces import bowl, hat, lace, open_cloth, plain_cloth

PIECES = [bowl(), hat(), lace(24, 12, 3), open_cloth(), plain_cloth(5, 3)]

orders = st.builds(
    Order,
    st.sampled_from(list(Command)),
    st.one_of(st.none(), st.integers(0, 60)),
)


def piece_of(proof: Proof) -> Piece:
    return Piece(stages(proof))


def after(piece: Piece, *commands: Command | Order, guide: Guide | None = None) -> Answer:
    """Return the answer to the last of *commands*, given one after another."""
    answer = Answer(guide or Guide(), Reply.STEP)
    for command in commands:
        order = command if isinstance(command, Order) else Order(command)
        answer = take(answer.guide, order, piece)
    return answer


def place(guide: Guide) -> tuple[int, int]:
    return guide.stage, guide.step


class AnyMaker(RuleBasedStateMachine):
    """A maker who says anything at any time."""

    @initialize(proof=st.sampled_from(PIECES), pace=st.sampled_from(list(Pace)))
    def begins(self, proof: Proof, pace: Pace) -> None:
        self.piece = piece_of(proof)
        fresh = Guide()
        self.guide = replace(fresh, manner=replace(fresh.manner, pace=pace))
        self.changes = [self.guide]

    @rule(order=orders, by_voice=st.booleans())
    def says(self, order: Order, by_voice: bool) -> None:
        before = self.guide
        answer = take(before, order, self.piece, by_voice=by_voice)

        move = MOVES[before.now].get(order.command)
        assert answer.reply
        if move is None:
            assert answer.reply in {Reply.NOT_NOW, Reply.PAUSED_STILL}
            assert answer.guide == before
        else:
            assert answer.guide.now in move.to, (order, before.now, answer.guide.now)
        self.guide = answer.guide
        if answer.reply is Reply.UNDONE:
            self.changes.pop()
            assert self.guide == self.changes[-1]
        elif self.guide != before:
            self.changes.append(self.guide)

    @rule()
    def stores_and_takes_up(self) -> None:
        assert from_plain(to_plain(self.guide)) == self.guide

    @invariant()
    def is_at_a_step(self) -> None:
        if not hasattr(self, "guide"):
            return
        assert 0 <= self.guide.stage < len(self.piece.stages)
        assert (
            0 <= self.guide.step < len(self.piece.steps(self.guide.stage, self.guide.manner.pace))
        )
        assert all(each.stage <= len(self.piece.stages) for each in self.guide.counts)

    def teardown(self) -> None:
        """Undo all the way: each state comes back exactly, and then there is nothing left."""
        if not hasattr(self, "guide"):
            return
        guide = replace(self.guide, question=None)
        for expected in reversed(self.changes[:-1]):
            answer = take(guide, Order(Command.UNDO), self.piece)
            assert answer.reply is Reply.UNDONE
            assert answer.guide == expected
            guide = answer.guide
        assert take(guide, Order(Command.UNDO), self.piece).reply is Reply.NOTHING_TO_UNDO


AnyMaker.TestCase.settings = settings(max_examples=60, stateful_step_count=40, deadline=None)
TestAnyMaker = AnyMaker.TestCase


def everywhere(piece: Piece) -> list[Guide]:
    """A state for every mode, and for every kind of question."""
    start = Guide(stage=1)
    paused, finished = replace(start, mode=Mode.PAUSED), replace(start, mode=Mode.FINISHED)
    asked = [
        replace(start, question=Question(kind, number=1, command=Command.COUNT, answers=2))
        for kind in Ask
    ]
    return [start, paused, finished, replace(start, resting=True), *asked]


@pytest.mark.parametrize("command", list(Command))
def test_every_command_is_answered_in_every_mode(command: Command) -> None:
    piece = piece_of(plain_cloth())
    for guide in everywhere(piece):
        for number in (None, 1, 2, 99):
            answer = take(guide, Order(command, number), piece)
            assert answer.reply
            assert 0 <= answer.guide.stage < len(piece.stages)


def test_next_walks_over_every_step_once_and_back_walks_over_them_again() -> None:
    piece = piece_of(open_cloth())
    guide, forward = Guide(), []
    while guide.mode is not Mode.FINISHED:
        forward.append(place(guide))
        guide = take(guide, Order(Command.NEXT), piece).guide
    backward = []
    guide = take(guide, Order(Command.BACK), piece).guide
    while True:
        backward.append(place(guide))
        answer = take(guide, Order(Command.BACK), piece)
        if answer.reply is Reply.AT_THE_START:
            break
        guide = answer.guide

    assert forward == sorted(set(forward))
    assert backward == forward[::-1]
    assert len(forward) == sum(len(piece.steps(at, Pace.BLOCK)) for at in range(len(piece.stages)))


def test_nothing_moves_while_paused_and_space_alone_ends_the_pause_in_place() -> None:
    piece = piece_of(open_cloth())
    paused = after(piece, Command.NEXT, Command.NEXT, Command.PAUSE).guide

    for command in (Command.BACK, Command.GO_TO_ROW, Command.RIPPED):
        assert place(after(piece, Order(command, 1), guide=paused).guide) == place(paused)
    carried_on = after(piece, Command.NEXT, guide=paused)
    assert carried_on.reply is Reply.CARRIED_ON
    assert place(carried_on.guide) == place(paused)


def test_ripped_back_sets_the_place_and_no_longer_counts_later_rows() -> None:
    """R28: working Rnd 14; ripped back to the end of round seven; check 42; start of Rnd 8."""
    piece = piece_of(hat())
    stage_of = {stage.row.number: at for at, stage in enumerate(piece.stages) if stage.row}
    guide = Guide(stage=stage_of[14], step=1)
    for number, told in ((6, 36), (9, 48), (13, 48)):
        at = replace(guide, stage=stage_of[number], step=0)
        at = replace(at, step=len(piece.steps(at.stage, Pace.BLOCK)) - 1)
        guide = replace(
            guide, counts=after(piece, Order(Command.COUNT, told), guide=at).guide.counts
        )

    asked = after(piece, Order(Command.RIPPED, 7), guide=guide)
    assert asked.reply is Reply.ASKED
    assert place(asked.guide) == place(guide), "nothing is changed before yes"
    done = after(piece, Command.YES, guide=asked.guide)

    assert done.reply is Reply.RIPPED
    assert place(done.guide) == (stage_of[8], 0)
    assert [(each.stage, each.number) for each in done.guide.counts] == [(stage_of[6], 36)]
    assert piece.stages[stage_of[7]].stitches == 42
    assert piece.stages[stage_of[8]].stitches == 48


def test_rip_back_two_rows_counts_the_row_that_is_only_begun() -> None:
    piece = piece_of(plain_cloth(26, 10))
    within_row_6 = Guide(stage=6, step=1)  # the foundation is stage 0

    within = after(piece, Order(Command.RIP_ROWS, 2), Command.YES, guide=within_row_6).guide
    at_start = after(
        piece, Order(Command.RIP_ROWS, 2), Command.YES, guide=Guide(stage=6, step=0)
    ).guide

    assert place(within) == (5, 0), "Row 6 is only begun: it and Row 5 come out"
    assert place(at_start) == (4, 0), "Rows 5 and 4 come out"


def test_a_row_that_is_not_done_can_not_be_ripped_back_to() -> None:
    piece = piece_of(plain_cloth(26, 10))

    answer = after(piece, Order(Command.RIPPED, 9), guide=Guide(stage=4))

    assert answer.reply is Reply.NOT_WORKED_YET
    assert place(answer.guide) == (4, 0)


def test_a_jump_asks_once_and_the_next_row_does_not() -> None:
    piece = piece_of(plain_cloth(26, 10))

    assert after(piece, Order(Command.GO_TO_ROW, 9)).reply is Reply.ASKED
    assert after(piece, Order(Command.GO_TO_ROW, 9), Command.NO).reply is Reply.LEFT_AS_IT_WAS
    assert place(after(piece, Order(Command.GO_TO_ROW, 9), Command.YES).guide) == (9, 0)
    assert after(piece, Order(Command.GO_TO_ROW, 4), guide=Guide(stage=3)).reply is Reply.JUMPED
    assert after(piece, Order(Command.GO_TO_ROW, 77)).reply is Reply.NO_SUCH_ROW


def test_a_count_that_is_off_stands_before_the_next_row_until_it_is_kept() -> None:
    """R02: do not start Row 2. R06: or keep the shape."""
    piece = piece_of(plain_cloth(26, 10))
    at_the_end = Guide(stage=3, step=1)

    told = after(piece, Order(Command.COUNT, 28), guide=at_the_end)
    assert told.reply is Reply.COUNT_OFF
    asked = after(piece, Command.NEXT, guide=told.guide)
    assert asked.reply is Reply.ASKED
    assert place(asked.guide) == place(at_the_end)
    stays = after(piece, Command.NO, guide=asked.guide)
    assert place(stays.guide) == place(at_the_end)
    kept = after(piece, Command.YES, guide=asked.guide)
    assert place(kept.guide) == (4, 0)

    later = replace(kept.guide, step=1)
    assert after(piece, Order(Command.COUNT, 28), guide=later).reply is Reply.COUNT_KEPT
    mended = after(piece, Order(Command.COUNT, 26), guide=later)
    assert mended.reply is Reply.COUNT_RIGHT


def test_a_count_told_at_the_start_of_a_row_is_that_of_the_row_before() -> None:
    piece = piece_of(plain_cloth(26, 10))

    answer = after(piece, Order(Command.COUNT, 25), guide=Guide(stage=4, step=0))

    assert (answer.reply, answer.stage) == (Reply.COUNT_OFF, 3)


def test_a_word_heard_ends_the_session_only_after_asking_and_a_key_at_once() -> None:
    piece = piece_of(plain_cloth())

    heard = take(Guide(), Order(Command.QUIT), piece, by_voice=True)
    assert heard.reply is Reply.ASKED
    assert take(heard.guide, Order(Command.YES), piece, by_voice=True).reply is Reply.GOODBYE
    assert take(heard.guide, Order(Command.QUIT), piece, by_voice=True).reply is Reply.GOODBYE
    assert take(Guide(), Order(Command.QUIT), piece).reply is Reply.GOODBYE


def test_one_finger_and_four_keys_reach_pause_rip_count_and_quit() -> None:
    """R55: space, B, R and W only. W three times offers what else there is."""
    piece = piece_of(plain_cloth(26, 10))
    menu = after(piece, Command.WHERE, Command.WHERE, Command.WHERE, guide=Guide(stage=4, step=1))
    assert menu.reply is Reply.ASKED

    def chosen(command: Command) -> Answer:
        walks = [Command.NEXT] * (MENU.index(command) + 1)
        return after(piece, *walks, Command.WHERE, guide=menu.guide)

    assert chosen(Command.PAUSE).guide.mode is Mode.PAUSED
    assert chosen(Command.QUIT).reply is Reply.GOODBYE
    count = chosen(Command.COUNT)
    right = after(piece, Command.NEXT, Command.WHERE, guide=count.guide)
    assert right.reply is Reply.COUNT_RIGHT, "the count that is due is offered first"
    one_less = after(piece, Command.NEXT, Command.NEXT, Command.WHERE, guide=count.guide)
    assert (one_less.reply, one_less.number) == (Reply.COUNT_OFF, 25)
    rip = after(piece, Command.NEXT, Command.WHERE, guide=chosen(Command.RIPPED).guide)
    assert rip.guide.question is not None
    assert rip.guide.question.kind is Ask.RIP
    assert place(after(piece, Command.NEXT, Command.WHERE, guide=rip.guide).guide) == (4, 0)


def test_asking_twice_where_one_is_tells_the_same_and_moves_nothing() -> None:
    """R50: 'what row' twice, then 'repeat'."""
    piece = piece_of(open_cloth())
    guide = Guide(stage=14, step=2)

    twice = after(piece, Command.WHERE, Command.WHERE, guide=guide)
    again = after(piece, Command.REPEAT, guide=twice.guide)

    assert twice.reply is Reply.WHERE
    assert again.reply is Reply.AGAIN
    assert again.guide == guide


@given(
    st.sampled_from(PIECES),
    st.sampled_from(list(Pace)),
    st.sampled_from(list(Pace)),
    st.integers(0, 400),
)
@settings(max_examples=80, deadline=None)
def test_another_pace_begins_at_the_same_stitch(
    proof: Proof, pace: Pace, other: Pace, walk: int
) -> None:
    """The new step begins no later than the old one, and the one after it later."""
    piece = piece_of(proof)
    guide = replace(Guide(), manner=replace(Guide().manner, pace=pace))
    for _ in range(walk):
        guide = take(guide, Order(Command.NEXT), piece).guide
    guide = replace(guide, mode=Mode.WORKING)
    present = piece.step(guide)

    at = at_pace(piece, guide, other)

    steps = piece.steps(guide.stage, other)
    assert steps[at].made_before <= present.made_before or at == 0
    if at + 1 < len(steps) and guide.step > 0:
        following = (steps[at + 1].made_before, steps[at + 1].done_before)
        assert following > (present.made_before, present.done_before)


def test_undo_takes_back_a_setting_as_well_as_a_move() -> None:
    piece = piece_of(plain_cloth())
    start = Guide()

    guide = after(piece, Command.NEXT, Command.SLOWER, Command.OTHER_NAME, Command.GENTLE).guide
    back = after(piece, *[Command.UNDO] * 4, guide=guide)

    assert back.guide == start
    assert after(piece, Command.UNDO, guide=back.guide).reply is Reply.NOTHING_TO_UNDO


def test_a_piece_of_a_hundred_thousand_rows_is_walked_without_writing_it_out() -> None:
    """Only the steps of the stages that are met are made."""
    row = stages(plain_cloth(26, 3))[2]
    made: list[int] = []

    class Endless(tuple[object, ...]):
        pass

    def steps_of(stage: object, pace: Pace) -> list[object]:
        made.append(1)
        from coach.craft.stage_steps import steps  # noqa: PLC0415

        return list(steps(row, pace))

    piece = Piece([row] * 100_000, steps_of)  # type: ignore[arg-type]
    guide = Guide(stage=99_990)
    for _ in range(6):
        guide = take(guide, Order(Command.NEXT), piece).guide

    assert guide.stage == 99_993
    assert len(made) <= 8


def test_every_command_that_takes_a_number_asks_for_it_and_takes_it_alone() -> None:
    piece = piece_of(plain_cloth(26, 10))
    for command in TAKES_NUMBER - {Command.CHOOSE}:
        asked = after(piece, command, guide=Guide(stage=3, step=1))
        assert asked.guide.question is not None, command
        assert asked.guide.question.command is command
        told = after(piece, Order(Command.COUNT, 2), guide=asked.guide)
        direct = after(piece, Order(command, 2), guide=Guide(stage=3, step=1))
        assert (told.reply, told.number, told.stage) == (direct.reply, direct.number, direct.stage)


def test_quiet_time_leaves_the_keys_alone() -> None:
    piece = piece_of(plain_cloth())

    rested = after(piece, Command.QUIET_TIME, Command.NEXT).guide
    assert rested.resting
    assert place(rested) == (0, 1)
    assert not after(piece, Command.HELLO, guide=rested).guide.resting


def test_undo_all_the_way_is_exact_for_a_long_session() -> None:
    piece = piece_of(lace(96, 12, 6))
    guide, seen = Guide(), [Guide()]
    for turn in range(3000):
        command = Command.NEXT if turn % 7 else Command.BACK
        following = take(guide, Order(command), piece).guide
        if following != guide:
            seen.append(following)
        guide = following
    for before, _ in reversed(list(pairwise(seen))):
        guide = take(guide, Order(Command.UNDO), piece).guide
        assert guide == before
