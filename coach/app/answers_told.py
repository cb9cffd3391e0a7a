"""The words of what was just answered, from what the guide found and the piece as it stands."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from coach.app.telling import Telling, together
from coach.craft.drift import diagnose
from coach.craft.drift_causes import FOUNDATION
from coach.craft.width import check_width, unit_of
from coach.guide import answering
from coach.guide.answer import Answer, Given, Reply
from coach.guide.commands import Command, Order
from coach.guide.counting import measured_width
from coach.guide.machine import MOVES
from coach.wording import conversation, help_told, questions_told
from coach.wording import drift as drift_words
from coach.wording.answers import how_many_words, left_words
from coach.wording.explaining import explain_step
from coach.wording.looking import seen_words, side_test
from coach.wording.whereabouts import more_where_words, where_words
from coach.wording.words import Words

# After these the present state is shown anew, with the reply as a notice before it.
TOLD_WITH_STATE = frozenset(
    {
        Reply.UNDONE,
        Reply.CARRIED_ON,
        Reply.RIPPED,
        Reply.JUMPED,
        Reply.PACE,
        Reply.TERMS,
        Reply.HAND,
        Reply.GENTLE,
        Reply.GENTLE_ENDS,
        Reply.LEFT_AS_IT_WAS,
        Reply.SETTLED,
        Reply.LONGER,
        Reply.LONG_ENOUGH,
    }
)
# After these it is shown anew because a sign has changed, but only the reply is said.
SHOWN_ONLY = frozenset({Reply.QUIET_TIME, Reply.AWAKE, Reply.MICROPHONE_ON, Reply.MICROPHONE_OFF})
# After these the present state is shown and nothing else is told.
TOLD_BY_STATE = frozenset({Reply.STEP, Reply.ASKED, Reply.PAUSED, Reply.FINISHED})


def answer_words(telling: Telling, answer: Answer, order: Order) -> Words:
    """Return the words of a reply. Steps and questions are told as they stand."""
    if answer.guide.manner.gentle and answer.reply in {Reply.JUMPED, Reply.RIPPED}:
        return conversation.FRESH_START
    plain = conversation.reply_words(answer, telling.piece)
    if plain is not None:
        return plain
    about = _ABOUT.get(answer.reply)
    if about is not None:
        return about(telling, answer, order)
    return telling.state_words(answer.guide)


def _where(telling: Telling, answer: Answer, order: Order) -> Words:
    return where_words(telling.piece.stage(answer.guide), telling.piece.step(answer.guide))


def _where_more(telling: Telling, answer: Answer, order: Order) -> Words:
    """What the place had no room for; where nothing was left out, what is left of the work."""
    stage, step = telling.piece.stage(answer.guide), telling.piece.step(answer.guide)
    return more_where_words(stage, step) or _left(telling, answer, order)


def _how_many(telling: Telling, answer: Answer, order: Order) -> Words:
    guide = answer.guide
    stage, step = telling.piece.stage(guide), telling.piece.step(guide)
    return how_many_words(stage, step, guide.manner.terms)


def _left(telling: Telling, answer: Answer, order: Order) -> Words:
    piece, guide = telling.piece, answer.guide
    following = piece.stages[guide.stage + 1 : guide.stage + 2]
    return left_words(piece.stage(guide), piece.step(guide), following[0] if following else None)


def _explain(telling: Telling, answer: Answer, order: Order) -> Words:
    """The first time the step in short movements begins; each time more the next movement."""
    guide, piece = answer.guide, telling.piece
    stage, step = piece.stage(guide), piece.step(guide)
    told = explain_step(stage, step, guide.manner.terms, telling.proof.special_stitches)
    if not told:
        return telling.step_words(guide)
    if len(told) > 1:  # the stitch's name alone explains nothing: the first movement goes with it
        told = (together(told[0], told[1]), *told[2:])
    return told[answer.number % len(told)]


def _see(telling: Telling, answer: Answer, order: Order) -> Words:
    """What stands there now; at a row's end also which side faces, by the starting tail."""
    guide, manner = answer.guide, answer.guide.manner
    stage, step = telling.piece.stage(guide), telling.piece.step(guide)
    seen = seen_words(stage, step, manner.terms, manner.hand)
    test = side_test(stage, manner.hand) if step.closes_stage and stage.side else ""
    return Words(f"{seen.full} {test}", seen.brief) if test else seen


def _again(telling: Telling, answer: Answer, order: Order) -> Words:
    return telling.step_words(answer.guide)


def _help(telling: Telling, answer: Answer, order: Order) -> Words:
    moves = MOVES[answer.guide.now]
    return help_told.help_words(tuple(moves), answer.number)


def _count_right(telling: Telling, answer: Answer, order: Order) -> Words:
    return drift_words.right(telling.piece.stages[answer.stage or 0], answer.number)


def _count_kept(telling: Telling, answer: Answer, order: Order) -> Words:
    return drift_words.kept(telling.piece.stages[answer.stage or 0], answer.number)


def _count_within(telling: Telling, answer: Answer, order: Order) -> Words:
    guide = answer.guide
    stage, step = telling.piece.stage(guide), telling.piece.step(guide)
    return drift_words.within(stage, step, answer.number)


def _count_off(telling: Telling, answer: Answer, order: Order) -> Words:
    stage = answer.stage or 0
    row = telling.row_index(stage)
    counts = telling.counts(answer.guide)
    proof = telling.proof
    if row is None:  # the foundation, of this part or of another
        proof = replace(proof, foundation=telling.piece.stages[stage].foundation)
    found = diagnose(proof, FOUNDATION if row is None else row, answer.number, counts)
    return drift_words.diagnosis(found, answer.guide.manner.terms)


def _width(telling: Telling, answer: Answer, order: Order) -> Words:
    gauge = telling.proof.gauge
    unit = order.unit or unit_of(gauge)
    guide, piece = answer.guide, telling.piece
    told = replace(measured_width(Given(guide, order, piece)), unit=unit)
    first = replace(guide.width, unit=guide.width.unit or unit) if guide.width else None
    if first == told:  # only just told: there is nothing yet to compare it with
        first = None
    return drift_words.width(check_width(told, gauge, first))


def _answer(telling: Telling, answer: Answer, order: Order) -> Words:
    guide = answer.guide
    question = guide.question
    if question is None:
        return telling.state_words(guide)
    given = Given(guide, Order(Command.NEXT), telling.piece)
    number = answering.answer_number(given, question)
    return questions_told.answer_words(question, number, telling.proof)


_ABOUT: Mapping[Reply, Callable[[Telling, Answer, Order], Words]] = {
    Reply.AGAIN: _again,
    Reply.WHERE: _where,
    Reply.WHERE_MORE: _where_more,
    Reply.HOW_MANY: _how_many,
    Reply.LEFT: _left,
    Reply.EXPLAIN: _explain,
    Reply.SEE: _see,
    Reply.HELP_IN_FULL: _help,
    Reply.COUNT_RIGHT: _count_right,
    Reply.COUNT_KEPT: _count_kept,
    Reply.COUNT_WITHIN: _count_within,
    Reply.COUNT_OFF: _count_off,
    Reply.WIDTH: _width,
    Reply.ANSWER: _answer,
}
