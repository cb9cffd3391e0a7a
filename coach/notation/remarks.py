"""Words that a row may carry and that ask for no stitch: remarks, and how to tell them."""

from __future__ import annotations

from collections.abc import Sequence

from coach.notation.remark_words import KNOWN
from coach.notation.tokens import Token

PRONOUNCEABLE = frozenset("aeiouy")


def is_remark(tokens: Sequence[Token]) -> bool:
    """Tell whether a clause of *tokens* can be passed as a remark: nothing in it is worked."""
    words = [token for token in tokens if token.kind in ("word", "unit", "stitch", "num", "ord")]
    if not words:
        return True
    if any(token.kind in ("clash",) for token in tokens):
        return False
    unknown = [token for token in words if token.kind == "word" and token.text not in KNOWN]
    if any(looks_abbreviated(token) for token in unknown):
        return False
    if not unknown:
        return True
    if len(words) >= 4:
        return True
    return len(words) > 1 and all(len(token.text) > 3 for token in unknown)


def looks_abbreviated(token: Token) -> bool:
    """Tell whether a word looks like a stitch's short name rather than a word of the language."""
    text = token.text
    if len(text) == 1:
        return False
    if len(text) <= 3 and text.isalpha():
        return not PRONOUNCEABLE & set(text) or len(text) <= 2
    return not PRONOUNCEABLE & set(text)
