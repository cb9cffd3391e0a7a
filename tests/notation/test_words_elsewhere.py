"""Words that rest on a picture, and two shapings at once: told at load with their lines.

The cloth is 20 stitches and 12 rows; no count of it changes. What makers without sight met: R47.
"""

from __future__ import annotations

import pytest

from coach.app.opening import opening_notices
from coach.app.proving import proof_json, prove_text
from coach.craft.problem import Verdict
from coach.wording.report import proof_page

CLOTH = (
    "Quay Cloth (US terms)\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\n"
    "Rows 2-12: Ch 1, turn, sc in each st across. (20)\n"
)


@pytest.mark.parametrize(
    "words",
    [
        "FINISHING\nSew the eyes on as pictured.",
        "Notes: See photo for placement.",
        "Row 13: Ch 1, turn, sc in each st across (see photo). (20)",
        "Work the colours as shown in the diagram.",
        "FINISHING\nEmbroider the face (refer to picture).",
        "FINISHING\nAssemble the pieces following the diagram.",
    ],
)
def test_words_that_rest_on_a_picture_are_told_at_load_and_are_no_fault(words: str) -> None:
    text = f"{CLOTH}{words}\n"
    proof = prove_text(text)
    (told,) = proof.not_in_words

    assert proof.holds
    assert told.why == "picture"
    assert text.splitlines()[told.line - 1].endswith(words.splitlines()[-1])
    assert any("rests on a picture" in notice.full for notice in opening_notices(proof))
    assert "Not in words" in proof_page(proof, text)
    assert [each["line"] for each in proof_json(proof)["not_in_words"]] == [told.line]


@pytest.mark.parametrize(
    "words",
    [
        "Scroll past the photos for the pattern!",
        "Picture this cloth in blue.",
        "See Notes.",
    ],
)
def test_a_picture_that_nothing_rests_on_is_not_told(words: str) -> None:
    assert prove_text(f"{CLOTH}{words}\n").not_in_words == ()


def test_rows_left_to_a_chart_are_listed_row_by_row() -> None:
    proof = prove_text(
        f"{CLOTH}Now follow the chart for the next 10 rows.\nRow 23: Ch 1, turn, sc in each st across. (20)\n"
    )
    silent = [row.number for row in proof.rows if row.verdict is Verdict.NO_WORDS]

    assert silent == list(range(13, 23))
    assert [problem.code for problem in proof.problems] == [Verdict.NO_WORDS]


def test_two_shapings_at_once_are_told_as_what_cannot_be_led() -> None:
    words = (
        "Shape Neck and Armhole: Dec 1 st at neck edge every row 4 times, AT THE SAME TIME dec 1 st at "
        "armhole edge every other row twice."
    )
    proof = prove_text(f"{CLOTH}{words}\n")

    assert proof.holds
    assert [(each.line, each.why) for each in proof.not_in_words] == [(5, "at once")]
    assert "one by one, each with its count" in " ".join(proof_page(proof, CLOTH).split())


def test_a_row_of_two_shapings_at_once_has_no_words_and_no_false_sum() -> None:
    words = "Rows 13-16: Dec 1 st at neck edge every row AT THE SAME TIME dec 1 st at armhole edge on Row 14. (15)"
    proof = prove_text(f"{CLOTH}{words}\n")

    assert [problem.code for problem in proof.problems] == [Verdict.NO_WORDS]


def test_a_change_of_yarn_at_the_same_time_is_part_of_its_row() -> None:
    proof = prove_text(
        f"{CLOTH}Row 13: Ch 1, turn, sc2tog, sc across to last 2 sts, sc2tog, at the same time change to B. (18)\n"
    )

    assert (proof.problems, proof.not_in_words) == ((), ())
