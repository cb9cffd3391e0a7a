"""How a session begins: where the maker was, at a row asked for, or at the start.

An edited pattern is never taken up silently: the row that is the same is found, and asked about.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from coach.app import keeping
from coach.app.answers_told import answer_words
from coach.app.telling import Telling
from coach.guide.commands import Command, Order
from coach.guide.machine import take
from coach.guide.manner import Manner
from coach.guide.place import Ask, Guide, Mode, Question, at_pace
from coach.wording import replies
from coach.wording.words import Words


@dataclass(frozen=True, slots=True)
class TakenUp:
    """The first state and what is told of it. says_next: the words tell the next step already."""

    guide: Guide
    words: Words
    says_next: bool = False


def resumed(kept: keeping.Kept, telling: Telling, manner: Manner) -> TakenUp | None:
    """Return the state to go on from; None where the place isn't in this piece."""
    guide, piece = kept.guide, telling.piece
    if not keeping.fits(guide, piece):
        return None
    step = at_pace(piece, guide, manner.pace)
    mode = Mode.FINISHED if guide.mode is Mode.FINISHED else Mode.WORKING
    guide = replace(guide, manner=manner, step=step, mode=mode, resting=False)
    return TakenUp(guide, telling.resume_words(guide), says_next=True)


def resumed_edited(kept: keeping.Kept, telling: Telling, manner: Manner) -> TakenUp:
    """Return the state in which it is asked where to go on in a pattern that was changed."""
    piece = telling.piece
    stage = keeping.found_again(kept, piece)
    step = kept.guide.step
    if stage is None:
        stage, step = keeping.same_name(kept, piece) or 0, 0
    guide = replace(
        kept.guide,
        stage=stage,
        step=step,
        mode=Mode.WORKING,
        resting=False,
        counts=(),
        longer=(),
    )
    if not keeping.fits(guide, piece):
        guide = replace(guide, step=0)
    guide = replace(guide, step=at_pace(piece, guide, manner.pace), manner=manner)
    question = Question(Ask.EDITED, number=stage)
    return TakenUp(replace(guide, question=question), replies.resumed(telling.proof.title))


def at_row(number: int, before: Guide, telling: Telling) -> TakenUp:
    """Return the state at the start of row *number*, with the count to check first."""
    order = Order(Command.GO_TO_ROW, number)
    answer = take(before, order, telling.piece)
    if answer.guide.question is not None:  # it was asked for on starting: no need to ask again
        answer = take(answer.guide, Order(Command.YES), telling.piece)
    return TakenUp(answer.guide, answer_words(telling, answer, order))


def open_question(guide: Guide, telling: Telling) -> Guide:
    """Return *guide* with the first question that the pattern leaves open, if there is one left."""
    settled = {question for question, _ in guide.answers}
    for at, question in enumerate(telling.proof.questions):
        if question.what not in settled and question.choices:
            answers = len(question.choices)
            asked = Question(Ask.PATTERN, number=at, answers=answers, about=question.what)
            return replace(guide, question=asked)
    return guide


def fresh(telling: Telling, manner: Manner) -> TakenUp:
    """Return the state at the very beginning."""
    return TakenUp(Guide(manner=manner), replies.began(telling.proof.title))
