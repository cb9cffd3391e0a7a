"""Conversations: what the maker says, when, and what the coach takes it for."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.guide.commands import Binding, Command, Order
from coach.guide.dialogue import ASKING, LEFT_ALONE, RESTING, Dialogue, Hint, Question, Taken

BINDINGS = (
    Binding(Command.NEXT, ("next", "next row"), ("space",), "Go on.", moves=True),
    Binding(Command.BACK, ("back", "go back"), ("backspace",), "Go back.", moves=True),
    Binding(Command.REPEAT, ("repeat that", "say again"), ("r",), "Hear it again."),
    Binding(Command.LEFT, ("what's left",), ("l",), "What is left of the row."),
    Binding(Command.COUNT, ("i have",), ("c",), "Give your count.", units=("stitches",)),
    Binding(Command.GO_TO_ROW, ("go to row",), ("g",), "Go to a row.", moves=True),
    Binding(Command.HELLO, ("hello coach",), ("h",), "Listen again."),
    Binding(Command.QUIET_TIME, ("quiet time",), ("z",), "Rest."),
    Binding(Command.YES, ("yes", "yes please"), ("y",), "Yes."),
    Binding(Command.NO, ("no", "no thank you"), ("n",), "No."),
)
WORKING = "working"


@pytest.fixture
def talk() -> Dialogue:
    return Dialogue(BINDINGS)


def order(command: Command, number: int | None = None) -> Taken:
    return Taken(order=Order(command, number))


def test_any_phrase_of_a_command_gives_its_order(talk: Dialogue) -> None:
    assert talk.take("next row", 0.9, 1.0, mode=WORKING) == order(Command.NEXT)
    assert talk.take("Go back", 0.9, 3.0, mode=WORKING) == order(Command.BACK)
    assert talk.take("What’s left?", 0.9, 5.0, mode=WORKING) == order(Command.LEFT)


def test_next_twice_within_the_answer_time_is_one(talk: Dialogue) -> None:
    talk.take("next", 0.9, 10.0, mode=WORKING)

    assert talk.take("next row", 0.9, 11.1, mode=WORKING) == LEFT_ALONE


def test_a_word_in_between_does_not_make_a_double_next_two(talk: Dialogue) -> None:
    talk.take("next", 0.9, 10.0, mode=WORKING)
    assert talk.take("repeat that", 0.9, 10.2, mode=WORKING) == order(Command.REPEAT)

    assert talk.take("next", 0.9, 11.1, mode=WORKING) == LEFT_ALONE
    assert talk.take("next", 0.9, 11.3, mode=WORKING) == order(Command.NEXT)


def test_two_wanted_nexts_two_seconds_apart_are_two(talk: Dialogue) -> None:
    talk.take("next", 0.9, 10.0, mode=WORKING)

    assert talk.take("next", 0.9, 12.0, mode=WORKING) == order(Command.NEXT)


def test_a_quick_second_next_counts_once_the_tone_was_heard(talk: Dialogue) -> None:
    talk.take("next", 0.9, 10.0, mode=WORKING)
    talk.answered(10.2)

    assert talk.take("next", 0.9, 10.6, mode=WORKING) == LEFT_ALONE  # begun before the tone
    assert talk.take("next", 0.9, 10.9, mode=WORKING) == order(Command.NEXT)


def test_another_command_is_never_a_double(talk: Dialogue) -> None:
    talk.take("next", 0.9, 10.0, mode=WORKING)

    assert talk.take("back", 0.9, 10.5, mode=WORKING) == order(Command.BACK)


def test_a_count_that_fits_is_taken_at_once(talk: Dialogue) -> None:
    taken = talk.take("thirty to", 0.9, 1.0, mode=WORKING, expected_count=32)  # L05

    assert taken == order(Command.COUNT, 32)


@pytest.mark.parametrize(("heard", "number"), [("twenty two", 22), ("thirty", 30)])
def test_a_count_that_differs_is_read_back_before_anything_else(
    talk: Dialogue, heard: str, number: int
) -> None:
    asked = talk.take(heard, 0.9, 1.0, mode=WORKING, expected_count=32)  # L05

    assert asked == Taken(ask=Question(Order(Command.COUNT, number)))
    assert talk.take("yes", 0.9, 4.0, mode=WORKING) == order(Command.COUNT, number)


def test_no_drops_the_number_and_the_next_one_is_read_back_again(talk: Dialogue) -> None:
    talk.take("i have twenty two", 0.9, 1.0, mode=WORKING, expected_count=32)

    assert talk.take("no", 0.9, 3.0, mode=WORKING) == order(Command.NO)
    assert talk.take("i have thirty two stitches", 0.9, 6.0, mode=WORKING, expected_count=32) == (
        order(Command.COUNT, 32)
    )


def test_a_number_said_again_is_as_good_as_yes(talk: Dialogue) -> None:
    talk.take("i have twenty two", 0.9, 1.0, mode=WORKING, expected_count=32)

    assert talk.take("two two", 0.9, 4.0, mode=WORKING, expected_count=32) == (
        order(Command.COUNT, 22)
    )


def test_a_teen_is_offered_with_its_twin_when_the_twin_is_due(talk: Dialogue) -> None:
    asked = talk.take("i have thirteen", 0.9, 1.0, mode=WORKING, expected_count=30)

    assert asked.ask == Question(Order(Command.COUNT, 13), Order(Command.COUNT, 30))
    assert talk.take("three zero", 0.9, 4.0, mode=WORKING, expected_count=30) == (
        order(Command.COUNT, 30)
    )


@pytest.mark.parametrize("mode", [WORKING, ASKING])
@pytest.mark.parametrize("number", [13, 14, 15, 16, 17, 18, 19, 30, 40, 50, 60, 70, 80, 90, 113])
def test_a_number_with_a_twin_is_never_taken_as_heard_unless_it_is_due(
    talk: Dialogue, mode: str, number: int
) -> None:
    """ "Thirty" to "ninety" of one recorded voice were all heard as "thirteen" to "nineteen"."""
    asked = talk.take(f"i have {number}", 0.9, 1.0, mode=mode, expected_count=36)

    assert asked.order is None
    assert asked.ask is not None
    assert talk.take("yes", 0.9, 5.0, mode=mode, expected_count=36) == order(Command.COUNT, number)
    assert talk.take(f"i have {number}", 0.9, 9.0, mode=mode, expected_count=number) == (
        order(Command.COUNT, number)
    )


@pytest.mark.parametrize(("heard", "twin"), [(13, 30), (40, 14), (19, 90), (60, 16)])
def test_every_row_with_a_twin_in_the_pattern_is_offered_with_it(
    talk: Dialogue, heard: int, twin: int
) -> None:
    asked = talk.take(f"go to row {heard}", 0.9, 1.0, mode=WORKING, rows=90)

    rows = (Order(Command.GO_TO_ROW, heard), Order(Command.GO_TO_ROW, twin))
    assert asked == Taken(ask=Question(*rows))


def test_a_row_is_asked_about_when_both_twins_are_rows(talk: Dialogue) -> None:
    asked = talk.take("go to row fourteen", 0.9, 1.0, mode=WORKING, rows=60)

    assert asked.ask == Question(Order(Command.GO_TO_ROW, 14), Order(Command.GO_TO_ROW, 40))


def test_a_row_whose_twin_does_not_exist_goes_to_the_guide_which_asks(talk: Dialogue) -> None:
    assert talk.take("go to row one four", 0.9, 1.0, mode=WORKING, rows=20) == (
        order(Command.GO_TO_ROW, 14)
    )


def test_a_jump_is_read_back_here_when_the_guide_does_not_ask() -> None:
    talk = Dialogue(BINDINGS, asks_itself=())

    taken = talk.take("go to row five", 0.9, 1.0, mode=WORKING, rows=20)

    assert taken.ask == Question(Order(Command.GO_TO_ROW, 5))


def test_another_command_in_place_of_yes_drops_the_question(talk: Dialogue) -> None:
    talk.take("i have twenty two", 0.9, 1.0, mode=WORKING, expected_count=32)
    talk.take("repeat that", 0.9, 4.0, mode=WORKING)

    assert talk.take("yes", 0.9, 9.0, mode=WORKING) == order(Command.YES)


def test_a_bare_number_that_nobody_asked_for_does_nothing_but_a_tone(talk: Dialogue) -> None:
    assert talk.take("thirteen", 0.9, 1.0, mode=WORKING) == Taken(tone="not understood")


def test_a_bare_number_answers_what_the_guide_asked(talk: Dialogue) -> None:
    assert talk.take("two", 0.9, 1.0, mode=ASKING) == order(Command.COUNT, 2)
    assert "#" in talk.phrases(ASKING)


def test_an_unsure_word_never_moves(talk: Dialogue) -> None:
    assert talk.take("next", 0.52, 1.0, mode=WORKING).order is None
    assert talk.take("repeat that", 0.52, 30.0, mode=WORKING) == order(Command.REPEAT)


def test_the_ladder_ends_in_silence_and_starts_anew_later(talk: Dialogue) -> None:
    climbed = [talk.take("", 0.4, at, mode=WORKING) for at in (1.0, 4.0, 7.0, 9.0)]

    assert climbed == [
        Taken(tone="not understood"),
        Taken(tone="not understood", say=Hint.TRY),
        Taken(tone="not understood", say=Hint.CHOICES),
        LEFT_ALONE,
    ]
    assert talk.take("", 0.4, 40.0, mode=WORKING) == Taken(tone="not understood")


def test_at_rest_only_hello_coach_is_heard(talk: Dialogue) -> None:
    for heard in ("next", "back", "yes", "thirteen", "", "quiet time"):
        assert talk.take(heard, 1.0, 1.0, mode=RESTING, expected_count=13) == LEFT_ALONE
    assert talk.take("hello coach", 0.9, 5.0, mode=RESTING) == order(Command.HELLO)


def test_the_ear_listens_for_one_phrase_at_rest() -> None:
    assert Dialogue(BINDINGS).phrases(RESTING) == ("hello coach",)


def test_number_commands_are_listed_with_the_place_of_their_number(talk: Dialogue) -> None:
    listed = talk.phrases(WORKING)

    assert "i have #" in listed
    assert "i have # stitches" in listed
    assert "next row" in listed
    assert "#" not in listed
    assert "#" in talk.phrases(WORKING, number_asked=True)


@given(
    st.lists(
        st.tuples(
            st.sampled_from([*(p for b in BINDINGS for p in b.spoken), "", "i have nine", "six"]),
            st.floats(0, 1),
            st.floats(0.01, 5),
        ),
        max_size=30,
    )
)
def test_whatever_is_said_moves_come_only_from_sure_words_and_never_twice_in_a_breath(
    said: list[tuple[str, float, float]],
) -> None:
    talk, at = Dialogue(BINDINGS), 0.0
    moved: list[tuple[Order, float]] = []
    for text, confidence, pause in said:
        at += pause
        taken = talk.take(text, confidence, at, mode=WORKING, expected_count=9)
        if taken.order and taken.order.command in {Command.NEXT, Command.BACK}:
            assert confidence >= 0.55
            moved.append((taken.order, at))
    for (first, one), (second, two) in itertools.pairwise(moved):
        assert first != second or two - one >= 1.2


def test_in_loud_rooms_only_the_longer_twins_are_listened_for() -> None:
    loud = Dialogue(BINDINGS, long_only=True)

    assert loud.phrases(WORKING) == (
        "next row",
        "go back",
        "repeat that",
        "say again",
        "what's left",
        "i have #",
        "i have # stitches",
        "go to row #",
        "hello coach",
        "quiet time",
        "yes please",
        "no thank you",
    )
    assert loud.take("next row", 0.95, 9.0, mode=WORKING) == order(Command.NEXT)


def test_a_command_without_a_longer_twin_keeps_its_short_word() -> None:
    short = Binding(Command.HELP, ("help",), ("?",), "Help.")

    assert Dialogue((short,), long_only=True).phrases(WORKING) == ("help",)
