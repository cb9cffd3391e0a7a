"""Everything the coach says of its own is short to hear: twelve words a sentence at most.

Also the words that stand ready before any pattern: replies, cautions, care symbols, help, and how
each stitch is made by touch.
"""

from __future__ import annotations

import importlib
import pkgutil
import re
from collections.abc import Iterable, Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from coach import wording
from coach.app.proving import prove_text
from coach.craft.finishing import Fibre, Task
from coach.craft.problem import NotInWords
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.guide.commands import Command
from coach.wording import before_the_start, conversation, help_told, replies
from coach.wording.answers import how_many_words, left_words, resume_words
from coach.wording.by_touch import made
from coach.wording.finishing_words import CARE_SYMBOLS, CAUTIONS, usual_told
from coach.wording.looking import edges_told, seen_words, side_test
from coach.wording.movements import BEGINNINGS, MOVEMENTS
from coach.wording.whereabouts import more_where_words, where_words
from coach.wording.words import Words
from tests.a11y.works import PATTERNS

MOST_WORDS = 12
STITCHES = (
    *MOVEMENTS,
    *("sc", "hdc", "dc", "tr", "dtr", "trtr", "FPdc", "BPtr", "sc2tog", "dc3tog", "FPdc2tog"),
    *("fsc", "fdc", "edc", "rsc", "ldc", "xdc", "long dc", "spike sc", "half shell", "beg dc"),
    *("5-dc shell", "3-dc cl", "5-dc popcorn", "bobble", "mb", "puff3tog", "crossed dc", "inv dec"),
)


def too_long(texts: Iterable[str]) -> list[str]:
    sentences = {each for text in texts for each in re.split(r"(?<=[.?!]) ", text)}
    return sorted(each for each in sentences if len(each.split()) > MOST_WORDS)


def standing_words() -> Iterator[str]:
    """Every utterance that stands written in a module, alone or in a table."""
    for found in pkgutil.iter_modules(wording.__path__):
        for value in vars(importlib.import_module(f"coach.wording.{found.name}")).values():
            held = value.values() if isinstance(value, dict) else value
            several = held if isinstance(value, dict | tuple) else (value,)
            yield from (each.full for each in several if isinstance(each, Words))


def test_every_utterance_that_stands_written_is_short() -> None:
    told = list(standing_words())

    assert len(told) > 60
    assert too_long(told) == []


def test_finishing_and_cautions_are_short() -> None:
    usual = [each for task in Task for fibre in Fibre for each in usual_told(task, fibre)]

    assert too_long([*usual, *CAUTIONS.values(), *CARE_SYMBOLS]) == []


@pytest.mark.parametrize("loop", [None, "back", "front", "third"])
def test_every_movement_of_every_stitch_is_short(loop: str | None) -> None:
    told = [each for stitch in STITCHES for each in made(stitch, "US", loop)]
    begun = [each for several in BEGINNINGS.values() for each in several]

    assert len(told) > 150
    assert too_long([*told, *begun]) == []


def test_help_in_full_is_short() -> None:
    every = tuple(Command)
    parts = range(1, help_told.help_parts(every) + 1)

    assert too_long(help_told.help_words(every, part).full for part in parts) == []


def test_what_is_told_before_the_first_stitch_is_short() -> None:
    faulty = ["Body Round 4", "Body Round 9", "Sleeves Row 2", "Sleeves Row 7", "Hood Row 3"]
    pictures = [NotInWords(4, "see chart", "picture"), NotInWords(9, "as shown", "picture")]
    (stage, *_) = stages(
        prove_text("MAT\n\nCh 13.\nRow 1: Sc in 2nd ch from hook, sc across. (12)")
    )

    assert (
        too_long(
            each.full
            for each in (
                before_the_start.faults_found(faulty),
                before_the_start.faults_found(faulty[:1]),
                before_the_start.rows_without_words(["Body Round 4", "Body Round 9"]),
                before_the_start.not_in_words(pictures),
                conversation.length_words(Fraction(12), 24, stage),
                conversation.check_offered(20),
                conversation.time_left_words(3.0, 4_000, "in this row"),
                replies.confirm_rip_back("Border Round 11", "240 stitches and 12 spaces"),
                replies.rest_reminder(40, "Border Round 11, block 12 of 15"),
            )
        )
        == []
    )


BUILT_IN = [path for path in PATTERNS if path.parent.name == "patterns"]


@pytest.mark.parametrize("path", BUILT_IN, ids=lambda path: path.stem)
def test_every_answer_at_every_place_is_short(path: Path) -> None:
    proof = prove_text(path.read_text(encoding="utf-8"))
    terms = proof.terms or "US"
    whole = list(stages(proof))
    told = [
        words.full
        for stage, following in zip(whole, [*whole[1:], None], strict=True)
        if stage.finish is None or stage.finish.usual  # else the designer's own words
        for step in steps(stage)
        for words in (
            where_words(stage, step),
            more_where_words(stage, step) or where_words(stage, step),
            how_many_words(stage, step, terms),
            left_words(stage, step, following),
            resume_words("Pebble Cloth", stage, step, terms),
            seen_words(stage, step, terms),
            Words(side_test(stage), ""),
            Words(edges_told(stage, terms), ""),
        )
    ]

    assert len(told) > 60
    assert too_long(told) == []


def test_no_utterance_that_stands_written_is_one_word() -> None:
    assert [each for each in standing_words() if len(each.split()) < 2] == []
