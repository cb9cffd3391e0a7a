"""The likely slip is named in trade words: one number that makes the row fit."""

from __future__ import annotations

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
