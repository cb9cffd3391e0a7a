"""A stretch of places worked one after another, each kind of place getting its own stitches."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from coach.craft.each_walk import STITCHES, EachWalk
from coach.craft.fabric import Cell, cells, size
from coach.craft.fabric_ahead import before_last, rest_of, stitches_left
from coach.craft.gaps import between, gap_ahead, has_groups, without_spaces
from coach.craft.hand import Hand
from coach.craft.instruction import Bound, EachOf, Make, Of, Target, Which
from coach.craft.next_places import in_next
from coach.craft.places_wanted import sought, target_of
from coach.craft.row_bench import Bench
from coach.craft.stitch import legs


def each_of(bench: Bench, item: EachOf, hand: Hand, most: int | None) -> Hand:
    """Go over a stretch of places, each kind getting its own stitches."""
    if len(item.parts) == 1 and isinstance(item.parts[0], Make):
        only = item.parts[0]
        gaps = without_spaces(bench, target_of(only))
        item = (
            replace(item, parts=(replace(only, target=gaps),))
            if gaps.noun.of is Of.BETWEEN
            else item
        )
    limit = stretch(bench, item.until, hand) if most is None else most
    part = item.parts[0]
    if len(item.parts) == 1 and isinstance(part, Make) and isinstance(limit, int):
        if target_of(part).noun.of is Of.BETWEEN:
            return each_gap(bench, part, hand, limit)
        if legs(part.stitch) > 1 and part.named is None and target_of(part).noun.of in STITCHES:
            return in_pairs(bench, part, hand, limit)
    until = item.until
    if most is None and until is not None and until.kind == "last" and until.noun.of is Of.SPACE:
        wanted = sought(bench, Target(Which.NEXT, until.noun), hand)
        before, aside = before_last(hand.rest, wanted, until.count)
        if aside is not None and not any(wanted(cell) for cell in cells(before)):
            return hand  # the last one is all that is left
        worked = EachWalk(bench, item, replace(hand, rest=rest_of(before)))
        return replace(worked.over(size(before)[0]), rest=aside)
    walk = EachWalk(bench, item, hand)
    return walk.over(limit)


def in_pairs(bench: Bench, part: Make, hand: Hand, limit: int) -> Hand:
    """A decrease over a stretch: so many places drawn together each time, what is over is left."""
    drawn = legs(part.stitch)
    number = max(limit, 0) // drawn
    if not number:
        return hand
    target = replace(
        target_of(part),
        which=Which.NEXT,
        count=number * drawn,
        together=True,
        until=None,
        open=False,
    )
    return in_next(bench, part, target, hand)


def each_gap(bench: Bench, part: Make, hand: Hand, limit: int) -> Hand:
    """Into every gap between two groups of the stretch: the stitches between them are passed."""
    aside = stitches_left(hand.rest) - limit
    grouped = has_groups(bench)
    while True:
        ahead, passed = gap_ahead(hand.rest, grouped=grouped)
        if not ahead or stitches_left(hand.rest) - passed < max(aside, 1):
            return hand
        hand = between(bench, part, replace(target_of(part), which=Which.NEXT, open=False), hand)


def stretch(bench: Bench, until: Bound | None, hand: Hand) -> int | Callable[[Cell], bool]:
    """Return how many stitches lie before the bound, or the test of the cell that stops it."""
    left = stitches_left(hand.rest)
    if until is None:
        return left
    noun = until.noun
    if until.kind == "last":
        if noun.of is Of.SPACE:
            return sought(bench, Target(Which.NEXT, noun), hand)
        return max(left - until.count, -1)
    if noun.of is Of.TURNING_CHAIN:
        return left - 1
    which = Which.CORNER if noun.of is Of.SPACE and noun.length is None else Which.NEXT
    return sought(bench, Target(which, noun), hand)
