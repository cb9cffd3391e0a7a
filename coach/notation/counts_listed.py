"""Figures and what they count: "24 dc and 8 ch-1 sps", "18, 24, 30 sc"."""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.instruction import Noun, Of
from coach.craft.pattern import Stated
from coach.notation.cursor import Cursor
from coach.notation.nouns import PREPOSITIONS, noun
from coach.notation.tokens import Token

_TAIL = (
    "each", "on", "in", "all", "total", "made", "per", "row", "rnd", "around", "rem", "left", "now",
    "at", "end", "of", "every", "for", "the", "size", "so", "far", "tot", "altogether", "both", "and",
    "counting", "including", "incl", "tch", "not", "used", "across", "here", "remain", "to", "st", "your", "this", "that", "altogether", "join", "again",
)  # fmt: skip


def counts_in(
    tokens: Sequence[Token], *, loose: bool = False
) -> tuple[tuple[Stated, ...], ...] | None:
    """Return the counts that *tokens* list and nothing else, one tuple for each row; else None.

    loose: figures of things that are no stitches ("5 petals", "2 handles") may be among them;
    they are let go, for nothing says what makes one.
    """
    cursor = Cursor(tokens)
    entries: list[Stated] = []
    let_go = False
    cursor.takes("now")
    cursor.takes("total", "=", "–", "-", ":", "#")
    cursor.takes(":")
    if not cursor.sees_kind("num"):
        return None
    while cursor.now is not None:
        if cursor.takes(",", "and", "&", "+", ";", "/", "plus", "with", ":", "–", "="):
            continue
        if not cursor.sees_kind("num") or cursor.now.raw.lower().endswith("st"):
            if _only_tail(cursor):
                break
            return None
        start = cursor.at
        value = cursor.next().value
        if loose and _is_figure(cursor):
            let_go = True
            continue
        entries.append(Stated(value, _counted(cursor), cursor.place(start)))
    if not entries:
        return () if let_go else None
    return _by_rows(entries)


def _is_figure(cursor: Cursor) -> bool:
    """Take the name of a thing that is no stitch, where it is all that follows a number."""
    at = cursor.at
    words = 0
    while words < 2 and cursor.sees_kind("word") and not cursor.sees(*_NOT_FIGURES):
        cursor.next()
        words += 1
    name = cursor.tokens[cursor.at - 1].text
    ended = cursor.now is None or cursor.sees(",", "and", "&", ";", "/", "+")
    if words and ended and len(name) > 3 and (name.endswith("s") or words == 1):
        return True
    cursor.at = at
    return False


_NOT_FIGURES = (
    *_TAIL,
    *PREPOSITIONS,
    "st",
    "sp",
    "ch",
    "lp",
    "times",
    "x",
    "more",
    "rows",
    "rnds",
    "and",
    "group",
)


def _counted(cursor: Cursor) -> Noun | None:
    if cursor.now is None or cursor.sees(",", "and", "&", ";", "/", "+"):
        return None
    if cursor.sees_kind("num") and not cursor.ahead_is(1, "-", "ch"):
        return None
    cursor.takes("total", "more", "new", "little", "small", "complete", "full", "tiny", "whole")
    found = noun(cursor)
    if found is not None and found.of is Of.CHAIN and found.length is not None:
        cursor.takes("sp", "lp")
        return Noun(Of.SPACE, None, found.length)
    cursor.takes("st", "total", "made")
    return found


def _only_tail(cursor: Cursor) -> bool:
    for token in cursor.tokens[cursor.at :]:
        if token.is_("counting", "including", "incl", "counts", "not"):
            return True
        if token.kind == "num" and token.value and cursor.tokens[-1] is token:
            continue
        if not token.is_(*_TAIL) and not token.is_(",", "."):
            return False
    return True


def _by_rows(entries: list[Stated]) -> tuple[tuple[Stated, ...], ...]:
    """Part "18, 24, 30 dc, and 1 ch-2 sp" into one count for each row."""
    bare = 0
    while bare < len(entries) and entries[bare].noun is None:
        bare += 1
    if bare and len(entries) > 1:
        listed = entries[: bare + 1]
        shared = entries[bare + 1 :]
        kind = listed[-1].noun
        if kind is not None and kind.of is Of.SPACE and bare == 1:
            return (tuple(entries),)
        return tuple((Stated(each.number, kind, each.place), *shared) for each in listed)
    return (tuple(entries),)
