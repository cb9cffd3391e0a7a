"""Figures as words, for the ear: whole numbers in words, and digit by digit.

The other direction, from heard words to figures, is `coach.guide.spoken_numbers`. Says whole
numbers from 0 to 999,999; measures and fractions are worded where they belong.
"""

from __future__ import annotations

from coach.guide.spoken_numbers import ONES, TENS

LARGEST = 999_999


def number_words(number: int) -> str:
    """Return *number* in words: 142 is "one hundred forty two".

    Raises:
        ValueError: below 0 or above 999,999.
    """
    if not 0 <= number <= LARGEST:
        raise ValueError(f"only 0 to {LARGEST} can be said, not {number}")
    if number < 20:
        return ONES[number]
    if number < 100:
        tens, rest = divmod(number, 10)
        return TENS[tens - 2] + (f" {ONES[rest]}" if rest else "")
    unit, name = (100, "hundred") if number < 1_000 else (1_000, "thousand")
    many, rest = divmod(number, unit)
    said = f"{number_words(many)} {name}"
    return f"{said} {number_words(rest)}" if rest else said


def digit_words(number: int) -> str:
    """Return the digits of *number*, each as a word: 42 is "four two".

    Raises:
        ValueError: below 0.
    """
    if number < 0:
        raise ValueError(f"only 0 and above can be said digit by digit, not {number}")
    return " ".join(ONES[int(digit)] for digit in str(number))
