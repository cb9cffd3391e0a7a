"""Increases and decreases by name: "inc", "inv dec", "sc next 2 tog", "take two together"."""

from __future__ import annotations

from coach.craft.instruction import Instruction, Make, Spread, Which
from coach.craft.stitch import legs
from coach.notation.reach import runs_on
from coach.notation.row_state import RowState
from coach.notation.targets import target
from coach.notation.tokens import Token


def together_after(reader: RowState, stitch: str, number: int | None) -> str | None:
    """ "sc next 2 tog", "dc 3 together", "2 dc tog"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.takes("next")
    cursor.takes("the")
    count = cursor.number()
    cursor.takes("st")
    if cursor.sees_kind("stitch") and count is not None:
        cursor.next()
    if count is not None and cursor.takes("tog"):
        return f"~{stitch}{count}tog" if number is None else f"{stitch}{count}tog"
    cursor.at = start
    if number is not None and cursor.takes("tog", "worked"):
        if cursor.tokens[cursor.at - 1].is_("worked"):
            cursor.takes("tog")
        return f"~{stitch}{number}tog"
    return None


def shaping(reader: RowState) -> tuple[str, bool]:
    """ "inc", "dec", "inv dec", "hdc dec": what they make of the row's stitch."""
    cursor = reader.cursor
    cursor.takes("inv")
    token = cursor.next()
    base = reader.base
    cursor.takes("st")
    if token.is_("inc"):
        return base, True
    return f"{base}2tog", False


def invisible(token: Token) -> str | None:
    """Return the name that a maker must hear: "inv dec" is worked another way than "sc2tog"."""
    return "inv dec" if token.is_("inv") else None


def take_together(reader: RowState, start: int) -> list[Instruction] | None:
    """ "take two together", "draw up a loop in each of next 2 sc, yarn over and through all 3"."""
    cursor = reader.cursor
    if cursor.takes("up"):
        return _drawn_up(reader, start)
    cursor.takes("next")
    count = cursor.number()
    cursor.takes("st")
    if count is None or not cursor.takes("tog"):
        return None
    return [Make(f"{reader.base}{count}tog", 1, None, cursor.place(start))]


def _drawn_up(reader: RowState, start: int) -> list[Instruction] | None:
    """Take the rest of a decrease told loop by loop: as many legs as places it is drawn up in."""
    cursor = reader.cursor
    cursor.skip_fillers()
    if not cursor.takes("lp"):
        return None
    where = target(cursor)
    if where is None or where.count < 2:
        return None
    end = cursor.at
    while end < len(cursor.tokens) and not cursor.tokens[end].is_(".", ";", ")", "]", "*"):
        if cursor.tokens[end].is_("all"):
            break
        end += 1
    else:
        return None
    if end >= len(cursor.tokens) or not cursor.tokens[end].is_("all"):
        return None
    cursor.at = end + 1
    cursor.number()
    cursor.takes("lp")
    if cursor.takes("on"):
        cursor.skip_fillers()
        cursor.takes("hook")
    mark = cursor.at
    cursor.takes("–", "-", ",", ":")
    cursor.takes("a", "one", "this", "is", "counts", "as")
    cursor.takes("sc", "st")
    if not (cursor.takes("dec") and (cursor.takes("made", "completed", "complete") or True)):
        cursor.at = mark
    return [Make(f"sc{where.count}tog", 1, None, cursor.place(start))]


def evenly_spread(
    reader: RowState, items: list[Instruction], stitch: str, number: int | None, start: int
) -> list[Instruction] | None:
    """ "inc 4 sts evenly spaced across": over the whole row, whatever was said of its other stitches."""
    cursor = reader.cursor
    mark = cursor.at
    drawn = legs(stitch) > 1
    if not drawn and not cursor.tokens[mark - 1].is_("inc"):
        return None
    count = number if number is not None else cursor.number()
    cursor.takes("st", "times")
    if not cursor.sees("evenly"):
        runs_on(cursor)
    cursor.takes("spaced", "spread", "distributed")
    if count is None or not cursor.takes("evenly"):
        cursor.at = mark
        return None
    cursor.takes("spaced", "spread", "distributed")
    runs_on(cursor)
    base = reader.base
    if items and isinstance(items[-1], Make) and items[-1].target is not None:
        before = items[-1]
        if before.target is not None and before.target.which is Which.EACH:
            base = before.stitch
            items.pop()
    return [Spread(base, count, drawn, cursor.place(start))]
