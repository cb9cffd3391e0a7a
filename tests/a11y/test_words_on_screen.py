"""The screen's own words are short and simple: twelve words a sentence, five answers a page."""

from __future__ import annotations

import re

import pytest

from coach.adapters.display_recorder import DisplayRecorder
from coach.guide.commands import Command, Order
from coach.ports import View
from coach.tui.entry import Entry
from coach.tui.first_start import FirstStart
from coach.tui.menus import ON_A_PAGE
from coach.tui.setting_menus import SettingMenus
from coach.tui.setting_values import SETTINGS, Value
from coach.tui.shelf import Book, shelf
from coach.wording.words import Words

MOST_WORDS = 12
PRESENT: dict[str, Value] = {setting.name: setting.values[0][0] for setting in SETTINGS}


def nothing(*_: object) -> None:
    """Take what is handed over."""


def told(display: DisplayRecorder) -> list[str]:
    return [one.full if isinstance(one, Words) else one.sentence for one in display.shown] + [
        view.notice for view in display.views
    ]


def walked_settings() -> DisplayRecorder:
    display = DisplayRecorder()
    for at in range(len(SETTINGS) + 1):
        menus = SettingMenus(display, nothing, PRESENT, tries=nothing, keeps=nothing)
        menus.begin()
        for command in [Command.NEXT] * at + [Command.YES, Command.NEXT, Command.HELP, Command.YES]:
            menus.receive(Order(command))
    return display


def walked_first_start() -> DisplayRecorder:
    display = DisplayRecorder()
    start = FirstStart(display, nothing, PRESENT, tries=nothing, keeps=nothing)
    start.begin()
    for command in [Command.NEXT, Command.NEXT, Command.YES] * 4:
        start.receive(Order(command))
    return display


def walked_shelf() -> DisplayRecorder:
    display = DisplayRecorder()
    books = [Book(f"b{n}", f"Cloth {n}", "row 6" if n == 2 else "") for n in range(12)]
    menu = shelf(books, display, nothing, opened=nothing, settings=nothing)
    menu.begin()
    for command in [Command.NEXT] * 14 + [Command.BACK, Command.HELP, Command.SEE]:
        menu.receive(Order(command))
    return display


DISPLAYS = {
    "settings": walked_settings,
    "first start": walked_first_start,
    "shelf": walked_shelf,
}


@pytest.mark.parametrize("name", DISPLAYS)
def test_a_sentence_has_twelve_words_at_most(name: str) -> None:
    for text in told(DISPLAYS[name]()):
        for sentence in re.split(r"(?<=[.?!:]) ", text):
            assert len(sentence.split()) <= MOST_WORDS, sentence


@pytest.mark.parametrize("name", DISPLAYS)
def test_no_screen_has_more_than_five_answers(name: str) -> None:
    views: list[View] = DISPLAYS[name]().views
    assert len(views) > 3
    assert max(len(view.choices) for view in views) <= ON_A_PAGE


@pytest.mark.parametrize("command", [None, Command.COUNT, Command.RIPPED, Command.REMIND])
def test_what_is_asked_while_typing_is_short(command: Command | None) -> None:
    for text in ("", "74"):
        for sentence in re.split(r"(?<=[.?!:]) ", Entry(command, text).sentence):
            assert len(sentence.split()) <= MOST_WORDS
