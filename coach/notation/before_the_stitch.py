"""What stands before a stitch's name: its number, "2 sts together", "3 more", "six decreases"."""

from __future__ import annotations

from coach.craft.instruction import (
    Instruction,
    Make,
    Of,
    Target,
    Which,
)
from coach.notation.clauses import lone_one, worked_yet
from coach.notation.nouns import ANY
from coach.notation.row_state import RowState
from coach.notation.targets import target


def worked_together(reader: RowState, start: int) -> list[Instruction] | None:
    """ "work 2 sts. together", "next 2 sts tog": the row's stitch drawn together."""
    cursor = reader.cursor
    mark = cursor.at
    cursor.takes("next")
    count = cursor.number()
    cursor.takes("st")
    if count is not None and count > 1 and cursor.takes("tog"):
        return [Make(f"{reader.base}{count}tog", 1, None, cursor.place(start))]
    cursor.at = mark
    return None


def number_before(reader: RowState) -> int | None:
    """Take the number before a stitch: "2 sc", "5-dc shell", "3 more"."""
    cursor = reader.cursor
    number: int | None = None
    if cursor.sees_kind("num") or lone_one(cursor.now):
        number = cursor.number()
        follows = cursor.peek(1)
        if follows is not None and follows.kind in ("stitch", "unit"):
            cursor.takes("-")
        cursor.takes("more")
    cursor.skip_fillers()
    return number


def of_the_last_kind(reader: RowState, number: int, start: int) -> list[Instruction] | None:
    """ "3 in next st", "5 more": the stitch worked last; an empty list where it can't be meant."""
    cursor = reader.cursor
    if cursor.sees("in", "into") and cursor.ahead_is(
        1, "next", "the", "each", "first", "last", "same", "that", "it"
    ):
        found = target(cursor)
        plainly = number == 1 and found is not None and found.noun.of is Of.STITCH
        if found is not None and (plainly or found.which is not Which.EACH):
            return [Make(reader.last_stitch, number, found, cursor.place(start))]
        cursor.at = start
        return []
    if cursor.tokens[cursor.at - 1].is_("more") and (
        cursor.now is None or cursor.sees(",", ".", ";", "and")
    ):
        next_ones = Target(Which.NEXT, ANY, count=number)
        return [Make(reader.last_stitch, 1, next_ones, cursor.place(start))]
    return None


def tells_shaping(reader: RowState, items: list[Instruction], number: int | None) -> bool:
    """Tell whether "six decreases" only sums up what was worked."""
    cursor = reader.cursor
    return (
        cursor.now is not None
        and cursor.now.raw.lower() in ("increases", "decreases")
        and number is not None
        and (cursor.ahead_is(1, ".", ",", ";", ")") or cursor.peek() is None)
        and worked_yet(items)
    )
