"""Ordinals and small counts as words: "the ninth stitch", "the fifth repeat".

Spoken numbers heard from a maker are read elsewhere; here numbers are only told.
"""

from __future__ import annotations

_ORDINALS = (
    *("zeroth", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"),
    *("ninth", "tenth", "eleventh", "twelfth", "thirteenth", "fourteenth", "fifteenth"),
    *("sixteenth", "seventeenth", "eighteenth", "nineteenth"),
)
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
WORDS_END = 100  # from here on figures are easier to hear: "number 105"


def ordinal(number: int) -> str:
    """Return "ninth" for 9; from 100 on, "number 105"."""
    if number < len(_ORDINALS):
        return _ORDINALS[number]
    if number >= WORDS_END:
        return f"number {number}"
    tens, ones = divmod(number, 10)
    ten = _TENS[tens - 2]
    return f"{ten}-{_ORDINALS[ones]}" if ones else f"{ten[:-1]}ieth"


def times_over(count: int) -> str:
    """Return "once", "twice", "3 times"."""
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def counted(count: int, one: str, many: str | None = None) -> str:
    """Return "1 stitch", "2 stitches"."""
    if count == 1:
        return f"1 {one}"
    return f"{count} {many or (one + 'es' if one.endswith('ch') else one + 's')}"
