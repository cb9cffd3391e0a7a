"""Repeats that are announced: "repeat the following 5 times: ch 1, sk 1, sc in next 3 sts; sc in last st"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.notation.tokens import Token

_SO_OFTEN = 8  # words at most between "the following" and the colon


def announced_in_brackets(tokens: Sequence[Token]) -> list[Token]:
    """Return *tokens* with what follows such a colon in brackets, and how often after them.

    The list ends with its sentence, or at a semicolon.
    """
    out: list[Token] = []
    index = 0
    while index < len(tokens):
        colon = _announced(tokens, index)
        if not colon:
            out.append(tokens[index])
            index += 1
            continue
        end = _end_of_list(tokens, colon + 1)
        how_often = _how_often(tokens[index:colon])
        first = tokens[colon]
        out.append(replace(first, kind="sign", text="[", raw="["))
        out += tokens[colon + 1 : end]
        out += [replace(first, kind="sign", text="]", raw="]"), *how_often]
        index = end
    return out


def _announced(tokens: Sequence[Token], index: int) -> int:
    """Return where the colon stands after "repeat the following ... times" at *index*; 0 for none."""
    if not tokens[index].is_("rep", "work"):
        return 0
    at = index + 1
    at += at < len(tokens) and tokens[at].is_("the")
    if at >= len(tokens) or not tokens[at].raw.lower().startswith("following"):
        return 0
    for colon in range(at + 1, min(at + _SO_OFTEN, len(tokens))):
        if tokens[colon].is_(":"):
            said = any(
                token.is_("times", "twice", "across", "around", "to") for token in tokens[at:colon]
            )
            return colon if said else 0
        if tokens[colon].kind == "sign":
            return 0
    return 0


def _how_often(words: Sequence[Token]) -> list[Token]:
    at = next(i for i, token in enumerate(words) if token.raw.lower().startswith("following"))
    passed = ("instructions", "section", "sequence", "stitches", "st", "pattern", "steps")
    return [token for token in words[at + 1 :] if not token.is_(*passed) or token.raw == "sts"]


def _end_of_list(tokens: Sequence[Token], start: int) -> int:
    depth = 0
    for at in range(start, len(tokens)):
        depth += tokens[at].is_("(", "[", "{") - tokens[at].is_(")", "]", "}")
        if depth < 0 or (not depth and tokens[at].is_(";", ".")):
            return at
    return len(tokens)
