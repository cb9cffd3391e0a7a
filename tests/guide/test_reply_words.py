"""Every reply and every question has words, in full and in brief; none says that a maker was wrong."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from coach.app.answers_told import TOLD_BY_STATE, answer_words
from coach.app.telling import Telling
from coach.craft.proof import Question as OpenQuestion
from coach.craft.stages import stages
from coach.guide.answer import Answer, Reply
from coach.guide.bindings import BINDINGS
from coach.guide.commands import Command, Order
from coach.guide.place import Ask, Counted, Guide, Piece, Question
from coach.wording import conversation, help_told, questions_told
from coach.wording.drift import span_told
from coach.wording.words import Words
from tests.guide.pieces import plain_cloth

PROOF = replace(plain_cloth(26, 10), questions=(OpenQuestion("Which one?", ("This.", "That.")),))
TELLING = Telling(PROOF, Piece(stages(PROOF)))
SIGNS = re.compile(r"[*\[\]{}<>_|\\/#]|\b(?:sc|dc|hdc|sts?|ch|rep|sk|rnd)\b", re.IGNORECASE)


def whole(words: Words) -> None:
    """Hold *words* to what every message is held to."""
    assert words.full.strip(), "no command meets silence"
    assert words.brief.strip()
    assert words.full.rstrip()[-1] in ".?", "the voice swallows the end of a sentence without one"
    assert not SIGNS.search(words.full), words.full
    told = words.full.lower().replace("wrong side", "")
    for blame in ("wrong", "mistake", "error", "fail", "invalid", "you should have"):
        assert blame not in told


@pytest.mark.parametrize("reply", [each for each in Reply if each is not Reply.TIME_LEFT])
def test_every_reply_has_words(reply: Reply) -> None:
    """The time left is told by the journal; its words are held below."""
    guide = Guide(stage=4, step=1, counts=(Counted(4, 28),), colors=("blue", "white"))
    if reply is Reply.ANSWER:
        guide = replace(guide, question=Question(Ask.RIP, number=3, pointer=1))
    answer = Answer(guide, reply, number=28, stage=4)

    whole(answer_words(TELLING, answer, Order(Command.WIDTH, 20, unit="cm")))
    if reply in TOLD_BY_STATE:
        whole(TELLING.state_words(guide))


@pytest.mark.parametrize("kind", list(Ask))
@pytest.mark.parametrize("pointer", [0, 1, 2])
def test_every_question_has_words_and_its_answers_too(kind: Ask, pointer: int) -> None:
    number = 0 if kind is Ask.PATTERN else 4
    question = Question(kind, number, Command.COUNT, pointer)
    guide = Guide(stage=6, counts=(Counted(4, 4),), question=question)

    whole(questions_told.question_words(question, guide, TELLING.piece, PROOF))
    assert TELLING.view(guide).sentence
    if pointer:
        whole(questions_told.answer_words(question, 26, PROOF))


@pytest.mark.parametrize("command", [each for each in Command if each is not Command.CHOOSE])
def test_every_number_that_can_be_lacking_is_asked_for(command: Command) -> None:
    for asked in questions_told.NUMBER_ASKED.values():
        whole(asked)
    assert (command in questions_told.NUMBER_ASKED) == (
        command
        in {
            Command.COUNT,
            Command.WIDTH,
            Command.RIPPED,
            Command.RIP_ROWS,
            Command.GO_TO_ROW,
            Command.REMIND,
        }
    )


def test_the_whole_help_names_every_command_with_its_key() -> None:
    every = tuple(Command)
    parts = range(1, help_told.help_parts(every) + 1)
    told = " ".join(help_told.help_words(every, part).full for part in parts)

    assert "That is all." in help_told.help_words(every, parts[-1]).full
    assert help_told.help_words(every, len(parts) + 1) == help_told.help_words(every, 1)
    for binding in BINDINGS:
        assert binding.help in told
        if binding.keys:
            assert help_told.key_name(binding.keys[0]) in told


def test_pace_and_time_left_are_told_in_whole_minutes_without_a_promise() -> None:
    """3 seconds a stitch, 1,300 stitches: 20 a minute, 65 minutes."""
    whole(conversation.time_left_words(None, 10, "on the rows that are left"))
    told = conversation.time_left_words(3.0, 1300, "on the rows that are left").full

    assert told == (
        "You make about 20 stitches a minute. "
        "About 1 hour and 5 minutes of work on the rows that are left."
    )


def test_a_span_of_rows_is_told_by_its_numbers() -> None:
    assert span_told("Row 2", "Row 9") == "Rows 2 to 9"
    assert span_told("Border round 1", "Border round 3") == "Border rounds 1 to 3"
    assert span_told("Row 9", "Border round 1") == "Row 9 to Border round 1"
