"""The table of moves: what every command does in every mode.

Pure. An order comes in, a new state and a reply come out; nothing moves by itself and there is
no clock. Every command has an answer in every mode. What the moves do stands in `moves`; the
picture of this table in DEVELOPERS.md is drawn from it by `drawing`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from coach.guide import answering, counting, moves, moves_by_rows
from coach.guide.answer import Answer, Given, Reply
from coach.guide.commands import Command, Order
from coach.guide.place import Guide, Mode, Past, Piece

Act = Callable[[Given], Answer]


@dataclass(frozen=True, slots=True)
class Move:
    """What is done, and the modes that it may lead to."""

    act: Act
    to: tuple[Mode, ...]


W, P, A, F = Mode.WORKING, Mode.PAUSED, Mode.ASKING, Mode.FINISHED


def _told(reply: Reply) -> Act:
    """Return the move that only answers."""
    return lambda given: Answer(given.guide, reply)


def _facts(mode: Mode) -> dict[Command, Move]:
    """What may be asked at any time and leaves the mode as it is."""
    stays = (mode,)
    return {
        Command.REPEAT: Move(_told(Reply.AGAIN), stays),
        Command.WHERE: Move(moves.where, (*stays, A) if mode is not A else stays),
        Command.HOW_MANY: Move(_told(Reply.HOW_MANY), stays),
        Command.LEFT: Move(_told(Reply.LEFT), stays),
        Command.EXPLAIN: Move(moves.explain, stays),
        Command.SEE: Move(_told(Reply.SEE), stays),
        Command.COLOURS: Move(moves.own_colours, (*stays, A)),
        Command.TIME_LEFT: Move(_told(Reply.TIME_LEFT), stays),
        Command.HELP: Move(moves.help_told, stays),
        Command.LEARN: Move(_told(Reply.LEARN), stays),
        Command.STOP_TALKING: Move(_told(Reply.SILENT), stays),
        Command.SLOWER: Move(moves.slower, stays),
        Command.FASTER: Move(moves.faster, stays),
        Command.LOUDER: Move(moves.louder, stays),
        Command.SOFTER: Move(moves.softer, stays),
        Command.OTHER_NAME: Move(moves.other_name, stays),
        Command.OTHER_HAND: Move(moves.other_hand, stays),
        Command.GENTLE: Move(moves.gentle_time, stays),
        Command.ROW_BY_ROW: Move(moves.row_by_row, stays),
        Command.BLOCK_BY_BLOCK: Move(moves.block_by_block, stays),
        Command.STITCH_BY_STITCH: Move(moves.stitch_by_stitch, stays),
        Command.REMIND: Move(moves.remind, (*stays, A)),
        Command.COUNT: Move(counting.count, (*stays, A)),
        Command.WIDTH: Move(counting.width, (*stays, A)),
        Command.UNDO: Move(moves.undo, (W, P, F)),
        Command.QUIT: Move(moves.leave, (*stays, A)),
        Command.MICROPHONE: Move(moves.microphone, (*stays, A)),
        Command.QUIET_TIME: Move(moves.quiet_time, stays),
        Command.HELLO: Move(moves.wake, stays),
        Command.YES: Move(_told(Reply.NOTHING_ASKED), stays),
        Command.NO: Move(_told(Reply.NOTHING_ASKED), stays),
        Command.CHOOSE: Move(_told(Reply.NOTHING_ASKED), stays),
    }


# What means something else than an answer: the question is put aside, and nothing is changed by it.
_PUTS_ASIDE = (
    Command.RIPPED,
    Command.RIP_ROWS,
    Command.GO_TO_ROW,
    Command.PAUSE,
    Command.REMIND,
    Command.WIDTH,
)


def _put_aside(given: Given) -> Answer:
    """Do what was ordered as if nothing had been asked."""
    guide = replace(given.guide, question=None)
    move = MOVES[guide.now].get(given.order.command)
    return _no_move(guide) if move is None else move.act(replace(given, guide=guide))


def _no_move(guide: Guide) -> Answer:
    return Answer(guide, Reply.PAUSED_STILL if guide.now is P else Reply.NOT_NOW)


def _places(mode: Mode) -> dict[Command, Move]:
    """What moves the place by whole rows; each asks first."""
    return {
        Command.RIPPED: Move(moves_by_rows.ripped, (mode, A)),
        Command.RIP_ROWS: Move(moves_by_rows.rip_rows, (mode, A)),
        Command.GO_TO_ROW: Move(moves_by_rows.go_to_row, (mode, A) if mode is not F else (W, A, F)),
    }


MOVES: Mapping[Mode, Mapping[Command, Move]] = {
    Mode.WORKING: {
        **_facts(W),
        **_places(W),
        Command.NEXT: Move(moves.forward, (W, A, F)),
        Command.CARRY_ON: Move(moves.forward, (W, A, F)),
        Command.BACK: Move(moves.backward, (W,)),
        Command.PAUSE: Move(moves.pause, (P,)),
        Command.ONE_MORE_ROW: Move(moves_by_rows.one_more_row, (W,)),
        Command.HERE: Move(moves_by_rows.long_enough, (W,)),
    },
    Mode.PAUSED: {
        **_facts(P),
        # Space alone must be able to end a pause; the place is told again and does not move.
        Command.NEXT: Move(moves.carry_on, (W,)),
        Command.CARRY_ON: Move(moves.carry_on, (W,)),
        Command.PAUSE: Move(moves.carry_on, (W,)),
        # A rest that was offered is answered by these.
        Command.YES: Move(moves.pause, (P,)),
        Command.NO: Move(moves.carry_on, (W,)),
    },
    Mode.ASKING: {
        **_facts(A),
        Command.REPEAT: Move(_told(Reply.ASKED), (A,)),
        Command.YES: Move(answering.yes, (W, P, A, F)),
        Command.NO: Move(answering.no, (W, P, F)),
        Command.CHOOSE: Move(answering.choose, (W, P, A, F)),
        Command.COUNT: Move(answering.number, (W, P, A, F)),
        # One finger and four keys are enough: "next" and "back" walk over the answers, and
        # "where" takes the one that was named last.
        Command.NEXT: Move(answering.next_answer, (A,)),
        Command.CARRY_ON: Move(answering.next_answer, (A,)),
        Command.BACK: Move(answering.last_answer, (A,)),
        Command.WHERE: Move(answering.take_answer, (W, P, A, F)),
        Command.UNDO: Move(answering.not_asked, (W, P, A, F)),
        Command.QUIT: Move(moves.leave, (W, P, A, F)),
        **{command: Move(_put_aside, (W, P, A, F)) for command in _PUTS_ASIDE},
    },
    Mode.FINISHED: {
        **_facts(F),
        **_places(F),
        Command.NEXT: Move(_told(Reply.FINISHED), (F,)),
        Command.CARRY_ON: Move(_told(Reply.FINISHED), (F,)),
        Command.REPEAT: Move(_told(Reply.FINISHED), (F,)),
        Command.BACK: Move(moves.back_from_the_end, (W,)),
    },
}


def take(guide: Guide, order: Order, piece: Piece, *, by_voice: bool = False) -> Answer:
    """Return what follows from *order*: the new state, and what is replied.

    A command that has no move in the present mode is answered NOT_NOW. Whatever changes more
    than a question can be undone.
    """
    move = MOVES[guide.now].get(order.command)
    if move is None:
        return _no_move(guide)
    answer = move.act(Given(guide, order, piece, by_voice))
    return _remembered(guide, order, answer)


def _remembered(before: Guide, order: Order, answer: Answer) -> Answer:
    """Note what was asked how often, and let what was changed be undone."""
    times = before.times + 1 if before.asked is order.command else 1
    after = replace(answer.guide, asked=order.command, times=times)
    if (after.stage, after.step) != (before.stage, before.step):
        after = replace(after, explained=0)
    if after == before or answer.reply is Reply.UNDONE:
        return replace(answer, guide=after)
    past = Past(replace(before, question=None, explained=0, asked=None, times=0))
    return replace(answer, guide=replace(after, past=past))
