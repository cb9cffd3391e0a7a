"""What follows a count at a row's end: the end of its sentence, an act, or more work."""

from __future__ import annotations

from collections.abc import Sequence

from coach.notation.tokens import Token


def work_follows(tokens: Sequence[Token]) -> bool:
    """Tell whether anything is still worked in *tokens*: then a bracket before it is no count."""
    for index, token in enumerate(tokens):
        if token.kind in ("stitch", "unit", "clash") and token.text != "sl st":
            before = tokens[index - 1] if index else None
            if before is not None and (
                before.is_("first", "in", "to", "last") or before.kind == "num"
            ):
                continue
            return True
        if token.is_("rep", "x"):
            return True
    return False


_ACTS = ("turn", "join", "fasten", "break", "cut", "drop", "do")


def _acts_next(tokens: Sequence[Token], at: int) -> bool:
    """Tell whether "turn", "and you can fasten off" follows: what is done after the count."""
    while at < len(tokens) and tokens[at].is_("and", "then", "you", "can", "now", "we"):
        at += 1
    return at < len(tokens) and tokens[at].is_(*_ACTS)


def to_sentence_end(tokens: Sequence[Token], start: int) -> tuple[Sequence[Token], list[Token]]:
    """Return the tokens up to the end of the sentence, or to what is done after it, and the rest."""
    end = start
    while end < len(tokens) and not tokens[end].is_(".", ";", ")", "]", "}"):
        if tokens[end].is_(",") and _acts_next(tokens, end + 1):
            break
        end += 1
    return tokens[start:end], list(tokens[end:])
