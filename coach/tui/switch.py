"""One switch for everything: a press goes on, and then the other commands come by in turn.

A scan starts only by a press and ends by itself after its passes; between scans nothing moves.
Times come in from outside: this module reads no clock. No standard fixes scan times; the ranges
are those of RESNA 2006, "Selecting an appropriate scan rate", and EN 301 549, 5.7 to 5.9.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from coach.guide.commands import TAKES_NUMBER, Binding, Command

_GROUP = 4  # items in a scanned group, besides the way to the next group
_REACTION_SHARE = 0.65  # scan time = mean press time / 0.65, RESNA 2006


@dataclass(frozen=True, slots=True)
class SwitchTimes:
    """Seconds an item is offered (0.5 to 20), and how often the items come by (1 to 5)."""

    scan: float = 1.5
    passes: int = 2

    def __post_init__(self) -> None:
        if not 0.5 <= self.scan <= 20:
            raise ValueError("The scan time goes from 0.5 to 20 seconds.")
        if not 1 <= self.passes <= 5:
            raise ValueError("The items come by 1 to 5 times.")


@dataclass(frozen=True, slots=True)
class Item:
    """One thing on offer: a command, an answer, a digit or a sign; or a group with more items."""

    label: str
    command: Command | None = None
    sign: str = ""  # "1" to "9", "0", or "enter": what a keyboard would send
    group: tuple[Item, ...] = ()


@dataclass(slots=True)
class Scanner:
    """Offers items in turn from the first press on. *items*: what is scanned at the top."""

    items: Sequence[Item]
    times: SwitchTimes = field(default_factory=SwitchTimes)
    _offered: tuple[Item, ...] = field(default=(), init=False)
    _place: int = field(default=0, init=False)
    _left: int = field(default=0, init=False)
    _since: float = field(default=0.0, init=False)

    @property
    def offer(self) -> Item | None:
        """The item a press would take now; None between scans."""
        return self._offered[self._place] if self._offered else None

    @property
    def due(self) -> float | None:
        """When the next item comes by, or None between scans."""
        return self._since + self.times.scan if self._offered else None

    def press(self, at: float) -> Item | None:
        """Take what is on offer at time *at*: the item; or None when a group or a scan opens."""
        self.tick(at)
        taken = self.offer
        if taken is None:
            self.start(self.items, at)
            return None
        if taken.group:
            self.start(taken.group, at)
            return None
        self.stop()
        return taken

    def start(self, items: Sequence[Item], at: float) -> None:
        """Offer *items* from the first on."""
        self._offered, self._place = tuple(items), 0
        self._left, self._since = self.times.passes * len(self._offered), at

    def stop(self) -> None:
        """Offer nothing any more."""
        self._offered = ()

    def tick(self, at: float) -> bool:
        """Bring on the item that is due at time *at*; return whether the offer has changed."""
        changed = False
        while self._offered and at - self._since >= self.times.scan - 1e-9:
            self._since += self.times.scan
            self._left -= 1
            changed = True
            if self._left <= 0:
                self.stop()
            else:
                self._place = (self._place + 1) % len(self._offered)
        return changed


def command_items(bindings: Iterable[Binding]) -> tuple[Item, ...]:
    """Return what is scanned after a step: the four most used, and all others in groups."""
    first = (Command.NEXT, Command.UNDO, Command.REPEAT, Command.WHERE)
    labels = {binding.command: _label(binding) for binding in bindings}
    rest = [Item(label, command) for command, label in labels.items() if command not in first]
    rest = [item for item in rest if item.command is not Command.CHOOSE]
    near = tuple(Item(labels[command], command) for command in first if command in labels)
    return (*near, Item("More", group=_grouped(rest))) if rest else near


def answer_items(choices: Sequence[str]) -> tuple[Item, ...]:
    """Return the numbered answers of a question as items."""
    return tuple(Item(choice, sign=str(number)) for number, choice in enumerate(choices, 1))


def number_items(typed: str) -> tuple[Item, ...]:
    """Return the digits for a number of which *typed* stands there, and the ways to end it."""
    ends = (Item("Done", sign="enter"), Item("Rub out", sign="backspace")) if typed else ()
    leave = () if typed else (Item("Leave it", sign="escape"),)
    digits = tuple(Item(digit, sign=digit) for digit in "1234567890")
    return (*ends, *digits, *leave)


def proposed_scan_time(press_times: Sequence[float]) -> float:
    """Return the scan time for a maker whose presses took so many seconds each, to 0.1.

    Mean press time divided by 0.65 (RESNA 2006), within 0.5 and 20 seconds.
    """
    if not press_times:
        raise ValueError("No press was measured.")
    mean = sum(press_times) / len(press_times)
    return min(max(round(mean / _REACTION_SHARE, 1), 0.5), 20.0)


def needs_number(item: Item) -> bool:
    """Return whether the command of *item* goes on with scanning digits."""
    return item.command in TAKES_NUMBER


def _grouped(items: Sequence[Item]) -> tuple[Item, ...]:
    """Break a long list into groups, the last item of each leading to the next group."""
    if len(items) <= _GROUP + 1:
        return tuple(items)
    return (*items[:_GROUP], Item("More", group=_grouped(items[_GROUP:])))


# These have a phrase that fits the voice alone: it puts the microphone off, never on.
_BY_NAME = frozenset({Command.MICROPHONE, Command.COLOURS, Command.WIDTH})


def _label(binding: Binding) -> str:
    spoken = binding.spoken if binding.command not in _BY_NAME else ()
    phrase = spoken[0] if spoken else binding.command.value
    return phrase[:1].upper() + phrase[1:]
