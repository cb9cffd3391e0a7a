"""Two columns pasted line by line into each other are told where they stand, and what to do."""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

CROSSED = (
    "Harbour Mat (US terms)\nCh 21.\n"
    "Row 1: Sc in 2nd ch from hook\n{other} 5: Ch 1, turn, sc in each\n"
    "and in each ch across. (20)\nst across. (20)\n"
    "Row 2: Ch 1, turn, sc in each\n{other} 6: Ch 1, turn, sc in each\n"
    "st across. (20)\nst across. (20)\n"
)


@pytest.mark.parametrize("other", ["Row", "Rnd"])
def test_two_columns_in_one_are_told_first_with_their_lines(other: str) -> None:
    first = prove_text(CROSSED.format(other=other)).problems[0]

    assert (first.code.value, first.place.line) == ("broken-notation", 3)
    assert first.message.startswith("Lines 3 to 10 look like two columns")
    assert "left column first" in first.hint


def test_rows_that_only_break_over_two_lines_are_no_columns() -> None:
    proof = prove_text(
        "Harbour Mat (US terms)\nCh 21.\n"
        "Row 1: Sc in 2nd ch from hook\nand in each ch across. (20)\n"
        "Row 2: Ch 1, turn, sc in each\nst across. (20)\nRow 3: Ch 1, turn, sc in each\nst across. (20)\n"
    )

    assert (proof.problems, len(proof.rows)) == ((), 3)
