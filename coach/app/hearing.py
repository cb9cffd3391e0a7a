"""From a heard phrase to an order: what the dialogue makes of it in the present state.

The numbers of offered answers are taken at once; a count that isn't the one that is due is
read back first. It does nothing itself.
"""

from __future__ import annotations

from dataclasses import dataclass

from coach.guide.bindings import BINDINGS
from coach.guide.commands import Command, Order
from coach.guide.counting import expected
from coach.guide.dialogue import RESTING, SURE_TO_MOVE, Dialogue
from coach.guide.place import Ask, Guide, Piece
from coach.guide.spoken_numbers import heard_number
from coach.ports import Heard
from coach.wording.heard import hint_words, question_words
from coach.wording.words import Words


@dataclass(frozen=True, slots=True)
class Understood:
    """What a phrase came to: an order, words to say, a tone; nothing for what is left alone."""

    order: Order | None = None
    words: Words | None = None
    tone: str | None = None


class Hearing:
    """Takes phrases one by one, as the dialogue needs. long_words: no phrase of one word."""

    def __init__(self, *, long_words: bool = False) -> None:
        self._dialogue = Dialogue(BINDINGS, long_only=long_words)

    def phrases(self, guide: Guide, piece: Piece) -> tuple[str, ...]:
        """Return the closed list of phrases for the ear in this state."""
        asked = guide.question is not None or expected(guide, piece) is not None
        return self._dialogue.phrases(mode_of(guide), number_asked=asked)

    def put_aside(self) -> None:
        """The maker has gone on by key or line: a number that was read back is no longer asked."""
        self._dialogue.put_aside()

    def answered(self, at: float) -> None:
        """Note that the answer to the last order was shown and its tone sounded."""
        self._dialogue.answered(at)

    def take(self, heard: Heard, at: float, guide: Guide, piece: Piece, rows: int) -> Understood:
        """Return what *heard* comes to at time *at*. rows: how many the pattern has."""
        answer = self._answer_number(heard, guide)
        if answer is not None:
            sure = heard.confidence >= SURE_TO_MOVE
            return Understood(order=Order(Command.CHOOSE, answer)) if sure else Understood()
        due = expected(guide, piece)
        if due is None and guide.question is not None and guide.question.kind is Ask.NUMBER:
            due = 0
        taken = self._dialogue.take(
            heard.text,
            heard.confidence,
            at,
            mode=mode_of(guide),
            expected_count=due,
            rows=rows,
        )
        words = question_words(taken.ask) if taken.ask is not None else None
        if taken.say is not None:
            words = hint_words(taken.say)
        return Understood(taken.order, words, taken.tone)

    @staticmethod
    def _answer_number(heard: Heard, guide: Guide) -> int | None:
        """Return the number of an offered answer, if that is what was said."""
        question = guide.question
        if question is None or not question.answers or guide.resting:
            return None
        number = heard_number(heard.text)
        return number if number is not None and 1 <= number <= question.answers else None


def mode_of(guide: Guide) -> str:
    """Return the mode as the ear knows it."""
    return RESTING if guide.resting else guide.now.value
