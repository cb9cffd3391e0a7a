"""What is worked into, as the text names it: "ch-2 sp", "dc", "shell", "ring"."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import Noun, Of
from coach.notation.cursor import Cursor

PREPOSITIONS = (
    "in", "into", "on", "over", "around", "round", "rnd", "through", "under", "across", "at",
    "along", "to", "from", "within", "inside",
)  # fmt: skip
ANY = Noun(Of.STITCH)
OPENINGS = (
    "buttonhole", "buttonholes", "handle", "handles", "eyelet", "eyelets", "armhole", "armholes",
    "thumbhole", "thumbholes", "opening", "openings",
)  # fmt: skip


def noun(cursor: Cursor) -> Noun | None:
    """Take a noun, or nothing."""
    start = cursor.at
    found = _noun(cursor)
    if found is None:
        cursor.at = start
    return found


def _noun(cursor: Cursor) -> Noun | None:  # noqa: PLR0911, PLR0912, PLR0915
    cursor.skip_fillers()
    while cursor.takes("base", "unused", "free", "actual", "made", "unworked"):
        if cursor.sees("lp"):
            cursor.next()
            _chain_tail(cursor)
            return Noun(Of.FREE_LOOP)
    if space_ahead(cursor) or (cursor.sees_kind("num") and cursor.ahead_is(1, "-", "ch")):
        return _number_first(cursor)
    if cursor.takes("magic", "adjustable", "sliding"):
        cursor.takes("ring", "lp", "circle")
        return Noun(Of.RING)
    if cursor.takes("ring", "mr", "mc", "mring"):
        return Noun(Of.RING)
    if cursor.takes("tch"):
        return Noun(Of.TURNING_CHAIN)
    if cursor.takes("t"):
        cursor.takes("-")
        return Noun(Of.TURNING_CHAIN) if cursor.takes("ch") else None
    if cursor.takes("turning", "turn", "beg", "starting", "start"):
        cursor.takes("-")
        if cursor.sees_kind("unit"):
            return Noun(Of.UNIT, cursor.next().text)
        length = cursor.number()
        if length is not None:
            cursor.takes("-")
        if cursor.takes("ch"):
            if (length is None and cursor.takes("-")) or (
                length is None and cursor.sees_kind("num")
            ):
                length = cursor.number()
            if cursor.takes("sp", "lp"):
                return Noun(Of.SPACE, None, None)
            return Noun(Of.TURNING_CHAIN, None, length)
        if cursor.takes("st"):
            return ANY
        return None
    if cursor.takes("skipped"):
        cursor.takes("st")
        if cursor.sees_kind("stitch"):
            cursor.next()
        return Noun(Of.SKIPPED)
    if cursor.sees("foundation") and cursor.ahead_is(1, "ch"):
        cursor.next()
    if cursor.sees("ch"):
        return _chain(cursor)
    if cursor.takes("corner"):
        inner = noun(cursor)
        if inner is not None and inner.of in (Of.STITCH, Of.NAMED):
            return replace(inner, length=-1)
        return inner or Noun(Of.SPACE, "corner")
    if cursor.takes("sp", "lp", "mesh", "hole", "gap", *OPENINGS):
        if cursor.takes("between"):
            _between_tail(cursor)
            return Noun(Of.BETWEEN)
        if (side := _beside_a_group(cursor)) is not None:
            return side
        return Noun(Of.SPACE)
    if cursor.takes("st", "place"):
        if cursor.takes_all("or", "sp") or cursor.takes_all("/", "sp"):
            return Noun(Of.STITCH_OR_SPACE)
        return ANY
    if cursor.sees("(") and cursor.ahead_is(1, "center", "corner") and cursor.ahead_is(2, ")"):
        cursor.at += 3
    if cursor.sees_kind("stitch") and cursor.now is not None and cursor.now.raw.lower() == "single":
        after = cursor.peek()
        if after is not None and after.kind == "stitch":
            cursor.next()
    if cursor.sees_kind("stitch"):
        name = cursor.next().text
        cursor.takes("st")
        if cursor.takes("-"):
            cursor.takes("st")
        return Noun(Of.NAMED, name)
    if cursor.sees_kind("unit"):
        return Noun(Of.UNIT, cursor.next().text)
    if cursor.sees_kind("num") and cursor.ahead_is(1, "-"):
        return _group_noun(cursor)
    if cursor.takes("group", "set"):
        return Noun(Of.UNIT, "")
    if cursor.takes("row", "side"):
        if cursor.takes("end", "edge"):
            return Noun(Of.ROW_END)
        return None
    if cursor.takes("end"):
        cursor.skip_fillers()
        if cursor.takes("row", "rnd"):
            return Noun(Of.ROW_END)
        return None
    if cursor.takes("inc", "dec"):
        cursor.takes("st")
        return ANY
    if cursor.takes("join", "slst"):
        return ANY
    return None


def _number_first(cursor: Cursor) -> Noun | None:
    """ "2-ch sp", "3 ch lp", "5ch"."""
    start = cursor.at
    length = cursor.number()
    cursor.takes("-")
    if not cursor.takes("ch"):
        cursor.at = start
        return _group_noun(cursor)
    cursor.takes("-")
    if cursor.takes("sp", "lp"):
        return Noun(Of.SPACE, None, length)
    return Noun(Of.CHAIN, None, length)


def space_ahead(cursor: Cursor) -> bool:
    """Tell whether a number here is the length of a space: "2ch-sp", "3-ch lp", "2 ch sp"."""
    if not cursor.sees_kind("num"):
        return False
    ahead = 2 if cursor.ahead_is(1, "-") else 1
    if not cursor.ahead_is(ahead, "ch"):
        return False
    return cursor.ahead_is(ahead + 1, "sp", "lp") or (
        cursor.ahead_is(ahead + 1, "-") and cursor.ahead_is(ahead + 2, "sp", "lp")
    )


def _group_noun(cursor: Cursor) -> Noun | None:
    """ "5-dc shell", "3-tr cluster", "3-dc group"."""
    start = cursor.at
    cursor.number()
    cursor.takes("-")
    if cursor.sees_kind("stitch"):
        cursor.next()
        cursor.takes("-")
        if cursor.sees_kind("unit"):
            return Noun(Of.UNIT, cursor.next().text)
        if cursor.takes("group", "corner"):
            return Noun(Of.UNIT, "")
    cursor.at = start
    return None


def _chain(cursor: Cursor) -> Noun:
    cursor.next()
    length = None
    if cursor.sees("-") and (after := cursor.peek()) is not None and after.kind == "num":
        cursor.next()
        length = cursor.number()
    elif cursor.sees_kind("num") and cursor.ahead_is(1, "sp", "lp"):
        length = cursor.number()
    elif cursor.sees("-"):
        cursor.next()
    cursor.takes("-")
    if length is not None and cursor.ahead_is(1, "sp", "lp", "ch"):
        if cursor.takes("corner"):
            cursor.next()
            return Noun(Of.SPACE, None, length)
        if cursor.takes("turning", "beg"):
            cursor.next()
            return Noun(Of.TURNING_CHAIN, None, length)
    if cursor.takes("sp", "lp"):
        if cursor.takes("between"):
            _between_tail(cursor)
        return Noun(Of.SPACE, None, length)
    if length is not None:
        return Noun(Of.CHAIN, None, length)
    return Noun(Of.CHAIN)


def _beside_a_group(cursor: Cursor) -> Noun | None:
    """Take "before first group", "after last group": the gap at its side."""
    start = cursor.at
    side = cursor.takes("before", "after")
    if side is not None:
        cursor.skip_fillers()
        if cursor.takes("first", "last", "next") and (
            cursor.sees("group") or cursor.sees_kind("num")
        ):
            _between_tail(cursor)
            return Noun(Of.BETWEEN, side.text)
    cursor.at = start
    return None


def _between_tail(cursor: Cursor) -> None:
    while cursor.now is not None and cursor.now.kind in ("word", "unit", "stitch", "num", "sign"):
        if cursor.sees(",", ";", ".", ")", "]", "*", "**", "and", "rep", "across", "around"):
            return
        cursor.next()


def _chain_tail(cursor: Cursor) -> None:
    while cursor.takes(
        "of", "foundation", "beg", "ch", "base", "original", "the", "orig", "starting"
    ):
        pass
