"""What a maker passes at the end of a row though nothing says it: before the join, beside a space."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft import fabric
from coach.craft.fabric_ahead import spaces_left, stitches_left
from coach.craft.hand import Hand, items_made, work_done
from coach.craft.instruction import (
    Act,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Join,
    Make,
    Of,
    Repeated,
    Skip,
    Which,
)
from coach.craft.last_places import rest_is_turning_chain, rest_of_one_group
from coach.craft.row_bench import Ground
from coach.craft.working import Block


def settled(hand: Hand, ground: Ground, body: Sequence[Instruction]) -> Hand:
    """Pass what a maker passes without a word: spaces or stitches after the last place."""
    if hand.rest is None:
        return hand
    stitches, spaces = stitches_left(hand.rest), spaces_left(hand.rest)
    if not hand.moved and not hand.begun:
        return hand
    if not _passes(hand, ground, body, stitches, spaces):
        return hand
    return replace(
        hand, rest=None, used=hand.used + stitches, used_spaces=hand.used_spaces + spaces
    )


def _passes(
    hand: Hand, ground: Ground, body: Sequence[Instruction], stitches: int, spaces: int
) -> bool:
    """Tell whether so many places at the end are passed though nothing says it."""
    if not hand.over and stitches + spaces <= hand.travelled:
        return True
    if not stitches or (not hand.over and spaces and stitches <= hand.travelled):
        return hand.last != "space" or (spaces <= 1 and _each_space(body))
    if spaces:
        return not hand.over and (_each_space(body) or _before_the_travel(hand, ground))
    under_chain = ground.round and stitches == _under_last_chain(hand, body)
    in_last_space = _of_the_last_group(hand) or (stitches == 1 and _in_turning_space(hand, body))
    if hand.last == "space" and not ground.round and in_last_space:
        return True
    along = hand.last == "space" and (ground.round or _each_space(body))
    return under_chain or (along and stitches <= _longest_group(ground.below))


def _of_the_last_group(hand: Hand) -> bool:
    """Tell whether the row ends in a group's space: what is left of that group stays free.

    So do pineapples and fans with slanting sides, "shell in last shell, turn"; where the row
    began by slip stitches to the first space, what lay before that space is free at the other
    edge (common practice, no source).
    """
    left = stitches_left(hand.rest)
    if rest_of_one_group(hand.rest):
        return True
    travelled = 0
    for work in work_done(hand):
        if not isinstance(work, Block) or work.role != "travel":
            break
        travelled += work.uses
    return travelled > 0 and left <= travelled + 1


def _in_turning_space(hand: Hand, body: Sequence[Instruction]) -> bool:
    """Tell whether the row ends in a group around the turning chain: the whole chain is used by it.

    "(3 dc, ch 1, dc) in last ch-1 sp" of a shawl goes around the ch-4 that the row before began
    with, so nothing is left on top of it (common practice, no source).
    """
    last = next((item for item in reversed(body) if not isinstance(item, Act | Join)), None)
    return isinstance(last, GroupIn) and rest_is_turning_chain(hand.rest)


def _before_the_travel(hand: Hand, ground: Ground) -> bool:
    """Tell whether what is left lies between the last space worked and what was travelled over.

    The stitch after the space and the chain that leads to the next group: no more than these.
    """
    if not ground.round or not hand.travelled or hand.last != "space":
        return False
    left = stitches_left(hand.rest) - hand.travelled
    return spaces_left(hand.rest) == 1 and left <= 1


def _under_last_chain(hand: Hand, body: Sequence[Instruction]) -> int:
    """Return how many places a round's last chain spans: as many as each chain of its repeat.

    The join closes it: "*sk 2 sts, sc in next st, ch 3; rep from * around, join".
    """
    made = items_made(hand)
    last = made[-1] if made else None
    while isinstance(last, fabric.Section):
        last = last.items[-1]
    if last is None or last.cell.is_stitch:
        return 0
    repeat = next((item for item in body if isinstance(item, Repeated)), None)
    if repeat is None or not any(isinstance(item, Chain) for item in repeat.body):
        return 0
    if isinstance(repeat.body[-1], Skip):
        return 0  # each pass has passed over what its chain spans, the last one too
    skipped = [item.target.count for item in repeat.body if isinstance(item, Skip)]
    return skipped[0] if len(skipped) == 1 else 0


def _each_space(body: Sequence[Instruction]) -> bool:
    """Tell whether the row goes from space to space to its end ("in each ch-1 sp across")."""
    real = [item for item in body if not isinstance(item, Act | Join | Chain)]
    if not real:
        return False
    last = real[-1]
    if isinstance(last, Make | GroupIn) and last.target is not None:
        return last.target.which is Which.EACH and last.target.noun.of is Of.SPACE
    return isinstance(last, EachOf) and any(
        part.target is not None and part.target.noun.of is Of.SPACE for part in last.parts
    )


def _longest_group(below: tuple[fabric.Item, ...]) -> int:
    """Return the most stitches that stand between two spaces of *below*."""
    longest = now = 0
    for cell in fabric.cells_one_by_one(below, 4000):
        now = now + 1 if cell.is_stitch else 0
        longest = max(longest, now)
    return longest
