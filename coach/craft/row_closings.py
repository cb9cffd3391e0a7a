"""How a row closes and turns to other places: joins, what is left, other sides, what uses no place."""

from __future__ import annotations

import re
from dataclasses import replace

from coach.craft import fabric
from coach.craft.fabric import CHAIN, Run, space_cell
from coach.craft.fabric_ahead import cells_ahead, rest_of, spaces_left, stitches_left
from coach.craft.fabric_taken import take
from coach.craft.hand import Hand, items_made, work_done
from coach.craft.instruction import Act, Join, Leave, Of, Picot, Sides
from coach.craft.places_wanted import moved_on
from coach.craft.row_bench import Bench, any_stitch
from coach.craft.stitch import height
from coach.craft.turning_chain_top import check_chain
from coach.craft.working import Action, Block, Into, Where

_CHAIN_NAMED = re.compile(
    r"(?:(?P<nth>\d+)(?:st|nd|rd|th) ch(?:ain)? |top )(?:of )?(?:the )?(?:beg(?:inning)? |starting |first |turning )?"
    r"ch(?:ain)?(?: ?- ?(?P<length>\d+))?"
)


def join(bench: Bench, item: Join, hand: Hand) -> Hand:
    """Close a round, or a chain into a ring."""
    if not hand.begun and hand.chains_here:
        block = Block("sl st", 1, Where(Into.CHAIN, position="first"), role="join")
        return hand.making((), block)
    _check_chain_joined_to(bench, item)
    hand = _last_space(hand, item)
    where = Where(Into.NEXT, position="first", remark=item.into or None)
    return hand.making((), Block(item.stitch, 1, where, role="join", color=hand.color))


def _last_space(hand: Hand, item: Join) -> Hand:
    """Lengthen the last chain by the stitch that closes it: "ch 2, dc in first sc" is a ch-5 space.

    A stitch stands for as many chains as it is tall (common practice, no source). Where no other
    space of the round is so long, the chain stays what it is.
    """
    tall = height(item.stitch)
    if not tall or hand.out is None:
        return hand
    last = hand.out[0][-1] if hand.out[0] else None
    lengths = {cell.length for cell in fabric.cells(items_made(hand)) if not cell.is_stitch}
    if isinstance(last, Run) and not last.cell.is_stitch and last.count == 1:
        whole = last.cell.length + tall
        kept = hand.out[0][:-1]
    else:
        whole, kept = tall, hand.out[0]
    if whole not in lengths or item.stitch == "sl st":
        return hand
    block = hand.work[0] if hand.work is not None else None
    if len(kept) == len(hand.out[0]) and isinstance(block, Block) and block.stitch == "ch":
        return hand
    return replace(hand, out=((*kept, Run(space_cell(whole), 1)), hand.out[1]))


def _check_chain_joined_to(bench: Bench, item: Join) -> None:
    """Hold "in 3rd ch of beg ch-5" against the chain that the round began with."""
    if not bench.begun_with or not (found := _CHAIN_NAMED.search(item.into)):
        return
    nth = int(found["nth"] or 0)
    length = int(found["length"]) if found["length"] else None
    check_chain(bench.begun_with, nth, length, item.place)


def leave(bench: Bench, item: Leave, hand: Hand) -> Hand:
    """Places left unworked on purpose: used up, and told."""
    count = stitches_left(hand.rest) if item.count is None else item.count
    if not count:
        return hand
    got = take(hand.rest, count, any_stitch)
    spaces = got.passed_spaces
    rest = got.rest
    if item.count is None:
        spaces += spaces_left(rest)
        rest = None
    block = Block("sk", count, Where(Into.NEXT, places=count), uses=count, uses_spaces=spaces)
    if rest is None:
        hand = replace(hand, leaves=hand.rest)
    return moved_on(hand.making((), block), replace(got, rest=rest), count, spaces)


def picot(bench: Bench, item: Picot, hand: Hand) -> Hand:
    """A picot sits on the stitch before it."""
    block = Block("picot", 1, Where(Into.NOTHING), role="picot", color=hand.color)
    return hand.making((), block)


def sides(bench: Bench, item: Sides, hand: Hand) -> Hand:
    """Turn to a ring, to the other side of the chain, or to the row ends."""
    if item.of is Of.RING:
        return replace(hand, ring=True, rest=None)
    if item.of is Of.LAYERS:
        return _folded(hand)
    if item.of is Of.FREE_LOOP and not hand.begun and bench.ground.kind == "chain":
        return hand.making((), Action("remark", "free loops of the chain"))
    if item.of is Of.FREE_LOOP:
        if hand.chains_here or bench.ground.kind == "chain":
            left = fabric.size(bench.ground.below)[0] or _chains_in(hand)
            skipped = hand.chains_here if bench.ground.kind == "chain" else _skipped(hand)
            across = max(left - skipped - 1, 0)
            return replace(
                hand.making((), Action("remark", "other side of the chain")),
                rest=rest_of((Run(CHAIN, across),)) if across else None,
                over=hand.over,
            )
        return replace(hand, ends=True, rest=None, loops_free=True)
    return replace(hand, ends=True, loops_free=False)


def _folded(hand: Hand) -> Hand:
    """Fold what is left flat: each place of the one layer is worked with that behind it."""
    there = stitches_left(hand.rest)
    if there < 2 or hand.rest is None:
        return hand
    front = there // 2
    cell = next(cell for cell in cells_ahead(hand.rest) if cell.is_stitch)
    return replace(
        hand.making((), Action("remark", "through both layers")),
        rest=rest_of((Run(cell, front),)),
        used=hand.used + there - front,
        moved=True,
    )


def _chains_in(hand: Hand) -> int:
    for work in work_done(hand):
        if isinstance(work, Block) and work.stitch == "ch" and work.role == "foundation":
            return work.count
    return 0


def _skipped(hand: Hand) -> int:
    for work in work_done(hand):
        if isinstance(work, Block) and work.role == "skipped chains":
            return work.count
    return 0


def act(bench: Bench, item: Act, hand: Hand) -> Hand:
    """What uses no place: turn, marker, colour, loops."""
    if item.kind == "colour":
        return replace(hand.making((), Action("colour", item.text)), color=item.text)
    if item.kind == "loop":
        return replace(hand, loop=item.text or None)
    made = hand.making((), Action(item.kind, item.text))
    return replace(made, color=item.color) if item.color else made
