"""Chains of a space worked into one by one: "ch 17, sk 17 sts", then "sc in each of next 17 chs"."""

from __future__ import annotations

from dataclasses import replace

from coach.craft import fabric
from coach.craft.fabric import CHAIN, Item, Kind, Run, Section
from coach.craft.fabric_ahead import Rest, opened, rest_of, without
from coach.craft.hand import Hand
from coach.craft.instruction import Of, Target, Which
from coach.craft.row_bench import Bench


def chains_opened(bench: Bench, target: Target, hand: Hand) -> Hand:
    """Return the hand with the chains of a space as places of their own, where *target* means them.

    The next space with so many chains, or every space where it is said of each chain.
    """
    if target.noun.of is not Of.CHAIN or target.noun.length is not None:
        return hand
    if bench.ground.kind not in ("row", "round") or _has_chains(bench.ground.below):
        return hand
    if target.which is Which.EACH:
        return _every_space(hand)
    if target.which in (Which.NEXT, Which.FIRST) and target.count > 1:
        return _next_space(hand, target.count)
    return hand


def _has_chains(items: tuple[Item, ...]) -> bool:
    kinds = {cell.kind for cell in fabric.cells(items)}
    return Kind.CHAIN in kinds or Kind.SPACE not in kinds


def _next_space(hand: Hand, count: int) -> Hand:
    """Open the space that is met next, where it has so many chains."""
    if hand.rest is None:
        return hand
    rest = opened(hand.rest)
    run = rest.item
    if not isinstance(run, Run) or run.cell.kind is not Kind.SPACE or run.cell.length != count:
        return hand
    opened_up = Rest(Run(CHAIN, count), without(rest, 1))
    return replace(hand, rest=opened_up, used=hand.used - count, used_spaces=hand.used_spaces + 1)


def _every_space(hand: Hand) -> Hand:
    items: list[Item] = []
    rest = hand.rest
    while rest is not None:
        items.append(rest.item)
        rest = rest.next
    spaces = sum(fabric.size((item,))[1] for item in items)
    if not spaces:
        return hand
    chains = fabric.joined(_opened(item) for item in items)
    more = fabric.size(chains)[0] - fabric.size(items)[0]
    return replace(
        hand,
        rest=rest_of(chains),
        used=hand.used - more,
        used_spaces=hand.used_spaces + spaces,
    )


def _opened(item: Item) -> Item:
    if isinstance(item, Section):
        inner = fabric.joined(_opened(each) for each in item.items)
        return Section(inner, item.times, *fabric.size(inner))
    if item.cell.kind is Kind.SPACE:
        return Run(CHAIN, item.cell.length * item.count)
    return item
