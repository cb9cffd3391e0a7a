"""The places themselves: "each of next 3 sts", "top of beg ch-3", "same sp"."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from coach.craft.instruction import AS_FIRST, Noun, Of, Target, Which
from coach.notation.cursor import Cursor
from coach.notation.every_place import each_place
from coach.notation.just_made import space_just_made, stitch_just_made
from coach.notation.nouns import ANY, noun, space_ahead
from coach.notation.places_in_order import first_few, of_group, ordinal_place, places_ahead


def places(cursor: Cursor, after_and: Target | None = None) -> Target | None:
    """Take the places themselves: "each of next 3 sts", "top of beg ch-3", "same sp"."""
    start = cursor.at
    found = _places(cursor, after_and)
    if found is None:
        cursor.at = start
    return found


def _places(cursor: Cursor, after_and: Target | None) -> Target | None:
    cursor.skip_fillers()
    cursor.takes("post")
    cursor.skip_fillers()
    if (by_number := _skipped_by_number(cursor)) is not None:
        return by_number
    if cursor.sees_kind("ord"):
        return first_few(cursor) or ordinal_place(cursor)
    if not cursor.sees("top", "base") and (beside := stitch_just_made(cursor)) is not None:
        return beside
    for names, which in _IN_ORDER:
        if cursor.takes(*names):
            return places_ahead(cursor, which, after_and)
    for words, read in _SAID_FIRST:
        if cursor.takes(*words):
            return read(cursor)
    return _made_before(cursor) or _bare_places(cursor, after_and)


_IN_ORDER = (
    (("next", "foll", "nearest"), Which.NEXT),
    (("first",), Which.FIRST),
    (("last", "final"), Which.LAST),
)


def _made_before(cursor: Cursor) -> Target | None:
    """The space just made, or "st at base of ch"."""
    if cursor.sees("alternate", "alt"):
        return each_place(cursor)
    if (made := space_just_made(cursor)) is not None:
        return made
    if cursor.takes("st", "sp") and cursor.takes("at"):
        _base_of_chain(cursor)
        return Target(Which.SAME, ANY)
    return None


def _this(cursor: Cursor) -> Target:
    one = cursor.now
    if one is not None and one.raw.lower() == "one" and not cursor.ahead_is(1, "-"):
        cursor.next()  # "in that one"
        return Target(Which.SAME, ANY)
    return Target(Which.SAME, noun(cursor) or ANY)


def _center(cursor: Cursor) -> Target:
    if (found := _center_of_space(cursor)) is not None:
        return found
    return of_group(cursor, Target(Which.CENTER, noun(cursor) or ANY))


def _any_of(cursor: Cursor) -> Target | None:
    inner = noun(cursor)
    return Target(Which.ANY, inner) if inner else None


def _all_of(cursor: Cursor) -> Target | None:
    """ "all 7 stitches", "all remaining dc"."""
    cursor.skip_fillers()
    cursor.takes("rem", "other")
    if cursor.sees_kind("num") and not space_ahead(cursor) and not cursor.ahead_is(1, "-"):
        number = cursor.number() or 1
        return Target(Which.NEXT, noun(cursor) or ANY, count=number)
    inner = noun(cursor)
    return Target(Which.EACH, inner) if inner else None


def _remaining(cursor: Cursor) -> Target | None:
    """ "remaining 5 sts", "remaining sts"."""
    count = cursor.number()
    inner = noun(cursor)
    if count:
        return Target(Which.NEXT, inner or ANY, count=count)
    return Target(Which.EACH, inner, open=True) if inner else None


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
    return of_group(cursor, Target(which, inner, count=count or 1))


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


_SAID_FIRST: tuple[tuple[tuple[str, ...], Callable[[Cursor], Target | None]], ...] = (
    (("top", "third", "base"), _top_of),
    (("same",), _same),
    (("this", "that", "it"), _this),
    (("each",), each_place),
    (("all",), _all_of),
    (("rem",), _remaining),
    (("center",), _center),
    (("any", "one"), _any_of),
)
