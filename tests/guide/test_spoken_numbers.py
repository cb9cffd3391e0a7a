"""Spoken numbers are taken back to figures, and what is no number is refused."""

from __future__ import annotations

import pytest

from coach.guide.spoken_numbers import heard_number, twin


@pytest.mark.parametrize(
    ("heard", "number"),
    [
        ("thirty two", 32),
        ("thirty-two", 32),
        ("thirty to", 32),  # user need L05
        ("twenty for", 24),
        ("oh", 0),
        ("three niner", 39),
        ("one hundred and forty two", 142),
        ("a hundred and five", 105),
        ("hundred", None),
        ("one forty two", 142),
        ("one twelve", 112),
        ("one four two", 142),
        ("one oh five", 105),
        ("two two two", 222),
        ("one thousand two hundred and six", 1_206),
        ("74", 74),
    ],
)
def test_makers_ways_of_saying_a_number(heard: str, number: int | None) -> None:
    assert heard_number(heard) == number


@pytest.mark.parametrize(
    "heard",
    [
        "",
        "eighty hundred",
        "fifty sixty",
        "twenty thirteen",
        "thirty zero",
        "one hundred and",
        "hundred hundred",
        "one two three four five",
        "12345",
        "next",
        "thirty next",
        "nineteen forty",
        "²",
    ],
)
def test_what_is_no_number_is_refused(heard: str) -> None:
    assert heard_number(heard) is None


@pytest.mark.parametrize(
    ("number", "other"), [(13, 30), (30, 13), (19, 90), (116, 160), (160, 116)]
)
def test_teens_and_tens_are_twins(number: int, other: int) -> None:
    assert twin(number) == other


@pytest.mark.parametrize("number", [0, 7, 10, 12, 20, 32, 100, 112])
def test_other_numbers_have_no_twin(number: int) -> None:
    assert twin(number) is None
