"""Any ability, the whole job: each command by voice, by key, by one switch, by pedals, by lines."""

from __future__ import annotations

import sys
from fractions import Fraction

import pytest
from textual.pilot import Pilot

from coach.adapters.deaf import Deaf
from coach.adapters.silent import Silence
from coach.app.proving import prove_text
from coach.app.session import Session
from coach.guide.bindings import BINDINGS
from coach.guide.commands import TAKES_NUMBER, Binding, Command, Order
from coach.guide.dialogue import Dialogue
from coach.guide.spoken_numbers import heard_number
from coach.guide.typed_lines import order_for
from coach.tui.app import CoachApp
from coach.tui.keys import PEDALS, Guard, keymap
from coach.tui.switch import Item, Scanner, SwitchTimes, command_items
from tests.a11y.idle import bytes_when_idle
from tests.a11y.works import Memory, StandingClock
from tests.app.maker import Maker
from tests.tui.talks import Talk

# An answer's number is said, typed or scanned as itself: it needs no command of its own.
ANSWERED_BY_ITSELF = {Command.CHOOSE}
CLOTH = prove_text(
    "Ch 9. Row 1 (RS): Sc in 2nd ch from hook and in each ch across. (8)\n"
    "Row 2: Ch 1, turn, sc in each st across. (8)\n"
)
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
    if binding.command in ANSWERED_BY_ITSELF:
        return
    number = " seven" if binding.command in TAKES_NUMBER else ""
    for phrase in binding.spoken:
        taken = Dialogue(BINDINGS).take(phrase + number, 1.0, 10, mode="working", expected_count=7)
        assert taken.order == Order(binding.command, 7 if number else None)
    assert binding.spoken


def test_a_width_is_said_in_the_unit_of_the_gauge_or_in_hands() -> None:
    dialogue = Dialogue(BINDINGS)
    plain = dialogue.take("it measures thirty one", 1.0, 10, mode="working")
    in_hands = dialogue.take("it measures three hands", 1.0, 20, mode="working")
    assert plain.order == Order(Command.WIDTH, 31)
    assert in_hands.order == Order(Command.WIDTH, measure=Fraction(3), unit="hand")


def colours_of(maker: Maker) -> tuple[str, ...]:
    return maker.session.guide.colors


def listens(maker: Maker) -> bool:
    return maker.session.guide.manner.microphone


def test_a_list_of_colours_is_filled_in_by_voice_alone() -> None:
    maker = Maker(CLOTH)
    maker.says("my colour list")
    assert maker.display.views[-1].choices == ("white", "cream", "grey", "more colours")
    for heard in ("one", "four", "three", "five"):  # white, more colours, red, that is all
        maker.clock.wait(3)
        maker.says(heard)
    assert colours_of(maker) == ("white", "red")


def test_a_list_of_colours_is_filled_in_by_plain_lines() -> None:
    maker = Maker(CLOTH)
    for line in ("colours", "2", "5"):
        maker.types(line)
    assert colours_of(maker) == ("cream",)
    maker.types("undo")
    assert colours_of(maker) == ()
    maker.types("colours moss green, plum")
    assert colours_of(maker) == ("moss green", "plum")


def test_the_microphone_goes_off_by_voice_after_asking_and_on_by_a_key() -> None:
    maker = Maker(CLOTH)
    maker.says("listening off please")
    assert listens(maker)
    maker.clock.wait(3)
    maker.says("yes")
    assert not listens(maker)
    maker.gives(Command.MICROPHONE)
    assert listens(maker)


def test_one_switch_reaches_each_command() -> None:
    reached = set(walked(command_items(BINDINGS)))
    assert {binding.command for binding in BINDINGS} - reached <= ANSWERED_BY_ITSELF


async def test_one_switch_fills_in_a_list_of_colours() -> None:
    scanner = Scanner(command_items(BINDINGS), SwitchTimes(20))
    app = CoachApp(scanner=scanner, guard=Guard(lock_out=0, held=0))
    session = Session(
        CLOTH,
        "cloth",
        display=app,
        speaker=Silence(),
        ear=Deaf(),
        progress=Memory(),
        clock=StandingClock(),
    )
    app.conversation = session
    async with app.run_test() as pilot:
        await take(scanner, pilot, Command.COLOURS)
        for answer in ("white", "more colours", "red", "that is all"):
            await take(scanner, pilot, answer)
        assert session.guide.colors == ("white", "red")


async def take(scanner: Scanner, pilot: Pilot[None], wanted: Command | str) -> None:
    """Press when *wanted* is on offer, and before it for each group on the way to it."""
    if scanner.offer is None:
        await pilot.press("space")
    for _ in range(200):
        offer, due = scanner.offer, scanner.due
        assert offer is not None
        assert due is not None
        if wanted in (offer.command, offer.label):
            await pilot.press("space")
            return
        if wanted in walked(offer.group):
            await pilot.press("space")
        else:
            scanner.tick(due)
    raise AssertionError(f"{wanted} is never on offer")


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
