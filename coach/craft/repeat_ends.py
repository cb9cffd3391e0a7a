"""Where an open repeat ends: at the bound that its words name, or with a last pass that is cut short."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.fabric import Run
from coach.craft.fabric_ahead import cells_ahead, opened, spaces_left, stitches_left
from coach.craft.hand import Hand
from coach.craft.instruction import (
    Bound,
    Chain,
    EachOf,
    Instruction,
    Make,
    Noun,
    Of,
    Repeated,
    Target,
    Which,
)
from coach.craft.places_wanted import left_of, sought
from coach.craft.row_bench import Bench


def named_bound(until: Bound | None, tail: Sequence[Instruction]) -> Bound | None:
    """Return "to last sc" with its name, which the words after it give: "dc in last sc"."""
    first = tail[0] if tail else None
    if until is None or until.kind != "last" or until.noun.of is not Of.STITCH:
        return until
    if not isinstance(first, Make) or first.target is None or first.target.which is not Which.LAST:
        return until
    named = first.target.noun.of is Of.NAMED and first.target.count == until.count
    return replace(until, noun=first.target.noun) if named else until


def clear_bound(until: Bound) -> bool:
    """Tell whether a bound is a place that can be found, and no marker."""
    return (
        until.noun.of in (Of.STITCH, Of.NAMED, Of.CHAIN, Of.TURNING_CHAIN, Of.STITCH_OR_SPACE)
        or until.noun.of is Of.SPACE
    )


def bound_met(bench: Bench, until: Bound, hand: Hand) -> bool:
    """Tell whether the work stands where the repeat is said to stop."""
    noun = until.noun
    if until.kind == "last":
        return _so_many_left(bench, until, hand)
    if noun.of is Of.TURNING_CHAIN:
        return stitches_left(hand.rest) == 1
    if _round_closes(bench, noun, hand):
        return True
    if hand.rest is None:
        return False
    which = Which.CORNER if noun.of is Of.SPACE and noun.length is None else Which.NEXT
    wanted = sought(bench, Target(which, noun), hand)
    if noun.of is Of.SPACE and hand.last == "space":  # from space to space: stitches are passed
        there = next((cell for cell in cells_ahead(hand.rest) if not cell.is_stitch), None)
        return there is not None and wanted(there)
    run = opened(hand.rest).item
    return isinstance(run, Run) and wanted(run.cell)


def _round_closes(bench: Bench, noun: Noun, hand: Hand) -> bool:
    """In a round the last "to next corner" leads back to the corner that the round began in."""
    if not bench.ground.round or noun.of is not Of.SPACE or spaces_left(hand.rest):
        return False
    return hand.last == "space" or not stitches_left(hand.rest)


def _so_many_left(bench: Bench, until: Bound, hand: Hand) -> bool:
    noun = until.noun
    if noun.of is Of.SPACE:
        wanted = sought(bench, Target(Which.NEXT, noun), hand)
        return left_of(hand.rest, wanted) == until.count
    if noun.of is Of.STITCH_OR_SPACE:
        return stitches_left(hand.rest) + spaces_left(hand.rest) == until.count
    left = {stitches_left(hand.rest)}
    if noun.of is Of.NAMED:  # "to last sc", with dc before it that are passed over
        left.add(left_of(hand.rest, sought(bench, Target(Which.NEXT, noun), hand)))
    return until.count in left


def said_again(body: Sequence[Instruction], item: Repeated, tail: Sequence[Instruction]) -> bool:
    """Tell whether a pass cut short holds what "ending 6 ch" says after it: worked only once."""
    if not item.ending or not tail or not body:
        return False
    if isinstance(body[-1], Chain) and isinstance(tail[0], Chain):
        return True  # "ending with ch 2, dc in first sc": its chain stands for the last ch 5
    return any(
        type(each) is type(tail[0]) and replace(each, place=tail[0].place) == tail[0]
        for each in body
    )


def ends_of(bench: Bench, item: Repeated) -> list[tuple[Instruction, ...]]:
    """Return the bodies of a last pass that is cut short, longest first."""
    body = item.body
    if item.stop_at is not None:
        return [body[: item.stop_at]]
    if item.ending:
        cut: list[tuple[Instruction, ...]] = []
        for length in range(len(body), 0, -1):
            shorter = _one_fewer(body[length - 1])
            cut += [(*body[: length - 1], each) for each in shorter]
            if length > 1:
                cut.append(body[: length - 1])
        return cut
    first = body[0]
    if bench.ground.round and isinstance(first, Make | EachOf) and _bounded(first):
        return [(first,)]
    return []


def _bounded(item: Make | EachOf) -> bool:
    if isinstance(item, EachOf):
        return item.until is not None
    return item.target is not None and item.target.until is not None


def _one_fewer(item: Instruction) -> Sequence[Instruction]:
    """Return *item* over fewer places: "omitting last sc" of "sc in next 2 sts"."""
    if not isinstance(item, Make):
        return []
    if item.target is None:
        return [replace(item, each=number) for number in range(item.each - 1, 0, -1)][:4]
    if item.target.which is Which.NEXT and item.target.count > 1:
        counts = range(item.target.count - 1, 0, -1)
        return [replace(item, target=replace(item.target, count=count)) for count in counts][:4]
    return []
