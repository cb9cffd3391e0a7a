"""Edges by their names: "12 sc along left edge", "28 sc down the side, 1 sc in end of each row".

So many along an edge are a number of them in all, never so many in each place of it; how they
lie there may be told after it (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence

from coach.notation.cursor import Cursor
from coach.notation.tokens import Token

MOST_IN_ONE = 3  # more than so many in each place along an edge are a number of them in all

_ALONG = ("along", "across", "down", "up", "over", "on", "around", "round", "to")
_ENDS_OF_STITCHES = ("top", "bottom", "lower", "upper", "foundation", "starting", "ch", "chain", "neck", "neckline")  # fmt: skip
_WHICH = ("first", "second", "other", "opposite", "next", "same", "third", "fourth", "rem", "last", "left", "right", "front", "back", "long", "short", "longer", "shorter", "armhole", "inner", "outer", "curved", "straight", "row")  # fmt: skip
_EDGES = ("edge", "side", "top", "bottom", "armhole", "neck", "neckline", "opening", "slope")
_CLAUSE_ENDS = (",", ";", ".", ":", "–", "(", ")", "]", "and", "then")


def edge_named(cursor: Cursor) -> bool:
    """Take "along left edge", "evenly down the other side"; tell whether an edge was named."""
    start = cursor.at
    cursor.takes("evenly")
    if cursor.takes(*_ALONG):
        cursor.takes("the")
        named = False
        while cursor.sees(*_WHICH, *_ENDS_OF_STITCHES, *_EDGES) or cursor.sees_kind("ord"):
            named = cursor.next().is_(*_EDGES)
        if named and (cursor.now is None or cursor.sees(*_CLAUSE_ENDS)):
            return True
    cursor.at = start
    return False


def without_how_they_lie(tokens: Sequence[Token]) -> list[Token]:
    """Return *tokens* less "1 sc in each row end" after "28 sc along side edge": it tells no others.

    Along the top or the foundation there are no row ends: what is said after those is another edge.
    """
    cursor = Cursor(tokens)
    out: list[Token] = []
    while cursor.now is not None:
        start = cursor.at
        if _so_many_along_a_side(cursor):
            out += tokens[start : cursor.at]
            _how_they_lie(cursor)
        else:
            out.append(cursor.next())
    return out


def _so_many_along_a_side(cursor: Cursor) -> bool:
    """Take "28 sc along side edge" where the edge is one of row ends."""
    start = cursor.at
    number = cursor.next()
    if number.kind == "num" and number.value > MOST_IN_ONE and cursor.sees_kind("stitch"):
        cursor.next()
        mark = cursor.at
        if edge_named(cursor) and not any(
            token.is_(*_ENDS_OF_STITCHES) for token in cursor.tokens[mark : cursor.at]
        ):
            return True
    cursor.at = start
    return False


def _how_they_lie(cursor: Cursor) -> None:
    """Pass ", 1 sc in end of each row", "– one to each row": up to three in each row end."""
    start = cursor.at
    if cursor.takes(",", ";", "–", ":"):
        cursor.takes("working", "work", "placing", "making", "with")
        number = cursor.number() or 1
        if cursor.sees_kind("stitch"):
            cursor.next()
        if number <= MOST_IN_ONE and _each_row_end(cursor):
            return
    cursor.at = start


def _each_row_end(cursor: Cursor) -> bool:
    """Take "in each row end", "to every row", "per row" at the end of a clause."""
    if cursor.takes("in", "into", "to", "at", "for"):
        cursor.takes("the")
        if not cursor.takes("each"):
            return False
    elif not cursor.takes("per"):
        return False
    if not cursor.takes("row", "rnd"):
        return False
    cursor.takes("-")
    cursor.takes("end")
    return cursor.now is None or cursor.sees(*_CLAUSE_ENDS)
