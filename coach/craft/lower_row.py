"""A row that is worked into an earlier one, over what was made between: "behind the petals of Rnd 2".

The petals of a layered flower lie in front; the round behind them goes into the stitches of the
round before the petals, as many as those are. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from coach.craft.fabric import from_other_side
from coach.craft.instruction import (
    EachOf,
    GroupIn,
    Instruction,
    Make,
    Repeated,
    Skip,
    Target,
    Which,
    makes_in,
)
from coach.craft.pattern import Line
from coach.craft.row_below import met_turned
from coach.craft.row_bench import Ground
from coach.craft.walk import Walk
from coach.craft.working import Block, Group, Into, Passes, Work

_PLACED = (Into.NEXT, Into.SPACE, Into.TOGETHER, Into.STITCH_OR_SPACE)


def lower_row(items: Sequence[Instruction]) -> int:
    """Return how many rows below all the stitches of a row may go; 0 where they go into the row below.

    The first place says it; later ones may leave it unsaid ("BPsc around next dc") but name no other.
    """
    places = [place for place in _places(items) if place.which is not Which.SAME]
    named = {place.rows_below for place in places if place.rows_below}
    return places[0].rows_below if places and len(named) == 1 and max(named) > 1 else 0


def surely_lower(items: Sequence[Instruction]) -> bool:
    """Tell whether no stitch of such a row can mean the row below: each says it, or is like the first."""
    places = [place for place in _places(items) if place.which is not Which.SAME]
    if all(place.rows_below for place in places):
        return True
    skips = any(isinstance(item, Skip) for item in _flat(items))
    return not skips and len({make.stitch for make in makes_in(items) if make.target}) == 1


def _flat(items: Iterable[Instruction]) -> Iterable[Instruction]:
    for item in items:
        yield item
        if isinstance(item, Repeated):
            yield from _flat(item.body)


def _places(items: Iterable[Instruction]) -> Iterable[Target]:
    for item in items:
        match item:
            case Make() | Skip():
                if item.target is not None:
                    yield item.target
            case GroupIn():
                yield item.target
            case EachOf():
                yield from _places(item.parts)
            case Repeated():
                yield from _places(item.body)


def ground_below(walk: Walk, line: Line, ground: Ground, rows: int) -> Ground | None:
    """Return the row so many rows below as *line* meets it, if it is known; *ground* is the row below."""
    before = walk.rows[-rows:]
    if len(before) < rows or any(row.part != before[0].part for row in before):
        return None
    items = walk.results_by_row[-rows].out
    turns = sum(1 for row in before[1:] if row.turned)
    if (turns + met_turned(walk, line)) % 2:
        items = from_other_side(items)
    return replace(ground, below=items, named=walk.rows[-rows].label)


def at_the_top(items: Iterable[Instruction]) -> tuple[Instruction, ...]:
    """Return *items* with places so many rows below taken as places of what lies just below."""
    return tuple(_at_the_top(item) for item in items)


def _at_the_top(item: Instruction) -> Instruction:
    match item:
        case Make() if item.target is not None:
            return replace(item, target=replace(item.target, rows_below=0))
        case Skip() | GroupIn():
            return replace(item, target=replace(item.target, rows_below=0))
        case EachOf():
            parts = tuple(
                replace(part, target=replace(part.target, rows_below=0)) if part.target else part
                for part in item.parts
            )
            return replace(item, parts=parts)
        case Repeated():
            return replace(item, body=at_the_top(item.body))
    return item


def told_below(works: Iterable[Work], rows: int) -> tuple[Work, ...]:
    """Return *works* with the places of their stitches told as so many rows below."""
    return tuple(_told_below(work, rows) for work in works)


def _told_below(work: Work, rows: int) -> Work:
    match work:
        case Block() if work.where.into in _PLACED and work.role != "travel":
            into = Into.BELOW if work.where.into is Into.NEXT else work.where.into
            return replace(work, where=replace(work.where, into=into, rows_below=rows))
        case Group() if work.where.into in _PLACED:
            return replace(work, where=replace(work.where, rows_below=rows))
        case Passes():
            last = told_below(work.last, rows) if work.last is not None else None
            return replace(work, parts=told_below(work.parts, rows), last=last)
    return work
