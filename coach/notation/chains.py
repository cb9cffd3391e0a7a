"""Chains inside a row: "ch 3", "3ch", picots, and what a chain is said to count as.

The foundation of the piece itself is read elsewhere.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.instruction import Chain, Instruction, Picot
from coach.notation.clauses import closing_bracket, lone_one
from coach.notation.counts_as import counts_as_remark
from coach.notation.cursor import Cursor
from coach.notation.nouns import PREPOSITIONS
from coach.notation.row_state import RowState
from coach.notation.tokens import Token


def foundation_or_chain(reader: RowState, items: list[Instruction]) -> list[Instruction] | None:  # noqa: PLR0911
    """ "ch 3", "3ch", "chain three", with what it counts as."""
    cursor = reader.cursor
    start = cursor.at
    beginning = bool(cursor.takes("beg", "turning"))
    cursor.takes("make", "work")
    count: int | None = None
    if cursor.sees_kind("num") or lone_one(cursor.now):
        count = cursor.number()
        cursor.takes("-")
        if (
            not cursor.takes("ch")
            or cursor.sees("sp", "lp")
            or (cursor.sees("-") and cursor.ahead_is(1, "sp", "lp"))
        ):
            return None
    elif cursor.takes("ch"):
        glued = bool(cursor.takes("-"))
        count = cursor.number()
        if count is None:
            if glued:
                return None
            count = 1
        if cursor.sees("sp", "lp") or (cursor.sees("-") and cursor.ahead_is(1, "sp", "lp")):
            return None
        if cursor.sees_kind("unit") and cursor.now is not None and cursor.now.text == "picot":
            cursor.next()
            return [Picot(count, cursor.place(start))]
    if count is None or (beginning and not count):
        return None
    cursor.takes("loosely")
    cursor.takes("st")
    if cursor.takes_all("for", "sp") or cursor.takes_all("for", "corner"):
        pass
    if picot_closed(reader, count):
        return [Picot(count, cursor.place(start))]
    place = cursor.place(start)
    said = said_of_chain(reader)
    if said is not None:
        return [Chain(count, place, counts_as=said[0], throughout=said[1])]
    return [Chain(count, place)]


def picot_closed(reader: RowState, count: int) -> bool:
    """Take ", sl st in 3rd ch from hook" after a chain: a picot."""
    cursor = reader.cursor
    start = cursor.at
    cursor.takes(",")
    cursor.takes("and", "then")
    token = cursor.now
    if token is not None and token.kind == "stitch" and token.text in ("sl st", "sc"):
        slip = token.text == "sl st"
        cursor.next()
        cursor.takes(*PREPOSITIONS)
        cursor.skip_fillers()
        if cursor.sees_kind("ord"):
            value = cursor.next().value
            if cursor.takes("ch") and cursor.takes("from"):
                cursor.skip_fillers()
                if cursor.takes("hook") and (slip and count <= 6 and value >= count - 1):
                    picot_remark(reader)
                    return True
        elif (
            slip
            and count <= 5
            and items_before(reader)
            and (cursor.takes_all("first", "ch") or _just_made(cursor) or _called_picot(cursor))
        ):
            picot_remark(reader)
            return True
    cursor.at = start
    return False


def _just_made(cursor: Cursor) -> bool:
    """Take "top of last sc made", "side of sc just made": the stitch that a picot sits on."""
    start = cursor.at
    if cursor.takes("top", "side", "front"):
        cursor.skip_fillers()
    cursor.takes("last")
    if cursor.sees_kind("stitch") or cursor.sees("st"):
        cursor.next()
        cursor.takes("just")
        if cursor.takes("made", "worked", "completed"):
            return True
    cursor.at = start
    return False


def _called_picot(cursor: Cursor) -> bool:
    """Take "same sc" before "(picot made)": the bracket says what the chain is."""
    start = cursor.at
    while cursor.sees_kind("word", "stitch", "num", "ord") and cursor.at < start + 6:
        cursor.next()
    inner = cursor.peek()
    if cursor.sees("(") and inner is not None and inner.kind == "unit" and inner.text == "picot":
        return True
    cursor.at = start
    return False


def picot_remark(reader: RowState) -> None:
    """Pass "(picot made)" after a picot."""
    cursor = reader.cursor
    if cursor.sees("(") and cursor.peek() is not None and cursor.peek(2) is not None:
        inner = cursor.peek()
        if inner is not None and inner.kind == "unit" and inner.text == "picot":
            while cursor.now is not None and not cursor.takes(")"):
                cursor.next()


def said_of_chain(reader: RowState) -> tuple[str, bool] | None:
    """Take "(counts as first dc here and throughout)" or ", that counts as our first dc"."""
    cursor = reader.cursor
    start = cursor.at
    if cursor.takes("(", "["):
        end = closing_bracket(cursor.tokens, cursor.at - 1)
        if end is not None:
            inner = cursor.tokens[cursor.at : end]
            said = counts_as_remark(inner) or only_what_it_is(inner)
            if said is not None:
                cursor.at = end + 1
                return said
        cursor.at = start
        return None
    cursor.takes(",", "–", ";", ":")
    cursor.takes("which", "that", "this", "it", "and")
    end = cursor.at
    while end < len(cursor.tokens) and not cursor.tokens[end].is_(",", ";", ".", "(", "[", "*"):
        end += 1
    if end > cursor.at and cursor.tokens[cursor.at].is_(
        "counts", "does", "doesn't", "do", "not", "always"
    ):
        said = counts_as_remark(cursor.tokens[cursor.at : end])
        if said is not None:
            cursor.at = end
            return said
    cursor.at = start
    return None


def only_what_it_is(inner: Sequence[Token]) -> tuple[str, bool] | None:
    """ "ch 5 (dc and ch 2)": a bracket that only names what the chain stands for."""
    if not any(token.kind == "stitch" for token in inner) or not all(
        token.kind in ("stitch", "num") or token.is_("and", "ch", "+", ",", "-", "first", "sp", "a")
        for token in inner
    ):
        return None
    return counts_as_remark([replace(inner[0], kind="word", text="counts"), *inner])


def items_before(reader: RowState) -> bool:
    """Tell whether something was worked before the cursor (a picot needs a stitch to sit on)."""
    return any(
        token.kind in ("stitch", "unit")
        for token in reader.cursor.tokens[: max(reader.cursor.at - 6, 0)]
    )
