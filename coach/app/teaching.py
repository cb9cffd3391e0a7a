"""The lesson in which the coach learns a maker's own way of saying its commands, by voice alone.

Keeps words only: what the ear made of a saying, never the sound. It decides nothing about what
may be kept (`coach.guide.lessons`) and stores nothing itself.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coach.app.telling import together
from coach.guide.bindings import BINDINGS, binding_of
from coach.guide.commands import Command, Order
from coach.guide.lessons import TAUGHT, Came, judge
from coach.guide.typed_lines import plain_words
from coach.wording import lessons_told
from coach.wording.words import Words

_COMMAND = {
    " ".join(plain_words(phrase)): binding.command
    for binding in BINDINGS
    for phrase in binding.spoken
}
_PASSED_BY = frozenset({Command.NEXT, Command.CARRY_ON})
_ASKED_AGAIN = frozenset({Command.REPEAT, Command.BACK, Command.WHERE, Command.HELP})
_ENDS = frozenset({Command.NO, Command.QUIT, Command.STOP_TALKING, Command.PAUSE})


class Teaching:
    """One lesson. phrases: what is listened for. own_words: heard words to the phrase meant."""

    def __init__(self, phrases: Sequence[str], own_words: Mapping[str, str]) -> None:
        self.own_words = dict(own_words)
        self.over = False
        self._meanings = {phrase: _meaning(phrase) for phrase in phrases}
        self._before: list[dict[str, str]] = []  # what was known before each phrase so far
        self._first = dict(own_words)
        self._sayings: list[tuple[str, ...]] = []

    @property
    def changed(self) -> bool:
        """Whether anything was learned."""
        return self.own_words != self._first

    def begin(self) -> Words:
        return together(lessons_told.BEGIN, self._ask())

    def hear(self, readings: Sequence[str]) -> Words | None:
        """Take a saying: what the ear made of it, the likeliest first. None: it was nothing."""
        if not readings:
            return None
        meant = _COMMAND.get(readings[0])
        if meant in {Command.NO, Command.UNDO}:
            return self.order(Order(meant))
        self._sayings.append(tuple(readings))
        outcome = judge(self._phrase, self._sayings, self._all_meanings())
        if outcome.came is Came.AGAIN:
            return self._ask()
        own_words = dict(self.own_words)
        if outcome.came is Came.KEPT:  # what was learned of it before gives way
            kept = {each: phrase for each, phrase in own_words.items() if phrase != self._phrase}
            own_words = kept | {outcome.words: self._phrase}
        told = lessons_told.outcome_words(outcome, binding_of(_COMMAND[self._phrase]).keys[0])
        return self._go_on(told, own_words)

    def order(self, order: Order) -> Words | None:
        """Take an order; None when it has nothing to do with the lesson, which is then over."""
        if order.command in _PASSED_BY:
            return self._go_on(None, self.own_words)
        if order.command in _ASKED_AGAIN:
            return self._ask()
        if order.command is Command.UNDO and self._before:
            self.own_words = self._before.pop()
            self._sayings = []
            return together(lessons_told.TAKEN_BACK, self._ask())
        self.over = True
        return self._end() if order.command in _ENDS or order.command is Command.UNDO else None

    @property
    def _phrase(self) -> str:
        return TAUGHT[len(self._before)]

    def _ask(self) -> Words:
        return lessons_told.ask(self._phrase, again=bool(self._sayings))

    def _go_on(self, told: Words | None, own_words: Mapping[str, str]) -> Words:
        self._before.append(self.own_words)
        self.own_words, self._sayings = dict(own_words), []
        self.over = len(self._before) == len(TAUGHT)
        following = self._end() if self.over else self._ask()
        return following if told is None else together(told, following)

    def _end(self) -> Words:
        return lessons_told.LEARNED if self.changed else lessons_told.NOTHING_LEARNED

    def _all_meanings(self) -> dict[str, str]:
        """Return every phrase and every own word with its command; of this phrase none is old."""
        own = {words: phrase for words, phrase in self.own_words.items() if phrase != self._phrase}
        return self._meanings | {words: _meaning(phrase) for words, phrase in own.items()}


def _meaning(phrase: str) -> str:
    command = _COMMAND.get(phrase.split("#", maxsplit=1)[0].strip())
    return phrase if command is None else command.value
