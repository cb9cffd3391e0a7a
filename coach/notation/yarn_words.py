"""The yarn that stitches of a row are worked in: "MC 5 sc", "5 sc in A", "5 A, 1 B", "with Rust"."""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.instruction import Act, Instruction, Make
from coach.notation.clauses import clause_end, colour_name
from coach.notation.cursor import Cursor
from coach.notation.remark_words import KNOWN
from coach.notation.row_state import RowState
from coach.notation.tokens import Token

_SIDES = ("rs", "ws")
_ENDS = (",", ";", ".", ")", "]", "}", "*", "**", "and", "then", "rep")


def yarn_named(reader: RowState) -> str | None:
    """Take "with A", "in Rust", "change to B in last yo", "MC 5 sc", "A: sc"; return the yarn's name."""
    cursor = reader.cursor
    start = cursor.at
    if cursor.takes("with", "using") or (
        cursor.sees("in") and _name(cursor, 1) and cursor.takes("in")
    ):
        cursor.takes("colour", "yarn")
        if (found := _name(cursor, any_capital=True)) is not None:
            return _taken(cursor, found)
    elif cursor.takes("change", "switch", "changing"):
        return _changed_to(cursor)
    elif (found := _name(cursor)) is not None and _begins_work(reader, cursor.at + found):
        name = _taken(cursor, found)
        cursor.takes(":")
        return name
    cursor.at = start
    return None


def _changed_to(cursor: Cursor) -> str:
    cursor.takes("colour")
    cursor.takes("to", "yarn")
    cursor.takes("colour")
    token = cursor.now
    name = "next colour"
    if token is not None and token.kind in ("word", "unit") and not token.is_("in", "on", "at"):
        name = _taken(cursor, _name(cursor, any_capital=True) or 1)
    cursor.at = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
    return name


def counted_in_yarn(reader: RowState, _items: list[Instruction]) -> list[Instruction] | None:
    """ "5 A, 1 B", "A x 5": so many of the row's stitch, told by their yarn alone."""
    cursor = reader.cursor
    start = cursor.at
    number = cursor.number() if cursor.sees_kind("num") else None
    found = _name(cursor)
    if found is None:
        return None
    name = _taken(cursor, found)
    if number is None:
        if not cursor.takes("x"):
            return None
        number = cursor.number()
    if number is None or not (cursor.now is None or cursor.sees(*_ENDS)):
        return None
    place = cursor.place(start)
    return [Act("colour", place, name), Make(reader.last_stitch, number, None, place)]


def yarn_after(reader: RowState) -> str | None:
    """Take "MC" of "sc 4 MC", "in A" of "5 sc in A", "with Rust" of "sc in next 3 sts with Rust".

    MC is a magic ring as well: "6 sc in MC" is worked in a colour only where another is named.
    """
    cursor = reader.cursor
    if (found := _name(cursor)) is not None:
        return _taken(cursor, found)
    if (found := in_yarn(reader)) is None:
        return None
    cursor.next()
    return _taken(cursor, found)


def in_yarn(reader: RowState) -> int | None:
    """Return how many tokens name the yarn after "in" or "with" here; none where no yarn is meant."""
    cursor = reader.cursor
    if not cursor.sees("in", "with") or (
        cursor.ahead_is(1, "mc") and not others_named(reader, "MC")
    ):
        return None
    return _name(cursor, 1, any_capital=True)


def letter_of_yarn(reader: RowState) -> bool:
    """Tell whether an "A" here is a yarn beside B, not the article."""
    token = reader.cursor.now
    return token is not None and token.raw == "A" and others_named(reader, "A")


def _name(cursor: Cursor, ahead: int = 0, *, any_capital: bool = False) -> int | None:
    """Return how many tokens name a yarn here: a letter, MC, a colour; any capital name where asked."""
    token = cursor.peek(ahead)
    if token is None or token.text in _SIDES:
        return None
    if colour_name(token):
        after = cursor.peek(ahead + 1)
        numbered = token.raw == "CC" and after is not None and after.glued and after.kind == "num"
        return 2 if numbered else 1
    if any_capital and _capital_name(token):
        after = cursor.peek(ahead + 1)
        return 2 if after is not None and _capital_name(after) else 1
    return None


def _capital_name(token: Token) -> bool:
    """Tell whether a word is a name: a capital, then small letters, and no word of the craft."""
    return (
        token.kind == "word"
        and len(token.raw) > 2
        and token.raw[0].isupper()
        and token.raw[1:].islower()
        and token.text not in KNOWN
    )


def _taken(cursor: Cursor, length: int) -> str:
    words = cursor.tokens[cursor.at : cursor.at + length]
    cursor.at += length
    return "".join(token.raw if token.glued else f" {token.raw}" for token in words).strip()


def _begins_work(reader: RowState, at: int) -> bool:
    """Tell whether stitches follow the yarn at once; "A dc in next st" may be the article."""
    tokens = reader.cursor.tokens
    token = tokens[at] if at < len(tokens) else None
    if token is None or not others_named(reader, tokens[at - 1].raw):
        return False
    return (
        token.is_(":", "inc", "dec")
        or token.kind == "stitch"
        or (token.kind == "num" and _stitch_at(tokens, at + 1))
    )


def _stitch_at(tokens: Sequence[Token], at: int) -> bool:
    return at < len(tokens) and (
        tokens[at].kind in ("stitch", "unit") or tokens[at].is_("inc", "dec", "st")
    )


def others_named(reader: RowState, mine: str) -> bool:
    """Tell whether the row names another yarn than *mine* too."""
    return any(
        token.raw != mine and token.text not in _SIDES and colour_name(token)
        for token in reader.cursor.tokens
    )
