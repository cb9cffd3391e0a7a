"""Says whole numbers as the words that a maker would use. Knows nothing of rows or stitches."""

# ruff: noqa: SIM905 - word lists read better as lines of words

from __future__ import annotations

ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
    "fifteen sixteen seventeen eighteen nineteen"
).split()
TENS = "twenty thirty forty fifty sixty seventy eighty ninety".split()
LARGEST = 999


def in_words(number: int, *, joined_by_and: bool = False) -> str:
    """Return 0 to 999 as words: 142 is "one hundred forty two", or "one hundred and forty two".

    Raises ValueError outside 0 to 999.
    """
    if not 0 <= number <= LARGEST:
        raise ValueError(f"only 0 to {LARGEST} can be said, not {number}")
    if number < 20:
        return ONES[number]
    if number < 100:
        tens, rest = divmod(number, 10)
        return TENS[tens - 2] + (f" {ONES[rest]}" if rest else "")
    hundreds, rest = divmod(number, 100)
    if not rest:
        return f"{ONES[hundreds]} hundred"
    link = " and " if joined_by_and else " "
    return f"{ONES[hundreds]} hundred{link}{in_words(rest)}"


def digit_by_digit(number: int) -> str:
    """Return a number as its digits' names: 42 is "four two".

    Raises ValueError outside 0 to 999.
    """
    if not 0 <= number <= LARGEST:
        raise ValueError(f"only 0 to {LARGEST} can be said, not {number}")
    return " ".join(ONES[int(digit)] for digit in str(number))
