"""How often: "4 more times", "twice", "across to last 3 sts", "ending last rep at **"."""

from __future__ import annotations

from dataclasses import dataclass, replace

from coach.craft.instruction import Bound
from coach.notation.cursor import Cursor
from coach.notation.reach import bound, runs_on

_ONCE = {"once": 1, "twice": 2, "thrice": 3}
MARKS = ("*", "**", "***", "†", "††", "•")


@dataclass(frozen=True, slots=True)
class Tail:
    """What follows "rep from *": times and whether "more" was said, where it stops, its ending."""

    times: int | None = None
    custom: str = "in all"
    until: Bound | None = None
    stop_mark: str | None = None
    extra_mark: str | None = None
    ending: bool = False


def times_after(cursor: Cursor) -> int | None:  # noqa: PLR0911
    """Take "6 times", "x 6", "x6", "* 6", "twice", "6x", "for 6 times"; or nothing."""
    start = cursor.at
    after_bracket = start > 0 and cursor.tokens[start - 1].is_(")", "]", "}")
    if cursor.takes("x") or (after_bracket and cursor.takes("*")):
        number = cursor.number()
        if number is not None and not cursor.sees_kind("stitch", "unit") and not cursor.sees("ch"):
            cursor.takes("times", "x")
            _in_all(cursor)
            return number
        cursor.at = start
        return None
    if after_bracket and cursor.sees_kind("num"):
        number = cursor.number()
        if cursor.now is None or cursor.sees("(", "[", ",", ".", ";", "=", "–"):
            return number
        cursor.at = start
    cursor.takes(",")
    cursor.takes("for", "work", "a", "total")
    if cursor.sees(*_ONCE):
        word = cursor.next().text
        if cursor.sees("more"):
            cursor.next()
            return _ONCE[word] + 0
        _in_all(cursor)
        return _ONCE[word]
    number = cursor.number()
    if number is not None:
        cursor.takes("more")
        if cursor.takes("times", "x"):
            if cursor.takes("more"):
                pass
            _in_all(cursor)
            return number
    cursor.at = start
    return None


def _in_all(cursor: Cursor) -> bool:
    start = cursor.at
    if cursor.takes("altogether"):
        return True
    cursor.takes("in")
    if cursor.takes("all", "total"):
        return True
    cursor.at = start
    return False


def repeat_tail(cursor: Cursor, mark: str) -> Tail:  # noqa: PLR0912
    """Take all that says how a repeat goes on, after "rep from *"."""
    tail = Tail()
    cursor.takes("from", "between")
    cursor.takes("the")
    if cursor.sees(*MARKS):
        cursor.next()
        if cursor.sees("s") and cursor.now is not None and cursor.now.glued:
            cursor.next()  # "between *s"
        while cursor.sees("-", "–", "to", "&", "and") and cursor.ahead_is(1, *MARKS):
            cursor.next()
            other = cursor.next().text
            if other != mark and len(other) > len(mark):
                tail = replace(tail, extra_mark=None, stop_mark=None)
    for _ in range(8):
        before = cursor.at
        if cursor.sees("-", "–") and cursor.ahead_is(1, *MARKS):
            cursor.at += 2
            continue
        if cursor.takes("to") if cursor.ahead_is(1, *MARKS) else None:
            other = cursor.next().text
            if other != mark:
                tail = replace(tail, stop_mark=other)
            continue
        if cursor.sees("until", "up") and not _bounded_ahead(cursor):
            while cursor.now is not None and not cursor.sees(",", ";", ".", ")"):
                cursor.next()
            continue
        cursor.takes("for", "a", "in", "patt", "pattern", "instructions")
        if (more := _times(cursor)) is not None:
            times, custom = more
            if tail.times is None:
                tail = replace(tail, times=times, custom=custom)
            continue
        if tail.times is not None and (once := _once_more_to(cursor)) is not None:
            tail = replace(tail, extra_mark=once)
            continue
        stop = bound(cursor)
        if stop is not None:
            tail = replace(tail, until=stop)
            continue
        if runs_on(cursor):
            continue
        if (ended := _ending(cursor, tail)) is not None:
            tail = ended
            continue
        if cursor.at == before:
            break
    return tail


