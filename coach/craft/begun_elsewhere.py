"""A part begun away from the last row: an earflap along the brim, a sleeve round its opening.

"Skip 5 dc from the seam, join yarn in next dc, ch 1, sc in same dc and in next 8 dc, turn (9)"
says nothing of what is left, and what it is worked into may lie rows below. Such a row is held
against its own count: its words alone must make what it states.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from coach.craft.fabric import Item, Run, space_cell, stitch_cell
from coach.craft.instruction import Act, GroupIn, Instruction, Make, Of, Skip, Which
from coach.craft.open_ends import demand_of, is_open
from coach.craft.pattern import Line
from coach.craft.row_bench import Ground


def begun_elsewhere(line: Line, ground: Ground) -> tuple[tuple[Instruction, ...], Ground] | None:
    """Return the words of *line* and just as many places as its words ask for, where it joins yarn to begin.

    None where no yarn is joined before the first stitch and no other piece is named, or where how far the row goes
    depends on what lies below.
    """
    joined = 0 if _OF_PIECES.search(line.text) else _joined(line.items)
    if joined is None or any(is_open(item) for item in line.items):
        return None
    before, after = line.items[:joined], line.items[joined:]
    items = (*(item for item in before if not isinstance(item, Skip)), *after)
    below = _places(after)
    if not below:
        return None
    kind = "round" if line.kind == "round" else "row"
    other = replace(ground, below=below, kind=kind, already=None)
    return items, other


# Legs joined into a body, straps onto a bag: the first round goes over pieces made before.
_OF_PIECES = re.compile(
    r"\b(?:of|around|along|across|over)\s+(?:the\s+)?(?:(?:first|second|third|other|left|right|same)\s+(?:leg|arm|ear|foot|piece|panel|strap|half|side)\b"
    r"|(?:leg|arm|ear|foot|piece|panel|strap|half)\s+(?:\d|one|two|three|[A-C])\b)",
    re.IGNORECASE,
)


def _joined(items: Sequence[Instruction]) -> int | None:
    """Return where yarn is joined before the first stitch."""
    for index, item in enumerate(items):
        if isinstance(item, Act) and item.kind == "join yarn":
            return index
        if not isinstance(item, Act | Skip):
            return None
    return None


def _places(items: Sequence[Instruction]) -> tuple[Item, ...]:
    """Return the places that *items* ask for, in their order."""
    out: list[Run] = []
    for item in items:
        if isinstance(item, Skip) and item.target.noun.of is Of.SPACE:
            out.append(Run(space_cell(item.target.noun.length or 1), 1))
        elif isinstance(item, Skip) and item.target.which is Which.ANY:
            out.append(Run(stitch_cell(item.target.noun.name or "sc"), 1))
        elif isinstance(item, Make | GroupIn) and item.target is not None:
            for target in (item.target, *item.target.also):
                if target.noun.of is Of.SPACE and target.which is not Which.SAME:
                    out.append(Run(space_cell(target.noun.length or 1), target.count))
                elif target.noun.of in (Of.STITCH, Of.NAMED) and target.which is not Which.SAME:
                    alone = replace(item, target=replace(target, also=()))
                    out.append(Run(stitch_cell(target.noun.name or "sc"), demand_of([alone])))
        else:
            number = demand_of([item])
            out += [Run(stitch_cell("sc"), number)] if number else []
    return tuple(run for run in out if run.count)
