"""Stitches that go into an earlier row by its number: "around next dc of Rnd 1", "in each sc of Row 3"."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from coach.craft.instruction import EachOf, GroupIn, Instruction, Make, Repeated, Skip, Target
from coach.craft.pattern import Line
from coach.notation.cursor import Cursor


def row_named(cursor: Cursor) -> int | None:
    """Take "of Rnd 1", "made in Row 3", "from the 2nd rnd"; return the row's number, or nothing."""
    start = cursor.at
    cursor.takes("made", "worked")
    if cursor.takes("of", "in", "on", "from"):
        cursor.takes("the")
        if cursor.takes("row", "rnd", "round") and cursor.sees_kind("num"):
            return cursor.number()
        token = cursor.now
        if token is not None and token.kind == "ord" and cursor.ahead_is(1, "row", "rnd", "round"):
            cursor.at += 2
            return token.value
    cursor.at = start
    return None


def in_rows_below(line: Line) -> Line:
    """Return *line* with each earlier row that its stitches name told as so many rows below.

    "of Rnd 1" in Rnd 3 is two rows below; the row just below is where any stitch goes.
    """
    if line.number is None or not any(_names_a_row(item) for item in line.items):
        return line
    return replace(line, items=_lowered(line.items, line.number))


def _names_a_row(item: Instruction) -> bool:
    match item:
        case Make() | Skip():
            return item.target is not None and item.target.of_row is not None
        case GroupIn():
            return item.target.of_row is not None
        case EachOf():
            return any(_names_a_row(part) for part in item.parts)
        case Repeated():
            return any(_names_a_row(part) for part in item.body)
    return False


def _lowered(items: Iterable[Instruction], number: int) -> tuple[Instruction, ...]:
    return tuple(_lowered_in(item, number) for item in items)


def _lowered_in(item: Instruction, number: int) -> Instruction:
    match item:
        case Make() if item.target is not None:
            return replace(item, target=_below(item.target, number))
        case Skip() | GroupIn():
            return replace(item, target=_below(item.target, number))
        case EachOf():
            parts = tuple(
                replace(part, target=_below(part.target, number)) if part.target else part
                for part in item.parts
            )
            return replace(item, parts=parts)
        case Repeated():
            return replace(item, body=_lowered(item.body, number))
    return item


def _below(target: Target, number: int) -> Target:
    if target.of_row is None:
        return target
    rows = number - target.of_row
    return replace(target, of_row=None, rows_below=rows if rows > 1 else 0)
