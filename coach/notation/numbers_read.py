"""Numbers in words among the tokens: "twenty-four", "a hundred and six", "second"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.notation.number_words import TENS, TO_NINETEEN
from coach.notation.tokens import Token

_ORDINALS = {
    "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8,
    "ninth": 9, "tenth": 10, "eleventh": 11, "twelfth": 12, "thirteenth": 13,
}  # fmt: skip


def numbered(tokens: Sequence[Token]) -> list[Token]:
    """Turn numbers in words into numbers: "twenty-four", "seventeen", "second"."""
    out: list[Token] = []
    index = 0
    while index < len(tokens):
        token = tokens[index]
        if token.kind != "word":
            out.append(token)
            index += 1
            continue
        value, end = _number_in_words(tokens, index)
        if value is not None:
            out.append(
                replace(
                    token,
                    kind="num",
                    value=value,
                    text=str(value),
                    line_end=tokens[end - 1].line_end,
                )
            )
            index = end
        elif token.text in _ORDINALS:
            out.append(replace(token, kind="ord", value=_ORDINALS[token.text]))
            index += 1
        else:
            out.append(token)
            index += 1
    return out


def _number_in_words(tokens: Sequence[Token], index: int) -> tuple[int | None, int]:
    word = tokens[index].text
    if word in TENS:
        value, index = TENS[word], index + 1
        after = index + 1 if index < len(tokens) and tokens[index].text == "-" else index
        if after < len(tokens) and 0 < TO_NINETEEN.get(tokens[after].text, 0) < 10:
            return value + TO_NINETEEN[tokens[after].text], after + 1
        return value, index
    if word in TO_NINETEEN:
        value = TO_NINETEEN[word]
        index += 1
        if index < len(tokens) and tokens[index].text == "hundred":
            value, index = value * 100, index + 1
            if index < len(tokens) and tokens[index].text == "and":
                index += 1
            more, end = _number_in_words(tokens, index) if index < len(tokens) else (None, index)
            if more is not None:
                return value + more, end
        return value, index
    return None, index
