"""Questions: what is asked once before something that can't be seen to be meant.

A question never lapses with time. How it is answered stands in `answering`.
"""

from __future__ import annotations

from dataclasses import replace

from coach.guide.answer import Answer, Reply
from coach.guide.commands import Command
from coach.guide.place import Ask, Guide, Question

YES, NO = 1, 2
ENDLESS = 0  # a question for a number has no last answer

# What is offered to someone who works with one finger and four keys.
MENU: tuple[Command, ...] = (
    Command.NO,
    Command.COUNT,
    Command.PAUSE,
    Command.RIPPED,
    Command.QUIT,
)

# What is offered to someone who can't type names of their own: a page of these at a time.
COLOURS: tuple[tuple[str, ...], ...] = (
    ("white", "cream", "grey"),
    ("black", "brown", "red"),
    ("pink", "orange", "yellow"),
    ("green", "blue", "purple"),
)
MORE_COLOURS, THAT_IS_ALL = "more colours", "that is all"


def colours_offered(question: Question) -> tuple[str, ...]:
    """Return the answers of this page; the list is closed by the last, once it has a colour."""
    page = (*COLOURS[question.number % len(COLOURS)], MORE_COLOURS)
    return (*page, THAT_IS_ALL) if question.listed else page


def ask_colours(guide: Guide, page: int = 0, listed: tuple[str, ...] = ()) -> Answer:
    """Ask for the next colour of the maker's own list."""
    question = Question(Ask.COLOURS, number=page, listed=listed)
    return ask(guide, replace(question, answers=len(colours_offered(question))))


def ask(guide: Guide, question: Question, *, stage: int | None = None) -> Answer:
    """Return the state in which *question* is asked."""
    return Answer(replace(guide, question=question), Reply.ASKED, stage=stage)


def ask_number(guide: Guide, command: Command) -> Answer:
    """Ask for the number that *command* lacks."""
    return ask(guide, Question(Ask.NUMBER, command=command, answers=ENDLESS))


def ask_menu(guide: Guide) -> Answer:
    """Offer what else can be done; the first answer is to go on as before."""
    return ask(guide, Question(Ask.MENU, answers=len(MENU)))
