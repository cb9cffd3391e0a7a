"""The maker's own counts: which row one is about, and whether it is the one to reach.

Why a count is off is found out in `craft.drift`; here nobody is told that they were wrong.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from coach.craft.steps import StageKind
from coach.craft.width import Width
from coach.guide.answer import Answer, Given, Reply
from coach.guide.commands import Command
from coach.guide.place import Counted, Guide, Mode, Piece, is_row
from coach.guide.questions import ask_number


def counted_stages(guide: Guide, piece: Piece) -> tuple[int, ...]:
    """Return the stages that a count told now may be about, the likeliest first.

    At a row's last step it is that row; at its first, the row before; in between, none.
    """
    step = piece.step(guide)
    found: list[int] = []
    if step.closes_stage or guide.mode is Mode.FINISHED:
        found.append(guide.stage)
    if guide.step == 0 and guide.stage > 0:
        found.append(guide.stage - 1)
    return tuple(at for at in found if _has_count(piece, at))


def _has_count(piece: Piece, stage: int) -> bool:
    return is_row(piece.stages[stage]) or piece.stages[stage].kind is StageKind.FOUNDATION


def expected(guide: Guide, piece: Piece) -> int | None:
    """Return the count that would be right now, or None where none is due."""
    stages = counted_stages(guide, piece)
    return piece.stages[stages[0]].stitches if stages else None


def count(given: Given) -> Answer:
    """Compare what the maker has with what the row comes to, and remember it."""
    guide, piece, number = given.guide, given.piece, given.order.number
    if number is None:
        return ask_number(guide, Command.COUNT)
    stages = counted_stages(guide, piece)
    if not stages:
        reply = Reply.THANKS if guide.manner.gentle else Reply.COUNT_WITHIN
        return Answer(guide, reply, number=number)
    fits = (at for at in stages if piece.stages[at].stitches == number)
    stage = next(fits, stages[0])
    right = piece.stages[stage].stitches == number
    kept = not right and _as_before(guide, piece, stage, number)
    told = replace(guide, counts=(*_others(guide, stage), Counted(stage, number, kept)))
    if guide.manner.gentle:
        return Answer(told, Reply.THANKS, number=number, stage=stage)
    reply = Reply.COUNT_RIGHT if right else Reply.COUNT_KEPT if kept else Reply.COUNT_OFF
    return Answer(told, reply, number=number, stage=stage)


def _others(guide: Guide, stage: int) -> tuple[Counted, ...]:
    return tuple(each for each in guide.counts if each.stage != stage)


def _as_before(guide: Guide, piece: Piece, stage: int, number: int) -> bool:
    """Whether the maker chose to keep just this difference on a row before."""
    earlier = [each for each in guide.counts if each.stage < stage]
    if not earlier:
        return False
    last = max(earlier, key=lambda each: each.stage)
    difference = last.number - piece.stages[last.stage].stitches
    return last.kept and number - piece.stages[stage].stitches == difference


def off_count(guide: Guide, piece: Piece) -> Counted | None:
    """Return the count that stands between the maker and the next step, if it is off."""
    if guide.manner.gentle:
        return None
    for stage in counted_stages(guide, piece):
        told = guide.count_of(stage)
        if told is not None and not told.kept and told.number != piece.stages[stage].stitches:
            return told
    return None


def keep(guide: Guide, piece: Piece) -> Guide:
    """Return the state in which the count that is off is kept, by the maker's own wish."""
    off = off_count(guide, piece)
    if off is None:
        return guide
    return replace(guide, counts=(*_others(guide, off.stage), replace(off, kept=True)))


def width(given: Given) -> Answer:
    """Take a measured width, to be told as stitches; the first is kept for comparing."""
    guide, order = given.guide, given.order
    if order.number is None and order.measure is None:
        return ask_number(guide, Command.WIDTH)
    measured = measured_width(given)
    if guide.width is None:
        guide = replace(guide, width=measured)
    return Answer(guide, Reply.WIDTH, stage=last_made(given.guide, given.piece))


def rows_unchecked(guide: Guide, piece: Piece) -> int:
    """Return how many rows were finished since the last count, or since this maker began."""
    last = max((each.stage + 1 for each in guide.counts), default=0)
    since = range(max(last, guide.began), guide.stage)
    return sum(1 for at in since if is_row(piece.stages[at]))


def measured_width(given: Given) -> Width:
    """Return the width as told, of the row that was made last; a missing unit is left open."""
    order = given.order
    measure = order.measure if order.measure is not None else Fraction(order.number or 0)
    stage = last_made(given.guide, given.piece)
    return Width(measure, order.unit, given.piece.stages[stage].stitches)


def last_made(guide: Guide, piece: Piece) -> int:
    """Return the stage that was finished last: what hangs from the hook has its width."""
    if guide.stage == 0 or piece.step(guide).closes_stage or guide.mode is Mode.FINISHED:
        return guide.stage
    return guide.stage - 1
