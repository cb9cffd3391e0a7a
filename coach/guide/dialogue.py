"""From a heard phrase to an order: doubles, numbers read back, twins, rest, and a kind ladder.

Pure: the time comes in with each phrase. A missed word is better than a false one, so whatever
is not sure is asked or left. It decides what was meant; what follows from it the guide decides.

How a session uses it, one call for each phrase that the ear hands over::

    taken = dialogue.take(heard.text, heard.confidence, heard.at, mode=…, expected_count=77)
    if taken.order: do it, as if a key had been pressed
    if taken.ask:   say it (`coach.wording.heard.question_words`); "yes" then gives its order
    if taken.tone:  sound it ("not understood")
    if taken.say:   say it (`coach.wording.heard.hint_words`)

After the answer's tone has sounded it calls `answered(at)`; when the mode changes it gives the
ear `phrases(mode)`. Typed and pressed commands don't come through here: they are sure.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

from coach.guide.commands import TAKES_NUMBER, Binding, Command, Order
from coach.guide.spoken_numbers import heard_number, twin
from coach.guide.typed_lines import numbered_order, plain_words, without_unit

NUMBER = "#"  # stands for a number in a phrase that the ear is to listen for
RESTING = "resting"  # the mode after "quiet time": only "hello coach" is taken
ASKING = "asking"  # the guide has asked something: a bare number is an answer

SAME_WITHIN = 1.2  # seconds: people repeat themselves when an answer is late
AFTER_TONE = 0.6  # seconds: to hear a tone and to say a word again takes longer than this
LADDER_WITHIN = 10.0  # seconds between words not understood that belong together
SURE = 0.5  # confidence asked of any command
SURE_TO_MOVE = 0.55  # and of one that moves the place


class Hint(StrEnum):
    """What is said when words are not understood, step by step; then silence."""

    TRY = "try"  # "Say next, back or repeat."
    CHOICES = "choices"  # three large choices and their keys


@dataclass(frozen=True, slots=True)
class Question:
    """A number read back: "yes" gives *order*; *other*, when there is one, sounds like it."""

    order: Order
    other: Order | None = None


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of a phrase. All empty: it is left alone, nothing is said or sounded."""

    order: Order | None = None
    ask: Question | None = None
    tone: str | None = None
    say: Hint | None = None


LEFT_ALONE = Taken()


