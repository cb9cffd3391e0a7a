"""Choices by voice, key or switch, on screen and in plain lines alike: one item at a time.

"Next" and "back" walk, "yes" takes, a number takes at once, "no" leaves. At most five answers
stand on a page. The first sentence is shown and said before anything is asked. Nothing times out.
Knows Views and commands only, so that either display can show it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from coach.guide.commands import Command, Order
from coach.guide.spoken_numbers import heard_number
from coach.guide.typed_lines import order_for
from coach.ports import Display, View
from coach.wording.words import Words

ON_A_PAGE = 5  # the most answers on one screen (COGA: five or fewer main choices)

Say = Callable[[Words], None]

UNKNOWN = Words("I don't know that here. Say next, back, yes, no or a number.", "Not known here")
LAST = Words("That is the last one.", "The last one")
FIRST = Words("That is the first one.", "The first one")
_BY_PAGE = {Command.FASTER: 1, Command.LOUDER: 1, Command.SLOWER: -1, Command.SOFTER: -1}


@dataclass(frozen=True, slots=True)
class Item:
    """One thing that can be taken. said: what is told of it besides its name, or nothing.

    big: what is shown large in place of the label, such as a sample of a size.
    """

    name: str
    label: str
    said: str = ""
    big: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a menu is about. intro: its first sentence. asks: what to do, told with each item.

    listed: whether the answers of the page stand numbered on the screen.
    """

    title: str
    intro: str
    items: tuple[Item, ...]
    asks: str = "Say yes to take it, or next."
    listed: bool = True


class Menu:
    """A conversation about one sheet of items.

    taken: called with the item that the maker takes. left: called when the maker leaves with
    "no"; without it, leaving ends the menu. walked: called with each item that is come to, so
    that a size or a colour can be tried on.
    """

    def __init__(
        self,
        sheet: Sheet,
        display: Display,
        say: Say,
        *,
        taken: Callable[[Item], None],
        left: Callable[[], None] | None = None,
        walked: Callable[[Item], None] | None = None,
        at: int = 0,
    ) -> None:
        self.over = False
        self._sheet = sheet
        self._display = display
        self._say = say
        self._taken = taken
        self._left = left
        self._walked = walked
        self._at = min(at, max(0, len(sheet.items) - 1))

    @property
    def item(self) -> Item:
        """The item that stands before the maker."""
        return self._sheet.items[self._at]

    def begin(self) -> None:
        """Show and say the first sentence, and the item it comes to."""
        self._show(self._sheet.intro)

    def receive(self, order: Order) -> None:
        """Do what the command means in a menu; answer every one."""
        if order.command in (Command.NEXT, Command.CARRY_ON):
            self._walk(1)
        elif order.command in (Command.BACK, Command.UNDO):
            self._walk(-1)
        elif order.command in _BY_PAGE:
            self._walk(_BY_PAGE[order.command] * ON_A_PAGE)
        elif order.command is Command.YES:
            self._taken(self.item)
        elif order.command in (Command.CHOOSE, Command.COUNT) and order.number is not None:
            self.choose(order.number)
        elif order.command is Command.NO:
            self._leave()
        elif order.command is Command.QUIT:
            self.over = True
        elif order.command in (Command.REPEAT, Command.WHERE, Command.EXPLAIN):
            self._show("")
        elif order.command in (Command.HELP, Command.LEFT, Command.HOW_MANY):
            self._tell(self._how_to())
        elif order.command is not Command.STOP_TALKING:
            self._tell(UNKNOWN)

    def typed(self, line: str) -> None:
        """Take a typed line: a command, a number, or an item's name."""
        wanted = line.strip().casefold()
        for number, item in enumerate(self._sheet.items):
            if wanted and wanted in (item.label.casefold(), item.name.casefold()):
                self._at = number
                self._taken(item)
                return
        order = order_for(line, heard_number)
        if order is None:
            self._tell(UNKNOWN)
        else:
            self.receive(order)

    def choose(self, number: int) -> None:
        """Take the answer with that number on this page."""
        page = self._page()
        if not 1 <= number <= len(page):
            self._tell(
                Words(f"There are {len(page)} answers here. Say one of them.", "No such answer")
            )
            return
        self._at = self._first_on_page() + number - 1
        self._taken(self.item)

    def show_again(self, notice: str = "") -> None:
        """Show and say the present item again, after *notice*."""
        self._show(notice)

    def close(self) -> None:
        """Nothing to put away."""

    def _walk(self, by: int) -> None:
        at = min(max(self._at + by, 0), len(self._sheet.items) - 1)
        if at == self._at:
            self._tell(LAST if by > 0 else FIRST)
            return
        self._at = at
        if self._walked is not None:
            self._walked(self.item)
        self._show("")

    def _leave(self) -> None:
        if self._left is None:
            self.over = True
        else:
            self._left()

    def _first_on_page(self) -> int:
        return self._at // ON_A_PAGE * ON_A_PAGE

    def _page(self) -> tuple[Item, ...]:
        first = self._first_on_page()
        return self._sheet.items[first : first + ON_A_PAGE]

    def _how_to(self) -> Words:
        count = len(self._sheet.items)
        return Words(
            f"Item {self._at + 1} of {count}. Next and back walk. Yes takes it. No leaves.",
            f"{self._at + 1} of {count}",
        )

    def _tell(self, words: Words) -> None:
        self._display.tell(words)
        self._say(words)

    def _show(self, notice: str) -> None:
        item, count = self.item, len(self._sheet.items)
        parts = [f"{item.label}.", item.said, f"{self._at + 1} of {count}.", self._sheet.asks]
        sentence = " ".join(part for part in parts if part)
        self._display.show(
            View(
                sentence=sentence,
                headline=self._sheet.title,
                big=item.big or (item.label,),
                group=f"{self._at + 1} of {count}",
                choices=tuple(each.label for each in self._page()) if self._sheet.listed else (),
                notice=notice,
            )
        )
        self._say(Words(f"{notice} {sentence}".strip(), item.label))
