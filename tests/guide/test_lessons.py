"""What may be kept of a maker's own way of saying a command. Readings as an ear gave them."""

from __future__ import annotations

import pytest

from coach.guide.lessons import TAUGHT, Came, Outcome, judge

MEANINGS = {
    "next": "next",
    "next row": "next",
    "back": "back",
    "go back": "back",
    "go back one step": "back",
    "repeat that": "repeat",
    "say again": "repeat",
    "where am i": "where",
    "stop talking": "stop talking",
    "i have #": "count",
    "go to row #": "go to row",
}


def test_one_saying_is_not_enough() -> None:
    assert judge("next row", [("text row",)], MEANINGS) == Outcome(Came.AGAIN)


def test_what_is_heard_twice_alike_is_kept() -> None:
    sayings = [("text row", "neck row", "[unk]"), ("text row", "next row")]

    assert judge("next row", sayings, MEANINGS) == Outcome(Came.KEPT, "text row")


def test_the_likeliest_of_what_both_sayings_share_is_kept() -> None:
    sayings = [("neck oh", "vexed row", "nest row"), ("vexed row", "nest row", "necks oh")]

    assert judge("next row", sayings, MEANINGS) == Outcome(Came.KEPT, "vexed row")


def test_a_command_that_is_heard_twice_as_itself_needs_nothing() -> None:
    assert judge("next row", [("next row",), ("next row", "neck row")], MEANINGS).came is Came.KNOWN
    assert judge("next row", [("next",), ("next row",)], MEANINGS).came is Came.KNOWN


def test_heard_well_once_of_two_it_is_asked_for_a_third_time_and_two_of_three_will_do() -> None:
    two = [("next row",), ("neck roll",)]

    assert judge("next row", two, MEANINGS).came is Came.AGAIN
    assert judge("next row", [*two, ("next row",)], MEANINGS).came is Came.KNOWN
    assert judge("next row", [*two, ("neck roll",)], MEANINGS) == Outcome(Came.KEPT, "neck roll")


def test_three_sayings_that_have_nothing_in_common_are_left() -> None:
    sayings = [("vexed row",), ("nest oh",), ("text you",)]

    assert judge("next row", sayings[:2], MEANINGS).came is Came.AGAIN
    assert judge("next row", sayings, MEANINGS).came is Came.NO_TWO_ALIKE


@pytest.mark.parametrize(
    ("heard", "near"),
    [
        ("go back", "go back"),  # another command itself
        ("go pack", "go back"),  # it rhymes with one, word for word
        ("go", "go back"),  # it begins one
        ("go back one", "go back"),  # one begins it
        ("i have", "i have"),  # what stands before a number
        ("i have six", "i have"),
        ("six row", ""),
    ],
)
def test_what_is_near_to_another_command_is_refused_with_its_name(heard: str, near: str) -> None:
    came = judge("next row", [(heard,), (heard,)], MEANINGS)

    assert came == (Outcome(Came.CLASHES, near) if near else Outcome(Came.KEPT, heard))


def test_a_number_is_refused() -> None:
    assert judge("next row", [("six two",)] * 2, MEANINGS) == Outcome(Came.CLASHES, "a number")


def test_what_the_ear_takes_for_another_command_is_not_learned_by_a_less_likely_reading() -> None:
    sayings = [("go back", "vexed row"), ("go back", "vexed row")]

    assert judge("next row", sayings, MEANINGS) == Outcome(Came.CLASHES, "go back")


def test_words_that_another_command_has_learned_are_refused() -> None:
    learned = MEANINGS | {"text row": "back"}

    assert judge("next row", [("text row",)] * 2, learned) == Outcome(Came.CLASHES, "text row")


@pytest.mark.parametrize("heard", ["yarn", "the week", "[unk] row", "well oh", "you and me"])
def test_what_comes_up_in_a_room_at_any_time_is_refused(heard: str) -> None:
    came = judge("next row", [(heard,)] * 3, MEANINGS)

    assert came.came is Came.EVERYDAY


def test_the_phrases_taught_are_phrases() -> None:
    assert set(TAUGHT) <= MEANINGS.keys()
