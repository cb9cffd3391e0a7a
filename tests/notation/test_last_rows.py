"""Rows that are named by their place, and words that look like a row: none is passed over silently.

The texts are ours and the sums by hand; the dresses are common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.test_what_makers_met import codes, made

BEGUN = "US terms\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\n"
ROUND = "US terms\nRnd 1: 6 sc in magic ring. (6)\n"


@pytest.mark.parametrize(
    "name",
    [
        "Last Row:",
        "LAST ROW:",
        "Last Row (RS):",
        "The last row:",
        "On the last row:",
        "Last row –",
        "Last Row.",
        "Final Row:",
    ],
)
def test_the_last_row_is_a_row(name: str) -> None:
    proof = prove_text(f"{BEGUN}{name} Ch 1, turn, 2 sc in first st, sc in each st across. (11)\n")
    assert (proof.verdict, made(proof)) == ("proved", [10, 11])
    wrong = prove_text(f"{BEGUN}{name} Ch 1, turn, 2 sc in first st, sc in each st across. (12)\n")
    assert [str(code) for code in codes(wrong)] == ["count-mismatch"]


@pytest.mark.parametrize("name", ["Last Rnd:", "Last Round:", "Final Rnd:"])
def test_the_last_round_is_a_round(name: str) -> None:
    proof = prove_text(f"{ROUND}{name} 2 sc in each st around. (12)\n")
    assert (proof.verdict, made(proof)) == ("proved", [6, 12])
    assert proof.rows[-1].kind == "round"


def test_a_last_row_within_a_line_is_a_row_too() -> None:
    proof = prove_text(
        f"{BEGUN}Row 2: Ch 1, turn, sc in each st across. (10) Last Row: Ch 1, turn, sc2tog, sc across. (9)\n"
    )
    assert (proof.verdict, made(proof)) == ("proved", [10, 10, 9])


@pytest.mark.parametrize(
    "words",
    [
        "The last row: it may look wavy.",
        "Last row should measure 10 cm.",
        "Rep last row 3 times.",
        "Note on rows: count them often.",
    ],
)
def test_talk_of_the_last_row_is_none(words: str) -> None:
    proof = prove_text(f"{BEGUN}Row 2: Ch 1, turn, sc in each st across. (10)\n{words}\n")
    assert proof.verdict == "proved"
    assert set(made(proof)) == {10}


@pytest.mark.parametrize(
    "words",
    ["This row: Ch 1, turn, sc in each st across. (10)", "Each round: Sc in each st around. (10)"],
)
def test_words_that_look_like_a_row_are_told_and_not_passed_over(words: str) -> None:
    proof = prove_text(f"{BEGUN}{words}\n")
    assert [(str(each.code), each.place.line) for each in proof.problems] == [
        ("broken-notation", 4)
    ]


@pytest.mark.parametrize("dash", ["—", " — ", "–", " – ", "-", " - "])
def test_a_count_after_a_dash_is_no_range_of_rows(dash: str) -> None:
    text = f"{BEGUN}Row 2: Ch 1, turn, 2 sc in first st, sc in each st across. (11)\nRow 3: Rep Row 2{dash}12 sc.\n"
    proof = prove_text(text)
    assert (proof.verdict, made(proof)) == ("proved", [10, 11, 12])
