"""The screen turns keys, pedals and touches into orders, and keeps the cursor on the sentence."""

from __future__ import annotations

import threading

import pytest
from textual import events

from coach.guide.bindings import BINDINGS
from coach.guide.commands import Command, Order
from coach.ports import View
from coach.tui.app import CoachApp
from coach.tui.keys import PEDALS, Guard
from coach.tui.letters import Grain
from coach.tui.switch import Scanner, SwitchTimes, command_items
from tests.tui.talks import Talk
from tests.tui.views import CHAIN, COME_BACK, PLAIN_ROW, QUESTION, RIB

KEYS = {**PEDALS, "r": Command.REPEAT, "w": Command.WHERE, "q": Command.QUIT, "m": Command.COUNT}


def coach(*views: View) -> tuple[CoachApp, Talk]:
    app = CoachApp(keys=KEYS, guard=Guard(lock_out=0, held=0))
    talk = Talk(app, views or (RIB,))
    app.conversation = talk
    return app, talk


def text_on(app: CoachApp) -> str:
    return " ".join(" ".join(line.text for line in app.page.lines).split())


def sentence_under_cursor(app: CoachApp) -> str:
    column, row = app.cursor_position
    rest = [app.page.lines[row].text[column:]]
    rest += [line.text for line in app.page.lines[row + 1 :]]
    return " ".join(" ".join(rest).split())


@pytest.mark.parametrize(
    ("key", "command"),
    [
        ("space", Command.NEXT), ("enter", Command.NEXT), ("right", Command.NEXT),
        ("pagedown", Command.NEXT), ("f13", Command.NEXT), ("left", Command.BACK),
        ("pageup", Command.BACK), ("f14", Command.BACK), ("r", Command.REPEAT),
        ("R", Command.REPEAT), ("w", Command.WHERE), ("f24", Command.STOP_TALKING),
        ("ctrl+c", Command.QUIT),
    ],
)  # fmt: skip
async def test_each_key_gives_its_command(key: str, command: Command) -> None:
    app, talk = coach()
    async with app.run_test() as pilot:
        await pilot.press(key)
    assert talk.orders == [Order(command)]


async def test_a_touch_anywhere_goes_on() -> None:
    app, talk = coach()
    async with app.run_test() as pilot:
        await pilot.mouse_down(offset=(3, 3))
        await pilot.pause()
    assert talk.orders == [Order(Command.NEXT)]


@pytest.mark.parametrize("size", [(80, 24), (40, 12), (20, 8), (120, 40), (24, 60)])
async def test_the_cursor_stands_on_the_sentence_after_every_step(size: tuple[int, int]) -> None:
    views = (RIB, CHAIN, PLAIN_ROW)
    app, talk = coach(*views)
    async with app.run_test(size=size) as pilot:
        for step in range(12):
            assert sentence_under_cursor(app).startswith(views[step % 3].sentence)
            await pilot.press("space")
            await pilot.pause()
    assert talk.step == 12


async def test_an_answer_has_the_cursor_until_the_next_order() -> None:
    app, _ = coach(RIB, CHAIN)
    async with app.run_test() as pilot:
        await pilot.press("w")
        await pilot.pause()
        assert sentence_under_cursor(app).startswith("You asked: where.")
        assert RIB.sentence in text_on(app)
        await pilot.press("space")
        await pilot.pause()
        assert "You asked" not in text_on(app)
        assert sentence_under_cursor(app).startswith(CHAIN.sentence)


async def test_a_long_text_is_read_on_by_key_and_by_wheel_and_the_place_stays() -> None:
    app, talk = coach(COME_BACK)
    async with app.run_test(size=(20, 8)) as pilot:
        assert app.page.leaves > 2
        seen = [app.page.leaf]
        for key in ("end", "greater_than_sign", "home", "less_than_sign", "home"):
            await pilot.press(key)
            seen.append(app.page.leaf)
        for turned in (events.MouseScrollDown, events.MouseScrollUp):
            await pilot._post_mouse_events([turned], offset=(3, 3))
            seen.append(app.page.leaf)
    last = app.page.leaves - 1
    assert seen == [0, 1, 2, 1, 0, last, 0, last]
    assert talk.orders == []


async def test_digits_and_enter_are_a_count() -> None:
    app, talk = coach()
    async with app.run_test() as pilot:
        await pilot.press("7", "5")
        await pilot.pause()
        assert "How many stitches have you? 75." in text_on(app)
        await pilot.press("backspace", "4", "enter")
    assert talk.orders == [Order(Command.COUNT, 74)]


async def test_escape_leaves_a_number_unsaid() -> None:
    app, talk = coach()
    async with app.run_test() as pilot:
        await pilot.press("7", "escape", "space")
    assert talk.orders == [Order(Command.NEXT)]


async def test_a_command_that_needs_a_number_asks_for_it() -> None:
    app, talk = coach()
    async with app.run_test() as pilot:
        await pilot.press("m")
        await pilot.pause()
        assert "How many stitches have you? Type the number" in text_on(app)
        await pilot.press("1", "6", "space")
    assert talk.orders == [Order(Command.COUNT, 16)]


async def test_a_digit_answers_a_question_at_once() -> None:
    app, talk = coach(QUESTION)
    async with app.run_test() as pilot:
        await pilot.press("9", "2")
    assert talk.chosen == [2]
    assert talk.orders == []


