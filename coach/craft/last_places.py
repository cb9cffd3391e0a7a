"""The way to the last places of a row: what is passed there though nothing says it."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.fabric import Item, Run, cells, cells_one_by_one
from coach.craft.fabric_ahead import Rest, opened, spaces_left, stitches_left
from coach.craft.fabric_taken import take
from coach.craft.hand import Hand
from coach.craft.row_bench import any_stitch
from coach.craft.working import Block, Group

MOST_OF_GROUP = 30  # a group in one place holds no more stitches than these


def to_the_last(count: int, hand: Hand) -> Hand:
    """Pass what stands before the last *count* places: after a space, or in a group at the end.

    "Shell in next sc, sc in last dc": of the half shell below only its last stitch is worked.
    """
    ahead = stitches_left(hand.rest) - count
    if ahead < 1 or spaces_left(hand.rest):
        return hand
    if hand.last != "space" and not (_made_in_groups(hand) and rest_of_one_group(hand.rest)):
        return hand
    got = take(hand.rest, ahead, any_stitch)
    return replace(hand, rest=got.rest, used=hand.used + ahead)


def _made_in_groups(hand: Hand) -> bool:
    """Tell whether the last place took a whole group, was the center of one, or a chain spans more."""
    if hand.out is not None:
        made = list(cells(hand.out[0]))
        if any(cell.unit is not None or not cell.is_stitch for cell in made):
            return True
    last = hand.work[0] if hand.work is not None else None
    return isinstance(last, Block | Group) and last.where.position == "center"


def rest_of_one_group(rest: Rest | None) -> bool:
    """Tell whether all that is left are stitches of one group in one place."""
    left: list[Item] = []
    while rest is not None and len(left) <= MOST_OF_GROUP:
        left.append(rest.item)
        rest = rest.next
    units = [cell.unit for cell in cells_one_by_one(left, MOST_OF_GROUP)]
    first = units[0] if rest is None else None
    return first is not None and all(
        unit is not None and (unit.size, unit.index) == (first.size, first.index + at)
        for at, unit in enumerate(units)
    )


def rest_is_turning_chain(rest: Rest | None) -> bool:
    """Tell whether all that is left is the chain that the row before began with."""
    left = opened(rest).item if rest is not None else None
    return isinstance(left, Run) and left.count == 1 and left.cell.turning
