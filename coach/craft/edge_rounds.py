"""A first round along the edges of a piece that was worked in rows.

"Sc around, 3 sc in each corner (68 sc)": an edge has no stitches to count, so the stated count is
taken, as where "evenly" is said (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from coach.craft.instruction import (
    Act,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Join,
    Make,
    Noun,
    Of,
    Repeated,
    Target,
    Which,
)
from coach.craft.pattern import Line, Stated

_CORNER = re.compile(r"\bcorners?\b", re.IGNORECASE)
_EDGE = Target(Which.NEXT, Noun(Of.ROW_END))


def along_the_edges(line: Line, stated: Sequence[Stated]) -> tuple[Instruction, ...] | None:
    """Return the words of a round with corners as one along edges; None where it is no such round."""
    stitches = sum(each.number for each in stated if not _is_space(each))
    spaces = sum(each.number for each in stated if _is_space(each))
    if line.kind != "round" or stitches < 1 or not _CORNER.search(line.text):
        return None
    worked = list(_worked(line.items))
    groups = [item for item in worked if isinstance(item, GroupIn)]
    makes = [item for item in worked if isinstance(item, Make)]
    if len(groups) > 1 or (spaces and not groups) or not all(map(_says_no_number, worked)):
        return None
    around: list[Instruction] = []
    first = worked[0] if worked else None
    if groups:
        group = groups[0]
        in_one = sum(part.each for part in group.parts if isinstance(part, Make))
        holes = sum(isinstance(part, Chain) for part in group.parts)
        corners = spaces // holes if holes else 0
        stitches -= corners * in_one
        if corners < 1 or stitches < 1:
            return None
        around.append(replace(group, target=replace(_EDGE, count=corners)))
    main = next((item for item in makes if item.each == 1), None)
    name = main.stitch if main else _stitch_of(groups)
    if first is None or name is None:
        return None
    around.insert(0, Make(name, stitches, _EDGE, main.place if main else first.place))
    at = min(_at(item) for item in worked)
    begin = [each for each in line.items if isinstance(each, Act | Chain) and _at(each) < at]
    ending = [each for each in line.items if isinstance(each, Join | Act) and _at(each) > at]
    return (*begin, *around, *(each for each in ending if not _plain_remark(each)))


def number_left_open(line: Line, stated: Sequence[Stated], *, afresh: bool) -> bool:
    """Tell whether a round along edges leaves its number open, or where its corners are."""
    open_edges = [
        item
        for item in _worked(line.items)
        if isinstance(item, Make)
        and item.target is not None
        and item.target.noun.of is Of.ROW_END
        and item.target.which is Which.NEXT
    ]
    if not open_edges:
        return afresh and bool(stated) and along_the_edges(line, stated) is not None
    uncounted = not stated and any(item.each == item.times == 1 for item in open_edges)
    corners = line.kind == "round" and _IN_CORNERS.search(line.text) is not None
    return uncounted or (len(open_edges) <= _FEW and corners)


_IN_CORNERS = re.compile(r"\b(?:in|at)\s+(?:(?:each|every|all|the)\s+)?(?:\w+\s+)?corners?\b", re.I)
_FEW = 2  # the edge and its corners; sides told one by one are more


def _worked(items: Iterable[Instruction]) -> Iterator[Make | GroupIn]:
    for item in items:
        if isinstance(item, Make | GroupIn):
            yield item
        elif isinstance(item, EachOf):
            yield from item.parts
        elif isinstance(item, Repeated):
            yield from _worked(item.body)


def _stitch_of(groups: Sequence[GroupIn]) -> str | None:
    return next(
        (part.stitch for each in groups for part in each.parts if isinstance(part, Make)), None
    )


def _says_no_number(item: Make | GroupIn) -> bool:
    """Tell whether how many it makes along the edge is left to the count."""
    where = item.target
    if where is None:
        return False
    if where.which is Which.CORNER or where.noun.of is Of.ROW_END:
        return True
    before_corner = where.until is not None and where.until.noun.name == "corner"
    return where.which is Which.EACH and (where.open or before_corner)


def _at(item: Instruction) -> tuple[int, int]:
    return item.place.line, item.place.column


def _plain_remark(item: Instruction) -> bool:
    return isinstance(item, Act) and item.kind == "remark" and not _CORNER.search(item.text)


def _is_space(figure: Stated) -> bool:
    return figure.noun is not None and figure.noun.of is Of.SPACE
