"""Edges by their names: "12 sc along left edge", "28 sc down the side, 1 sc in end of each row".

So many along an edge are a number of them in all, never so many in each place of it; how they
lie there may be told after it (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from coach.notation.cursor import Cursor
from coach.notation.tokens import Token

MOST_IN_ONE = 3  # more than so many in each place along an edge are a number of them in all

_ALONG = ("along", "across", "down", "up", "over", "on", "around", "round", "to")
_ENDS_OF_STITCHES = ("top", "bottom", "lower", "upper", "foundation", "starting", "ch", "chain", "neck", "neckline")  # fmt: skip
_WHICH = ("first", "second", "other", "opposite", "next", "same", "third", "fourth", "rem", "last", "left", "right", "front", "back", "long", "short", "longer", "shorter", "armhole", "inner", "outer", "curved", "straight", "row")  # fmt: skip
_EDGES = ("edge", "side", "top", "bottom", "armhole", "neck", "neckline", "opening", "slope")
_CLAUSE_ENDS = (",", ";", ".", ":", "–", "(", ")", "]", "and", "then")
# What a round along all its edges is said to go around.
_WHOLE = (
    "edge", "edges", "outside", "border", "perimeter", "sides", "blanket", "mat", "piece", "square", "afghan",
    "throw", "shawl", "cloth", "rug", "cushion", "panel", "scarf", "cover", "bag", "motif", "pattern", "work",
    "project", "swatch", "body", "top", "bottom", "brim", "opening", "neckline", "neck", "armhole", "cuff", "hem",
    "runner", "coaster", "pad",
)  # fmt: skip
_AROUND_WHAT = (
    "the", "all", "entire", "whole", "outer", "complete", "of", "four", "this", "your", "finished", "each",
)  # fmt: skip


def edge_named(cursor: Cursor) -> bool:
    """Take "along left edge", "evenly down the other side"; tell whether an edge was named."""
    start = cursor.at
    cursor.takes("evenly")
    if cursor.takes(*_ALONG):
        cursor.takes("the")
        named = False
        while cursor.sees(*_WHICH, *_ENDS_OF_STITCHES, *_EDGES) or cursor.sees_kind("ord"):
            named = cursor.next().is_(*_EDGES)
        if named and cursor.sees("of"):
            _of_what(cursor)
        if named and (cursor.now is None or cursor.sees(*_CLAUSE_ENDS)):
            return True
    cursor.at = start
    return False


def _of_what(cursor: Cursor) -> None:
    """Pass "of the heel flap", "of front" after an edge, where the clause ends with it."""
    start = cursor.at
    cursor.next()
    cursor.takes("the", "your", "this")
    for _ in range(3):
        if cursor.sees_kind("word") and not cursor.sees(
            *_CLAUSE_ENDS, "next", "each", "row", "rnd"
        ):
            cursor.next()
    if cursor.now is not None and not cursor.sees(*_CLAUSE_ENDS):
        cursor.at = start


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
    """Pass ", 1 sc in end of each row", "– one to each row", ", 4 dc in every 3 rows"."""
    start = cursor.at
    if cursor.takes(",", ";", "–", ":") or cursor.sees("working", "placing", "making"):
        cursor.takes("working", "work", "placing", "making", "with")
        number = cursor.number() or 1
        if cursor.sees_kind("stitch"):
            cursor.next()
        rows = _each_row_end(cursor)
        if rows and number <= MOST_IN_ONE * rows:
            return
    cursor.at = start


def _each_row_end(cursor: Cursor) -> int:
    """Take "in each row end", "to every row", "per 3 rows" at a clause's end: of how many rows, or 0."""
    if cursor.takes("in", "into", "to", "at", "for", "over"):
        cursor.takes("the")
        if not cursor.takes("each"):
            return 0
    elif not cursor.takes("per"):
        return 0
    rows = cursor.number() or 1
    if not cursor.takes("row", "rnd"):
        return 0
    cursor.takes("-")
    cursor.takes("end", "ends")
    return rows if cursor.now is None or cursor.sees(*_CLAUSE_ENDS) else 0


def is_edging(text: str) -> bool:
    """Tell whether a sentence is a round along the edges that states its count."""
    return _EDGING.match(text) is not None and states_its_count(text)


def states_its_count(text: str) -> bool:
    """Tell whether words end in a count: "(68 sc)", "52 sts in all"."""
    return _STATES.search(text) is not None


_EDGING = re.compile(
    r"\W*(?:(?:with|using)\s+[^.:]{1,40}?[.,]\s*)*(?:(?:re)?(?:join|attach)[^.]{0,50}[.,;]\s*)?(?:ch\s*1\s*[.,;]\s*)?(?:then\s+)?"
    r"(?:work\s+)?(?:(?:one|1|a)\s+(?:round|rnd|row)\s+(?:of|in)\s+)?(?:\d+\s*)?(?:sc|hdc|dc|htr|(?:single|half\s+double|double)\s+crochet)\s+(?:evenly\s+)?(?:all\s+)?(?:a?round|along)\b",
    re.IGNORECASE,
)
_STATES = re.compile(
    r"[(\[]\s*\d+\s*(?:sts?|stitches|sc|hdc|dc|htr|tr)?[^()\[\]]*[)\]][\s.]*$|\b\d+\s*(?:sts?|stitches|sc|hdc|dc|htr|tr)?(?:\s+in\s+all)?[\s.]*$",
    re.IGNORECASE,
)


def edges_in_short(tokens: Sequence[Token]) -> list[Token]:
    """Return *tokens* with "sc around the blanket", "sc all round the outer edge" as "sc evenly around"."""
    out: list[Token] = []
    index = _one_round_of(tokens)
    while index < len(tokens):
        end = _edge_phrase(tokens, index)
        after_stitch = any(token.kind == "stitch" for token in out[-3:])
        if not end or not after_stitch or any(token.is_("evenly") for token in out[-3:]):
            out.append(tokens[index])
            index += 1
            continue
        word = tokens[index]
        out += [replace(word, text="evenly"), replace(word, text="around")]
        index = end
    return out


def _one_round_of(tokens: Sequence[Token]) -> int:
    """Return the end of "work one round of" before a stitch; 0 without it."""
    begin = next((at for at, each in enumerate(tokens[:2]) if not each.is_("work")), 0)
    words = [token.text for token in tokens[begin : begin + 3]]
    told = (
        len(words) == 3
        and words[0] in ("1", "one", "a")
        and words[1:] in (["rnd", "of"], ["rnd", "in"])
    )
    return (
        begin + 3 if told and len(tokens) > begin + 3 and tokens[begin + 3].kind == "stitch" else 0
    )


def _edge_phrase(tokens: Sequence[Token], index: int) -> int:
    """Return the end of "around the outer edge of the blanket" that begins at *index*; 0 for none."""
    at = index + tokens[index].is_("all", "right")
    if at >= len(tokens) or not tokens[at].is_("around", "round", "along"):
        return 0
    at += 1
    begin = at
    named = False
    while at < len(tokens) and tokens[at].kind == "word":
        if tokens[at].text in _WHOLE:
            named = True
        elif not tokens[at].is_(*_AROUND_WHAT):
            break
        at += 1
    whole = (
        tokens[begin].is_("the", "all", "entire", "whole", "outer", "outside", "this")
        if begin < len(tokens)
        else False
    )
    return at if named and whole else 0
