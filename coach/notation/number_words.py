"""Numbers written out in words, and the fractions that stand behind a length."""

from __future__ import annotations

import re
from fractions import Fraction

SMALL = {
    "once": 1, "one": 1, "twice": 2, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
    "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "seventy": 70,
    "eighty": 80,
    "ninety": 90,
    "forty": 40, "fifty": 50, "sixty": 60,
}  # fmt: skip
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
