"""One list gives every key, spoken phrase, typed word and line of help."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from coach.guide.bindings import BINDINGS, binding_of
from coach.guide.commands import TAKES_NUMBER, Command, Order
from coach.guide.spoken_numbers import heard_number
from coach.guide.typed_lines import order_for, plain_words

# Keys that a terminal sends without a second key held down, on every usual keyboard.
UNCHORDED = {
    "space",
    "enter",
    "left",
    "right",
    "backspace",
    "escape",
    "tab",
    "?",
    "[",
    "]",
    ".",
    ",",
}


def given(line: str) -> Order | None:
    return order_for(line, heard_number)


def test_every_command_has_one_binding_and_help() -> None:
    assert sorted(binding.command for binding in BINDINGS) == sorted(Command)
    assert all(binding.help.endswith(".") for binding in BINDINGS)


def test_no_phrase_and_no_key_gives_two_commands() -> None:
    phrases = Counter(
        " ".join(plain_words(phrase))
        for binding in BINDINGS
        for phrase in {binding.command.value, *binding.spoken, *binding.typed}
    )
    keys = Counter(key for binding in BINDINGS for key in binding.keys)

    assert [phrase for phrase, times in phrases.items() if times > 1] == []
    assert [key for key, times in keys.items() if times > 1] == []


def test_every_command_is_on_one_key_without_a_chord() -> None:
    """An answer's number is typed as digits, so CHOOSE needs no key of its own."""
    for binding in BINDINGS:
        if binding.command is Command.CHOOSE:
            continue
        assert binding.keys, binding.command
        for key in binding.keys:
            function_key = key[0] == "f" and key[1:].isdigit()
            assert key in UNCHORDED or function_key or (len(key) == 1 and key.islower()), key


def test_keys_leave_alone_what_the_screen_needs_for_itself() -> None:
    """Plus and minus set the size, c the colours, a slash begins a line, digits begin a count."""
    keys = {key for binding in BINDINGS for key in binding.keys}

    assert keys.isdisjoint({"+", "-", "=", "_", "c", "/", *"0123456789"})


@pytest.mark.parametrize(
    ("line", "order"),
    [
        ("next", Order(Command.NEXT)),
        ("  NEXT ROW. ", Order(Command.NEXT)),
        ("n", Order(Command.NEXT)),
        ("carry on", Order(Command.CARRY_ON)),
        ("go back one step", Order(Command.BACK)),
        ("say again", Order(Command.REPEAT)),
        ("where am I?", Order(Command.WHERE)),
        ("what's left", Order(Command.LEFT)),
        ("what’s left", Order(Command.LEFT)),
        ("how many left", Order(Command.LEFT)),
        ("I have 74", Order(Command.COUNT, 74)),
        ("i have seventy four stitches", Order(Command.COUNT, 74)),
        ("74", Order(Command.COUNT, 74)),
        ("seventy-four", Order(Command.COUNT, 74)),
        ("74 stitches", Order(Command.COUNT, 74)),
        ("ripped back to the end of row 7", Order(Command.RIPPED, 7)),
        ("ripped back to the end of round seven", Order(Command.RIPPED, 7)),
        ("rip back two rows", Order(Command.RIP_ROWS, 2)),
        ("take me to row twelve", Order(Command.GO_TO_ROW, 12)),
        ("row 6", Order(Command.GO_TO_ROW, 6)),
        ("take me to row", Order(Command.GO_TO_ROW)),
        ("remind me to rest every 20 minutes", Order(Command.REMIND, 20)),
        ("it measures 12 cm", Order(Command.WIDTH, measure=Fraction(12), unit="cm")),
        ("12.5 in", Order(Command.WIDTH, measure=Fraction(25, 2), unit="in")),
        ("12 1/2 inches", Order(Command.WIDTH, measure=Fraction(25, 2), unit="in")),
        ("3 hands", Order(Command.WIDTH, measure=Fraction(3), unit="hand")),
        ("?", Order(Command.HELP)),
        ("correct", Order(Command.YES)),
        ("no thank you", Order(Command.NO)),
        ("quit", Order(Command.QUIT)),
        ("sing me a song", None),
        ("", None),
        ("row row row", None),
        ("i have lots", None),
    ],
)
def test_a_typed_line_gives_its_order(line: str, order: Order | None) -> None:
    assert given(line) == order


def test_every_phrase_that_may_be_spoken_may_be_typed() -> None:
    for binding in BINDINGS:
        number = " 3" if binding.command in TAKES_NUMBER else ""
        for phrase in (*binding.spoken, *binding.typed):
            order = given(phrase + number)
            assert order is not None, phrase
            assert order.command is binding.command, phrase


def test_only_commands_that_can_move_the_place_are_marked_so() -> None:
    moving = {binding.command for binding in BINDINGS if binding.moves}

    assert moving == {
        Command.NEXT,
        Command.BACK,
        Command.CARRY_ON,
        Command.RIPPED,
        Command.RIP_ROWS,
        Command.GO_TO_ROW,
        Command.UNDO,
        Command.YES,
    }
    assert binding_of(Command.NEXT).moves
