"""Rare dresses of a count taken for the usual ones: "<28>", "→ 28", "~28~", "(5 rnds)"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.notation.after_count import to_sentence_end, work_follows
from coach.notation.counts_listed import counts_in
from coach.notation.tokens import Token


def undressed(tokens: Sequence[Token]) -> list[Token]:
    """Return *tokens* with rare dresses of a count as the usual ones: "<28>", "→ 28", "~28~", "(5 rnds)"."""
    out: list[Token] = []
    index = 0
    while tokens and tokens[-1].is_("|"):
        tokens = tokens[:-1]  # the edge of a table
    while index < len(tokens):
        token = tokens[index]
        closing = {"<": ">", "~": "~"}.get(token.text)
        end = _closed_by(tokens, index, closing) if closing else None
        if end is not None:
            inside = list(tokens[index + 1 : end])
            out += [replace(token, text="("), *inside, replace(tokens[end], text=")")]
            index = end + 1
            continue
        if token.text == "(" and _rows_only(tokens[index + 1 : index + 4]):
            index += 4
            continue
        length = _points_to_a_count(tokens, index)
        if length:
            out.append(replace(token, text="–", glued=False))
            index += length
            continue
        out.append(token)
        index += 1
    return out


def _closed_by(tokens: Sequence[Token], start: int, closing: str) -> int | None:
    """Return where a dress such as "<28 sc>" ends, if counts and nothing else are in it."""
    for index in range(start + 1, len(tokens)):
        if tokens[index].text == closing:
            return index if counts_in(tokens[start + 1 : index], loose=True) is not None else None
    return None


def _rows_only(tokens: Sequence[Token]) -> bool:
    """Tell whether a bracket says only how many rows there are: "5 rnds)"."""
    return (
        len(tokens) == 3
        and tokens[0].kind == "num"
        and tokens[1].is_("row", "rows", "rnd", "rnds", "round", "rounds")
        and tokens[2].text == ")"
    )


def _points_to_a_count(tokens: Sequence[Token], index: int) -> int:
    """Return how many signs at *index* only point to a count at the end: "→", "->", "//", "|"."""
    if index == 0 or (tokens[index - 1].kind == "num" and not tokens[index].is_("|")):
        return 0
    texts = [token.text for token in tokens[index : index + 2]]
    if texts in (["-", ">"], ["/", "/"], ["=", ">"]):
        length = 2
    elif texts and texts[0] in ("→", "|", "/", "➔", "⇒"):
        length = 1
    else:
        return 0
    tail, rest = to_sentence_end(tokens, index + length)
    if counts_in(tail) is None or work_follows(rest):
        return 0
    return length
