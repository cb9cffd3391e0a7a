"""The places that something goes into, with how far and which loop: "in each of next 3 sts"."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import Bound, Noun, Of, Target, Which
from coach.notation.cursor import Cursor
from coach.notation.every_place import worked_into
from coach.notation.named_rows import row_named
from coach.notation.nouns import PREPOSITIONS, noun, space_ahead
from coach.notation.places import places
from coach.notation.reach import bound, loops, runs_on


def target(cursor: Cursor, *, preposition: bool = True) -> Target | None:
    """Take the places that something goes into, or nothing."""
    start = cursor.at
    word = cursor.takes(*PREPOSITIONS) if preposition else None
    if preposition and word is None:
        cursor.at = start
        return None
    around = bool(word and word.is_("around", "round", "rnd"))
    cursor.takes("to")
    loop = None
    cursor.skip_fillers()
    if cursor.sees("blo", "flo", "bl", "fl", "back", "front") or (
        cursor.sees_kind("ord") and cursor.ahead_is(1, "lp")
    ):
        loop = loops(cursor)
        cursor.takes("of", "only", "in", "on")
    if loop is None and cursor.sees("back", "front") and cursor.ahead_is(1, "of"):
        cursor.at += 2  # "in back of next sc": from behind, into the stitch itself
    if cursor.sees("both") and cursor.ahead_is(1, "lp"):
        cursor.at += 2
        cursor.takes("of")
    found = _free_loops(cursor) or places(cursor)
    if found is None:
        cursor.at = start
        return None
    if word is not None and word.is_("under") and found.noun.of is Of.CHAIN and found.count > 1:
        found = Target(Which.NEXT, Noun(Of.SPACE, None, found.count))  # "under 3 chain"
    found = _after_places(cursor, found)
    if around or loop:
        found = replace(found, around=around or found.around, loop=loop or found.loop)
    return _and_more(cursor, found)


def _free_loops(cursor: Cursor) -> Target | None:
    """ "free loop of each of 17 chs": so many loops on the other side of chains."""
    start = cursor.at
    if cursor.takes("free", "unused", "other") and cursor.takes("lp", "side"):
        cursor.takes("of")
        inner = places(cursor)
        if inner is not None and inner.which is Which.NEXT and inner.noun.of is Of.CHAIN:
            return replace(inner, noun=Noun(Of.FREE_LOOP))
    cursor.at = start
    return None


def _after_places(cursor: Cursor, found: Target) -> Target:
    """Take what may stand after the places: how far, which loop, how many rows below."""
    for _ in range(4):
        if side := loops(cursor):
            found = replace(found, loop=side)
        elif below := rows_below(cursor):
            hangs = found.noun.of in (Of.SPACE, Of.UNIT) or found.within is not None
            lower = 0 if hangs and below == 1 else below  # "in sp of block in row below"
            found = replace(found, rows_below=lower)
        elif (number := row_named(cursor)) is not None:
            found = replace(found, of_row=number)
        elif found.which is Which.EACH and found.until is None and not found.open:
            if (until := _across_to(cursor)) is not None:
                found = replace(found, until=until)
            elif runs_on(cursor):
                until = bound(cursor)
                found = replace(found, open=True, until=until)
            else:
                break
        elif found.which in (Which.NEXT, Which.FIRST, Which.LAST) and cursor.takes("tog"):
            found = replace(found, together=True)
        else:
            break
    return found


def _across_to(cursor: Cursor) -> Bound | None:
    start = cursor.at
    cursor.takes("across", "around", "over", "along", "rnd")
    found = bound(cursor)
    if found is None:
        cursor.at = start
    return found


def rows_below(cursor: Cursor) -> int:
    """Take "2 rows below", "in row below"; return how many rows, or 0."""
    start = cursor.at
    if cursor.takes("in"):
        cursor.skip_fillers()
    if cursor.takes("row", "rnd"):
        if cursor.takes("below"):
            return 1
        cursor.at = start
        return 0
    number = cursor.number()
    if number is not None and cursor.takes("row", "rnd"):  # noqa: SIM102
        if cursor.takes("below", "down", "beneath", "before"):
            return number
    cursor.at = start
    return 0


def _and_more(cursor: Cursor, found: Target) -> Target:
    """Take further places: "and in each ch-1 sp", "and next 6 ch", "and in top of tch"."""
    also: list[Target] = list(found.also)
    while cursor.sees("and", "&", "+") or (cursor.sees(",") and cursor.ahead_is(1, "and")):
        start = cursor.at
        cursor.takes(",")
        cursor.next()
        cursor.skip_fillers()
        cursor.takes("also", "then")
        had = cursor.takes("in", "into", "on", "around", "over")
        if not had and not _names_a_place(cursor, found):
            cursor.at = start
            break
        more = places(cursor, after_and=found)
        if more is None:
            cursor.at = start
            break
        more = _after_places(cursor, more)
        also.append(more)
    if also and also[-1].until is not None and found.which is Which.EACH and found.until is None:  # noqa: SIM102
        if also[-1].which is Which.EACH:
            found = replace(found, until=also[-1].until)
    return replace(found, also=tuple(also)) if also else found


def _names_a_place(cursor: Cursor, found: Target) -> bool:
    if cursor.sees("next", "each", "last", "first", "top", "same", "rem", "corner"):
        return True
    if space_ahead(cursor):
        return True
    return found.which is Which.EACH and (
        cursor.sees("ch", "sp", "st", "lp")
        and not (cursor.sees("ch") and cursor.ahead_is(1) is None)
        and _is_space_ahead(cursor)
    )


def _is_space_ahead(cursor: Cursor) -> bool:
    start = cursor.at
    found = noun(cursor)
    worked = worked_into(cursor)
    cursor.at = start
    return found is not None and not worked and found.of in (Of.SPACE, Of.STITCH, Of.NAMED)
