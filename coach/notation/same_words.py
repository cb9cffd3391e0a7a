"""The same words on another line: read once, and moved to where they stand again.

A pattern that is written out row by row says few different things. What was read from one row
serves for its equals; only the places in the text differ.
"""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import EachOf, GroupIn, Instruction, Make, Repeated
from coach.craft.pattern import Line, Stated
from coach.craft.problem import Place
from coach.notation.piece import Piece


def words_of(piece: Piece) -> str | None:
    """Return the words of a row that stands on one line and as it was given, else None."""
    if len(piece.spans) != 1 or piece.count is not None:
        return None
    if piece.header is not None and piece.header.counted is not None:
        return None
    line, start, end = piece.spans[0]
    return line.text[start:end] if line.columns is None else None


def moved_line(line: Line, place: Place) -> Line:
    """Return *line*, which has no problems, as it reads with its words at *place*."""
    lines, columns = place.line - line.place.line, place.column - line.place.column
    if not lines and not columns:
        return line
    return replace(
        line,
        place=place,
        items=tuple(_moved(item, lines, columns) for item in line.items),
        stated=tuple(
            tuple(_moved_figure(figure, lines, columns) for figure in figures)
            for figures in line.stated
        ),
    )


def _there(place: Place, lines: int, columns: int) -> Place:
    return replace(place, line=place.line + lines, column=place.column + columns)


def _moved_figure(figure: Stated, lines: int, columns: int) -> Stated:
    return replace(figure, place=_there(figure.place, lines, columns))


def _moved(item: Instruction, lines: int, columns: int) -> Instruction:
    place = _there(item.place, lines, columns)
    match item:
        case GroupIn():
            parts = tuple(_moved(part, lines, columns) for part in item.parts)
            return replace(item, place=place, parts=parts)
        case EachOf():
            each = (_moved(part, lines, columns) for part in item.parts)
            kept = tuple(part for part in each if isinstance(part, Make | GroupIn))
            return replace(item, place=place, parts=kept)
        case Repeated():
            body = tuple(_moved(part, lines, columns) for part in item.body)
            return replace(item, place=place, body=body)
        case _:
            return replace(item, place=place)
