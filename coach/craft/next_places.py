"""Stitches into the next places of a kind: taken in order, told as one block."""

from __future__ import annotations

from dataclasses import replace

from coach.craft import fabric
from coach.craft.fabric import Kind, Run
from coach.craft.fabric_ahead import opened, spaces_left, stitches_left, without
from coach.craft.fabric_taken import Taken, take
from coach.craft.hand import Hand
from coach.craft.instruction import Make, Noun, Of, Skip, Target, Which
from coach.craft.last_places import to_the_last
from coach.craft.made_in_places import made_in
from coach.craft.places_wanted import (
    corner_stitch,
    left_of,
    moved_on,
    none_found,
    sought,
)
from coach.craft.row_bench import Bench
from coach.craft.skipping import skip
from coach.craft.stitch import legs
from coach.craft.working import Into

BEHIND = "the stitch behind it is skipped"


def in_next(bench: Bench, item: Make, target: Target, hand: Hand) -> Hand:  # noqa: PLR0912
    """The next so many places of the kind named, or the same drawn together."""
    together = legs(item.stitch)
    count = max(target.count, 1)
    target = _come_to(bench, target, hand)
    if target.remark == BEHIND:
        return made_in(bench, item, target, hand, Into.BELOW, 0, 0, places=count)
    if (hand.ends and hand.rest is None) or (hand.ends and target.noun.of is Of.SPACE):
        return made_in(bench, item, target, hand, _along(target, hand), 0, 0, places=count)
    wanted = sought(bench, target, hand)
    if target.which is Which.LAST and target.noun.of is Of.SPACE:
        ahead = left_of(hand.rest, wanted) - count
        if ahead > 0:
            passed = take(hand.rest, ahead, wanted)
            hand = replace(
                hand,
                rest=passed.rest,
                used=hand.used + passed.passed,
                used_spaces=hand.used_spaces + passed.passed_spaces + ahead,
            )
    if target.which is Which.LAST and target.noun.of in (Of.STITCH, Of.NAMED):
        hand = to_the_last(count, hand)
    if target.which is Which.NTH and not hand.begun:
        count = 1
        ahead = target.nth - 1 - (1 if hand.standing else 0)
        if ahead > 0:
            hand = skip(bench, Skip(Target(Which.NEXT, target.noun, count=ahead), item.place), hand)
    elif target.which is Which.NTH and hand.standing and target.nth == 2:
        count = 1
    drawn = 1
    if together > 1 and not (target.which is Which.SAME or target.noun.of is Of.SPACE):
        if target.together or (target.count % together == 0 and target.which is not Which.EACH):
            number = item.each * item.times
            count, drawn = max(target.count, together) * number, together
            item = replace(item, each=1, times=1)
        elif (
            target.count == 1
            and item.target is not None
            and target.which in (Which.NEXT, Which.CENTER, Which.CORNER)
        ):
            drawn = 1  # all its legs in one place: a cluster
        else:
            count, drawn = target.count * together * item.each * item.times, together
            item = replace(item, each=1, times=1)
    got = take(hand.rest, count, wanted)
    if not got.found and target.noun.of in (Of.NAMED, Of.SPACE, Of.UNIT):
        got = none_found(bench, got, target, hand, item.place)
    if target.within is not None:
        _pass_figure(bench, got)
    spaces = target.noun.of is Of.SPACE or bool(got.last and not got.last.is_stitch)
    if target.noun.of is Of.STITCH_OR_SPACE:
        return _either(bench, item, target, hand, got)
    uses = got.passed + (0 if spaces else got.found + got.missing)
    uses_spaces = got.passed_spaces + (got.found + got.missing if spaces else 0)
    into = Into.SPACE if spaces else Into.NEXT
    if drawn > 1:
        into = Into.TOGETHER
    elif got.last and got.last.kind is Kind.CHAIN:
        into = Into.CHAIN
    if target.rows_below:
        into = Into.BELOW
    over = 0 if spaces else got.missing
    hand = replace(
        hand,
        rest=got.rest,
        used=hand.used + uses,
        used_spaces=hand.used_spaces + uses_spaces,
        over=hand.over + over,
        over_spaces=hand.over_spaces + (got.missing if spaces else 0),
    )
    return made_in(
        bench,
        item,
        target,
        hand,
        into,
        uses,
        uses_spaces,
        places=count // drawn if drawn > 1 else count,
        last="space" if spaces else "stitch",
        cell=got.last,
        passing=got.passed + got.passed_spaces,
        drawn=drawn if drawn > 1 else 0,
    )


def _come_to(bench: Bench, target: Target, hand: Hand) -> Target:
    """Return the next stitch for "3 sc in corner" where nothing below marks a corner."""
    noun = target.noun
    if hand.ends or target.which is not Which.CORNER or noun != Noun(Of.SPACE, "corner"):
        return target
    if any(cell.kind is Kind.SPACE for cell in fabric.cells(bench.ground.below)):
        return target
    if corner_stitch(bench) is not None:
        return target
    return replace(target, which=Which.NEXT, noun=Noun(Of.STITCH))


def _along(target: Target, hand: Hand) -> Into:
    free = hand.loops_free or target.noun.of is Of.CHAIN
    return Into.FREE_LOOP if free else Into.NEXT


def _pass_figure(bench: Bench, got: Taken) -> None:
    """Pass what is left of the group that was worked into, where the reading is so."""
    unit = got.last.unit if got.last is not None else None
    if unit is None:
        return
    bench.looked.add(("figure", 0))
    if not bench.switches.figure:
        return
    for _ in range(unit.size - 1 - unit.index):
        rest = opened(got.rest) if got.rest is not None else None
        if rest is None or not isinstance(rest.item, Run) or rest.item.cell.unit is None:
            return
        if rest.item.cell.is_stitch:
            got.passed += 1
        else:
            got.passed_spaces += 1
        got.rest = without(rest, 1)


def _either(bench: Bench, item: Make, target: Target, hand: Hand, got: Taken) -> Hand:
    before = hand.rest
    uses = stitches_left(before) - stitches_left(got.rest) + got.missing
    uses_spaces = spaces_left(before) - spaces_left(got.rest)
    hand = moved_on(hand, got, uses, uses_spaces)
    return made_in(
        bench,
        item,
        target,
        hand,
        Into.STITCH_OR_SPACE,
        uses,
        uses_spaces,
        places=target.count,
        last="stitch",
    )
