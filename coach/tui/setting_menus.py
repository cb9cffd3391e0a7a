"""Every setting as a short list of values, so that voice, key, switch and plain lines reach it.

A value is tried on while it stands before the maker and kept only when taken; "no" leaves the
setting as it was. What a setting does is the business of whoever is told of it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from itertools import pairwise
from time import monotonic

from coach.guide.bindings import BINDINGS
from coach.guide.commands import Command, Order
from coach.ports import Display, View
from coach.tui.menus import Item, Menu, Say, Sheet
from coach.tui.setting_values import SETTINGS, Setting, Value
from coach.tui.switch import proposed_scan_time
from coach.wording.words import Words

Told = Callable[[str, Value], None]

MEASURED = 10  # times between presses that the scan time is measured from


class SettingMenus:
    """The settings as a conversation: which one, then which value, then back to the list.

    present: the value of each setting now. tries: told a value that is to be seen or heard for
    the moment. keeps: told a value to be stored. A key can be given to any command as well.
    seconds: a clock, to measure how fast a switch is pressed.
    """

    def __init__(
        self,
        display: Display,
        say: Say,
        present: Mapping[str, Value],
        *,
        tries: Told,
        keeps: Told,
        settings: tuple[Setting, ...] = SETTINGS,
        seconds: Callable[[], float] = monotonic,
    ) -> None:
        self._display, self._say = display, say
        self._present = dict(present)
        self._tries, self._keeps = tries, keeps
        self._settings = settings
        self._seconds = seconds
        self._for_key: Command | None = None
        self._presses: list[float] | None = None
        self._list_at = 0
        self._menu = self._list()

    @property
    def over(self) -> bool:
        """Whether the maker has left the settings."""
        return self._menu.over

    @property
    def wants_key(self) -> bool:
        """Whether the next key pressed is to be given to a command."""
        return self._for_key is not None

    def begin(self) -> None:
        """Show the list of settings."""
        self._menu.begin()

    def receive(self, order: Order) -> None:
        """Hand the command to the list that is open."""
        self._for_key = None
        if self._presses is not None and order.command is Command.NEXT:
            self._pressed_again(self._presses)
            return
        self._presses = None
        self._menu.receive(order)

    def typed(self, line: str) -> None:
        """Take a line: the name of a key where one is wanted, else as in every list."""
        if self.wants_key and line.strip():
            self.pressed(line.strip().lower())
        else:
            self._menu.typed(line)

    def choose(self, number: int) -> None:
        """Take a numbered answer."""
        self._menu.choose(number)

    def close(self) -> None:
        """Nothing to put away."""

    def pressed(self, key: str) -> None:
        """Give *key* to the command that was chosen."""
        command = self._for_key
        if command is None:
            return
        self._for_key = None
        self._tries(f"keys.{key}", command.value)
        self._keeps(f"keys.{key}", command.value)
        self._to_list(f"The key {_spoken_key(key)} is now for: {command.value}.")

    def _list(self) -> Menu:
        items = [
            Item(each.name, each.label, f"Now: {each.label_of(self._present[each.name])}.")
            for each in self._settings
            if each.name in self._present
        ]
        sheet = Sheet(
            "Settings",
            "These are the settings.",
            (
                *items,
                Item("measure", "Measure my switch", "Ten presses find the time for one switch."),
                Item("keys", "Keys", "Any key can be given to any command."),
            ),
            "Say yes to change it, next, or no to leave.",
        )
        return Menu(sheet, self._display, self._say, taken=self._open, at=self._list_at)

    def _to_list(self, notice: str = "") -> None:
        self._menu = self._list()
        self._menu.show_again(notice)

    def _open(self, item: Item) -> None:
        names = [each.name for each in self._settings if each.name in self._present]
        others = ["measure", "keys"]
        self._list_at = [*names, *others].index(item.name)
        if item.name == "measure":
            self._presses = []
            self._ask("Measure", "Press your switch now, eleven times, at your own pace.", "Press")
            return
        if item.name == "keys":
            self._menu = self._commands()
        else:
            self._menu = self._values(next(s for s in self._settings if s.name == item.name))
        self._menu.begin()

    def _values(self, setting: Setting, at: int | None = None) -> Menu:
        items = tuple(
            Item(f"{value}", label, big=setting.sample) for value, label in setting.values
        )
        present = self._present[setting.name]
        by_name = {f"{value}": value for value, _ in setting.values}
        sheet = Sheet(
            setting.label,
            f"{setting.label}.",
            items,
            "Say yes to keep it, next for another, or no.",
            listed=not setting.sample,
        )

        def keep(item: Item) -> None:
            self._present[setting.name] = by_name[item.name]
            self._tries(setting.name, by_name[item.name])
            self._keeps(setting.name, by_name[item.name])
            self._to_list(f"{setting.label}: {item.label}.")

        def leave() -> None:
            self._tries(setting.name, present)
            self._to_list("Left as it was.")

        return Menu(
            sheet,
            self._display,
            self._say,
            taken=keep,
            left=leave,
            walked=lambda item: self._tries(setting.name, by_name[item.name]),
            at=setting.place_of(present) if at is None else at,
        )

    def _pressed_again(self, presses: list[float]) -> None:
        """Count a press; after ten times between two presses, offer the time that they give."""
        presses.append(self._seconds())
        if len(presses) <= MEASURED:
            self._ask("Measure", f"Press {MEASURED + 1 - len(presses)} more.", f"{len(presses)}")
            return
        self._presses = None
        gaps = [after - before for before, after in pairwise(presses)]
        setting = next(each for each in self._settings if each.name == "scan_seconds")
        self._menu = self._values(setting, at=setting.place_of(proposed_scan_time(gaps)))
        self._menu.show_again("This time fits your presses.")

    def _ask(self, headline: str, sentence: str, brief: str) -> None:
        self._display.show(View(sentence=sentence, headline=headline, big=(brief,)))
        self._say(Words(sentence, brief))

    def _commands(self) -> Menu:
        items = tuple(
            Item(each.command.value, each.command.value.capitalize(), each.help)
            for each in BINDINGS
        )
        sheet = Sheet(
            "Keys", "Which command shall have a key?", items, "Say yes to give it a key, or next."
        )

        def wanted(item: Item) -> None:
            self._for_key = Command(item.name)
            sentence = f"Press the key for: {item.label}. Say no to leave it."
            self._ask("Keys", sentence, "Press the key")
            next_key = getattr(self._display, "next_key", None)  # plain lines have no keys
            if next_key is not None:
                next_key(self.pressed)

        return Menu(
            sheet,
            self._display,
            self._say,
            taken=wanted,
            left=lambda: self._to_list("No key changed."),
        )


def _spoken_key(key: str) -> str:
    return key.replace("pageup", "page up").replace("pagedown", "page down").replace("_", " ")
