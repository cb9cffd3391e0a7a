"""The giant screen: a Display that shows one page, and the keys that drive a conversation.

It decides nothing about the work: keys become orders, views become pages. Nothing moves, blinks or
times out; without input not one byte is written. The terminal's real cursor stands on the first
letter of the present sentence, since magnifiers and braille displays follow it.
"""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Mapping
from pathlib import Path
from time import monotonic
from typing import Any, ClassVar, Protocol

from textual import events
from textual.app import App, ComposeResult
from textual.geometry import Offset
from textual.timer import Timer

from coach.guide.bindings import BINDINGS
from coach.guide.commands import Command, Order
from coach.ports import View
from coach.tui.entry import Entry, entry_for
from coach.tui.inks import OWN_COLOURS, THEMES, Theme, theme_named
from coach.tui.keys import PEDALS, Guard
from coach.tui.letters import Grain
from coach.tui.page import lay_out
from coach.tui.sheet import Sheet
from coach.tui.standing import Standing
from coach.tui.switch import (
    Item,
    Scanner,
    SwitchTimes,
    answer_items,
    command_items,
    number_items,
)
from coach.tui.terminal import own_terminal
from coach.tui.window import LARGEST, Look, Page, Told
from coach.wording.words import Words


class Conversation(Protocol):
    """What the screen drives: the guided work, the shelf, the settings."""

    @property
    def over(self) -> bool: ...

    def begin(self) -> None: ...

    def receive(self, order: Order) -> None: ...

    def typed(self, line: str) -> None: ...

    def choose(self, number: int) -> None: ...


_LEAF_KEYS = {"end": 1, "home": -1, "greater_than_sign": 1, "less_than_sign": -1}


