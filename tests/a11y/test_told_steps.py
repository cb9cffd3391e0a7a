"""What is told needs no memory and no sums: short sentences, no back-reference, never one word."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coach.app.proving import prove_text
from coach.craft.stage import Stage
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.craft.steps import Pace, Step
from coach.craft.working import Action
from coach.wording.plain_text import say, sentence
from coach.wording.telling import words_for_step
from coach.wording.whereabouts import more_where_words, where_words
from tests.a11y.works import PATTERNS, ROOT, views_of

INDEPENDENT = sorted((ROOT / "tests" / "notation" / "independent" / "patterns").glob("*.txt"))
TOLD = [*PATTERNS, *INDEPENDENT]
MEMORY = re.compile(r"\b(repeat from|rep from|as row|as round|as before|work even)\b|\*", re.I)
MOST_WORDS = 12
MOST_TO_SAY_WHERE = 25


def sentences(text: str) -> list[str]:
    """A colon or a semicolon ends no sentence: words are counted from full stop to full stop."""
    return [each for each in re.split(r"(?<=[.?!]) ", text) if each]


def designers_own(stage: Stage, step: Step, terms: str) -> set[str]:
    """What the coach says in the designer's own words, and so as long as they wrote it."""
    own = {
        said
        for action in (*step.before, *step.after, *(step.work or ()))
        if isinstance(action, Action)
        for said in sentences(sentence(say(action.text, terms)))
    }
    if stage.finish is not None and not stage.finish.usual:
        own.update(sentences(words_for_step(stage, step, terms).full))
    return own


@pytest.mark.parametrize("path", TOLD, ids=lambda path: path.stem)
def test_no_told_step_leans_on_memory(path: Path) -> None:
    for view in views_of(path):
        own_words = re.sub(r"worked as R\w+ [\w ]+", "", view.sentence)
        assert not MEMORY.search(own_words), view.sentence


@pytest.mark.parametrize("path", TOLD, ids=lambda path: path.stem)
def test_no_utterance_is_one_word(path: Path) -> None:
    assert [view.sentence for view in views_of(path) if len(view.sentence.split()) < 2] == []


@pytest.mark.parametrize("path", TOLD, ids=lambda path: path.stem)
@pytest.mark.parametrize("pace", [Pace.BLOCK, Pace.ROW])
def test_every_sentence_of_the_coach_s_own_has_twelve_words_at_most(path: Path, pace: Pace) -> None:
    proof = prove_text(path.read_text(encoding="utf-8"))
    terms = proof.terms or "US"
    told = {
        each
        for stage in stages(proof)
        for step in steps(stage, pace)
        for each in sentences(words_for_step(stage, step, terms).full)
        if each not in designers_own(stage, step, terms)
    }

    assert [each for each in told if len(each.split()) > MOST_WORDS] == []
    assert len(told) > 10


@pytest.mark.parametrize("path", TOLD, ids=lambda path: path.stem)
def test_where_am_i_has_twenty_five_words_at_most_at_every_place(path: Path) -> None:
    proof = prove_text(path.read_text(encoding="utf-8"))
    told = {
        words.full
        for stage in stages(proof)
        for step in steps(stage)
        for words in (where_words(stage, step), more_where_words(stage, step))
        if words is not None
    }

    assert [each for each in told if len(each.split()) > MOST_TO_SAY_WHERE] == []
    assert len(told) > 10
