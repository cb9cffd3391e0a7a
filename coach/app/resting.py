"""The rest reminder: off until asked for, at the end of a block, once, and never a nag."""

from __future__ import annotations

from dataclasses import replace

from coach.guide.answer import Answer, Reply
from coach.guide.place import Guide, Mode, Piece
from coach.wording import replies
from coach.wording.conversation import done_told
from coach.wording.words import Words


class Rests:
    """Knows since when a maker has been at work. All times are seconds."""

    def __init__(self, now: float) -> None:
        self._since = now

    def offered(
        self, before: Guide, answer: Answer, piece: Piece, now: float
    ) -> tuple[Answer, Words | None]:
        """Return *answer*, or in its place a pause with the words that offer a rest.

        The block just done stays done: what is told after the rest is the one after it.
        """
        minutes = answer.guide.manner.rest_minutes
        if answer.reply in {Reply.CARRIED_ON, Reply.REMIND}:
            self._since = now
        due = minutes and now - self._since >= 60 * minutes
        goes_on = (answer.guide.stage, answer.guide.step) > (before.stage, before.step)
        if not due or answer.reply is not Reply.STEP or not goes_on:
            return answer, None
        self._since = now
        words = replies.rest_reminder(minutes, done_told(piece, before))
        return Answer(replace(answer.guide, mode=Mode.PAUSED), Reply.PAUSED), words
