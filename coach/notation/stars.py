"""Stars: where a repeat begins, where it closes, and where its last pass stops."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import GroupIn, Instruction, Make, Of, Repeated, Skip, Which
from coach.craft.problem import Verdict
from coach.notation.clauses import (
    worked_yet,
)
from coach.notation.reach import bound, runs_on
from coach.notation.repeat_words import Tail, repeat_tail, times_after
from coach.notation.row_state import Marks, RowState
from coach.notation.tokens import Token


def star(reader: RowState, token: Token, items: list[Instruction], marks: Marks) -> None:
    """A star opens a repeat, closes it, or marks where the last pass ends."""
    cursor = reader.cursor
    cursor.next()
    mark = token.text
    if mark in marks.starts and mark not in marks.used:
        close_star(reader, mark, items, marks)
        return
    if len(mark) > 1 and mark[:-1] in marks.starts and mark not in reader.repeated_marks:
        marks.stops[mark] = len(items)
        return
    follows = cursor.now
    if follows is None or (not items and follows.is_(")", "]")):
        return
    marks.used.discard(mark)
    marks.starts[mark] = len(items)
    marks.places[mark] = token.place


def close_star(reader: RowState, mark: str, items: list[Instruction], marks: Marks) -> None:
    """A second star of the kind closes the repeat; what follows says how often."""
    cursor = reader.cursor
    start = cursor.at
    while cursor.takes(",", ";", "."):
        pass
    tail: Tail | None = None
    if cursor.takes("rep"):
        tail = repeat_tail(cursor, mark)
    else:
        times = times_after(cursor)
        if times is not None:
            tail = Tail(times=times, custom="in all")
        elif runs_on(cursor):
            tail = Tail(until=bound(cursor))
    if tail is None:
        cursor.at = start
        marks.stops[mark] = len(items)
        return
    if tail.custom == "either":
        tail = replace(tail, custom="in all")
    fold(reader, mark, tail, items, marks)


def fold(reader: RowState, mark: str, tail: Tail, items: list[Instruction], marks: Marks) -> None:
    """Turn the instructions since *mark* into a repeat."""
    begin = marks.starts.get(mark)
    if begin is None or begin >= len(items):
        reader.problem(
            Verdict.BROKEN_NOTATION,
            reader.cursor.place(),
            f"It says to repeat from {mark}, but there is no {mark} before it.",
            f"Put {mark} where the repeat begins.",
        )
        return
    body = tuple(items[begin:])
    if not worked_yet(items[:begin]) and isinstance(body[-1], Skip):
        body = (_into_the_next(body[0]), *body[1:])
    stop = None
    extra = None
    if tail.stop_mark:
        at = marks.stops.get(tail.stop_mark)
        if at is None:
            reader.problem(
                Verdict.BROKEN_NOTATION,
                reader.cursor.place(),
                f"It says to end at {tail.stop_mark}, but there is no {tail.stop_mark} in the repeat.",
                f"Put {tail.stop_mark} where the last repeat ends.",
            )
        else:
            stop = at - begin
    if tail.extra_mark:
        at = marks.stops.get(tail.extra_mark)
        extra = at - begin if at is not None else None
    repeated = Repeated(
        body,
        marks.places.get(mark, reader.cursor.place()),
        times=tail.times,
        custom=tail.custom,
        until=tail.until,
        stop_at=stop,
        ending=tail.ending,
        extra_stop=extra,
    )
    del items[begin:]
    items.append(repeated)
    marks.used.add(mark)
    marks.folded[mark] = body
    del marks.starts[mark]
    marks.stops = {name: at for name, at in marks.stops.items() if at <= begin}


def _into_the_next(first: Instruction) -> Instruction:
    """ "*[sc, dc] in same st, sk next st": nothing was worked before, so "same" is the next one."""
    if isinstance(first, Make | GroupIn) and first.target is not None:
        where = first.target
        if where.which is Which.SAME and where.noun.of in (Of.STITCH, Of.NAMED):
            return replace(first, target=replace(where, which=Which.NEXT))
    return first
