"""Lists that voice, key, switch and plain lines walk alike: shelf, settings, first start."""

from __future__ import annotations

import pytest

from coach.adapters.display_recorder import DisplayRecorder
from coach.guide.bindings import BINDINGS
from coach.guide.commands import Command, Order
from coach.tui import shelf as shelves
from coach.tui.first_start import FirstStart
from coach.tui.menus import ON_A_PAGE, Item, Menu, Sheet
from coach.tui.setting_menus import SettingMenus
from coach.tui.setting_values import SETTINGS, Setting, Value
from coach.tui.shelf import Book
from coach.wording.words import Words

NEXT, BACK, YES, NO = (Order(c) for c in (Command.NEXT, Command.BACK, Command.YES, Command.NO))
FRUIT = Sheet("Basket", "What shall it be?", tuple(Item(n, n.capitalize()) for n in "abcdefg"))
PRESENT: dict[str, Value] = {setting.name: setting.values[0][0] for setting in SETTINGS}
BOOKS = (Book("pebble-cloth", "Pebble cloth", "row 6"), Book("gate", "Orchard gate cushion"))


class Heard:
    """Keeps what was shown and said."""

    def __init__(self) -> None:
        self.display = DisplayRecorder()
        self.said: list[Words] = []
        self.taken: list[str] = []

    def menu(self, sheet: Sheet = FRUIT) -> Menu:
        return Menu(
            sheet, self.display, self.said.append, taken=lambda item: self.taken.append(item.name)
        )


def test_the_first_sentence_is_shown_and_said_before_anything_is_asked() -> None:
    heard = Heard()
    heard.menu().begin()
    assert heard.said[0].full.startswith("What shall it be?")
    assert heard.display.views[0].notice == "What shall it be?"


def test_next_and_back_walk_and_yes_takes() -> None:
    heard = Heard()
    menu = heard.menu()
    menu.begin()
    for order in (NEXT, NEXT, BACK, YES):
        menu.receive(order)
    assert heard.taken == ["b"]
    assert [view.big for view in heard.display.views] == [("A",), ("B",), ("C",), ("B",)]


def test_the_ends_of_the_list_are_told() -> None:
    heard = Heard()
    menu = heard.menu()
    menu.begin()
    menu.receive(BACK)
    assert heard.display.told[-1].full == "That is the first one."
    for _ in range(7):
        menu.receive(NEXT)
    assert heard.display.told[-1].full == "That is the last one."


def test_no_page_has_more_than_five_answers_and_numbers_take_them() -> None:
    heard = Heard()
    menu = heard.menu()
    menu.begin()
    for _ in range(5):
        menu.receive(NEXT)
    pages = [view.choices for view in heard.display.views]
    assert max(map(len, pages)) == ON_A_PAGE
    assert pages[-1] == ("F", "G")
    menu.choose(2)
    menu.choose(3)
    assert heard.taken == ["g"]
    assert heard.display.told[-1].full == "There are 2 answers here. Say one of them."


@pytest.mark.parametrize("line", ["c", "C", "3", "three", "next\nnext\nyes"])
def test_typed_lines_reach_the_same(line: str) -> None:
    heard = Heard()
    menu = heard.menu()
    menu.begin()
    for each in line.splitlines():
        menu.typed(each)
    assert heard.taken == ["c"]


@pytest.mark.parametrize("command", [binding.command for binding in BINDINGS])
def test_every_command_is_answered_in_a_list(command: Command) -> None:
    heard = Heard()
    menu = heard.menu()
    menu.begin()
    before = (len(heard.said), len(heard.taken), menu.over)
    menu.receive(Order(command, 1))
    if command is not Command.STOP_TALKING:
        assert (len(heard.said), len(heard.taken), menu.over) != before


def test_the_shelf_opens_a_pattern_and_says_where_the_maker_is_in_it() -> None:
    heard = Heard()
    opened: list[str] = []
    settings: list[int] = []
    menu = shelves.shelf(
        BOOKS,
        heard.display,
        heard.said.append,
        opened=opened.append,
        settings=lambda: settings.append(1),
    )
    menu.begin()
    assert heard.said[0].full == (
        "This is the shelf. Pebble cloth. You are at row 6. 1 of 4. Say yes to open it, or next."
    )
    menu.receive(NEXT)
    menu.receive(YES)
    assert opened == ["gate"]
    menu.receive(NEXT)
    menu.receive(YES)
    assert settings == [1]
    menu.receive(NEXT)
    menu.receive(YES)
    assert menu.over


