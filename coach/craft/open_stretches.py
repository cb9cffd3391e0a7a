"""Stretches that run "across" or "to end": what follows them needs its own places."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from coach.craft.each_place import each_of
from coach.craft.fabric_ahead import stitches_left
from coach.craft.hand import Hand
from coach.craft.instruction import Bound, EachOf, GroupIn, Instruction, Make, Of, Which
from coach.craft.open_ends import demand_of
from coach.craft.places_wanted import target_of
from coach.craft.row_bench import Bench
from coach.craft.spaces_as_chains import chains_opened
from coach.craft.stitch import legs


def open_each(
    bench: Bench, item: Instruction, hand: Hand, tail: Sequence[Instruction]
) -> Iterator[Hand]:
    """An "each" that runs to the end: what follows it needs its own places."""
    demand = demand_of(tail)
    many, until = _as_each(item)
    if many is None:
        yield bench.step(item, hand)
        return
    for part in many.parts:
        for each in (target_of(part), *target_of(part).also):
            hand = chains_opened(bench, each, hand)
    firsts, many = _firsts(many)
    for first in firsts:
        hand = bench.step(first, hand)
    left = stitches_left(hand.rest)
    if until is not None:
        yield each_of(bench, many, hand, None)
        return
    if demand and _takes_all(many, tail) and not bench.states_count:
        yield each_of(bench, many, hand, left)
        return
    tried = dict.fromkeys(
        most
        for most in (
            left - demand,
            left,
            left - demand - 1,
            left - demand + 1,
            left - 1,
            left - 2,
        )
        if 0 <= most <= left
    )
    if not tried:
        tried = {0: None}
    for most in tried:
        yield each_of(bench, many, hand, most)


def _takes_all(many: EachOf, tail: Sequence[Instruction]) -> bool:
    """Tell whether "in each st across" is followed by more of the next stitches: none are left.

    "In the last st" or "in the turning chain" after it is the end of the stretch itself, and
    so is an increase or the one "next st" that an edge is closed with.
    """
    target = target_of(many.parts[-1])
    if len(many.parts) > 1 or not target.open or target.noun.of is not Of.STITCH or not tail:
        return False
    first = tail[0]
    return (
        isinstance(first, Make)
        and first.target is not None
        and first.target.which is Which.NEXT
        and first.target.noun.of is Of.STITCH
        and first.target.count > 1
        and first.each == 1
        and legs(first.stitch) == 1
    )


def _as_each(item: Instruction) -> tuple[EachOf | None, Bound | None]:
    if isinstance(item, EachOf):
        return item, item.until
    if isinstance(item, Make | GroupIn) and item.target is not None:
        return EachOf((item,), item.place, None), None
    return None, None


def _firsts(item: EachOf) -> tuple[list[Instruction], EachOf]:
    """Part "in next st and in each st across" into the named places and the open stretch."""
    part = item.parts[0]
    target = target_of(part)
    if len(item.parts) > 1 or not target.also:
        return [], item
    places = (target, *target.also)
    closed = [each for each in places if each.which is not Which.EACH]
    rest = [each for each in places if each.which is Which.EACH]
    if places[0].which is Which.EACH:
        closed = []
    firsts: list[Instruction] = [replace(part, target=replace(each, also=())) for each in closed]
    parts = tuple(replace(part, target=replace(each, also=())) for each in rest)
    return firsts, EachOf(parts, item.place, None)
