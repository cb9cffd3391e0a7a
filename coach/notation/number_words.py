"""Numbers written out in words, and the fractions that stand behind a length."""

from __future__ import annotations

import re
from fractions import Fraction

_NINETEEN_WORDS = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
    "sixteen seventeen eighteen nineteen"
)
TO_NINETEEN = {word: number for number, word in enumerate(_NINETEEN_WORDS.split())}
TENS = {
    word: 10 * number
    for number, word in enumerate(
        ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"), 2
    )
}
# A pattern counts from one, and says once and twice.
SMALL = {"once": 1, "twice": 2} | {word: n for word, n in TO_NINETEEN.items() if n} | TENS
FRACTIONS = {
    "¼": Fraction(1, 4),
    "½": Fraction(1, 2),
    "¾": Fraction(3, 4),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "⅛": Fraction(1, 8),
}


def number_of(word: str | None) -> int | None:
    """Return the number that *word* is: "12", "twelve", "twenty-four"; None if it is none."""
    if word is None:
        return None
    if word.isdecimal():
        return int(word[:9])
    tens, _, units = word.lower().partition("-")
    if tens not in SMALL or (units and units not in SMALL):
        return None
    return SMALL[tens] + (SMALL[units] if units else 0)


_ENDINGS = re.compile(r"(?<=\d)(?:st|nd|rd|th)", re.IGNORECASE)


def in_figures(text: str) -> str:
    """Return *text* with the numbers of rows in figures: "repeat row twenty-two" names row 22."""

    def figure(found: re.Match[str]) -> str:
        number = number_of(found[3].replace(" ", "-"))
        return f"{found[1]}{found[2]}{number}" if number else found.group()

    text = re.sub(
        r"\b(\d+)(?:st|nd|rd|th)((?:\s*(?:and|&|,|-|–|to)\s*\d+(?:st|nd|rd|th))*)\s+(rows?|rounds?|rnds?)\b",
        lambda found: f"{found[3]} {found[1]}" + _ENDINGS.sub("", found[2]),
        text,
        flags=re.IGNORECASE,
    )
    return re.sub(
        r"\b((?:rows?|rounds?|rnds?)|(?<=\d) (?:and|to|through))(\s+)([a-z]+(?:-[a-z]+)?)\b",
        figure,
        re.sub(
            r"\b(rows?|rounds?|rnds?)(\s+)([a-z]+(?:-[a-z]+)?)\b", figure, text, flags=re.IGNORECASE
        ),
        flags=re.IGNORECASE,
    )