def _bounded_ahead(cursor: Cursor) -> bool:
    start = cursor.at
    found = bound(cursor)
    cursor.at = start
    return found is not None


def _times(cursor: Cursor) -> tuple[int, str] | None:  # noqa: PLR0911
    """Return (number, custom): "4 more times" is more; "4 times" the trade reads both ways."""
    start = cursor.at
    if cursor.takes("x"):
        number = cursor.number()
        if number is not None:
            return number, "in all"
        cursor.at = start
    cursor.takes("a", "total")
    cursor.takes("of")
    if cursor.sees(*_ONCE):
        number = _ONCE[cursor.next().text]
        if cursor.takes("more", "again"):
            return number, "more"
        if _in_all(cursor):
            return number, "in all"
        return number, "either"
    number_or_none = cursor.number()
    if number_or_none is not None:
        more = bool(cursor.takes("more", "additional"))
        if cursor.takes("times", "x"):
            more = bool(cursor.takes("more", "again")) or more
            if _in_all(cursor):
                return number_or_none, "in all"
            return number_or_none, "more" if more else "either"
        if more:
            cursor.takes("rep")
            return number_or_none, "more"
    cursor.at = start
    return None


def _omits_the_last(cursor: Cursor) -> bool:
    """Take "omitting last sc", "omitting 1 dc at end of last repeat", "omit the final ch 3"."""
    start = cursor.at
    if cursor.takes("omitting"):
        return True
    if cursor.takes("sk", "leaving", "leave"):
        cursor.takes("off", "out")
        cursor.takes("the")
        if cursor.takes("last", "final"):
            return True
        cursor.number()
        if cursor.sees_kind("stitch", "unit") or cursor.sees("ch"):
            cursor.next()
            cursor.number()
            if cursor.takes("at", "on", "in") and cursor.sees("end", "last", "the", "final"):
                return True
    cursor.at = start
    return False


def _once_more_to(cursor: Cursor) -> str | None:
    """Take "and from * to ** once more"; return the sign where it stops."""
    start = cursor.at
    cursor.takes(",", ";")
    cursor.takes("and", "then")
    cursor.takes("then")
    cursor.takes("work", "rep", "once")
    cursor.takes("more")
    if cursor.takes("from") and cursor.takes(*MARKS) and cursor.takes("to", "-", "–"):
        stop = cursor.takes(*MARKS)
        if stop is not None:
            cursor.takes("once")
            cursor.takes("more", "again")
            return stop.text
    cursor.at = start
    return None


def _works_otherwise(cursor: Cursor) -> bool:
    """Take "working" of "working 3 dc instead of a shell in last sc", "working only 3 dc in last"."""
    start = cursor.at
    if cursor.takes("working", "work", "with", "making", "placing"):
        only = cursor.takes("only", "just")
        end = cursor.at
        while end < len(cursor.tokens) and not cursor.tokens[end].is_(",", ";", "."):
            end += 1
        words = cursor.tokens[cursor.at : end]
        if cursor.sees_kind("num", "stitch") and (
            only or any(token.is_("instead") for token in words)
        ):
            return True
    cursor.at = start
    return False


def _ending(cursor: Cursor, tail: Tail) -> Tail | None:
    """Take ", ending last rep at **", ", ending with", ", end last rep with", "omitting last ..."."""
    start = cursor.at
    cursor.takes(",", ";", "(")
    cursor.takes("but", "and")
    if _works_otherwise(cursor):
        return replace(tail, ending=True)
    if cursor.takes("ending", "end", "finish", "finishing"):
        cursor.takes("the")
        cursor.takes("last", "final")
        cursor.takes("rep", "time")
        if cursor.takes("at", "before", "by", "on", "after") and cursor.sees(*MARKS):
            mark = cursor.next().text
            cursor.takes(")")
            if tail.times is None or tail.custom:
                return replace(tail, stop_mark=mark)
        cursor.takes("with", "in", "by")
        if cursor.takes("to") and cursor.takes("correspond"):
            return replace(tail, ending=True)
        cursor.takes("working")
        return replace(tail, ending=True)
    if _omits_the_last(cursor):
        while cursor.now is not None and not cursor.sees(",", ";", ".", ")"):
            cursor.next()
        return replace(tail, ending=True)
    cursor.at = start
    return None
