"""Pieces of a row by a pattern's own names: filet squares, cables, blocks of corner to corner."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.beginning_chains import stand
from coach.craft.fabric import Item, Run, cells_one_by_one
from coach.craft.fabric_ahead import Rest
from coach.craft.hand import Hand
from coach.craft.instruction import Chain, Instruction, Make, Of, Repeated, Target, Which
from coach.craft.pattern import SpecialStitch
from coach.craft.row_bench import Bench


def goes_along(special: SpecialStitch) -> bool:
    """Tell whether a named piece works along the row by its own places, not in one place."""
    parts = special.parts
    return bool(special.over_space) or any(
        isinstance(part, Make)
        and part.target is not None
        and part.target.which is Which.NEXT
        and len(parts) > 1
        for part in parts
    )


def hung_in(special: SpecialStitch, target: Target) -> bool:
    """Tell whether the space is named that a block hangs in: "tile in each ch-3 sp"."""
    first = special.parts[0] if special.parts else None
    hangs = isinstance(first, Make) and first.stitch == "sl st"
    return hangs and target.noun.of is Of.SPACE


def parts_in_place(special: SpecialStitch) -> tuple[Instruction, ...]:
    """Return the parts as they are worked in a place that is named: without places of their own."""
    if not goes_along(special):
        return special.parts
    return tuple(
        replace(part, target=None) if isinstance(part, Make) else part for part in special.parts
    )


def squares(bench: Bench, item: Make, places: int, special: SpecialStitch, hand: Hand) -> Hand:
    """A named piece of the row that has its own places: a filet square, "ch 2, dc in next dc"."""
    number = item.each * item.times * places
    first = special.parts[0]
    square = _stands_by_itself(first)
    if square and not hand.begun and not hand.standing and bench.ground.kind in ("row", "round"):
        if isinstance(first, Chain):
            hand = stand(bench, first.count + 3, f"dc+ch-{first.count}", hand)
            hand = bench.work_all(_by_what_is_below(special, hand)[1:], hand)
        else:
            hand = stand(bench, 3, "dc", hand)
            hand = bench.work_all(_by_what_is_below(special, hand), hand)
        number -= 1
    while number:
        parts, alike = _alike(bench, special, number, hand)
        if len(parts) == 1:
            hand = bench.work_all(parts * alike, hand)
        else:
            hand = bench.step(Repeated(parts, item.place, times=alike, star=False), hand)
        number -= alike
    return hand


def _alike(
    bench: Bench, special: SpecialStitch, most: int, hand: Hand
) -> tuple[tuple[Instruction, ...], int]:
    """Return how the next square is worked, and how many in a row are worked so."""
    parts = _by_what_is_below(special, hand)
    if not special.over_space:
        return parts, most
    alike, ahead = 1, hand
    while alike < most:
        ahead = bench.work_all(parts, ahead)
        if _by_what_is_below(special, ahead) != parts:
            break
        alike += 1
    return parts, alike


def _stands_by_itself(first: Instruction) -> bool:
    """Tell whether a square at a row's beginning needs a chain that its own words do not give."""
    if isinstance(first, Chain):
        return first.counts_as is None and not first.worked
    return isinstance(first, Make) and first.stitch == "dc"


def _by_what_is_below(special: SpecialStitch, hand: Hand) -> tuple[Instruction, ...]:
    """Return how the square is worked over the next place that is left."""
    if not special.over_space or hand.rest is None:
        return special.parts
    ahead = cells_one_by_one((hand.rest.item,), 1)
    if isinstance(special.parts[0], Chain) and special.parts[0].counts_as is not None:
        ahead = cells_one_by_one(_after_the_first(hand.rest), 2)
    below = next(ahead, None)
    return special.parts if below is None or below.is_stitch else special.over_space


def _after_the_first(rest: Rest) -> tuple[Item, ...]:
    """Return what follows the stitch that a beginning chain will stand on."""
    cells = (*cells_one_by_one((rest.item,), 2),)
    if len(cells) > 1:
        return tuple(Run(cell, 1) for cell in cells[1:])
    return (rest.next.item,) if rest.next is not None else ()
