"""What a chain stands for: "counts as first dc here and throughout", "does not count as a st"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.notation.tokens import Token


def counts_as_remark(tokens: Sequence[Token]) -> tuple[str, bool] | None:
    """Return (what it counts as, throughout) of a remark, or None if it is no such remark.

    The answer is "dc", "dc+ch-2", "st" (a stitch whose name follows from the row), or "".
    """
    tokens = _equals_in_words(tokens)
    texts = [token.text for token in tokens]
    if "counts" not in texts and "ch" in texts and any(t.kind == "stitch" for t in tokens):
        at = next((i for i, t in enumerate(tokens) if t.is_("is", "are", "equals", "makes")), None)
        if at is not None:
            tokens = [*tokens[:at], replace(tokens[at], text="counts"), *tokens[at + 1 :]]
            texts = [token.text for token in tokens]
    if "counts" not in texts and "as" not in texts:
        return None
    throughout = "throughout" in texts
    if any(text in ("not", "don't", "doesn't", "never", "isn't", "no") for text in texts):
        return ("", throughout) if "counts" in texts else None
    if "counts" not in texts:
        return None
    counted = _named_after(tokens[texts.index("counts") + 1 :])
    return None if counted is None else (counted, throughout)


def _named_after(after: Sequence[Token]) -> str | None:
    """Return what stands after "counts as": "dc", "dc+ch-2", "st"; None where nothing is named."""
    stitch, length = "", 0
    for index, token in enumerate(after):
        if token.is_("sp", "mesh", "square") and not stitch and not length:
            return "st"  # a square of mesh is its upright and the chain after it
        if token.kind in ("stitch", "unit") and not stitch:
            stitch = token.text
        elif token.text == "ch" and (stitch or length == 0):
            number = _number_by(after, index)
            if number and not length and not _skipped_near(after, index):
                length = number
        elif token.is_("here", "throughout") and (stitch or length):
            break
    if stitch or length:
        return f"{stitch}+ch-{length}" if length else stitch
    named = not after or any(token.is_("st", "one", "first") for token in after)
    return "st" if named else None


def _equals_in_words(tokens: Sequence[Token]) -> Sequence[Token]:
    """Return "= 1 dc" and "3 skipped ch = first dc" with the sign said in words."""
    at = next((index for index, token in enumerate(tokens) if token.is_("=")), None)
    if at is None or not any(token.kind == "stitch" for token in tokens[at:]):
        return tokens
    if at and not any(token.is_("ch", "tch") for token in tokens[:at]):
        return tokens
    return [*tokens[:at], replace(tokens[at], kind="word", text="counts"), *tokens[at + 1 :]]


def _number_by(tokens: Sequence[Token], index: int) -> int | None:
    """Return the number of "ch 2", "ch-2 sp", "2ch", "1 ch-1 sp"."""
    after = index + 1
    if after < len(tokens) and tokens[after].text == "-":
        after += 1
    if after < len(tokens) and tokens[after].kind == "num":
        return tokens[after].value
    before = index - 1
    if before >= 0 and tokens[before].text == "-":
        before -= 1
    if before >= 0 and tokens[before].kind == "num":
        return tokens[before].value
    return None


def _skipped_near(tokens: Sequence[Token], index: int) -> bool:
    """ "and 2 ch skipped", "over 1 ch" name chains below, not a space."""
    before = tokens[max(index - 2, 0) : index]
    after = tokens[index + 1 : index + 2]
    return any(token.is_("over", "sk", "skipped") for token in (*before, *after))
