"""What is told needs no memory and no sums: short sentences, no back-reference, never one word."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coach.app.proving import prove_text
from coach.craft.stages import stages, steps
from coach.wording.telling import words_for_step
from coach.wording.whereabouts import more_where_words, where_words
from tests.a11y.works import PATTERNS, ROOT, views_of

INDEPENDENT = sorted((ROOT / "tests" / "notation" / "independent" / "patterns").glob("*.txt"))
TOLD = [*PATTERNS, *INDEPENDENT]
MEMORY = re.compile(r"\b(repeat from|rep from|as row|as round|as before|work even)\b|\*", re.I)
MOST_WORDS = 12
MOST_TO_SAY_WHERE = 25


def sentences(text: str) -> list[str]:
    return [each for each in re.split(r"(?<=[.?!:;]) ", text) if each]


@pytest.mark.parametrize("path", TOLD, ids=lambda path: path.stem)
def test_no_told_step_leans_on_memory(path: Path) -> None:
    for view in views_of(path):
        own_words = re.sub(r"worked as R\w+ [\w ]+", "", view.sentence)
        assert not MEMORY.search(own_words), view.sentence


@pytest.mark.parametrize("path", TOLD, ids=lambda path: path.stem)
def test_no_utterance_is_one_word(path: Path) -> None:
    assert [view.sentence for view in views_of(path) if len(view.sentence.split()) < 2] == []


@pytest.mark.parametrize("path", TOLD, ids=lambda path: path.stem)
def test_every_sentence_of_the_coach_s_own_has_twelve_words_at_most(path: Path) -> None:
    proof = prove_text(path.read_text(encoding="utf-8"))
    told = {
        each
        for stage in stages(proof)
        if stage.finish is None or stage.finish.usual  # else the designer's own words
        for step in steps(stage)
        for each in sentences(words_for_step(stage, step, proof.terms or "US").full)
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
