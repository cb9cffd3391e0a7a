"""Every place of a kind: "each of next 3 sts", "each st", "every other st", "each dc and ch-1 sp"."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import Of, Target, Which
from coach.notation.cursor import Cursor
from coach.notation.nouns import ANY, noun, space_ahead
from coach.notation.places_in_order import first_few, of_group, ordinal_place, places_ahead


def each_place(cursor: Cursor) -> Target | None:
    """Take what follows "each": "of next 3 sts", "other st", "one", "corner sp", "dc and ch-1 sp"."""
    if (found := _each_by_steps(cursor)) is not None:
        return found
    cursor.skip_fillers()
    cursor.takes("of")
    cursor.skip_fillers()
    if cursor.takes("next"):
        cursor.skip_fillers()
        if not cursor.sees_kind("num") and (inner := noun(cursor)) is not None:
            return Target(Which.EACH, inner)  # "each following ch"
        return places_ahead(cursor, Which.NEXT, None)
    for which, words in ((Which.FIRST, ("first",)), (Which.LAST, ("last", "final"))):
        if cursor.takes(*words):
            return places_ahead(cursor, which, None)
    cursor.takes("rem", "single")
    return _one_of_them(cursor) or _each_of_so_many(cursor) or _each_of_kind(cursor)


def _one_of_them(cursor: Cursor) -> Target | None:
    """ "each one", and not "each one-chain space"."""
    one = cursor.now is not None and cursor.now.kind == "num"
    one = one and cursor.now is not None and cursor.now.raw.lower() in ("one", "ones")
    if not one or space_ahead(cursor) or cursor.ahead_is(1, "-"):
        return None
    cursor.next()
    return Target(Which.EACH, ANY)


def _each_of_so_many(cursor: Cursor) -> Target | None:
    """ "each of 5 sts": the next five."""
    if not cursor.sees_kind("num") or space_ahead(cursor) or cursor.ahead_is(1, "-"):
        return None
    count = cursor.number()
    return Target(Which.NEXT, noun(cursor) or ANY, count=count or 1)


def _each_of_kind(cursor: Cursor) -> Target | None:
    """ "each dc", "each corner sp", "each ch-1 sp of next V-st"."""
    corner = cursor.sees("corner")
    inner = noun(cursor)
    if inner is None:
        return None
    if inner.length == -1:
        inner = replace(inner, length=None)
    found = Target(Which.CORNER if corner else Which.EACH, inner)
    return of_group(cursor, _each_and_other(cursor, found))


def _each_and_other(cursor: Cursor, found: Target) -> Target:
    """Take "and ch-1 sp" after "each dc": every one of both kinds."""
    if cursor.sees("and", "&", "or", "/") and not cursor.ahead_is(1, "in", "into", "each"):
        mark = cursor.at
        cursor.next()
        cursor.skip_fillers()
        other = noun(cursor)
        each_chain = other is not None and other.of is Of.CHAIN and not cursor.sees_kind("num")
        known = other is not None and other.of in (Of.SPACE, Of.STITCH, Of.NAMED)
        if other is None or not (known or each_chain) or worked_into(cursor):
            cursor.at = mark
        else:
            found = replace(found, also=(Target(Which.EACH, other),))
    return found


def _each_by_steps(cursor: Cursor) -> Target | None:
    """Take "pair", "other st", "5th st" or "of the 1st 2 sts" after "each"; or nothing."""
    start = cursor.at
    if cursor.takes("pair"):
        return Target(Which.EACH, ANY)
    if (step := _every_so_many(cursor)) is not None:
        return Target(Which.EACH, noun(cursor) or ANY, nth=step)
    cursor.skip_fillers()
    if cursor.sees_kind("ord") and cursor.ahead_is_kind(1, "num"):
        return first_few(cursor) or ordinal_place(cursor)
    cursor.at = start
    return None


def _every_so_many(cursor: Cursor) -> int | None:
    """Take "other", "alternate" or "5th" after "every"; return how many places make one step."""
    if cursor.takes("other", "alternate", "alt"):
        return 2
    token = cursor.now
    if token is not None and token.kind == "ord" and token.value > 1:
        cursor.next()
        return token.value
    return None


def worked_into(cursor: Cursor) -> bool:
    """Tell whether what was read as a place is itself worked: "and sc in each dc"."""
    return cursor.sees("in", "into", "next", "each")
