"""What is worked into: nouns ("ch-2 sp", "dc", "shell") and targets ("in each of next 3 sts")."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.pattern import Bound, Noun, Of, Target, Which
from coach.notation.cursor import Cursor

PREPOSITIONS = (
    "in", "into", "on", "over", "around", "round", "rnd", "through", "under", "across", "at",
    "along", "to", "from", "within", "inside",
)  # fmt: skip
ANY = Noun(Of.STITCH)
_EACH_WAY = ("across", "around", "along", "rnd", "throughout")


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
    if cursor.sees("ch"):
        return _chain(cursor)
    if cursor.takes("corner"):
        inner = noun(cursor)
        if inner is not None and inner.of in (Of.STITCH, Of.NAMED):
            return replace(inner, length=-1)
        return inner or Noun(Of.SPACE, "corner")
    if cursor.takes("sp", "lp", "mesh", "hole", "gap"):
        if cursor.takes("between"):
            _between_tail(cursor)
            return Noun(Of.BETWEEN)
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


def bound(cursor: Cursor) -> Bound | None:  # noqa: PLR0911
    """Take where something stops: "to last 4 sts", "to next ch-2 sp", "to turning ch", or nothing."""
    start = cursor.at
    cursor.takes("up", "until", "down")
    if not cursor.takes("to", "within", "until", "before", "till"):
        if cursor.tokens[start : cursor.at] and cursor.tokens[start].is_("until"):
            pass
        else:
            cursor.at = start
            return None
    cursor.takes("within")
    cursor.skip_fillers()
    if cursor.takes("last"):
        count = cursor.number() or 1
        inner = noun(cursor) or ANY
        while cursor.sees("and", "&") or (cursor.sees(",") and _more_nouns(cursor)):
            mark = cursor.at
            cursor.next()
            cursor.takes("last")
            more = cursor.number() or 1
            other = noun(cursor)
            if other is None:
                cursor.at = mark
                break
            if other.of is Of.SPACE:
                continue
            count, inner = count + more, ANY
        return Bound("last", _any_of(inner), count)
    if cursor.takes("end"):
        cursor.at = start
        return None
    cursor.takes("next", "first")
    if cursor.takes("marked", "marker"):
        noun(cursor)
        return Bound("before", Noun(Of.MARKER))
    if cursor.takes("center"):
        return Bound("before", noun(cursor) or ANY)
    named = noun(cursor)
    if named is None:
        cursor.at = start
        return None
    return Bound("before", named)


def _more_nouns(cursor: Cursor) -> bool:
    return False


def _any_of(inner: Noun) -> Noun:
    """A count of "dc" to the end is a count of stitches: the turning chain is one of them."""
    if inner.of in (Of.NAMED, Of.CHAIN):
        return ANY
    return inner


def _until_the_end(cursor: Cursor) -> bool:
    """Take "after that", "until you run out", "till you reach the end"."""
    start = cursor.at
    cursor.takes("after")
    cursor.takes("that")
    if cursor.takes("until", "till"):
        while cursor.sees(
            "you",
            "we",
            "run",
            "out",
            "reach",
            "get",
            "to",
            "the",
            "end",
            "of",
            "row",
            "rnd",
            "come",
        ):
            cursor.next()
        if cursor.at > start + 1 and (cursor.now is None or cursor.sees(",", ".", ";", "and", ")")):
            return True
    cursor.at = start
    return False


def runs_on(cursor: Cursor) -> bool:
    """Take "across", "around", "to end of row", "all the way around"; tell whether one was there."""
    start = cursor.at
    if _until_the_end(cursor):
        return True
    cursor.takes("all")
    cursor.takes("the")
    cursor.takes("way")
    cursor.takes("evenly")
    if cursor.sees("along") and cursor.ahead_is(
        1, "the", "skipped", "each", "edge", "side", "opening", "row"
    ):
        cursor.at = start
        return False
    if cursor.takes(*_EACH_WAY, "round"):
        cursor.takes("row", "rnd", "piece", "ring", "edge", "chain")
        return True
    if cursor.takes("to"):
        cursor.takes("the")
        if cursor.takes("end"):
            cursor.takes("of")
            cursor.takes("the")
            cursor.takes("row", "rnd", "round", "ch", "chain", "foundation")
            return True
    cursor.at = start
    return False


def loops(cursor: Cursor) -> str | None:
    """Take "in BLO", "through back loops only", "3rd loop": "back", "front", "third"; or nothing."""
    start = cursor.at
    cursor.takes("working", "work", "worked")
    cursor.takes("in", "into", "through", "under", "/", "-")
    cursor.skip_fillers()
    if cursor.takes("blo", "bl"):
        cursor.takes("only")
        return "back"
    if cursor.takes("flo", "fl"):
        cursor.takes("only")
        return "front"
    side = cursor.now
    if (
        side is not None
        and side.is_("back")
        and cursor.ahead_is(1, "bump", "bumps", "ridge", "hump")
    ):
        cursor.at += 2
        return "back bump"
    if side is not None and (side.is_("back", "front") or (side.kind == "ord" and side.value == 3)):
        cursor.next()
        if cursor.takes("lp"):
            cursor.takes("only")
            return "third" if side.kind == "ord" else side.text
    cursor.at = start
    return None


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
    if cursor.sees("both") and cursor.ahead_is(1, "lp"):
        cursor.at += 2
        cursor.takes("of")
    found = places(cursor)
    if found is None:
        cursor.at = start
        return None
    if word is not None and word.is_("under") and found.noun.of is Of.CHAIN and found.count > 1:
        found = Target(Which.NEXT, Noun(Of.SPACE, None, found.count))  # "under 3 chain"
    found = _after_places(cursor, found)
    found = replace(found, around=around or found.around, loop=loop or found.loop)
    return _and_more(cursor, found)


def _after_places(cursor: Cursor, found: Target) -> Target:
    """Take what may stand after the places: how far, which loop, how many rows below."""
    for _ in range(4):
        if side := loops(cursor):
            found = replace(found, loop=side)
        elif below := _rows_below(cursor):
            found = replace(found, rows_below=below)
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


def _rows_below(cursor: Cursor) -> int:
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
    if cursor.sees("next", "each", "last", "first", "top", "same", "rem"):
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
    worked = _worked_into(cursor)
    cursor.at = start
    return found is not None and not worked and found.of in (Of.SPACE, Of.STITCH, Of.NAMED)


def _worked_into(cursor: Cursor) -> bool:
    """Tell whether what was read as a place is itself worked: "and sc in each dc"."""
    return cursor.sees("in", "into", "next", "each")


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
    if cursor.sees_kind("ord"):
        return _ordinal(cursor)
    if cursor.takes("same"):
        return _same(cursor)
    if cursor.takes("this", "that", "it"):
        inner = noun(cursor)
        return Target(Which.SAME, inner or ANY)
    if cursor.takes("each"):
        return _each(cursor)
    if cursor.takes("all"):
        cursor.skip_fillers()
        cursor.takes("rem")
        inner = noun(cursor)
        return Target(Which.EACH, inner) if inner else None
    if cursor.takes("rem"):
        if cursor.sees("ch"):
            pass
        count = cursor.number()
        inner = noun(cursor)
        if inner is None:
            return None
        if count:
            return Target(Which.NEXT, inner, count=count)
        return Target(Which.EACH, inner, open=True)
    if cursor.takes("next", "foll", "nearest"):
        return _next(cursor, Which.NEXT, after_and)
    if cursor.takes("first"):
        return _next(cursor, Which.FIRST, after_and)
    if cursor.takes("last", "final"):
        return _next(cursor, Which.LAST, after_and)
    if cursor.takes("center"):
        inner = noun(cursor) or ANY
        return _of_group(cursor, Target(Which.CENTER, inner))
    if cursor.takes("any", "one"):
        inner = noun(cursor)
        return Target(Which.ANY, inner) if inner else None
    if cursor.takes("st", "sp") and cursor.takes("at"):
        while cursor.takes("base", "of", "the", "ch", "beg", "tch", "turning"):
            pass
        return Target(Which.SAME, ANY)
    return _bare_places(cursor, after_and)


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
    base = cursor.tokens[cursor.at - 1].is_("base")
    cursor.skip_fillers()
    cursor.takes("next", "same", "first", "last")
    cursor.skip_fillers()
    inner = noun(cursor)
    if base:
        return Target(Which.SAME, ANY)
    if inner is None:
        return None
    if inner.of in (Of.CHAIN, Of.TURNING_CHAIN):
        return Target(Which.LAST, Noun(Of.TURNING_CHAIN))
    return Target(Which.NEXT, inner)


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
            return Target(Which.LAST, Noun(Of.TURNING_CHAIN), nth=number)
        cursor.at = mark
    inner = noun(cursor)
    if inner is None:
        return None
    if inner.of is Of.CHAIN:
        if cursor.takes("from"):
            cursor.skip_fillers()
            cursor.takes("hook")
            return Target(Which.NTH, Noun(Of.FROM_HOOK), nth=number)
        mark = cursor.at
        cursor.skip_fillers()
        outer = noun(cursor)
        if outer is None and cursor.sees_kind("num"):
            cursor.number()
            outer = noun(cursor)
        if outer is not None and outer.of in (Of.CHAIN, Of.TURNING_CHAIN, Of.SPACE):
            return Target(Which.LAST, Noun(Of.TURNING_CHAIN), nth=number)
        cursor.at = mark
    if number == 1:
        return Target(Which.FIRST, inner)
    return _of_group(cursor, Target(Which.NTH, inner, nth=number))


def _same(cursor: Cursor) -> Target | None:
    inner = noun(cursor) or ANY
    mark = cursor.at
    if cursor.takes("as", "with"):
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
    return Target(Which.SAME, inner)


def _each(cursor: Cursor) -> Target | None:  # noqa: PLR0911
    cursor.skip_fillers()
    cursor.takes("of")
    cursor.skip_fillers()
    if cursor.takes("next"):
        cursor.skip_fillers()
        if not cursor.sees_kind("num") and (inner := noun(cursor)) is not None:
            return Target(Which.EACH, inner)  # "each following ch"
        return _next(cursor, Which.NEXT, None)
    if cursor.takes("first"):
        return _next(cursor, Which.FIRST, None)
    if cursor.takes("last"):
        return _next(cursor, Which.LAST, None)
    cursor.takes("rem", "single")
    if (
        cursor.now is not None
        and cursor.now.kind == "num"
        and cursor.now.raw.lower() in ("one", "ones")
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
    if cursor.sees("and", "&", "or", "/") and not cursor.ahead_is(1, "in", "into", "each"):
        mark = cursor.at
        cursor.next()
        cursor.skip_fillers()
        other = noun(cursor)
        if other is None or other.of not in (Of.SPACE, Of.STITCH, Of.NAMED) or _worked_into(cursor):
            cursor.at = mark
        else:
            found = replace(found, also=(Target(Which.EACH, other),))
    return _of_group(cursor, found)


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
    which = Which.NEXT
    if cursor.takes("each"):
        which = Which.EACH
    elif cursor.takes("next", "same", "first", "last"):
        pass
    count = cursor.number()
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
