"""The likely slip is named in trade words: one number that makes the row fit."""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text


def test_a_block_one_short_in_a_rib_is_named() -> None:
    """1 + 7n + 4 can't be 77; with 3 dc in the middle block the repeat is 8: 1 + 72 + 4 = 77."""
    text = (
        "(US terms)\nCh 79.\nRow 1: Dc in 4th ch from hook (3 skipped ch count as first dc) and in each ch across, turn. (77 dc)\n"
        "Row 2: Ch 3 (counts as dc), *FPdc around each of next 3 sts, BPdc around next st, dc in next 2 sts, BPdc around next st; "
        "rep from * to last 4 sts, FPdc around each of next 3 sts, dc in top of turning ch, turn. (77 sts)\n"
    )
    problem = prove_text(text).problems[0]
    assert "72 of 77 places fit" not in problem.hint
    assert "instead of" in problem.hint


UK_MAT = """\
UK terms
Make 21ch.
Row 1: 1dc in 2nd ch from hook, 1dc in each ch to end, turn. (20dc)
Row 2: {row}
"""


@pytest.mark.parametrize(
    ("row", "told"),
    [
        # 10 + 2 + 9 = 21.
        ("1ch, 1dc in each of next 10 dc, 2dc in next dc, 1dc in each of last 9 dc. (22dc)", "makes 21 dc; 22 is stated"),
        ("1ch, 1dc in each of next 10 dc, 2dc in next dc, 1dc in each of last 9 dc. (22dc)", "3 dc in one place instead of 2"),
        ("3ch (counts as 1tr), 1tr in each of next 20 dc.", "19 treble instead of 20"),
        ("4ch (counts as 1dtr), 1dtr in each of next 18 dc. (20 dtr)", "19 double treble instead of 18"),
        ("2ch (counts as 1htr), 1htr in each of next 20 dc.", "19 half treble instead of 20"),
        ("3ch (counts as 1tr), rftr around each of next 18 sts.", "19 front post treble instead of 18"),
        ("1ch, 1dc in each tr to end.", "asks for a tr, but the row below has dc"),
    ],
)  # fmt: skip
def test_what_is_wrong_in_a_uk_pattern_is_told_in_its_own_terms(row: str, told: str) -> None:
    problem = prove_text(UK_MAT.format(row=row)).problems[0]
    assert told in f"{problem.message} {problem.hint}"


def test_the_same_in_us_terms() -> None:
    text = (
        "US terms\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
        "Row 2: Ch 1, turn, sc in each dc across.\n"
    )
    problem = prove_text(text).problems[0]
    assert "asks for a dc, but the row below has sc" in problem.message
