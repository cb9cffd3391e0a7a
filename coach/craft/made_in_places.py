"""Stitches made in the places they were taken for: told as one block, left as places for the next row."""

from __future__ import annotations

from dataclasses import replace

from coach.craft import fabric
from coach.craft.fabric import Cell
from coach.craft.hand import Hand, stitches, tagged
from coach.craft.instruction import Make, Target
from coach.craft.places_wanted import (
    name_of,
    position_of,
)
from coach.craft.row_bench import Bench
from coach.craft.working import Block, Into, Where


def made_in(  # noqa: PLR0917
    bench: Bench,
    item: Make,
    target: Target,
    hand: Hand,
    into: Into,
    uses: int,
    uses_spaces: int,
    *,
    places: int,
    last: str | None = None,
    cell: Cell | None = None,
    passing: int = 0,
    drawn: int = 0,
) -> Hand:
    """Return the hand with the stitches made and the block told."""
    count = item.each * places * item.times
    where = Where(
        into,
        places=drawn or places,
        named=name_of(target),
        chain_length=cell.length if cell and not cell.is_stitch else target.noun.length,
        position=position_of(target),
        loop=target.loop or item.loop or hand.loop,
        rows_below=target.rows_below,
        remark=target.remark,
    )
    slip = item.stitch == "sl st" and not bench.slips_count
    if slip and (hand.begun or bench.slips_in_turn) and into in (Into.NEXT, Into.CHAIN):
        bench.looked.add(("slip", 0))
        slip = not bench.switches.slips
    if slip:
        block = Block(
            "sl st",
            count,
            where,
            each=item.each,
            uses=uses,
            uses_spaces=uses_spaces,
            role="travel",
            color=hand.color,
            passing=passing,
        )
        return replace(hand.making((), block), moved=True, last=last or hand.last)
    name = item.stitch
    block = Block(
        name,
        count,
        where,
        each=item.each,
        uses=uses,
        uses_spaces=uses_spaces,
        makes=count,
        color=hand.color,
        passing=passing,
        pattern_stitch=item.named,
        role="beginning" if item.beginning else None,
    )
    cells = stitches(name, count)
    if item.each > 2 and places == 1 and item.times == 1:
        cells = tagged(cells, "")
    elif item.each > 2 and last == "space":
        cells = fabric.section(tagged(stitches(name, item.each), ""), places * item.times)
    if hand.standing and into is Into.SAME and hand.out and hand.out[1] is None:
        # a counted chain and what is worked beside it are one group, as a half shell is
        whole = (*hand.out[0], *stitches(name, count))
        grouped = count > 1 or len(hand.out[0]) > 1  # "ch 4, dc in same st" is a V-stitch
        hand, cells = replace(hand, out=None), tagged(whole, "") if grouped else whole
    return replace(
        hand.making(cells, block),
        begun=True,
        moved=True,
        last=last or hand.last or "stitch",
    )
