"""Whatever comes in, a sentence comes out: never a broken machine, never an endless sum."""

from __future__ import annotations

import contextlib
from pathlib import Path

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


HEADERS = st.sampled_from(
    [
        "\nRow 2:", "\nRnds 3-5 (6, 7):", "\nR2, R4 and R6:", "\n2nd and 3rd rows form pattern.", "\nBORDER\n",
        "\nSOLE–", "Continue in pattern for 3 rows.", "Alternate Rows 1 and 2.", "Size L only:", "\nErratum: Row 1:",
        "should be 5, not 6.", "change 2 to 3.", "(now 28 sts)", "→ 28", "<28>", "\n**Row 3:**", "every even row through Row 8:",
        "until piece measures 10 cm", "Work 5 rounds even.", "repeat row two", "\n1.", "\n2)", "shell = (dc, ch 1, dc) in same st",
    ]
)  # fmt: skip


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


PATTERNS = sorted(
    (Path(__file__).parent / "independent" / "patterns").glob("[!f]*.txt"),
    key=lambda path: path.name,
)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.data())
def test_a_changed_pattern_is_read_or_refused(data: st.DataObject) -> None:
    """Our own patterns with a stretch cut, doubled, or put in another place."""
    text = data.draw(st.sampled_from(PATTERNS)).read_text(encoding="utf-8")
    start = data.draw(st.integers(0, len(text) - 1))
    length = data.draw(st.integers(1, 60))
    stretch = text[start : start + length]
    rest = text[:start] + text[start + length :]
    at = data.draw(st.integers(0, len(rest)))
    times = data.draw(st.integers(0, 2))
    with contextlib.suppress(UnreadableError):
        proof_json(prove_text(rest[:at] + stretch * times + rest[at:]))


@settings(max_examples=80, deadline=None, derandomize=True)
@given(st.binary(min_size=1, max_size=120))
def test_raw_bytes_are_read_or_refused(raw: bytes) -> None:
    with contextlib.suppress(UnreadableError):
        proof_json(prove_text("Row 1: sc in next st. " + raw.decode("latin-1")))


@settings(max_examples=80, deadline=None, derandomize=True)
@given(st.lists(st.one_of(WORDS, HEADERS), min_size=1, max_size=30))
def test_header_soup_is_read_or_refused(words: list[str]) -> None:
    with contextlib.suppress(UnreadableError):
        proof_json(prove_text("Sizes: S (M, L)\nCh 20 (22, 24).\n" + " ".join(words)))


@pytest.mark.parametrize(
    "text", ["Ri", "w:i0 sc", "R²: sc", "Row ٣: sc in next st", "Rows 5-2: sc", "Row 0:"]
)
def test_what_fuzzing_found_is_read_or_refused(text: str) -> None:
    with contextlib.suppress(UnreadableError):
        proof_json(prove_text(text))
