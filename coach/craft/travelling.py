"""Slip stitches that travel at the beginning of a round: what they pass is met again at its end.

A round has no beginning of its own: "sl st in next 2 dc and in ch-2 sp" only moves it on. The
places passed lie before the join, where the round may work them, skip them or leave them. Common
practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

from coach.craft.fabric import Cell, Run, joined
from coach.craft.fabric_ahead import Rest, items_of, opened, rest_of, without
from coach.craft.hand import Hand
from coach.craft.working import Block

_FARTHEST = 200  # nobody travels farther; beyond it the places passed are simply used


def passed_to_the_end(before: Hand, after: Hand) -> Hand:
    """Return *after* with what the slip stitches passed since *before* at the end of the round."""
    passed = _between(before.rest, after.rest)
    if not passed:
        return after
    *over, landed = passed
    if before.landed is not None:
        over = [before.landed, *over]
    stitches = sum(cell.is_stitch for cell in over)
    return replace(
        after,
        rest=_followed_by(after.rest, over),
        used=after.used - stitches,
        used_spaces=after.used_spaces - (len(over) - stitches),
        landed=landed,
        travelled=before.travelled + len(over),
    )


def stands_where_travelled(hand: Hand) -> bool:
    """Tell whether the hook still stands in the space that slip stitches have travelled to.

    "Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in corner sp" goes into that very corner.
    """
    if hand.landed is None or hand.landed.is_stitch or hand.last != "space":
        return False
    if not hand.begun:
        return True
    latest = hand.work[0] if hand.work else None
    return isinstance(latest, Block) and latest.role == "beginning" and not latest.makes_spaces


def _between(before: Rest | None, after: Rest | None) -> list[Cell]:
    """Return the places that lie in *before* and no longer in *after*; none where there are too many."""
    cells: list[Cell] = []
    left = (after.stitches, after.spaces) if after else (0, 0)
    while before is not None and (before.stitches, before.spaces) != left:
        before = opened(before)
        assert isinstance(before.item, Run)  # noqa: S101 - opened rests begin with a run
        cells.append(before.item.cell)
        before = without(before, 1)
        if len(cells) > _FARTHEST:
            return []
    return cells


def _followed_by(rest: Rest | None, cells: list[Cell]) -> Rest | None:
    return rest_of(joined([*items_of(rest), *(Run(cell, 1) for cell in cells)]))
