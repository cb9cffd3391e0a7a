"""The moves that set the place by whole rows: ripping back, going to a row, a length reached.

Ripping back and jumping ask first; what was counted on rows that are gone no longer stands.
"""

from __future__ import annotations

from dataclasses import replace

from coach.guide.answer import Answer, Given, Reply
from coach.guide.commands import Command
from coach.guide.place import Ask, Guide, Mode, Piece, Question, is_row, stretch
from coach.guide.questions import ask, ask_number


def ripped(given: Given) -> Answer:
    """Set the place after the end of a row, once the maker has said yes."""
    number = given.order.number
    if number is None:
        return ask_number(given.guide, Command.RIPPED)
    guide, piece = given.guide, given.piece
    if number == 0:
        first = _first_row(piece, guide.stage)
        return ask(guide, Question(Ask.RIP, number=first), stage=first)
    row = piece.row(number, guide.stage)
    if row is None:
        return Answer(guide, Reply.NO_SUCH_ROW, number=number)
    return _rip_to(guide, piece, row + 1)


def rip_rows(given: Given) -> Answer:
    """Set the place back by so many rows; a row that is only begun counts as one of them."""
    number = given.order.number
    if number is None:
        return ask_number(given.guide, Command.RIP_ROWS)
    guide, piece = given.guide, given.piece
    begun = guide.mode is Mode.FINISHED or guide.step > 0
    place = guide.stage + begun - number
    if number < 1 or place < 0:
        return Answer(guide, Reply.NO_SUCH_ROW, number=number)
    return _rip_to(guide, piece, place)


def _rip_to(guide: Guide, piece: Piece, place: int) -> Answer:
    """Ask before the place is set to the start of stage *place*."""
    done = guide.stage + 1 if _at_the_end(guide, piece) else guide.stage
    if place > done or place >= len(piece.stages):
        return Answer(guide, Reply.NOT_WORKED_YET, stage=place - 1)
    return ask(guide, Question(Ask.RIP, number=place), stage=place)


def _at_the_end(guide: Guide, piece: Piece) -> bool:
    return piece.step(guide).closes_stage


def _first_row(piece: Piece, near: int) -> int:
    part = piece.stages[near].part
    for at, stage in enumerate(piece.stages):
        if stage.part == part and is_row(stage):
            return at
    return 0


def go_to_row(given: Given) -> Answer:
    """Go to the start of a row; a jump of more than one row is asked about."""
    number = given.order.number
    if number is None:
        return ask_number(given.guide, Command.GO_TO_ROW)
    guide, piece = given.guide, given.piece
    row = piece.row(number, guide.stage)
    if row is None:
        return Answer(guide, Reply.NO_SUCH_ROW, number=number)
    if abs(row - guide.stage) <= 1:
        return jumped(guide, row)
    return ask(guide, Question(Ask.JUMP, number=row), stage=row)


def jumped(guide: Guide, stage: int) -> Answer:
    """Go to the start of *stage*; rows that were passed over were made elsewhere."""
    began = stage if stage > guide.stage + 1 else min(guide.began, stage)
    mode = Mode.WORKING if guide.mode is Mode.FINISHED else guide.mode
    moved = replace(guide, stage=stage, step=0, mode=mode, began=began, question=None)
    return Answer(moved, Reply.JUMPED, stage=stage)


def one_more_row(given: Given) -> Answer:
    """Where a length is asked for: work one row more than was worked out.

    At the first step after such rows, the row that is added comes now.
    """
    guide, piece = given.guide, given.piece
    span = _length_here(guide, piece)
    if span is None:
        return Answer(guide, Reply.NO_LENGTH)
    return Answer(_with_rows(guide, span.start, 1), Reply.LONGER, stage=span.stop)


def long_enough(given: Given) -> Answer:
    """Where a length is asked for: leave out the rows that are still to come.

    A row that is begun is finished; one that is only named is left out.
    """
    guide, piece = given.guide, given.piece
    span = _length_here(guide, piece)
    if span is None:
        return Answer(guide, Reply.NO_LENGTH)
    done = guide.stage + (guide.step > 0)
    stop = min(max(done, span.start + 1), span.stop)
    return Answer(_with_rows(guide, span.start, stop - span.stop), Reply.LONG_ENOUGH)


def _length_here(guide: Guide, piece: Piece) -> range | None:
    """Return the rows for a length that the maker is in, or has just come to the end of."""
    here = stretch(piece, guide.stage)
    if here is None and guide.step == 0 and guide.stage > 0:
        return stretch(piece, guide.stage - 1)
    return here


def _with_rows(guide: Guide, first: int, more: int) -> Guide:
    changes = dict(guide.longer)
    changes[first] = changes.get(first, 0) + more
    return replace(guide, longer=tuple(sorted((at, by) for at, by in changes.items() if by)))