class Kept:
    """Keeps which settings were tried on and which were stored."""

    def __init__(self) -> None:
        self.heard = Heard()
        self.tried: list[tuple[str, Value]] = []
        self.kept: list[tuple[str, Value]] = []

    def menus(self) -> SettingMenus:
        return SettingMenus(
            self.heard.display,
            self.heard.said.append,
            PRESENT,
            tries=lambda name, value: self.tried.append((name, value)),
            keeps=lambda name, value: self.kept.append((name, value)),
        )


@pytest.mark.parametrize("setting", SETTINGS, ids=lambda setting: setting.name)
def test_each_value_of_each_setting_is_reached_by_next_and_yes_alone(setting: Setting) -> None:
    number = SETTINGS.index(setting)
    for place, (value, _label) in enumerate(SETTINGS[number].values[:12]):
        kept = Kept()
        menus = kept.menus()
        menus.begin()
        for order in [NEXT] * number + [YES] + [NEXT] * place + [YES]:
            menus.receive(order)
        assert kept.kept == [(SETTINGS[number].name, value)]


def test_no_leaves_a_setting_as_it_was() -> None:
    kept = Kept()
    menus = kept.menus()
    menus.begin()
    for order in (YES, NEXT, NEXT, NO):
        menus.receive(order)
    assert kept.kept == []
    assert kept.tried == [("size", 7), ("size", 6), ("size", 8)]
    assert not menus.over
    menus.receive(NO)
    assert menus.over


def test_scan_times_go_in_tenths_from_half_a_second_to_twenty() -> None:
    values = [value for value, _ in next(s for s in SETTINGS if s.name == "scan_seconds").values]
    assert values[1:] == [tenths / 10 for tenths in range(5, 201)]


def test_ten_presses_measure_the_time_for_one_switch() -> None:
    kept = Kept()
    presses = iter(0.975 * number for number in range(11))
    menus = SettingMenus(
        kept.heard.display,
        kept.heard.said.append,
        PRESENT,
        tries=lambda name, value: kept.tried.append((name, value)),
        keeps=lambda name, value: kept.kept.append((name, value)),
        seconds=lambda: next(presses),
    )
    menus.begin()
    menus.typed("measure my switch")
    for _ in range(11):
        menus.receive(NEXT)
    assert kept.heard.said[-1].full.startswith("This time fits your presses. 1.5 seconds.")
    assert kept.kept == []
    menus.receive(YES)
    assert kept.kept == [("scan_seconds", 1.5)]  # 0.975 / 0.65, RESNA 2006


def test_a_key_can_be_given_to_any_command() -> None:
    kept = Kept()
    menus = kept.menus()
    menus.begin()
    menus.typed("keys")
    menus.typed("where")
    assert menus.wants_key
    menus.pressed("f13")
    assert kept.kept == [("keys.f13", "where")]
    assert kept.heard.said[-1].full.startswith("The key f13 is now for: where.")


def test_the_first_start_speaks_before_any_choice_and_asks_what_is_comfortable() -> None:
    kept = Kept()
    done: list[int] = []
    start = FirstStart(
        kept.heard.display,
        kept.heard.said.append,
        PRESENT,
        tries=lambda name, value: kept.tried.append((name, value)),
        keeps=lambda name, value: kept.kept.append((name, value)),
        done=lambda: done.append(1),
    )
    start.begin()
    assert kept.heard.said[0].full.startswith("Welcome. I am the coach.")
    assert kept.heard.display.views[0].choices == ()
    start.receive(NEXT)
    assert kept.heard.said[-1].full.startswith("Which size is comfortable?")
    start.receive(NEXT)
    assert kept.tried == [("size", 7)]
    for order in (YES, NEXT, YES, NO):
        start.receive(order)
    assert kept.kept == [("size", 7), ("colours", "white on black")]
    assert done == [1]
    assert start.over
