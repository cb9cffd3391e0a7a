"""Any ability, the whole job: each command by voice, by key, by one switch, by pedals, by lines."""

from __future__ import annotations

import sys

import pytest

from coach.guide.commands import BINDINGS, TAKES_NUMBER, Binding, Command, Order, order_for
from coach.guide.spoken_numbers import heard_number
from coach.tui.app import CoachApp
from coach.tui.keys import PEDALS, Guard, keymap
from coach.tui.switch import Item, command_items
from tests.a11y.idle import bytes_when_idle
from tests.tui.talks import Talk

# An answer's number is said, typed or scanned as itself: it needs no command of its own.
ANSWERED_BY_ITSELF = {Command.CHOOSE}
# A width with its decimals and a maker's own list of colours are no closed list of phrases; a
# microphone that is switched off can't hear that it is to be switched on.
NOT_BY_VOICE = {Command.WIDTH, Command.COLOURS, Command.MICROPHONE}
WORDED = {Command.WIDTH: "31", Command.COLOURS: "blue, white"}


@pytest.mark.parametrize("binding", BINDINGS, ids=lambda binding: binding.command.name)
async def test_each_command_has_a_single_key(binding: Binding) -> None:
    if binding.command in ANSWERED_BY_ITSELF:
        return
    key = next(key for key in binding.keys if "+" not in key)
    app = CoachApp(keys=keymap(BINDINGS), guard=Guard(lock_out=0, held=0))
    talk = Talk(app)
    app.conversation = talk
    async with app.run_test() as pilot:
        await pilot.press(NAMES.get(key, key))
        if binding.command in WORDED:
            await pilot.press(*WORDED[binding.command], "enter")
        elif binding.command in TAKES_NUMBER:
            await pilot.press("7", "enter")
    if binding.command in WORDED:
        order = order_for(talk.lines[0], heard_number)
        assert order is not None
        assert order.command is binding.command
        return
    number = 7 if binding.command in TAKES_NUMBER else None
    assert talk.orders == [Order(binding.command, number)]


NAMES = {
    "[": "left_square_bracket",
    "]": "right_square_bracket",
    ".": "full_stop",
    ",": "comma",
    "?": "question_mark",
}


@pytest.mark.parametrize("binding", BINDINGS, ids=lambda binding: binding.command.name)
def test_each_command_can_be_typed_as_a_line(binding: Binding) -> None:
    phrase = (*binding.spoken, *binding.typed)[0]
    number = " 7" if binding.command in TAKES_NUMBER else ""
    order = order_for(phrase + number, heard_number)
    assert order == Order(binding.command, 7 if number else None)


@pytest.mark.parametrize("binding", BINDINGS, ids=lambda binding: binding.command.name)
def test_each_command_can_be_said(binding: Binding) -> None:
    if binding.command not in ANSWERED_BY_ITSELF | NOT_BY_VOICE:
        assert binding.spoken


def test_one_switch_reaches_each_command() -> None:
    reached = set(walked(command_items(BINDINGS)))
    assert {binding.command for binding in BINDINGS} - reached <= ANSWERED_BY_ITSELF


def walked(items: tuple[Item, ...]) -> list[Command]:
    found = [item.command for item in items if item.command]
    for item in items:
        found += walked(item.group)
    return found


@pytest.mark.parametrize(
    "pair",
    [("pagedown", "pageup"), ("right", "left"), ("down", "up"), ("f13", "f14")],
)
def test_two_pedals_go_on_and_back(pair: tuple[str, str]) -> None:
    keys = keymap(BINDINGS)
    assert (keys[pair[0]], keys[pair[1]]) == (Command.NEXT, Command.BACK)
    assert set(pair) <= set(PEDALS)


def test_no_command_needs_two_keys_at_once() -> None:
    # EN 301 549, 5.9: nothing needs two actions at once.
    assert [key for binding in BINDINGS for key in binding.keys if "+" in key] == []


def test_a_maker_s_own_key_wins_and_a_key_can_be_freed() -> None:
    keys = keymap(BINDINGS, {"f13": "where", "space": "nothing", "x1": "stop talking"})
    assert keys["f13"] is Command.WHERE
    assert "space" not in keys
    assert keys["x1"] is Command.STOP_TALKING
    with pytest.raises(ValueError, match="wander"):
        keymap(BINDINGS, {"f13": "wander"})


@pytest.mark.skipif(sys.platform == "win32", reason="needs a pseudo-terminal")
def test_the_whole_program_is_still_without_input() -> None:
    assert bytes_when_idle(5) == 0
