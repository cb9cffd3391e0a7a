"""Old words: "single" alone is told as taken, since old books mean a slip stitch by it.

A 1918 handbook says "single crochet" for the slip stitch, the Encyclopedia of Needlework "single"
(the trade's reference, part 4). Counts by hand.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

OLD = "Tea Cosy\nChain 20.\n1st row: {row}, turn. (19)\n2nd row: Ch 1, {again}, turn. (19)\n"


def told(row: str, again: str) -> list[str]:
    proof = prove_text(OLD.format(row=row, again=again))
    return [each.what for each in proof.readings if "single" in each.what]


@pytest.mark.parametrize(
    ("row", "again"),
    [
        ("1 single in 2nd ch from hook, 1 single in each of next 18 ch", "1 single in each st"),
        ("1 s c in 2nd ch from hook, 1 s c in each ch", "single in each st"),
    ],
)
def test_single_alone_is_told_as_it_is_taken(row: str, again: str) -> None:
    assert told(row, again) == ['what "single" means']


def test_single_crochet_in_full_is_no_question_of_age() -> None:
    row = "1 single crochet in 2nd ch from hook, single crochet in each ch"

    assert told(row, "single crochet in each st") == []
