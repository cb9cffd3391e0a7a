"""Repeats told in words: "rep from *", and a list that is told to go on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.instruction import Act, Chain, GroupIn, Instruction, Make, Repeated, Which
from coach.craft.problem import Verdict
from coach.notation.clauses import (
    clause_end,
    closing_bracket,
    is_bare,
    is_open,
    worked_yet,
)
from coach.notation.cursor import Cursor
from coach.notation.groups import in_one_place
from coach.notation.reach import bound, runs_on
from coach.notation.repeat_words import Tail, repeat_tail, times_after
from coach.notation.row_state import CLOSERS, STARS, Marks, RowState
from coach.notation.stars import fold
from coach.notation.targets import target


def repeat(reader: RowState, items: list[Instruction], marks: Marks) -> list[Instruction]:
    """ "rep from * across", "rep from ** 3 more times", "repeat between *s"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.next()
    cursor.takes("rep")
    if _repeat_comes_first(cursor, marks):
        return items
    cursor.takes("that", "this", "these", "it")
    mark = mark_named(cursor, marks)
    tail = repeat_tail(cursor, mark or "*")
    if mark is None:
        words = cursor.tokens[start : cursor.at]
        if not marks.starts:
            if items and not any(token.is_("row", "rnd") for token in words):
                cut = reader.sentence if 0 < reader.sentence < len(items) else 0
                if not cut and isinstance(items[0], Chain) and len(items) > 1:
                    cut = 1
                sentence, cut = cut, _after_the_first(items, cut)
                said = sentence == cut > 1  # a sentence of its own says where the repeat begins
                head, body = items[:cut], items[cut:]
                return [
                    *head,
                    Repeated(
                        tuple(body),
                        cursor.place(start),
                        times=tail.times,
                        custom=tail.custom,
                        until=tail.until,
                        loose=tail.times is None and not said,
                    ),
                ]
            cursor.at = clause_end(cursor.tokens, cursor.at)
            return items
        mark = next(reversed(marks.starts))
    if mark not in marks.starts:
        _repeated_before(reader, start, (mark, tail), items, marks)
        return items
    if _worked_again(reader, mark, tail, items, marks):
        return items
    fold(reader, mark, tail, items, marks)
    return items


def _repeated_before(
    reader: RowState, start: int, named: tuple[str, Tail], items: list[Instruction], marks: Marks
) -> None:
    """ "*A; rep from * to center, B, rep from * to end": what was repeated comes again after B."""
    mark, tail = named
    place = reader.cursor.place(start)
    if mark in marks.folded and _work_since(items):
        again = Repeated(marks.folded[mark], place, tail.times, until=tail.until, star=False)
        items.append(replace(again, ending=tail.ending))
        return
    reader.problem(
        Verdict.BROKEN_NOTATION,
        place,
        f"It says to repeat from {mark}, but there is no {mark} before it.",
        f"Put {mark} where the repeat begins.",
    )


def _after_the_first(items: Sequence[Instruction], cut: int) -> int:
    """Return where "repeat that" begins at the earliest: "the first stitch" is there only once."""
    for index in range(len(items) - 1, cut - 1, -1):
        item = items[index]
        where = item.target if isinstance(item, Make | GroupIn) else None
        if where is not None and where.which is Which.FIRST and worked_yet(items[index + 1 :]):
            return index + 1
    return cut


_RECAP = (",", "and", "then", "so", "that's", "meaning", "you", "it", "end", "finish", "with", "on", "a", "the")  # fmt: skip


def recapped(reader: RowState, items: Sequence[Instruction]) -> list[Instruction] | None:
    """Take "So single, double, single, double, and you end with a single": told again, not worked again."""
    cursor = reader.cursor
    start = cursor.at
    before = cursor.tokens[start - 1] if start else None
    if before is None or not before.is_(".", "!") or not any(is_open(item) for item in items):
        return None
    end = clause_end(cursor.tokens, start)
    words = cursor.tokens[start:end]
    if sum(token.kind == "stitch" for token in words) < 2:
        return None
    if not all(token.kind == "stitch" or token.is_(*_RECAP) for token in words):
        return None
    cursor.at = end
    return [Act("remark", cursor.place(start), " ".join(token.raw for token in words))]


def _worked_again(
    reader: RowState, mark: str, tail: Tail, items: list[Instruction], marks: Marks
) -> bool:
    """ "*A*, B, rep from * to * once, C": what stands between the stars comes again after B."""
    begin, stop = marks.starts[mark], marks.stops.get(mark)
    if stop is None or not worked_yet(items[stop:]) or stop <= begin:
        return False
    body = tuple(items[begin:stop])
    again = Repeated(body, reader.cursor.place(), tail.times, until=tail.until, star=False)
    items.append(again)
    marks.used.add(mark)
    return True


def _work_since(items: Sequence[Instruction]) -> bool:
    """Tell whether other work follows the repeat that was closed last."""
    last = max(
        (index for index, item in enumerate(items) if isinstance(item, Repeated)), default=-1
    )
    return worked_yet(items[last + 1 :])


