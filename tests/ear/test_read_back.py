"""Numbers with the read-back: what the coach acts on when ear and answers are known."""

from __future__ import annotations

from collections.abc import Callable

import pytest

pytest.importorskip("numpy")

from scripts.ear.read_back import meant, settled


def scripted(*heard: str) -> Callable[[str], str]:
    left = list(heard)
    return lambda text: left.pop(0)


def test_a_number_heard_right_and_answered_with_yes_is_settled_at_once() -> None:
    assert settled("row sixty", scripted("row sixty"), scripted("yes")) == ("row sixty", 1)


def test_a_number_heard_wrong_is_refused_and_said_again() -> None:
    numbers = scripted("row sixteen", "row sixty")

    assert settled("row sixty", numbers, scripted("no", "yes")) == ("row sixty", 2)


def test_a_number_not_heard_needs_no_answer() -> None:
    assert settled("row sixty", scripted("", "row sixty"), scripted("yes")) == ("row sixty", 2)


def test_an_answer_not_heard_is_said_once_more() -> None:
    assert settled("row sixty", scripted("row sixty"), scripted("", "yes")) == ("row sixty", 1)


def test_an_answer_not_heard_twice_acts_on_nothing() -> None:
    numbers = scripted("row sixteen", "row sixty")

    assert settled("row sixty", numbers, scripted("", "", "yes")) == ("row sixty", 2)


def test_no_heard_as_yes_lets_the_wrong_number_through() -> None:
    assert settled("row sixty", scripted("row sixteen"), scripted("yes")) == ("row sixteen", 1)


def test_another_phrase_of_the_answer_counts_as_the_answer() -> None:
    assert settled("row sixty", scripted("row sixteen"), scripted("yes please")) == (
        "row sixteen",
        1,
    )
    assert meant("cancel that") == "no"
    assert not meant("go back")


def test_after_three_sayings_it_gives_up() -> None:
    numbers = scripted("row sixteen", "", "row sixteen")

    assert settled("row sixty", numbers, scripted("no", "no")) == ("", 3)
