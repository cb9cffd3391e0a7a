"""Displays made of others: one that keeps all it was given, one that shows on several at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from coach.ports import Display, View
from coach.wording.words import Words


@dataclass(slots=True)
class DisplayRecorder:
    """Keeps every view and message in the order they came, for tests and reports."""

    shown: list[View | Words] = field(default_factory=list)

    def show(self, view: View) -> None:
        """Keep *view*."""
        self.shown.append(view)

    def tell(self, words: Words) -> None:
        """Keep *words*."""
        self.shown.append(words)

    @property
    def views(self) -> list[View]:
        """The views alone."""
        return [one for one in self.shown if isinstance(one, View)]

    @property
    def told(self) -> list[Words]:
        """The messages alone."""
        return [one for one in self.shown if isinstance(one, Words)]


class Together:
    """Shows the same on several displays: a giant screen with plain lines beside it."""

    def __init__(self, displays: Iterable[Display]) -> None:
        self._displays = tuple(displays)

    def show(self, view: View) -> None:
        """Show *view* on each, in the order they were given."""
        for display in self._displays:
            display.show(view)

    def tell(self, words: Words) -> None:
        """Tell *words* on each."""
        for display in self._displays:
            display.tell(words)

    def next_key(self, taker: Callable[[str], None]) -> None:
        """Hand the next key to *taker*, where one of the displays takes keys."""
        for display in self._displays:
            asked = getattr(display, "next_key", None)
            if asked is not None:
                asked(taker)
