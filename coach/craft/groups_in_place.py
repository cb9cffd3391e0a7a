"""Several things in one place: the place is used once, the parts make the fabric."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.hand import Hand, items_made, tagged, work_done
from coach.craft.instruction import GroupIn, Make, Noun, Of, Target, Which
from coach.craft.places_wanted import name_of, over_several_kinds, position_of
from coach.craft.row_bench import Bench
from coach.craft.row_stitches import make_in
from coach.craft.working import Block, Group, Into, Where


def group(bench: Bench, item: GroupIn, hand: Hand) -> Hand:
    """Several things in one place; the place is used once, the parts make the fabric."""
    target = item.target
    if target.which is Which.EACH:
        return bench.step(over_several_kinds(item, target), hand)
    places = [target, *target.also]
    for each in places:
        for _ in range(each.count if each.which is not Which.SAME else 1):
            hand = group_once(bench, item, replace(each, count=1), hand)
    return hand


def group_once(bench: Bench, item: GroupIn, target: Target, hand: Hand) -> Hand:
    """One group in one place."""
    anchor = Make("sl st", 1, None, item.place)
    before = hand
    placed = _place_only(bench, anchor, target, hand)
    inner = replace(placed, out=None, work=None)
    for part in item.parts:
        if isinstance(part, Make):
            part = replace(part, target=_all_in_same(part.target))  # noqa: PLW2901
        inner = bench.step(part, inner)
    made = items_made(inner)
    blocks = tuple(work for work in work_done(inner) if isinstance(work, Block))
    where = _group_where(bench, target, before, placed)
    group = Group(
        blocks,
        where,
        uses=placed.used - before.used,
        uses_spaces=placed.used_spaces - before.used_spaces,
        name=item.name,
        color=hand.color,
    )
    return replace(
        inner,
        out=(tagged(made, item.name or ""), before.out) if made else before.out,
        work=(group, before.work),
    )


def _group_where(bench: Bench, target: Target, before: Hand, placed: Hand) -> Where:
    node = placed.work
    if node is not None and node is not before.work and isinstance(node[0], Block):
        return node[0].where
    return Where(Into.SAME, named=name_of(target), position=position_of(target))


def _place_only(bench: Bench, anchor: Make, target: Target, hand: Hand) -> Hand:
    """Use the place without making anything in it."""
    placed = make_in(bench, replace(anchor, stitch="sl st"), target, replace(hand))
    if placed.out is not hand.out:  # slip stitches count in a row of slip stitches
        placed = replace(placed, out=hand.out)
    return replace(placed, begun=hand.begun, standing=hand.standing)


def _all_in_same(target: Target | None) -> Target:
    loop = target.loop if target else None
    return Target(Which.SAME, Noun(Of.STITCH), loop=loop)
