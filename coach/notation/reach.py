"""How far something goes and through which loop: "across", "to last 4 sts", "in BLO"."""

from __future__ import annotations

from coach.craft.instruction import Bound, Noun, Of
from coach.notation.cursor import Cursor
from coach.notation.nouns import ANY, noun

_EACH_WAY = ("across", "around", "along", "rnd", "throughout")


def bound(cursor: Cursor) -> Bound | None:  # noqa: PLR0911
    """Take where something stops: "to last 4 sts", "to next ch-2 sp", "to turning ch", or nothing."""
    start = cursor.at
    if (remaining := _until_so_many_remain(cursor)) is not None:
        return remaining
    if _to_the_marker(cursor):
        cursor.at = start
        return None  # that is the end of the round
    cursor.takes("up", "until", "down")
    if not cursor.takes("to", "within", "until", "before", "till"):
        if cursor.tokens[start : cursor.at] and cursor.tokens[start].is_("until"):
            pass
        else:
            cursor.at = start
            return None
    cursor.takes("within")
    cursor.skip_fillers()
    _come_to(cursor)
    if cursor.takes("last"):
        return _so_many_at_the_end(cursor)
    if cursor.takes("end"):
        cursor.at = start
        return None
    cursor.takes("next", "first")
    if cursor.takes("marked", "marker"):
        noun(cursor)
        return Bound("before", Noun(Of.MARKER))
    if (corner := _corner_ahead(cursor)) is not None:
        return corner
    if cursor.takes("center"):
        return Bound("before", noun(cursor) or ANY)
    named = noun(cursor)
    if named is None:
        cursor.at = start
        return None
    return Bound("before", named)


def _come_to(cursor: Cursor) -> None:
    """Pass "you get to the", "we reach the" before "last one"."""
    start = cursor.at
    if cursor.takes("get", "come", "reach", "reached", "got", "are"):
        cursor.takes("down", "up", "back")
        cursor.takes("to", "at")
        cursor.skip_fillers()
        if cursor.sees("last"):
            return
    cursor.at = start


def _corner_ahead(cursor: Cursor) -> Bound | None:
    """Take "center st of next corner", "2nd sc of 3-sc corner", "corner st", "center dc"."""
    start = cursor.at
    middle = cursor.takes("center") is not None
    if not middle and cursor.sees_kind("ord") and cursor.next().value == 2:
        middle = True
    corner = not middle and cursor.takes("corner") is not None
    inner = noun(cursor)
    stitch = inner is not None and inner.of in (Of.STITCH, Of.NAMED)
    if stitch and middle and cursor.takes("of", "in"):
        cursor.skip_fillers()
        corner = corner_of_three(cursor)
    if stitch and (corner or cursor.tokens[start].is_("center")):
        return Bound("before", Noun(Of.SPACE, "corner"))
    cursor.at = start
    return None


def corner_of_three(cursor: Cursor) -> bool:
    """Take "each corner", "next 3-sc corner", "each 3-sc group": a corner of three stitches."""
    start = cursor.at
    cursor.takes("each", "next", "all", "the", "any")
    counted = (
        cursor.sees_kind("num")
        and cursor.ahead_is(1, "-")
        and (stitch := cursor.peek(2)) is not None
        and stitch.kind == "stitch"
    )
    cursor.at += 3 if counted else 0
    if cursor.takes("corner"):
        cursor.takes("group", "st")
        return True
    if counted and cursor.takes("group", "inc"):
        return True
    cursor.at = start
    return False


def _until_so_many_remain(cursor: Cursor) -> Bound | None:
    """Take "until 2 sts remain", "until there are 3 sts left", "until you have 1 st left".

    Of a round of decreases it tells how many it comes to, not how many are left below.
    """
    start = cursor.at
    if _draws_in(cursor):
        return None
    if cursor.takes("until", "to"):
        while cursor.takes("there", "are", "is", "only", "you", "have"):
            pass
        count = cursor.number()
        inner = noun(cursor) if count is not None else None
        if count is not None and inner is not None:
            while cursor.takes("are", "is"):
                pass
            if cursor.takes("remain", "remains", "rem", "left", "unworked"):
                cursor.takes("unworked")
                return Bound("last", _any_of(inner), count)
    cursor.at = start
    return None


def _draws_in(cursor: Cursor) -> bool:
    """Tell whether what goes before is a decrease, or goes all around: "dec around until 6 sts remain"."""
    before = cursor.tokens[cursor.at - 1] if cursor.at else None
    return before is not None and (
        before.is_("dec", "around", "across", "row", "rnd", "round") or "tog" in before.text
    )


def _so_many_at_the_end(cursor: Cursor) -> Bound:
    """Take "4 sts", "2 dc and tch" after "to last"."""
    count = cursor.number() or 1
    inner = noun(cursor) or ANY
    while cursor.sees("and", "&"):
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


def _to_the_marker(cursor: Cursor) -> bool:
    """Take "to marker" at a clause's end: a spiral's marker stands where the round began."""
    start = cursor.at
    cursor.takes("up", "back")
    if cursor.takes("to", "until"):
        cursor.skip_fillers()
        cursor.takes("st", "beg", "row", "rnd")
        if cursor.takes("marker", "m") and (cursor.now is None or cursor.sees(",", ".", ";", "(")):
            return True
    cursor.at = start
    return False


def _along_its_length(cursor: Cursor) -> bool:
    """Take "down your chain", "along the row", "up the length of the chain"."""
    start = cursor.at
    if cursor.takes("down", "along", "up", "over"):
        cursor.takes("to")
        cursor.skip_fillers()
        cursor.takes("whole", "entire", "full")
        cursor.takes("length")
        cursor.skip_fillers()
        cursor.takes("whole", "entire", "foundation", "starting", "beg")
        named = cursor.takes("ch", "chain", "row", "rnd")
        if named and (cursor.now is None or cursor.sees(",", ".", ";", "(", "[", "–", "and", ")")):
            return True
    cursor.at = start
    return False


def runs_on(cursor: Cursor) -> bool:
    """Take "across", "around", "to end of row", "all the way around"; tell whether one was there."""
    start = cursor.at
    if _until_the_end(cursor) or _along_its_length(cursor) or _to_the_marker(cursor):
        return True
    cursor.takes("all")
    cursor.takes("the")
    way = cursor.takes("way")
    cursor.takes("evenly")
    if way and cursor.takes("down", "up", "back", "through", "over", *_EACH_WAY, "round"):
        cursor.skip_fillers()
        cursor.takes("row", "rnd", "piece", "ring", "edge", "ch")
        return True
    if cursor.sees("along") and cursor.ahead_is(
        1, "the", "skipped", "each", "edge", "side", "opening", "row"
    ):
        cursor.at = start
        return False
    if cursor.takes(*_EACH_WAY, "round"):
        cursor.takes("row", "rnd", "piece", "ring", "edge", "chain")
        _to_the_marker(cursor)
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