class Dialogue:
    """Takes phrases one by one and remembers what a conversation must remember.

    asks_itself: the number commands for which the guide reads back and asks yes or no on its
    own; their number is only asked about here when it has a twin that would do as well.
    long_only: of a command's phrases only those of two words or more, for loud rooms.
    """

    def __init__(
        self,
        bindings: Iterable[Binding],
        *,
        asks_itself: Collection[Command] = TAKES_NUMBER - {Command.COUNT},
        long_only: bool = False,
    ) -> None:
        self._bindings = tuple(map(_long_only, bindings) if long_only else bindings)
        self._asks_itself = frozenset(asks_itself)
        self._by_phrase = {
            _plain(phrase): binding for binding in self._bindings for phrase in binding.spoken
        }
        self._question: Question | None = None
        self._taken: dict[Order, float] = {}  # when each was last taken, for as long as it matters
        self._answered_at = float("-inf")
        self._not_understood: list[float] = []

    def phrases(self, mode: str, *, number_asked: bool = False) -> tuple[str, ...]:
        """Return the closed list for the ear; "#" in a phrase stands for a number."""
        listed: list[str] = []
        for binding in self._bindings:
            if mode == RESTING and binding.command is not Command.HELLO:
                continue
            for phrase in map(_plain, binding.spoken):
                if binding.command not in TAKES_NUMBER:
                    listed.append(phrase)
                    continue
                listed.append(f"{phrase} {NUMBER}")
                # One form of the unit is enough for the ear, and the written ones aren't said.
                listed += [f"{phrase} {NUMBER} {unit}" for unit in binding.units[:1]]
        if mode != RESTING and (number_asked or mode == ASKING or self._question is not None):
            listed.append(NUMBER)
        return tuple(dict.fromkeys(listed))

    def put_aside(self) -> None:
        """Forget a number read back: the maker has gone on by key or by line."""
        self._question = None

    def answered(self, at: float) -> None:
        """Say that the screen has changed and the tone of the last order was heard at *at*."""
        self._answered_at = at

    def take(
        self,
        text: str,
        confidence: float,
        at: float,
        *,
        mode: str,
        expected_count: int | None = None,
        rows: int | None = None,
    ) -> Taken:
        """Return what *text*, heard at *at* seconds, comes to.

        text: a whole phrase of the closed list, or "" for something like a word that the ear
        was not sure of. expected_count: what the row must come to, when a count is asked for
        or stands. rows: the number of rows there are, for numbers that sound alike.
        """
        found = self._understood(text, number_asked=mode == ASKING or expected_count is not None)
        resting = mode == RESTING
        if resting and (found is None or found.command is not Command.HELLO):
            return LEFT_ALONE
        if found is None or confidence < self._floor(found.command):
            return LEFT_ALONE if resting else self._climb(at)
        if self._is_double(found, at):
            return LEFT_ALONE
        self._not_understood.clear()
        self._taken = {
            each: when for each, when in self._taken.items() if at - when < SAME_WITHIN
        } | {found: at}
        asked = mode == ASKING and self._question is None and found.command is Command.COUNT
        if asked and not _doubtful(found, expected_count):
            return Taken(order=found)  # the guide knows what it asked, and reads back itself
        return self._answer(found, expected_count, rows)

    def _understood(self, text: str, *, number_asked: bool) -> Order | None:
        words = _plain(text).split()
        whole = self._by_phrase.get(" ".join(words))
        if whole is not None and whole.command not in TAKES_NUMBER:
            return Order(whole.command)
        number = heard_number(words)
        if number is not None:  # a bare number answers what was asked, and only that
            if self._question is not None:
                return Order(self._question.order.command, number)
            return Order(Command.COUNT, number) if number_asked else None
        for at in range(len(words) - 1, 0, -1):
            binding = self._by_phrase.get(" ".join(words[:at]))
            if binding is None or binding.command not in TAKES_NUMBER:
                continue
            rest, unit = without_unit(words[at:], binding)
            number = heard_number(rest)
            if number is not None:
                return numbered_order(binding.command, number, unit)
        return None

    def _floor(self, command: Command) -> float:
        moves = any(each.moves for each in self._bindings if each.command is command)
        return SURE_TO_MOVE if moves else SURE

    def _is_double(self, order: Order, at: float) -> bool:
        last = self._taken.get(order)
        if last is None or at - last >= SAME_WITHIN:
            return False
        return not last < self._answered_at <= at - AFTER_TONE

    def _answer(self, order: Order, expected_count: int | None, rows: int | None) -> Taken:
        asked, self._question = self._question, None
        if asked is not None:
            if order.command is Command.YES:
                return Taken(order=asked.order)
            if order.command is Command.NO:
                return Taken(order=order)
            if order in (asked.order, asked.other):  # the number said once more, or its twin
                return Taken(order=order)
        if order.number is None:
            return Taken(order=order)
        other = _other(order, expected_count, rows)
        sure = order.command in self._asks_itself
        if order.command is Command.COUNT:
            sure = order.number == expected_count
            other = None if sure else other
        if sure and other is None:
            return Taken(order=order)
        self._question = Question(order, other)
        return Taken(ask=self._question)

    def _climb(self, at: float) -> Taken:
        """Tone alone; then what may be said; then the choices; then stay quiet."""
        self._not_understood = [t for t in self._not_understood if at - t <= LADDER_WITHIN]
        self._not_understood.append(at)
        match len(self._not_understood):
            case 1:
                return Taken(tone="not understood")
            case 2:
                return Taken(tone="not understood", say=Hint.TRY)
            case 3:
                return Taken(tone="not understood", say=Hint.CHOICES)
        return LEFT_ALONE


def _long_only(binding: Binding) -> Binding:
    """Leave out the short phrases of a command that has a longer one."""
    longer = tuple(phrase for phrase in binding.spoken if len(phrase.split()) > 1)
    return replace(binding, spoken=longer or binding.spoken)


def _doubtful(order: Order, expected_count: int | None) -> bool:
    """Return whether a number isn't the one that is due and may have been its twin.

    The ear takes some voices' "thirty" for "thirteen", so none of these is ever taken as heard.
    """
    return order.number != expected_count and twin(order.number or 0) is not None


def _other(order: Order, expected_count: int | None, rows: int | None) -> Order | None:
    """Return the same order with the number that sounds alike, when that would fit as well."""
    other = twin(order.number) if order.number is not None else None
    if other is None:
        return None
    fits = other == expected_count if order.command is Command.COUNT else _both(order, other, rows)
    return Order(order.command, other) if fits else None


def _both(order: Order, other: int, rows: int | None) -> bool:
    return rows is not None and order.number is not None and max(order.number, other) <= rows


def _plain(phrase: str) -> str:
    return " ".join(plain_words(phrase))
