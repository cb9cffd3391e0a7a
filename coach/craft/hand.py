"""The hand at work on one row: what is left below, what was made, in unchanging steps.

Each instruction takes a hand and gives a new one, so that several readings of a row can be
followed from the same place without undoing anything.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeAlias

from coach.craft.fabric import Cell, Item, Run, Unit, cells_one_by_one, joined, stitch_cell
from coach.craft.fabric_ahead import Rest
from coach.craft.working import Block, Passes, Work

Made: TypeAlias = "tuple[tuple[Item, ...], Made] | None"
Done: TypeAlias = "tuple[Work, Done] | None"


@dataclass(frozen=True, slots=True)
class Hand:
    """Where the hook stands within a row.

    used, used_spaces: of the row below, what was passed over included. over: places asked
    for that are not there. last: what the last stitch went into ("stitch", "space", "ring",
    "chain"). standing: a counted chain stands on the first place. begun: a stitch was made.
    moved: some place was used. air: foundation chains made in this very row.
    """

    rest: Rest | None
    out: Made = None
    work: Done = None
    used: int = 0
    used_spaces: int = 0
    over: int = 0
    over_spaces: int = 0
    last: str | None = None
    standing: bool = False
    begun: bool = False
    chained: bool = False  # the beginning chain of the row is made
    moved: bool = False
    ring: bool = False
    ends: bool = False  # worked along row ends or free loops: no sum of places
    loops_free: bool = False  # along the other side of the foundation, with no sum of places
    color: str | None = None
    loop: str | None = None
    other_side: tuple[Item, ...] = ()
    spaces_wanted: bool = False  # the last places were chain spaces, asked for one by one
    chains_here: int = 0
    landed: Cell | None = None  # where slip stitches have travelled to at a round's beginning
    leaves: Rest | None = None  # what is left unworked on purpose to the end of the row
    travelled: int = 0  # how many places they travelled over, which the round's end meets again

    def making(self, items: Iterable[Item], *work: Work, **changes: object) -> Hand:
        """Return the hand after *items* were made by *work*, with other fields changed."""
        made = tuple(items)
        out = (made, self.out) if made else self.out
        done = self.work
        for each in work:
            done = (each, done)
        return replace(self, out=out, work=done, **changes)  # type: ignore[arg-type]


def items_made(hand: Hand, since: Made = None) -> tuple[Item, ...]:
    """Return what was made, in order, after the state *since*."""
    pieces: list[tuple[Item, ...]] = []
    node = hand.out
    while node is not None and node is not since:
        pieces.append(node[0])
        node = node[1]
    return joined(item for piece in reversed(pieces) for item in piece)


def work_done(hand: Hand, since: Done = None) -> tuple[Work, ...]:
    """Return what was worked, in order, after the state *since*."""
    pieces: list[Work] = []
    node = hand.work
    while node is not None and node is not since:
        pieces.append(node[0])
        node = node[1]
    return tuple(reversed(pieces))


def passes(parts: list[tuple[tuple[Work, ...], int]]) -> tuple[Work, ...]:
    """Return passes worked one after another as repeats: equal neighbours become one."""
    merged: list[tuple[tuple[Work, ...], int]] = []
    for part, times in parts:
        if merged and merged[-1][0] == part:
            merged[-1] = (part, merged[-1][1] + times)
        else:
            merged.append((part, times))
    full = [(part, times) for part, times in merged if part and times]
    if not full:
        return ()
    last: tuple[Work, ...] | None = None
    if len(full) > 1 and full[-1][1] == 1:
        last = full[-1][0]
        full = full[:-1]
    out: list[Work] = [Passes(part, times) for part, times in full]
    if last is not None:
        body = out[-1]
        assert isinstance(body, Passes)  # noqa: S101
        out[-1] = replace(body, last=last)
    return tuple(_unwrapped(out))


def _unwrapped(works: list[Work]) -> Iterable[Work]:
    """A section worked once is no repeat."""
    for work in works:
        if isinstance(work, Passes) and work.times == 1 and work.last is None:
            yield from work.parts
        else:
            yield work


def stitches(name: str, count: int, *, turning: bool = False, chains: int = 0) -> tuple[Item, ...]:
    """Return a run of so many stitches called *name*; chains: how long a counted chain is."""
    return (Run(stitch_cell(name, turning=turning, chains=chains), count),) if count else ()


def tagged(items: tuple[Item, ...], name: str) -> tuple[Item, ...]:
    """Return *items* as one group in one place, each cell knowing its place in the group."""
    each: list[Cell] = list(cells_one_by_one(items, 40))
    if len(each) < 2 or len(each) > 30:
        return items
    return tuple(
        Run(replace(cell, unit=Unit(name, index, len(each))), 1) for index, cell in enumerate(each)
    )


def merged_block(one: Work | None, two: Block) -> Block | None:
    """Return the two as one block when they are of one kind in like places, else None."""
    if not isinstance(one, Block) or (one.stitch, one.role) != (two.stitch, two.role):
        return None
    if one.where.into is not two.where.into:
        return None
    same = replace(
        one,
        count=two.count,
        uses=two.uses,
        uses_spaces=two.uses_spaces,
        makes=two.makes,
        makes_spaces=two.makes_spaces,
        passing=two.passing,
        where=replace(one.where, places=two.where.places),
    )
    if same != two:
        return None
    return replace(
        one,
        count=one.count + two.count,
        uses=one.uses + two.uses,
        uses_spaces=one.uses_spaces + two.uses_spaces,
        makes=one.makes + two.makes,
        makes_spaces=one.makes_spaces + two.makes_spaces,
        passing=one.passing + two.passing,
        where=replace(one.where, places=one.where.places + two.where.places),
    )
