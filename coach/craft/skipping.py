"""Places passed over on purpose."""

from __future__ import annotations

from dataclasses import replace
from itertools import islice

from coach.craft.beginning_chains import skip_at_hook
from coach.craft.fabric import Kind, Run
from coach.craft.fabric_ahead import cells_ahead, opened
from coach.craft.fabric_taken import take
from coach.craft.hand import Hand
from coach.craft.instruction import Bound, Noun, Of, Skip, Target, Which
from coach.craft.last_places import to_the_last
from coach.craft.places_wanted import moved_on, none_found, sought, where_of
from coach.craft.row_bench import Bench, any_stitch
from coach.craft.working import Block, Into, Where


def skip(bench: Bench, item: Skip, hand: Hand) -> Hand:
    """Places passed over on purpose."""
    target = item.target
    if target.noun.of is Of.FROM_HOOK:
        in_a_ring = bench.ground.round and (hand.standing or hand.chained)
        if not in_a_ring and not _over_a_mesh(bench, hand):
            return skip_at_hook(bench, item, hand)
        # a chain joined in a ring has no end at the hook: its chains are places like any other
        target = replace(target, noun=Noun(Of.CHAIN))
    if target.which is Which.SAME or (
        target.which is Which.FIRST
        and hand.standing
        and target.count == 1
        and target.noun.of is not Of.SPACE
    ):
        if hand.standing:
            return hand
        target = replace(target, which=Which.NEXT)
    if target.which is Which.FIRST and hand.standing and target.noun.of is not Of.SPACE:
        target = replace(target, which=Which.NEXT, count=target.count - 1)
    if target.until is not None:
        return _skip_up_to(bench, item, target.until, hand)
    if target.noun.of is Of.TURNING_CHAIN:
        return _skip_turning(bench, hand)
    if target.which is Which.LAST and target.noun.of is not Of.SPACE:
        hand = to_the_last(target.count, hand)
    if _chains_of_a_space(target, hand):
        target = replace(target, count=1, noun=Noun(Of.SPACE, None, target.count))
    wanted = sought(bench, target, hand)
    got = take(hand.rest, target.count, wanted)
    if target.noun.of in (Of.NAMED, Of.SPACE, Of.UNIT) and not got.found:
        got = none_found(bench, got, target, hand, item.place)
    spaces = target.noun.of is Of.SPACE
    uses = got.passed + (0 if spaces else got.found + got.missing)
    uses_spaces = got.passed_spaces + (got.found + got.missing if spaces else 0)
    where = where_of(bench, target, Into.SPACE if spaces else Into.NEXT, got)
    block = Block("sk", target.count, where, uses=uses, uses_spaces=uses_spaces, color=hand.color)
    return moved_on(hand.making((), block), got, uses, uses_spaces)


def _skip_up_to(bench: Bench, item: Skip, until: Bound, hand: Hand) -> Hand:
    """A gap: from the space that the hook stands at, or from the next stitch, to the next space."""
    which = Which.NEXT if until.noun.length is not None else Which.CORNER
    end = Target(which, until.noun)
    wanted = sought(bench, end, hand)
    for cell in islice(cells_ahead(hand.rest), 1):
        if wanted(cell):
            hand = skip(bench, replace(item, target=replace(end, which=Which.NEXT)), hand)
    got = take(hand.rest, 1, wanted)
    if got.missing:
        none_found(bench, got, end, hand, item.place)
    if not got.passed:
        return hand
    return skip(bench, replace(item, target=Target(Which.NEXT, item.target.noun, got.passed)), hand)


def _over_a_mesh(bench: Bench, hand: Hand) -> bool:
    """Tell whether "sk 2 ch" stands in a later row, where no chain is at the hook."""
    if bench.ground.kind not in ("row", "round") or hand.rest is None:
        return False
    run = opened(hand.rest).item
    return isinstance(run, Run) and run.cell.kind is Kind.SPACE


def _chains_of_a_space(target: Target, hand: Hand) -> bool:
    """Tell whether "sk next ch" of a mesh passes over the space that is met next."""
    if target.noun.of is not Of.CHAIN or target.which is not Which.NEXT or hand.rest is None:
        return False
    run = opened(hand.rest).item
    return isinstance(run, Run) and run.cell.kind is Kind.SPACE and run.cell.length == target.count


def _skip_turning(bench: Bench, hand: Hand) -> Hand:
    got = take(hand.rest, 1, any_stitch)
    if got.missing or got.last is None or not got.last.turning:
        return hand
    block = Block("sk", 1, Where(Into.TURNING_CHAIN), uses=1)
    return moved_on(hand.making((), block), got, 1 + got.passed, got.passed_spaces)