async def test_a_line_can_be_typed_after_a_slash() -> None:
    app, talk = coach()
    async with app.run_test() as pilot:
        await pilot.press(*"/go to row 7", "enter")
    assert talk.lines == ["go to row 7"]


async def test_plus_and_minus_change_what_is_seen() -> None:
    changes: list[tuple[str, str | int]] = []
    app = CoachApp(keys=KEYS, changed=lambda name, value: changes.append((name, value)))
    app.conversation = Talk(app)
    async with app.run_test() as pilot:
        tallest = app.page.capital
        await pilot.press("minus")
        assert app.page.capital < tallest
        await pilot.press("plus")
        assert app.page.capital == tallest
        await pilot.press("c")
    assert [name for name, _ in changes] == ["size", "size", "colours"]


async def test_quitting_ends_the_screen() -> None:
    app, talk = coach()
    async with app.run_test() as pilot:
        await pilot.press("q")
        await pilot.pause()
    assert talk.over
    assert app.return_code == 0


async def test_a_fault_ends_the_screen_without_a_traceback() -> None:
    class Broken(Talk):
        def receive(self, order: Order) -> None:
            raise OSError(28, "No space left on device")

    app = CoachApp(keys=KEYS)
    app.conversation = Broken(app)
    async with app.run_test() as pilot:
        await pilot.press("space")
        await pilot.pause()
    assert isinstance(app.fault, OSError)


async def test_orders_from_another_thread_take_their_turn() -> None:
    app, talk = coach()
    async with app.run_test() as pilot:
        ear = threading.Thread(target=lambda: app.order(Order(Command.NEXT)))
        ear.start()
        ear.join()
        await pilot.pause()
    assert talk.orders == [Order(Command.NEXT)]


async def test_a_new_window_size_lays_the_page_out_again() -> None:
    app, _ = coach()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.resize_terminal(40, 12)
        await pilot.pause()
        assert len(app.page.lines) == 12
        assert sentence_under_cursor(app).startswith(RIB.sentence)


async def test_moving_the_mouse_and_losing_focus_do_nothing() -> None:
    app, talk = coach()
    async with app.run_test() as pilot:
        before = app.page
        await pilot.hover(offset=(5, 5))
        app.post_message(events.AppBlur())
        await pilot.pause()
        assert app.page is before
    assert talk.orders == []


async def test_one_switch_goes_on_and_then_offers_the_rest() -> None:
    said: list[str] = []
    scanner = Scanner(command_items(BINDINGS), SwitchTimes(scan=0.5, passes=1))
    app = CoachApp(
        keys=KEYS,
        guard=Guard(lock_out=0, held=0),
        scanner=scanner,
        offers=lambda words: said.append(words.brief),
    )
    talk = Talk(app, (RIB, CHAIN))
    app.conversation = talk
    async with app.run_test() as pilot:
        await pilot.press("space")
        assert talk.orders == [Order(Command.NEXT)]
        await pilot.pause(0.75)
        assert "Press now for: Undo that." in text_on(app)
        await pilot.press("space")
        assert talk.orders[1:] == [Order(Command.UNDO)]
        await pilot.pause(0.8)
        assert "Press now" not in text_on(app)
    assert said == ["Next", "Undo that"]


async def test_one_switch_answers_a_question() -> None:
    scanner = Scanner(command_items(BINDINGS), SwitchTimes(scan=0.5, passes=1))
    app = CoachApp(keys=KEYS, guard=Guard(lock_out=0, held=0), scanner=scanner)
    talk = Talk(app, (QUESTION,))
    app.conversation = talk
    async with app.run_test() as pilot:
        await pilot.press("space")
        await pilot.pause(0.75)
        await pilot.press("space")
    assert talk.chosen == [2]
    assert talk.orders == []


async def test_a_setting_is_tried_on_at_once() -> None:
    app, _ = coach()
    async with app.run_test():
        tallest = app.page.capital
        app.try_on("size", 2)
        assert app.page.capital < tallest
        app.try_on("letters", "octant")
        assert app.look.grain is Grain.OCTANT
        app.try_on("colours", "yellow on black")
        assert app._colours.name == "yellow on black"


async def test_the_next_key_can_be_given_to_a_command() -> None:
    app, talk = coach()
    taken: list[str] = []
    async with app.run_test() as pilot:
        app.next_key(taken.append)
        await pilot.press("f20")
        assert taken == ["f20"]
        app.try_on("keys.f20", "where")
        await pilot.press("f20")
        app.next_key(taken.append)
        await pilot.press("escape")
    assert taken == ["f20"]
    assert talk.orders == [Order(Command.WHERE), Order(Command.NO)]


async def test_one_switch_can_be_turned_on_while_working() -> None:
    app, talk = coach()
    async with app.run_test() as pilot:
        app.try_on("scan_seconds", 1.0)
        await pilot.press("space")
        assert "Press now for: Next." in text_on(app)
        app.try_on("scan_seconds", 0)
        await pilot.press("space", "space")
    assert talk.orders == [Order(Command.NEXT)] * 3


async def test_settings_can_be_put_on_before_the_screen_is_up() -> None:
    app, talk = coach()
    app.try_on("size", 3)
    app.try_on("letters", "quadrant")
    app.try_on("scan_seconds", 0.5)
    async with app.run_test() as pilot:
        assert app.look.grain is Grain.QUADRANT
        await pilot.press("space")
        assert "Press now for: Next." in text_on(app)
    assert talk.orders == [Order(Command.NEXT)]
