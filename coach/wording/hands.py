"""Left and right for the maker's hand: mirrors directions in space, and nothing else.

"Right side" is a face of the fabric and a "right front" is a piece of a garment: neither
changes hands.
"""

from __future__ import annotations

import re

_OTHER = {"left": "right", "right": "left"}

# A direction in space: what stands before or after the word tells it from "9 left",
# "the right side" and "leave unworked".
_SPACE = re.compile(
    r"\b(?:(?P<before>(?:from|to|at|on|off|towards?|toward)\s+(?:(?:the|your)\s+)?(?:far\s+)?"
    r"|(?:top|bottom|upper|lower|far)[ -]))?"
    r"(?P<word>left|right)"
    r"(?P<after>-handed|-hand|\s+hand|\s+(?:corners?|edges?|ends?|of\b|to\s+(?:left|right)\b))?"
    r"(?!\s*-?\s*(?:sides?|fronts?|backs?|sleeves?|shoulders?|armholes?|necks?|foot|leg|thumb|ear)\b)"
    r"\b",
    re.I,
)
_SIDE = re.compile(r"\bleft\s+side\b|\bleft-hand side\b|\bright-hand side\b", re.I)
_TURNS = {
    "clockwise": "counter-clockwise",
    "counter-clockwise": "clockwise",
    "counterclockwise": "clockwise",
    "anticlockwise": "clockwise",
    "anti-clockwise": "clockwise",
}
_TURNING = re.compile(r"\b(?:counter-?|anti-?)?clockwise\b", re.I)


def mirror(text: str, hand: str) -> str:
    """Return *text* for *hand* ("right" or "left"): only directions in space are mirrored."""
    if hand != "left":
        return text
    text = re.sub(r"\bright to left\b|\bleft to right\b", _swap_both, text, flags=re.I)
    text = _SIDE.sub(_swap_side, text)
    text = _SPACE.sub(_swap, text)
    text = _TURNING.sub(lambda match: _like(match[0], _TURNS[match[0].lower()]), text)
    return text.replace(_MARK, "")


_MARK = "\u0000"  # stands before a word that is mirrored already


def _swap_both(match: re.Match[str]) -> str:
    first, second = match[0].lower().split(" to ")
    return f"{_MARK}{_like(match[0], second)} to {_MARK}{first}"


def _swap_side(match: re.Match[str]) -> str:
    word = "right" if match[0].lower().startswith("left") else "left"
    return f"{_MARK}{_like(match[0], word)}-hand side"


def _swap(match: re.Match[str]) -> str:
    before, word, after = match["before"] or "", match["word"], match["after"] or ""
    if match.start("word") and match.string[match.start("word") - 1] == _MARK:
        return match[0]
    if not (before or after):
        return match[0]
    return f"{before}{_like(word, _OTHER[word.lower()])}{after}"


def _like(model: str, word: str) -> str:
    return word.capitalize() if model[:1].isupper() else word


def tail_side(row_number: int, hand: str = "right") -> str:
    """Return where the starting tail hangs after *row_number* rows, before turning.

    After an odd row it hangs at the left for a right-hander, mirrored for a left-hander
    (common practice, no source).
    """
    odd = row_number % 2 == 1
    return "left" if odd == (hand != "left") else "right"


def tail_test(row_number: int, hand: str = "right") -> str:
    """Return the test by touch for which side faces, after a row and before turning."""
    side = tail_side(row_number, hand)
    return f"Feel for the starting tail before you turn. After Row {row_number} it hangs at the {side}."
