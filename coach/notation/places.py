"""The places themselves: "each of next 3 sts", "top of beg ch-3", "same sp"."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import AS_FIRST, Noun, Of, Target, Which
from coach.notation.cursor import Cursor
from coach.notation.just_made import space_just_made, stitch_just_made
from coach.notation.nouns import ANY, noun, space_ahead
from coach.notation.reach import corner_of_three


def places(cursor: Cursor, after_and: Target | None = None) -> Target | None:
    """Take the places themselves: "each of next 3 sts", "top of beg ch-3", "same sp"."""
    start = cursor.at
    found = _places(cursor, after_and)
    if found is None:
        cursor.at = start
    return found


def _places(cursor: Cursor, after_and: Target | None) -> Target | None:  # noqa: PLR0911, PLR0912
    cursor.skip_fillers()
    cursor.takes("post")
    cursor.skip_fillers()
    if cursor.takes("top", "third", "base"):
        return _top_of(cursor)
    if (by_number := _skipped_by_number(cursor)) is not None:
        return by_number
    if cursor.sees_kind("ord"):
        return _first_few(cursor) or _ordinal(cursor)
    if cursor.takes("same"):
        return _same(cursor)
    if cursor.takes("this", "that", "it"):
        inner = noun(cursor)
        return Target(Which.SAME, inner or ANY)
    if (beside := stitch_just_made(cursor)) is not None:
        return beside
    if cursor.takes("each"):
        return _each(cursor)
    if cursor.sees("alternate", "alt"):
        return _each(cursor)
    if cursor.takes("all"):
        cursor.skip_fillers()
        cursor.takes("rem", "other")
        if cursor.sees_kind("num") and not space_ahead(cursor) and not cursor.ahead_is(1, "-"):
            number = cursor.number() or 1  # "all 7 stitches"
            return Target(Which.NEXT, noun(cursor) or ANY, count=number)
        inner = noun(cursor)
        return Target(Which.EACH, inner) if inner else None
    if cursor.takes("rem"):
        if cursor.sees("ch"):
            pass
        count = cursor.number()
        inner = noun(cursor)
        if count:
            return Target(Which.NEXT, inner or ANY, count=count)
        return Target(Which.EACH, inner, open=True) if inner else None
    if cursor.takes("next", "foll", "nearest"):
        return _next(cursor, Which.NEXT, after_and)
    if cursor.takes("first"):
        return _next(cursor, Which.FIRST, after_and)
    if cursor.takes("last", "final"):
        return _next(cursor, Which.LAST, after_and)
    if cursor.takes("center"):
        if (found := _center_of_space(cursor)) is not None:
            return found
        inner = noun(cursor) or ANY
        return _of_group(cursor, Target(Which.CENTER, inner))
    if cursor.takes("any", "one"):
        inner = noun(cursor)
        return Target(Which.ANY, inner) if inner else None
    if (made := space_just_made(cursor)) is not None:
        return made
    if cursor.takes("st", "sp") and cursor.takes("at"):
        _base_of_chain(cursor)
        return Target(Which.SAME, ANY)
    return _bare_places(cursor, after_and)


def _base_of_chain(cursor: Cursor) -> None:
    """Pass over "base of 3 ch", "the base of the turning ch", "base of ch-3"."""
    while cursor.takes("base", "of", "the", "beg", "turning", "first"):
        pass
    if cursor.sees_kind("num") and cursor.ahead_is(1, "ch"):
        cursor.next()
    if not cursor.takes("ch"):
        cursor.takes("tch")
        return
    if cursor.takes("-") or cursor.sees_kind("num"):
        cursor.number()


def _center_of_space(cursor: Cursor) -> Target | None:
    """ "center of first loop": the middle of a space is the space."""
    start = cursor.at
    if cursor.takes("of", "in"):
        cursor.skip_fillers()
        words = {"next": Which.NEXT, "first": Which.FIRST, "same": Which.SAME}
        which = next((found for word, found in words.items() if cursor.takes(word)), Which.NEXT)
        inner = noun(cursor)
        if inner is not None and inner.of is Of.SPACE:
            return Target(which, inner)
    cursor.at = start
    return None


def _bare_places(cursor: Cursor, after_and: Target | None) -> Target | None:
    """ "in 5 sts", "in ring", "in corner ch-2 sp", "around 2 skipped sts"."""
    if cursor.at and cursor.tokens[cursor.at - 1].is_("at", "st", "sp"):
        cursor.at -= 1 if cursor.tokens[cursor.at - 1].is_("st", "sp") else 0
    count: int | None = None
    if (
        cursor.sees_kind("num")
        and not space_ahead(cursor)
        and not (cursor.ahead_is(1, "-") and cursor.ahead_is(2, "ch"))
    ):
        mark = cursor.at
        count = cursor.number()
        if cursor.sees("ch") and cursor.ahead_is(1, "sp", "lp"):
            cursor.at, count = mark, None
    corner = cursor.sees("corner")
    inner = noun(cursor)
    if inner is None:
        if count is not None and not cursor.sees("row", "rnd"):
            if cursor.takes("after"):
                cursor.takes("that", "it")
            return Target(Which.NEXT, ANY, count=count)
        return None
    which = Which.CORNER if corner and inner.of in (Of.STITCH, Of.NAMED, Of.SPACE) else Which.NEXT
    if count is None and inner.of is Of.SPACE and not corner:
        which = Which.ANY
    if inner.of is Of.CHAIN and inner.length is not None and count is None:
        inner = Noun(Of.SPACE, None, inner.length)
    if inner.length == -1:
        inner = replace(inner, length=None)
    return _of_group(cursor, Target(which, inner, count=count or 1))


def _top_of(cursor: Cursor) -> Target | None:
    """ "top of turning ch", "top of beg ch-3", "top of next dc", "base of ch"."""
    if cursor.tokens[cursor.at - 1].is_("base"):
        _base_of_chain(cursor)
        return Target(Which.SAME, ANY)
    cursor.skip_fillers()
    cursor.takes("next", "same", "first", "last")
    cursor.skip_fillers()
    inner = noun(cursor)
    if inner is None:
        return None
    if inner.of in (Of.CHAIN, Of.TURNING_CHAIN):
        return Target(Which.LAST, Noun(Of.TURNING_CHAIN, length=inner.length))
    return Target(Which.NEXT, inner)


def _first_few(cursor: Cursor) -> Target | None:
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
    return _next(cursor, Which.FIRST, None)


def _ordinal(cursor: Cursor) -> Target | None:
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
    return _of_group(cursor, Target(Which.NTH, inner, nth=number))


def _skipped_by_number(cursor: Cursor) -> Target | None:
    """ "second skipped st", "1st and 2nd skipped sts": each is one of those passed before."""
    start = cursor.at
    count = 0
    while cursor.sees_kind("ord") or cursor.sees("first", "last"):
        cursor.next()
        count += 1
        if cursor.sees(",", "and", "&"):
            cursor.next()
            cursor.takes("and")
    inner = noun(cursor) if count and cursor.sees("skipped") else None
    if inner is None:
        cursor.at = start
        return None
    return Target(Which.NEXT, inner, count=count)


def _same(cursor: Cursor) -> Target | None:
    inner = noun(cursor) or ANY
    mark = cursor.at
    as_first = False
    if cursor.takes("as", "with"):
        as_first = inner.of is Of.CHAIN and cursor.sees("first")
        while cursor.sees(
            "join",
            "first",
            "last",
            "sl",
            "beg",
            "ch",
            "prev",
            "the",
            "made",
            "st",
            "tch",
            "-",
            "just",
            "your",
        ) or cursor.sees_kind("stitch", "num"):
            cursor.next()
    elif cursor.takes("where") or cursor.takes("at"):
        while cursor.sees("join", "the", "base", "ch", "beg", "of", "last"):
            cursor.next()
    else:
        cursor.at = mark
    return Target(Which.SAME, inner, remark=AS_FIRST if as_first else None)


def _each(cursor: Cursor) -> Target | None:  # noqa: PLR0911
    if (found := _each_by_steps(cursor)) is not None:
        return found
    cursor.skip_fillers()
    cursor.takes("of")
    cursor.skip_fillers()
    if cursor.takes("next"):
        cursor.skip_fillers()
        if not cursor.sees_kind("num") and (inner := noun(cursor)) is not None:
            return Target(Which.EACH, inner)  # "each following ch"
        return _next(cursor, Which.NEXT, None)
    for which, words in ((Which.FIRST, ("first",)), (Which.LAST, ("last", "final"))):
        if cursor.takes(*words):
            return _next(cursor, which, None)
    cursor.takes("rem", "single")
    if (
        cursor.now is not None
        and cursor.now.kind == "num"
        and cursor.now.raw.lower() in ("one", "ones")
        and not (space_ahead(cursor) or cursor.ahead_is(1, "-"))
    ):
        cursor.next()
        return Target(Which.EACH, ANY)
    if cursor.sees_kind("num") and not space_ahead(cursor) and not cursor.ahead_is(1, "-"):
        count = cursor.number()
        inner = noun(cursor)
        return Target(Which.NEXT, inner or ANY, count=count or 1)
    corner = cursor.sees("corner")
    inner = noun(cursor)
    if inner is None:
        return None
    if inner.length == -1:
        inner = replace(inner, length=None)
    found = Target(Which.EACH, inner)
    if corner:
        found = Target(Which.CORNER, inner)
    found = _each_and_other(cursor, found)
    return _of_group(cursor, found)


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
        return _first_few(cursor) or _ordinal(cursor)
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


def _next(cursor: Cursor, which: Which, after_and: Target | None) -> Target | None:
    cursor.skip_fillers()
    count = None
    if cursor.sees_kind("num") and not space_ahead(cursor) and not cursor.ahead_is(1, "-"):
        count = cursor.number()
    if cursor.takes("corner"):
        corner = noun(cursor) or Noun(Of.SPACE)
        return _of_group(cursor, Target(Which.CORNER, corner, count=count or 1))
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
    return _of_group(cursor, Target(which, inner, count=count or 1))


def _of_group(cursor: Cursor, found: Target) -> Target:
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


def worked_into(cursor: Cursor) -> bool:
    """Tell whether what was read as a place is itself worked: "and sc in each dc"."""
    return cursor.sees("in", "into", "next", "each")
