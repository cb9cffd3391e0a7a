"""Whatever comes in, a sentence comes out: never a broken machine, never an endless sum."""

from __future__ import annotations

import contextlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.app.proving import proof_json, prove_text
from coach.notation.unreadable import UnreadableError

WORDS = st.sampled_from(
    [
        "Row",
        "Rnd",
        "1",
        "2",
        "3",
        "12",
        ":",
        ".",
        ",",
        ";",
        "(",
        ")",
        "[",
        "]",
        "*",
        "**",
        "rep",
        "from",
        "across",
        "around",
        "more",
        "times",
        "twice",
        "sc",
        "dc",
        "hdc",
        "tr",
        "inc",
        "dec",
        "sc2tog",
        "ch",
        "sk",
        "st",
        "sts",
        "next",
        "each",
        "in",
        "last",
        "first",
        "to",
        "sp",
        "ch-2",
        "2-ch",
        "shell",
        "V-st",
        "turn",
        "join",
        "ring",
        "hook",
        "4th",
        "tch",
        "top",
        "of",
        "counts",
        "as",
        "and",
        "x",
        "=",
        "–",
        "BLO",
        "FPdc",
        "around",
        "miss",
        "htr",
        "same",
        "place",
        "corner",
        "until",
        "end",
        "rows",
        "skipped",
        "with",
        "A",
        "change",
        "free",
        "loops",
        "of",
        "foundation",
        "other",
        "side",
        "picot",
        "leave",
        "unworked",
        "0",
        "1000000000",
        "begin",
    ]
)


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.lists(WORDS, min_size=1, max_size=40))
def test_token_soup_is_read_or_refused(words: list[str]) -> None:
    proof_json(prove_text("Ch 20.\nRow 1: " + " ".join(words)))


@settings(max_examples=80, deadline=None, derandomize=True)
@given(st.text(min_size=1, max_size=200))
def test_any_text_is_read_or_refused(text: str) -> None:
    with contextlib.suppress(UnreadableError):
        proof_json(prove_text(text))


@pytest.mark.parametrize("text", ["", " \n\t ", "\0\1\2", "sc " * 600_000, "x" * 70_000])
def test_what_can_be_no_pattern_is_refused_with_a_remedy(text: str) -> None:
    with pytest.raises(UnreadableError) as refused:
        prove_text(text)
    assert refused.value.remedy


@pytest.mark.parametrize(
    "row",
    [
        "Ch 1, [sc in next st] 1000000000 times.",
        "Ch 1, " + "[" * 200 + "sc in next st" + "] twice" * 200 + ".",
        "Ch 1, *sc in next st; rep from * 1000000000 more times.",
        "(" * 5000,
        "* " * 5000,
    ],
)
def test_hostile_rows_are_faults_with_a_place(row: str) -> None:
    proof = prove_text(
        f"Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: {row}\n"
    )
    assert proof.problems
    assert proof.problems[0].place.line == 3