def _repeat_comes_first(cursor: Cursor, marks: Marks) -> bool:
    """Tell whether what is repeated follows the word: "Repeat [2 sc in next st, sc] 6 times"."""
    if cursor.sees(*STARS):
        return not marks.starts
    if not cursor.sees(*CLOSERS):
        return False
    end = closing_bracket(cursor.tokens, cursor.at)
    if end is None:
        return False
    inner = cursor.tokens[cursor.at + 1 : end]
    return any(token.kind in ("stitch", "unit") or token.is_("inc", "dec") for token in inner)


def trailing(reader: RowState, items: list[Instruction]) -> bool:  # noqa: PLR0911, PLR0912, PLR0915
    """ "six times in all", "keep doing that all the way round", "all in same sp" after a list."""
    cursor = reader.cursor
    start = cursor.at
    worked = [index for index, item in enumerate(items) if not isinstance(item, Act)]
    if not worked:
        return False
    begin = 1 if isinstance(items[worked[0]], Chain) and len(worked) > 1 else 0
    begin = worked[begin] if begin < len(worked) else worked[0]
    if cursor.takes("all", "both"):
        if cursor.sees("in", "into"):
            where = target(cursor)
            if where is not None:
                cut = len(items)
                while cut > 0 and is_bare(items[cut - 1]):
                    cut -= 1
                if cut < len(items):
                    group = in_one_place(reader, items[cut:], where, cursor.place(start))
                    del items[cut:]
                    items.append(group)
                    return True
        cursor.at = start
        return False
    if (
        cursor.takes("do", "work", "make", "you", "we")
        and (cursor.takes("do", "work") or True)
        and cursor.takes("that", "this", "it", "these", "those", "all")
    ):
        cursor.takes("st", "all", "again")
        cut = reader.sentence if 0 < reader.sentence < len(items) else begin
        if cursor.takes_all("for", "the", "other") or cursor.takes_all("for", "other"):
            number = cursor.number()
            if number is not None:
                cursor.at = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
                body = tuple(items[cut:])
                del items[cut:]
                place = cursor.place(start)
                items.append(Repeated(body, place, times=number, star=False, custom="others"))
                return True
        times = times_after(cursor)
        if times is not None:
            runs_on(cursor)
            body = tuple(items[cut:])
            del items[cut:]
            items.append(Repeated(body, cursor.place(start), times=times, star=False))
            return True
        cursor.at = start
    cursor.at = start
    if (
        runs_on(cursor)
        and (cursor.now is None or cursor.sees(",", ".", ";"))
        and not any(is_open(item) for item in items[begin:])
    ):
        body = tuple(items[begin:])
        del items[begin:]
        items.append(Repeated(body, cursor.place(start), star=False, loose=True))
        return True
    cursor.at = start
    if keeps_on(cursor):
        until = None
        if not runs_on(cursor):
            until = bound(cursor)
        body = tuple(items[begin:])
        del items[begin:]
        items.append(Repeated(body, cursor.place(start), until=until, star=False, loose=True))
        return True
    times = times_after(cursor)
    if (
        times is not None
        and times > 1
        and (
            cursor.tokens[cursor.at - 1].is_("all", "total", "altogether")
            or cursor.now is None
            or cursor.sees(".", ";", ",", "(")
        )
    ):
        body = tuple(items[begin:])
        del items[begin:]
        items.append(Repeated(body, cursor.place(start), times=times, star=False))
        return True
    cursor.at = start
    return False


def mark_named(cursor: Cursor, marks: Marks) -> str | None:
    """Take the sign that a repeat goes back to: "from *", "between **", "from asterisk"."""
    start = cursor.at
    cursor.takes("from", "between", "instructions", "after")
    cursor.skip_fillers()
    token = cursor.now
    if token is not None and token.is_(*STARS):
        cursor.next()
        if cursor.sees("s") and cursor.now is not None and cursor.now.glued:
            cursor.next()  # "between *s"
        return token.text
    if cursor.takes("star", "asterisk"):
        return next(reversed(marks.starts), "*")
    cursor.at = start
    return None


def keeps_on(cursor: Cursor) -> bool:
    """Take "you keep doing that", "continue in this way", "and so on"."""
    start = cursor.at
    cursor.takes("you", "we", "and")
    if cursor.takes("keep", "continue", "cont", "carry"):
        cursor.takes("on")
        while cursor.takes(
            "doing",
            "going",
            "on",
            "that",
            "this",
            "rep",
            "in",
            "manner",
            "way",
            "like",
            "these",
            "pattern",
            "est",
            "established",
            "as",
            "the",
            "same",
            "working",
            "with",
            "it",
        ):
            pass
        if cursor.sees("all", "around", "across", "to", "round", "rnd", "until"):
            return True
        return cursor.now is None or cursor.sees(",", ".", ";")
    if cursor.takes("do", "same") and cursor.takes("that", "this", "it", "again", "the"):
        cursor.takes("again", "same")
        return cursor.sees("all", "around", "across", "to", "rnd")
    cursor.at = start
    return False
