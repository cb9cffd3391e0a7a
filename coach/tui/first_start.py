"""The very first start: a sentence before any choice, then size, colours and speed by comfort.

Nothing is asked about eyes or hands; the maker is shown sizes and says which is comfortable.
It waits without limit, and "no" or quitting leaves everything as it is.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from coach.guide.commands import Command, Order
from coach.ports import Display, View
from coach.tui.menus import Item, Menu, Say, Sheet
from coach.tui.setting_menus import Told
from coach.tui.setting_values import SETTINGS, Setting, Value
from coach.wording.words import Words

WELCOME = Words(
    "Welcome. I am the coach. I tell you a crochet pattern, one block at a time. "
    "Press the space bar, or say next.",
    "Welcome",
)
_ASKED = {
    "size": ("Which size is comfortable?", "Yes keeps this size. Next shows a smaller one."),
    "colours": ("Which colours are comfortable?", "Yes keeps them. Next shows others."),
    "rate": ("Which speed is comfortable?", "Yes keeps this speed. Next is faster."),
}


class FirstStart:
    """A conversation of a welcome and three questions; *done* is called after the last."""

    def __init__(
        self,
        display: Display,
        say: Say,
        present: Mapping[str, Value],
        *,
        tries: Told,
        keeps: Told,
        done: Callable[[], None] = lambda: None,
    ) -> None:
        self.over = False
        self._display, self._say = display, say
        self._present = present
        self._tries, self._keeps, self._done = tries, keeps, done
        self._left = [each for each in SETTINGS if each.name in _ASKED and each.name in present]
        self._menu: Menu | None = None

    def begin(self) -> None:
        """Show and say the welcome; nothing is asked yet."""
        self._display.show(View(sentence=WELCOME.full, headline="Coach", big=("Welcome",)))
        self._say(WELCOME)

    def receive(self, order: Order) -> None:
        """Go on from the welcome by anything; after it, as in every list."""
        if order.command is Command.QUIT:
            self.over = True
        elif self._menu is not None:
            self._menu.receive(order)
        elif order.command is Command.REPEAT:
            self._say(WELCOME)
        else:
            self._ask_next()

    def typed(self, line: str) -> None:
        """Take a line as in every list."""
        if self._menu is not None:
            self._menu.typed(line)
            self.over = self.over or self._menu.over
        else:
            self._ask_next()

    def choose(self, number: int) -> None:
        """Take a numbered answer."""
        if self._menu is not None:
            self._menu.choose(number)

    def close(self) -> None:
        """Nothing to put away."""

    def _ask_next(self) -> None:
        if not self._left:
            self.over = True
            self._done()
            return
        setting = self._left.pop(0)
        self._menu = self._question(setting)
        self._menu.begin()

    def _question(self, setting: Setting) -> Menu:
        intro, asks = _ASKED[setting.name]
        values = {f"{value}": value for value, _ in setting.values}
        items = tuple(
            Item(f"{value}", label, big=setting.sample) for value, label in setting.values
        )
        present = self._present[setting.name]

        def keep(item: Item) -> None:
            self._tries(setting.name, values[item.name])
            self._keeps(setting.name, values[item.name])
            self._ask_next()

        def leave() -> None:
            self._tries(setting.name, present)
            self._ask_next()

        return Menu(
            Sheet(setting.label, intro, items, asks, listed=False),
            self._display,
            self._say,
            taken=keep,
            left=leave,
            walked=lambda item: self._tries(setting.name, values[item.name]),
            at=setting.place_of(present),
        )