class CoachApp(App[None], inherit_bindings=False):
    """Shows views and takes keys, pedals and touches. Make it, give it a conversation, run it.

    changed: called with a setting's name and value when the maker changes it here by key.
    scanner: one switch for everything; None where the maker has keys for each command.
    offers: told each item that the switch would take, so that it can be said. log: where lines
    go that sound libraries write to the terminal while the screen is up; None for nowhere.
    """

    CSS_PATH = "coach.tcss"
    ENABLE_COMMAND_PALETTE = False
    ALLOW_SELECT = False
    TITLE = "coach"
    BINDINGS: ClassVar = []

    def __init__(
        self,
        *,
        keys: Mapping[str, Command] = PEDALS,
        guard: Guard | None = None,
        theme: Theme = THEMES[0],
        look: Look | None = None,
        changed: Callable[[str, str | int], None] = lambda name, value: None,
        scanner: Scanner | None = None,
        offers: Callable[[Words], None] = lambda words: None,
        log: Path | None = None,
    ) -> None:
        colourless = os.environ.pop("NO_COLOR", "")  # Textual would turn it into grey
        super().__init__(ansi_color=True)
        if colourless:
            os.environ["NO_COLOR"] = colourless
        self.animation_level = "none"
        self.conversation: Conversation | None = None
        self.fault: Exception | None = None
        self.look = look or Look()
        self._colours = OWN_COLOURS if colourless else theme
        self._keys = dict(keys)
        self._guard = guard or Guard()
        self._changed = changed
        self._scanner = scanner
        self._commands = tuple(scanner.items) if scanner else ()
        self._offers = offers
        self._log_file = log
        self._timer: Timer | None = None
        self._key_taker: Callable[[str], None] | None = None
        self._standing = Standing()
        self._entry: Entry | None = None
        self._sheet = Sheet(self._colours)
        self._page = lay_out(self._standing.view, 80, 24, self.look)
        self._thread = threading.get_ident()

    def run(self, *args: Any, **options: Any) -> None:
        """Run until the conversation is over, alone on the terminal; then look at `fault`.

        Standard output is left alone where it leads elsewhere: plain lines may go there.
        """
        with own_terminal(self._log_file, keep_stdout=not os.isatty(1)):
            super().run(*args, **options)

    # The Display port

    def show(self, view: View) -> None:
        """Show what stands before the maker now."""
        self.in_turn(lambda: self._show(view))

    def tell(self, words: Words) -> None:
        """Show a message over the present step, until the next order."""
        self.in_turn(lambda: self._tell(words))

    def in_turn(self, act: Callable[[], None]) -> None:
        """Do *act* on the screen's own thread: at once if this is it, else in its turn."""
        if threading.get_ident() == self._thread or not self.is_running:
            act()
        else:
            self.call_later(lambda: self._do_in_turn(act))

    def _do_in_turn(self, act: Callable[[], None]) -> None:
        self._standing.begin_act()
        act()

    def order(self, order: Order) -> None:
        """Hand an order to the conversation, from whatever thread it was heard on."""
        self.in_turn(lambda: self._converse(lambda talk: talk.receive(order)))

    def next_key(self, taker: Callable[[str], None]) -> None:
        """Hand the name of the next key to *taker*, in place of what it does."""
        self._key_taker = taker

    @property
    def page(self) -> Page:
        """The page that stands on the screen."""
        return self._page

    # Textual

    def compose(self) -> ComposeResult:
        """Lay out the one sheet."""
        yield self._sheet

    def on_mount(self) -> None:
        """Show the cursor as a steady block and begin to speak."""
        self._thread = threading.get_ident()
        self._write("\x1b[?25h\x1b[2 q")
        self._converse(lambda talk: talk.begin())

    def on_sheet_resized(self) -> None:
        """Lay the page out again for the new size."""
        self._turn()

    async def on_event(self, event: events.Event) -> None:
        """Take keys and touches before Textual gives them meanings of its own."""
        if isinstance(event, events.Key):
            self._press(event.key, event.character, event.time)
        elif isinstance(event, events.MouseDown):
            self._press("space", None, event.time)
        elif isinstance(event, events.MouseScrollDown | events.MouseScrollUp):
            self._turn_leaf(1 if isinstance(event, events.MouseScrollDown) else -1)
        elif not isinstance(event, events.InputEvent):
            await super().on_event(event)

    # What it does

    def _show(self, view: View) -> None:
        self._standing.show(view, self._page.leaves)
        self._turn()

    def _tell(self, words: Words) -> None:
        self._standing.tell(Told(words.full, words.brief), self._page.leaves)
        self._turn()

    def _turn_leaf(self, step: int) -> None:
        """Show another part of a text that is too long for the window."""
        self._standing.turn_leaf(step, self._page.leaves)
        self._turn()

    def _turn(self) -> None:
        told = self._standing.told
        if self._entry:
            told = [Told(self._entry.sentence, self._entry.brief)]
        leaf = 0 if self._entry else self._standing.leaf
        if self._scanner and self._scanner.offer:
            told.append(_offered(self._scanner.offer))
            leaf = 0
        size = self.size
        before = self._page.cursor
        self._page = lay_out(
            self._standing.view, size.width, size.height, self.look, told, leaf=leaf
        )
        self.cursor_position = Offset(*self._page.cursor)
        if not self._sheet.turn_to(self._page) and self._page.cursor != before:
            self._write("\x1b[{1};{0}H".format(*(cell + 1 for cell in self._page.cursor)))

    def _write(self, control: str) -> None:
        if self._driver is not None and not self.is_headless:
            self._driver.write(control)
            self._driver.flush()

    def _converse(self, act: Callable[[Conversation], None]) -> None:
        """Let the conversation act; whatever goes wrong ends the screen, never in a traceback."""
        talk = self.conversation
        if talk is None:
            return
        self._standing.begin_act(ordered=True)
        try:
            act(talk)
        except Exception as error:  # told by the command line after the screen is gone
            self.fault = error
            self.exit()
            return
        if talk.over:
            self.exit()

    def _press(self, key: str, character: str | None, at: float) -> None:
        if len(key) == 1:
            key = key.lower()
        if self._key_taker is not None:
            self._give_key(self._key_taker, key, at)
            return
        command = self._keys.get(key) or self._keys.get(character or "")
        if self._scanner is not None and command is Command.NEXT:
            if self._guard.counts(key, at):
                self._switch(self._scanner, monotonic())
            return
        self._type(key, character, command, at)

    def _give_key(self, taker: Callable[[str], None], key: str, at: float) -> None:
        """Hand a key to whoever asked for the next one; escape takes that back."""
        if not self._guard.counts(key, at):
            return
        self._key_taker = None
        if key == "escape":
            self._command(Command.NO)
        else:
            self._converse(lambda _talk: taker(key))

    def _type(self, key: str, character: str | None, command: Command | None, at: float) -> None:
        """Take a key as what it is on the keyboard: a digit, a letter of a line, a command."""
        if self._entry is not None:
            self._enter(key, character, at)
        elif character and character.isdecimal() and character.isascii():
            self._digit(character, at)
        elif character == "/":
            self._open(Entry())
        elif command is None:
            self._own_key(key, character)
        elif self._guard.counts(key, at):
            self._command(command)

    def _switch(self, scanner: Scanner, at: float) -> None:
        """One press of the one switch: take what is offered, or go on and offer the rest."""
        asked = self._entry is not None or self._standing.view.choices
        scanner.items = self._scanned()
        if scanner.offer is None and not asked:
            self._command(Command.NEXT)
            scanner.start(self._scanned(), at)
        else:
            taken = scanner.press(at)
            if taken is not None and taken.command is Command.COLOURS:
                self.order(Order(taken.command))  # colours are offered: a switch can't spell
            elif taken is not None and taken.command is not None:
                self._command(taken.command)
            elif taken is not None:
                sign = taken.sign
                self._type(sign, sign if len(sign) == 1 else None, None, monotonic())
            if self._entry is not None and scanner.offer is None:
                scanner.start(self._scanned(), at)
        self._offer(scanner)

    def _scanned(self) -> tuple[Item, ...]:
        if self._entry is not None:
            return number_items(self._entry.text)
        if self._standing.view.choices:
            return (*answer_items(self._standing.view.choices), *self._commands)
        return self._commands

    def _offer(self, scanner: Scanner) -> None:
        """Show and say what a press would take, and wait for the next item's time."""
        self._turn()
        if scanner.offer is not None:
            offered = _offered(scanner.offer)
            self._offers(Words(offered.full, offered.brief))
        self._wait_for(scanner)

    def _wait_for(self, scanner: Scanner) -> None:
        if self._timer is not None:
            self._timer.stop()
        if scanner.due is not None:
            wait = max(0.01, scanner.due - monotonic())
            self._timer = self.set_timer(wait, lambda: self._scan_on(scanner))

    def _scan_on(self, scanner: Scanner) -> None:
        if scanner.tick(monotonic()):
            self._offer(scanner)
        else:
            self._wait_for(scanner)

    def _command(self, command: Command) -> None:
        asked = entry_for(command)
        if asked is not None:
            self._open(asked)
        else:
            self._converse(lambda talk: talk.receive(Order(command)))

    def _own_key(self, key: str, character: str | None) -> None:
        """Keys of the screen alone: the size, the colours, the parts of a long text."""
        if key in _LEAF_KEYS:
            self._turn_leaf(_LEAF_KEYS[key])
        elif character in ("+", "="):
            self.resize_letters(self.look.size + 1)
        elif character in ("-", "_"):
            self.resize_letters(self.look.size - 1)
        elif character in ("c", "C"):
            self.wear(THEMES[(THEMES.index(self._colours) + 1) % len(THEMES)])

    def resize_letters(self, size: int) -> None:
        """Draw in another size, 1 to 8; sizes that come out the same in this window are skipped."""
        before, step = self._page.capital, 1 if size > self.look.size else -1
        while 1 <= size <= LARGEST:
            self.look = Look(size, self.look.grain)
            self._turn()
            if self._page.capital != before:
                break
            size += step
        self._changed("size", self.look.size)

    def wear(self, theme: Theme) -> None:
        """Paint in other colours."""
        self.try_on("colours", theme.name)
        self._changed("colours", theme.name)

    def try_on(self, name: str, value: str | float | bool) -> None:
        """Work with a setting of the screen from now on; one that isn't the screen's is left."""
        if name == "size":
            self.look = Look(int(value), self.look.grain)
        elif name == "letters":
            self.look = Look(self.look.size, Grain(str(value)))
        elif name == "colours":
            self._colours = theme_named(str(value))
            self._sheet.wear(self._colours)
        elif name == "lock_out":
            self._guard.lock_out = float(value)
        elif name == "acceptance":
            self._guard.acceptance = float(value)
        elif name == "scan_seconds":
            self._scan_every(float(value))
        elif name.startswith("keys."):
            self._keys[name.removeprefix("keys.")] = Command(str(value))
        self._turn()

    def _scan_every(self, seconds: float) -> None:
        """Work by one switch, each item standing so long; 0 for keys only."""
        if not seconds:
            self._scanner = None
            return
        self._commands = command_items(BINDINGS)
        self._scanner = Scanner(self._commands, SwitchTimes(max(0.5, min(seconds, 20))))

    def _digit(self, character: str, at: float) -> None:
        """A digit answers a question at once; else it begins a count."""
        if self._standing.view.choices:
            if int(character) in range(
                1, len(self._standing.view.choices) + 1
            ) and self._guard.counts(character, at):
                self._converse(lambda talk: talk.choose(int(character)))
        else:
            self._open(Entry(Command.COUNT, character))

    def _open(self, entry: Entry | None) -> None:
        self._entry = entry
        self._turn()

    def _enter(self, key: str, character: str | None, at: float) -> None:
        """Go on with what is being typed: a number, or a line of words."""
        entry = self._entry
        if entry is None:
            return
        if key == "escape":
            self._open(None)
        elif key == "enter" or (key == "space" and entry.is_number):
            self._guard.counts(key, at)
            self._open(None)
            order = entry.order()
            if order is not None:
                self._converse(lambda talk: talk.receive(order))
            elif entry.line():
                self._converse(lambda talk: talk.typed(entry.line()))
        elif key in ("backspace", "delete"):
            self._open(entry.shortened())
        else:
            self._open(entry.lengthened(character or ""))


def _offered(item: Item) -> Told:
    return Told(f"Press now for: {item.label}.", item.label)
