"""Numbers are said as makers say them; the words come back to the same figures."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.guide.spoken_numbers import heard_number
from coach.wording.numbers import digit_words, number_words


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (0, "zero"),
        (7, "seven"),
        (13, "thirteen"),
        (30, "thirty"),
        (77, "seventy seven"),
        (100, "one hundred"),
        (142, "one hundred forty two"),
        (1_005, "one thousand five"),
        (24_300, "twenty four thousand three hundred"),
    ],
)
def test_a_number_is_said_in_words(number: int, words: str) -> None:
    assert number_words(number) == words


def test_digits_are_said_one_by_one() -> None:
    assert digit_words(130) == "one three zero"


@pytest.mark.parametrize("number", [-1, 1_000_000])
def test_what_is_no_stitch_count_is_refused(number: int) -> None:
    with pytest.raises(ValueError, match="can be said"):
        number_words(number)


def test_digits_below_zero_are_refused() -> None:
    with pytest.raises(ValueError, match="can be said"):
        digit_words(-3)


@given(st.integers(0, 9_999))
def test_the_words_of_a_number_are_heard_as_that_number(number: int) -> None:
    assert heard_number(number_words(number)) == number
    assert heard_number(digit_words(number)) == number
    assert heard_number(str(number)) == number
