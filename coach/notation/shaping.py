"""Increases and decreases by name: "inc", "inv dec", "sc next 2 tog", "take two together"."""

from __future__ import annotations

from coach.craft.pattern import Instruction, Make
from coach.notation.nouns import PREPOSITIONS
from coach.notation.row_state import RowState


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
    if (
        cursor.sees_kind("stitch")
        and token.is_("inc", "dec")
        and not cursor.ahead_is(1, *PREPOSITIONS)
    ):
        pass
    cursor.takes("st")
    if token.is_("inc"):
        return base, True
    return f"{base}2tog", False


def take_together(reader: RowState, start: int, number: int | None) -> list[Instruction] | None:
    """ "take two together": the row's stitch drawn together."""
    cursor = reader.cursor
    cursor.takes("next")
    count = cursor.number()
    cursor.takes("st")
    if count is None or not cursor.takes("tog"):
        return None
    return [Make(f"{reader.base}{count}tog", 1, None, cursor.place(start))]
