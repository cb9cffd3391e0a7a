"""What a row meets: the fabric below as it is turned, and the side that faces."""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft import fabric
from coach.craft.fabric import Item
from coach.craft.instruction import Act, Chain, Instruction, Of, makes_in
from coach.craft.pattern import Line, Stated
from coach.craft.proof import ProvedRow
from coach.craft.row_bench import Ground, RowResult
from coach.craft.stated_counts import as_stated, total_of
from coach.craft.tally import Tally
from coach.craft.walk import Below, Walk
from coach.craft.working import Block


def ground_for(walk: Walk, line: Line) -> Ground:
    """Return what *line* is worked into, as it is met."""
    below = walk.below
    kind = below.kind
    items = below.items
    rounds = line.kind == "round"
    if kind in ("row", "round"):
        if met_turned(walk, line):
            items = from_other_side(walk, items, join_first=kind == "round")
        kind = "round" if rounds else "row"
    ends = 0
    if along_ends(line.items):
        ends = sum(1 for row in walk.rows[-400:] if row.kind == "row")
    edge = _chain_edge(walk, line.items) if kind in ("row", "round") else 0
    return Ground(items, kind, below.closing, rounds, below.color, ends, edge)


def met_turned(walk: Walk, line: Line) -> bool:
    """Tell whether the row below is met from its other end."""
    below = walk.below
    turns = below.turned or _turns_first(line.items)
    return (turns if line.kind == "round" else not below.kept) and not below.as_met


def _chain_edge(walk: Walk, items: Sequence[Instruction]) -> int:
    """Return the chains along the edge where the piece began; 0 where the row names no chain."""
    if not any(
        make.target is not None and make.target.noun.of in {Of.CHAIN, Of.FREE_LOOP}
        for make in makes_in(items)
    ):
        return 0
    begun = [row for row in walk.rows if row.foundation is not None] or walk.rows[:1]
    first = begun[-1] if begun else None
    if first is None or first.kind != "row" or first.spaces:
        return 0
    foundation = first.foundation or walk.foundation
    told_before = foundation is not None and foundation.kind == "chain"
    in_the_row = any(block.role == "foundation" for block in first.work if isinstance(block, Block))
    return first.made if in_the_row or (told_before and first.worked is not None) else 0


def from_other_side(walk: Walk, items: tuple[Item, ...], *, join_first: bool) -> tuple[Item, ...]:
    """Return *items* turned; remembered, so that a blanket's rows are turned once."""
    known = walk.turned_over.get(id(items))
    if known is None or known[0] is not items:
        turned = fabric.from_other_side(items)
        known = (items, walk.interned.setdefault(turned, turned))
        walk.turned_over[id(items)] = known
        walk.turned_over[id(known[1])] = (known[1], items)
    return known[1]


def side_of(walk: Walk, line: Line, turned: bool) -> str | None:
    """Return which side faces: as said, or by turning from the row before."""
    if (line.side and not walk.rows) or (
        line.side and (line.number is None or not _rerun_of(walk.rows, line))
    ):
        return line.side
    before = walk.below.side
    if before is None:
        return None
    if not turned:
        return before
    return "WS" if before == "RS" else "RS"


def set_below(  # noqa: PLR0917
    walk: Walk,
    line: Line,
    result: RowResult,
    count: Tally,
    at_fault: bool,
    stated: tuple[Stated, ...],
    side: str | None,
) -> None:
    """Set what the next row meets: the fabric made, or after a fault what was stated."""
    items = result.out
    other = None
    uncertain = False
    if at_fault:
        items, uncertain = as_stated(walk, line, items, count, stated)
        if items is not result.out and result.fault is None and not line.problems:
            other = result.out
    elif walk.below.uncertain and total_of(stated) is None:
        uncertain = True
    kept = any(isinstance(item, Act) and item.kind == "do not turn" for item in line.items)
    ends = _turns_last(line.items)
    walk.below = Below(
        items, line.kind, result.closing, ends, kept, uncertain, result.color, side, other
    )
    for length, counts in result.taken_counts:
        if length > 1 and _said(line.items, length):
            walk.rules.setdefault(length, counts)


def _rerun_of(rows: Sequence[ProvedRow], line: Line) -> bool:
    return any(row.line == line.place.line for row in rows[-400:])


def along_ends(items: Sequence[Instruction]) -> bool:
    """Tell whether a row goes along row ends."""
    return any(
        make.target is not None and make.target.noun.of is Of.ROW_END for make in makes_in(items)
    )


def _turns_first(items: Sequence[Instruction]) -> bool:
    for item in items:
        if isinstance(item, Act):
            if item.kind == "turn":
                return True
        elif not isinstance(item, Chain):
            return False
    return False


def _turns_last(items: Sequence[Instruction]) -> bool:
    worked = False
    for item in items:
        if isinstance(item, Act):
            if item.kind == "turn" and worked:
                return True
        elif not isinstance(item, Chain):
            worked = True
    return False


def _said(items: Sequence[Instruction], length: int) -> bool:
    return any(
        isinstance(item, Chain) and item.count == length and item.counts_as is not None
        for item in items
    )
