"""What one size leaves out: "sc in next 0 (1, 2) sts" is nothing to work in the first size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.notation.tokens import Token

_ENDS = (",", ";", ".", ":", "*", "**", "(", ")", "[", "]", "{", "}", "–")
_OPENERS = {")": "(", "]": "[", "}": "{"}
_UP_TO = ("to", "until", "within", "before")


def without_none(tokens: Sequence[Token]) -> list[Token]:
    """Return a row's tokens without the clauses whose number is 0.

    "rep from * to last 0 sts" goes all the way: it becomes "rep from * across".
    """
    out = list(tokens)
    at = 0
    while at < len(out):
        if not _is_none(out, at):
            at += 1
            continue
        begin, end, instead = _clause(out, at)
        out[begin:end] = instead
        at = begin
    return out


def _is_none(tokens: Sequence[Token], at: int) -> bool:
    token = tokens[at]
    if token.kind != "num" or token.raw.strip() != "0" or at + 1 == len(tokens):
        return False
    following = tokens[at + 1]
    return following.kind in ("stitch", "unit") or following.is_(
        "st", "sp", "ch", "times", "x", "lp"
    )


def _clause(tokens: Sequence[Token], at: int) -> tuple[int, int, list[Token]]:
    """Return where the clause around the 0 at *at* begins and ends, and what stands in its place."""
    end = at + 1
    while end < len(tokens) and not tokens[end].is_(*_ENDS):
        end += 1
    before = tokens[at - 1] if at else None
    if before is not None and before.is_(*_OPENERS):
        return _opening(tokens, at - 1), end, []
    begin = at
    while begin > 0 and not tokens[begin - 1].is_(*_ENDS):
        begin -= 1
    up_to = next((i for i in range(at - 1, begin - 1, -1) if tokens[i].is_(*_UP_TO)), None)
    if up_to is not None and at - up_to <= 3 and tokens[at - 1].is_("last"):
        across = replace(tokens[up_to], kind="word", text="across", raw="across")
        return up_to, end, [across]
    if end < len(tokens) and tokens[end].is_(",", ";"):
        end += 1  # the comma goes with what is left out
    return begin, end, []


def _opening(tokens: Sequence[Token], close: int) -> int:
    """Return where the bracket that closes at *close* opens."""
    depth = 0
    for index in range(close, -1, -1):
        if tokens[index].is_(*_OPENERS):
            depth += 1
        elif tokens[index].is_(*_OPENERS.values()):
            depth -= 1
            if depth == 0:
                return index
    return 0
