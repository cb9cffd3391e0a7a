"""A first round along the edges whose words leave its number open: "sc evenly around, 3 sc in each corner".

An edge lies flat with one single crochet in each stitch, and along the side as many in each row end
as its stitches are high, a single crochet's height being one (common practice, no source). The
corners' stitches come besides. The maker is told that the number is not the pattern's.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from coach.craft.instruction import GroupIn, Instruction, Make, Of, Which
from coach.craft.pattern import Line
from coach.craft.problem import Place
from coach.craft.proof import ProvedRow, Reading
from coach.craft.stitch import height

_AROUND = re.compile(r"\b(?:a?round)\b", re.IGNORECASE)
_CORNERS = re.compile(
    r"(?<![-\w])(\d+)\s+(?:[a-z]+\s+)?(?:in|at|into)\s+(?:each|every|all(?:\s+(?:four|the|4))?|the)\s+(?:\w+\s+)?corners?\b",
    re.IGNORECASE,
)
_SIDES = 4  # of a piece worked in rows, and so many corners


@dataclass(frozen=True, slots=True)
class UsualEdge:
    """How many go along the edges, corners apart: and how many in each corner (0: none told)."""

    along: int
    corner: int


def usual_edge(before: Sequence[ProvedRow], line: Line) -> UsualEdge | None:
    """Return what usually goes round the piece, where *line* is a round that leaves it open.

    before: the rows so far.
    """
    if line.kind != "round" or not _AROUND.search(line.text):
        return None
    if len([item for item in line.items if _is_open(item)]) != 1:
        return None
    rows = _rows_of_the_piece(before)
    if not rows:
        return None
    ends = sum(_row_ends(row) for row in rows)
    told = _CORNERS.search(line.text)
    width = rows[0].made + rows[-1].made + rows[-1].spaces
    return UsualEdge(width + 2 * round(ends), int(told[1]) if told else 0)


def with_its_number(items: Sequence[Instruction], edge: UsualEdge) -> tuple[Instruction, ...]:
    """Return *items* with as many stitches along the edges, and what they tell of a corner in each."""
    along = edge.along
    out: list[Instruction] = []
    told = False
    for item in items:
        corner = not _is_open(item) and isinstance(item, Make | GroupIn) and _along_an_edge(item)
        if corner and isinstance(item, Make | GroupIn) and item.target is not None:
            told = True
            out.append(replace(item, target=replace(item.target, count=_SIDES)))
        else:
            out.append(item)
    if not told:
        along += _SIDES * edge.corner
    return tuple(
        replace(item, each=along) if isinstance(item, Make) and _is_open(item) else item
        for item in out
    )


def told_of_edges(rows: Sequence[ProvedRow], edges: Mapping[Place, UsualEdge]) -> list[Reading]:
    """Return what is told of the numbers that the pattern leaves open, by the place of their round."""
    labels = {row.line: row.label for row in reversed(rows)}
    return [_told(labels.get(place.line, "the edging"), edge) for place, edge in edges.items()]


def _told(label: str, edge: UsualEdge) -> Reading:
    corners = f", and {edge.corner} in each corner" if edge.corner else ""
    return Reading(
        f"how many go round the edge in {label}",
        f"{edge.along}: one in each stitch, one for each single crochet's height along the sides{corners}",
        "the pattern leaves it open; where your edge takes another number, go on with yours",
    )


def _is_open(item: Instruction) -> bool:
    return (
        isinstance(item, Make)
        and _along_an_edge(item)
        and item.each == item.times == 1
        and item.target is not None
        and item.target.count == 1
    )


def _along_an_edge(item: Make | GroupIn) -> bool:
    where = item.target
    return where is not None and (
        (where.noun.of is Of.ROW_END and where.which is Which.NEXT) or where.which is Which.CORNER
    )


def _rows_of_the_piece(rows: Sequence[ProvedRow]) -> list[ProvedRow]:
    """Return the rows from the foundation on; none where the piece is no plain piece of rows."""
    out: list[ProvedRow] = []
    for row in reversed(rows):
        if row.kind != "row" or row.part != rows[-1].part:
            return []
        out.append(row)
        if row.foundation is not None or row.number == 1:
            return out[::-1]
    return out[::-1]


def _row_ends(row: ProvedRow) -> float:
    """Return how many single crochet the end of a row takes: the height of most of its stitches."""
    most = max(row.by_stitch, key=lambda name: row.by_stitch[name], default="sc")
    return {1: 1.0, 2: 1.5, 3: 2.0, 4: 3.0}.get(height(most) or 1, 1.0)
