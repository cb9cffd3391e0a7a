"""Slow speech is made by pauses, fast speech by sounds, and no last word goes missing."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.adapters.speech_pace import (
    FASTEST,
    LONGEST_PAUSE,
    SLOWEST,
    Curve,
    Measuring,
    Pacer,
    Piece,
    plan,
    spoken_words,
)

TRUE = Curve(((80, 80.0), (300, 300.0)))  # an engine that does what it says
ROW = "Row 6. Front post double crochet around each of the next 3 stitches, then turn."


def texts(text: str, words_per_minute: int = 150) -> list[str]:
    return [piece.text for piece in plan(text, words_per_minute, TRUE)]


def test_a_text_is_said_sentence_by_sentence() -> None:
    assert texts("Chain 3. It counts: skip one; go on! Yes? That makes 77") == [
        "Chain 3.",
        "It counts:",
        "skip one;",
        "go on!",
        "Yes?",
        "That makes 77.",
    ]


def test_a_decimal_point_ends_no_sentence() -> None:
    assert texts("A 3.5 millimetre hook.") == ["A 3.5 millimetre hook."]


def test_slowly_what_to_do_and_where_are_said_apart() -> None:
    assert texts(ROW, 90) == [
        "Row 6.",
        "Front post double crochet,",
        "around each of the next 3 stitches,",
        "then turn.",
    ]


def test_a_slow_pace_lengthens_the_pauses_before_the_sounds() -> None:
    usual, slow = plan(ROW, 125, TRUE), plan(ROW, 100, TRUE)

    assert slow[0].pause > 1.5 * usual[0].pause
    assert slow[0].engine_rate == usual[0].engine_rate


def test_without_a_place_to_pause_the_sounds_are_slowed() -> None:
    assert plan("Paused.", 80, TRUE)[0].engine_rate == 80


@given(st.text(max_size=200), st.integers(0, 1000))
@settings(max_examples=100, deadline=None)
def test_every_word_of_any_text_is_said_once_and_in_order(text: str, rate: int) -> None:
    said = " ".join(piece.text for piece in plan(text, rate, TRUE))

    assert _letters(said) == _letters(text)


def _letters(text: str) -> str:
    return "".join(sign for sign in text if sign.isalnum())


@given(
    st.lists(
        st.sampled_from([*["a", "b", "c"], "stitches,", "in", "Row 6.", "77", "turn:"]), min_size=1
    ),
    st.integers(SLOWEST, FASTEST),
)
@settings(max_examples=100, deadline=None)
def test_a_plan_lasts_as_long_as_its_pace_asks(words: list[str], rate: int) -> None:
    text = " ".join(words)
    pieces = plan(text, rate, TRUE)
    planned = sum(piece.sound + piece.pause for piece in pieces)

    assert all(0 <= piece.pause <= LONGEST_PAUSE + 1e-9 for piece in pieces)
    assert all(80 <= piece.engine_rate <= 300 for piece in pieces)
    if all(piece.sound > 0 for piece in pieces):
        assert planned == pytest.approx(spoken_words(text) * 60 / rate, rel=0.01)


def test_pauses_make_good_what_the_sounds_lost() -> None:
    pacer = Pacer()
    late = pacer.pause_after(Piece("a.", 150, 0.4, sound=1.0), 1.1)
    early = pacer.pause_after(Piece("b.", 150, 0.4, sound=1.0), 0.9)

    assert [late, early] == pytest.approx([0.3, 0.5])


def test_a_pause_stays_between_half_and_double() -> None:
    assert Pacer().pause_after(Piece("a.", 150, 0.4, sound=1.0), 9.0) == 0.2
    assert Pacer().pause_after(Piece("a.", 150, 0.4, sound=9.0), 1.0) == 0.8


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("That makes 8.", 3),
        ("That makes 20.", 3),
        ("That makes 77.", 4),  # seventy seven
        ("That makes 100.", 4),  # one hundred
        ("That makes 105.", 6),  # one hundred and five
        ("That makes 118.", 6),
        ("1250 stitches.", 7),  # one thousand two hundred fifty: common practice, no source
        ("Front post double crochet.", 4),
    ],
)
def test_numbers_count_as_the_words_that_are_heard(text: str, words: int) -> None:
    assert spoken_words(text) == words


def test_a_rate_between_two_measured_ones_is_found_between_them() -> None:
    curve = Curve(((100, 110.0), (200, 220.0), (300, 300.0)))

    assert curve.engine_rate(110) == 100
    assert curve.engine_rate(165) == 150
    assert curve.engine_rate(260) == 250
    assert curve.engine_rate(20) == 100
    assert curve.engine_rate(900) == 300


def test_an_unknown_engine_is_measured() -> None:
    """A made-up engine that speaks 20 percent fast at every rate."""
    measuring = Measuring()
    while (piece := measuring.next()) is not None:
        words = spoken_words(piece.text)
        measuring.made(words * 60 / (1.2 * piece.engine_rate) - piece.pause)

    assert measuring.curve().engine_rate(180) == pytest.approx(150, abs=3)


def test_an_engine_that_does_not_mind_its_rate_gets_a_flat_guess() -> None:
    measuring = Measuring()
    while measuring.next() is not None:
        measuring.made(1.0)

    assert measuring.curve().engine_rate(150) == 150
