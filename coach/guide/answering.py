"""How a question is answered: by yes, no, a number, or by walking to an answer with two keys.

Any other command that means something else puts the question aside, and nothing is changed by
that.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from coach.guide import counting, moves, moves_by_rows
from coach.guide.answer import Answer, Given, Reply
from coach.guide.commands import Command, Order
from coach.guide.place import Ask, Guide, Mode, Question
from coach.guide.questions import (
    MENU,
    MORE_COLOURS,
    NO,
    THAT_IS_ALL,
    YES,
    ask_colours,
    ask_number,
    colours_offered,
)


def yes(given: Given) -> Answer:
    """Do what was asked about."""
    question = _question(given)
    if question.kind in {Ask.NUMBER, Ask.PATTERN, Ask.MENU, Ask.COLOURS}:
        return Answer(given.guide, Reply.ASKED)
    return _settle(given, question)


def no(given: Given) -> Answer:
    """Leave everything as it was."""
    question = _question(given)
    guide = replace(given.guide, question=None)
    if question.kind is Ask.EDITED:
        return Answer(replace(guide, stage=0, step=0, mode=Mode.WORKING, counts=()), Reply.STEP)
    return Answer(guide, Reply.LEFT_AS_IT_WAS)


def not_asked(given: Given) -> Answer:
    """Take the question back, as if it had not been asked; one that must be answered stays."""
    if _question(given).kind is Ask.EDITED:
        return Answer(given.guide, Reply.ASKED)
    return Answer(replace(given.guide, question=None), Reply.LEFT_AS_IT_WAS)


def choose(given: Given) -> Answer:
    """Take the answer with the number given."""
    question, chosen = _question(given), given.order.number
    if chosen is None or chosen < 1:
        return Answer(given.guide, Reply.ASKED)
    if question.kind is Ask.NUMBER:
        return number(given)
    if chosen > question.answers:
        return Answer(given.guide, Reply.ASKED)
    listed = _LISTED.get(question.kind)
    if listed is not None:
        return listed(given, question, chosen)
    return yes(given) if chosen == YES else no(given)


def number(given: Given) -> Answer:
    """Take a number: what was asked for, the number of an answer, or a count after all."""
    question, told = _question(given), given.order.number
    if question.kind is Ask.NUMBER and question.command is not None:
        if told is None:
            return Answer(given.guide, Reply.ASKED)
        return _again(given, Order(question.command, told))
    if question.kind in {Ask.PATTERN, Ask.MENU, Ask.COLOURS}:
        return choose(given)
    if told is None or told in {YES, NO}:  # no row has only one or two stitches to be counted
        return choose(given)
    return _again(given, given.order)


def next_answer(given: Given) -> Answer:
    """Name the next answer."""
    question = _question(given)
    pointer = question.pointer + 1
    if question.answers and pointer > question.answers:
        pointer = 1
    return _pointed(given, pointer)


def last_answer(given: Given) -> Answer:
    """Name the answer before."""
    question = _question(given)
    return _pointed(given, question.pointer - 1 if question.pointer > 1 else question.answers or 1)


def take_answer(given: Given) -> Answer:
    """Take the answer that was named last; before one was named, tell the place as ever."""
    question = _question(given)
    if question.pointer == 0:
        return Answer(given.guide, Reply.WHERE)
    if question.kind is Ask.NUMBER and question.command is not None:
        return _again(given, Order(question.command, answer_number(given, question)))
    return choose(replace(given, order=Order(Command.CHOOSE, question.pointer)))


def answer_number(given: Given, question: Question) -> int:
    """Return the number that answer *pointer* of a question for a number stands for.

    A count is offered from the right one outwards, a row backwards from the present one.
    """
    at = question.pointer
    if question.command is Command.COUNT:
        due = counting.expected(given.guide, given.piece) or 0
        away = at // 2
        return max(0, due - away if at % 2 == 0 else due + away)
    if question.command in {Command.RIPPED, Command.GO_TO_ROW}:
        row = given.piece.stage(given.guide).row
        present = row.number if row is not None and row.number is not None else 1
        return max(0, present - at)
    if question.command is Command.REMIND:
        return 10 * at
    return at


def _question(given: Given) -> Question:
    question = given.guide.question
    if question is None:
        raise ValueError("nothing is being asked")
    return question


def _pointed(given: Given, pointer: int) -> Answer:
    question = replace(_question(given), pointer=pointer)
    return Answer(replace(given.guide, question=question), Reply.ANSWER, number=pointer)


def _again(given: Given, order: Order) -> Answer:
    """Give *order*, now that it has its number, as if nothing had been asked."""
    guide = replace(given.guide, question=None)
    act = _WITH_NUMBER.get(order.command)
    if act is None:
        return Answer(guide, Reply.NOT_NOW)
    return act(replace(given, guide=guide, order=order))


_WITH_NUMBER: Mapping[Command, Callable[[Given], Answer]] = {
    Command.COUNT: counting.count,
    Command.WIDTH: counting.width,
    Command.RIPPED: moves_by_rows.ripped,
    Command.RIP_ROWS: moves_by_rows.rip_rows,
    Command.GO_TO_ROW: moves_by_rows.go_to_row,
    Command.REMIND: moves.remind,
}


def _settle(given: Given, question: Question) -> Answer:
    guide = replace(given.guide, question=None)
    if question.kind is Ask.RIP:
        return _ripped(guide, question.number)
    if question.kind is Ask.JUMP:
        return moves_by_rows.jumped(guide, question.number)
    if question.kind is Ask.KEEP:
        return moves.forward(replace(given, guide=counting.keep(guide, given.piece)))
    if question.kind is Ask.EDITED:
        return Answer(guide, Reply.STEP)
    if question.kind is Ask.MICROPHONE:
        return moves.microphone(replace(given, guide=guide, by_voice=False))
    return moves.leave(replace(given, by_voice=False))


def _ripped(guide: Guide, place: int) -> Answer:
    """Set the place to the start of stage *place*; what was counted later no longer stands."""
    counts = tuple(each for each in guide.counts if each.stage < place)
    mode = Mode.WORKING if guide.mode is Mode.FINISHED else guide.mode
    back = replace(
        guide, stage=place, step=0, mode=mode, counts=counts, began=min(guide.began, place)
    )
    return Answer(back, Reply.RIPPED, stage=place)


def _pattern_settled(given: Given, question: Question, chosen: int) -> Answer:
    guide = given.guide
    answers = tuple(each for each in guide.answers if each[0] != question.about)
    settled = replace(guide, question=None, answers=(*answers, (question.about, chosen)))
    return Answer(settled, Reply.SETTLED, number=question.number)


def _colour_chosen(given: Given, question: Question, chosen: int) -> Answer:
    """Add a colour to the list, show more of them, or keep the list as it is."""
    guide = given.guide
    told, page, listed = colours_offered(question)[chosen - 1], question.number, question.listed
    if told == MORE_COLOURS:
        return ask_colours(guide, page + 1, listed)
    if told == THAT_IS_ALL:
        return Answer(replace(guide, question=None, colors=listed), Reply.COLOURS)
    return ask_colours(guide, page, (*listed, told))


def _chosen_of_menu(given: Given, question: Question, chosen: int) -> Answer:
    command = MENU[chosen - 1]
    guide = replace(given.guide, question=None)
    if command is Command.NO:
        return Answer(guide, Reply.LEFT_AS_IT_WAS)
    ordered = replace(given, guide=guide, order=Order(command))
    if command is Command.PAUSE:
        return moves.pause(ordered) if guide.mode is Mode.WORKING else Answer(guide, Reply.NOT_NOW)
    if command is Command.QUIT:
        return moves.leave(replace(ordered, by_voice=False))
    return ask_number(guide, command)


# Questions whose answers stand numbered beside them.
_LISTED: Mapping[Ask, Callable[[Given, Question, int], Answer]] = {
    Ask.PATTERN: _pattern_settled,
    Ask.MENU: _chosen_of_menu,
    Ask.COLOURS: _colour_chosen,
}
