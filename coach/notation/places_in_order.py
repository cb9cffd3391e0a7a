"""Places by their order along the row: "next 3 sts", "2nd dc", "first 4 sts", "2nd dc of next shell"."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import Noun, Of, Target, Which
from coach.notation.cursor import Cursor
from coach.notation.nouns import ANY, noun, space_ahead
from coach.notation.reach import corner_of_three


def first_few(cursor: Cursor) -> Target | None:
    """ "1st 4 sts": the first four, or nothing."""
    token = cursor.now
    if (
        token is None
        or token.value != 1
        or not cursor.ahead_is_kind(1, "num")
        or cursor.ahead_is(2, "-", "ch")
    ):
        return None
    cursor.next()
    return places_ahead(cursor, Which.FIRST, None)


def ordinal_place(cursor: Cursor) -> Target | None:
    """ "4th ch from hook", "3rd ch of beg ch-4", "3rd of 4 ch", "2nd dc", "1st st"."""
    number = cursor.next().value
    cursor.skip_fillers()
    if cursor.takes("lp"):
        cursor.skip_fillers()
    if cursor.sees_kind("num") or cursor.sees("tch", "turning", "beg"):
        mark = cursor.at
        inner = noun(cursor)
        if inner is None and cursor.number() is not None:
            inner = noun(cursor)
        if inner is not None and inner.of in (Of.CHAIN, Of.TURNING_CHAIN):
            return Target(Which.LAST, Noun(Of.TURNING_CHAIN, length=inner.length), nth=number)
        cursor.at = mark
    inner = noun(cursor)
    if inner is None:
        return None
    if inner.of is Of.CHAIN:
        if cursor.takes("from"):
            cursor.skip_fillers()
            cursor.takes("your")
            cursor.takes("hook")
            return Target(Which.NTH, Noun(Of.FROM_HOOK), nth=number)
        mark = cursor.at
        cursor.skip_fillers()
        outer = noun(cursor)
        if outer is None and cursor.sees_kind("num"):
            cursor.number()
            outer = noun(cursor)
        if outer is not None and outer.of in (Of.CHAIN, Of.TURNING_CHAIN, Of.SPACE):
            return Target(Which.LAST, Noun(Of.TURNING_CHAIN, length=outer.length), nth=number)
        cursor.at = mark
    if number == 1:
        return Target(Which.FIRST, inner)
    return of_group(cursor, Target(Which.NTH, inner, nth=number))


def places_ahead(cursor: Cursor, which: Which, after_and: Target | None) -> Target | None:
    """Take "3 sts" after "next", "first" or "last"; without a noun, that of the place before "and"."""
    cursor.skip_fillers()
    count = None
    if cursor.sees_kind("num") and not space_ahead(cursor) and not cursor.ahead_is(1, "-"):
        count = cursor.number()
    if cursor.takes("corner"):
        corner = noun(cursor) or Noun(Of.SPACE)
        return of_group(cursor, Target(Which.CORNER, corner, count=count or 1))
    inner = noun(cursor)
    if inner is None:
        inner = (
            after_and.noun
            if after_and is not None and after_and.noun.of is not Of.FROM_HOOK
            else ANY
        )
        if cursor.takes("after"):
            cursor.takes("that", "it")
    if inner.of is Of.CHAIN and inner.length is not None:
        inner = Noun(Of.SPACE, None, inner.length)
    if inner.length == -1:
        inner = replace(inner, length=None)
    return of_group(cursor, Target(which, inner, count=count or 1))


def of_group(cursor: Cursor, found: Target) -> Target:
    """Take "of next V-st", "of each shell": a place within a group."""
    start = cursor.at
    if not cursor.takes("of", "in", "on"):
        return found
    cursor.skip_fillers()
    if _middle(found) and corner_of_three(cursor):
        return Target(Which.CORNER, found.noun)
    which = Which.NEXT
    if cursor.takes("each"):
        which = Which.EACH
    elif cursor.takes("next", "same", "first", "last"):
        pass
    count = None if cursor.ahead_is(1, "-") else cursor.number()
    inner = noun(cursor)
    if inner is None or inner.of is not Of.UNIT:
        cursor.at = start
        return found
    within = Target(which, inner)
    if which is Which.EACH:
        return Target(
            Which.EACH, found.noun, within=replace(within, which=Which.NEXT), nth=found.nth
        )
    return replace(found, within=within, count=count or found.count)


def _middle(found: Target) -> bool:
    """Tell whether a place is the middle one of the three stitches of a corner."""
    if found.noun.of not in (Of.STITCH, Of.NAMED):
        return False
    return found.which is Which.CENTER or (found.which is Which.NTH and found.nth == 2)
