"""Shaping told of several rows at once, as garments have it: each row written out, counted by hand."""

from __future__ import annotations

from typing import Any

import pytest

from coach.app.proving import proof_json, prove_text
from coach.notation.reading import read
from coach.notation.shaping_words import shaping_told
from coach.notation.writing import write

PIECE = """Sleeve
{terms} terms.
Ch 21.
Row 1: {first} in 2nd ch from hook and in each ch across, turn. (20)
Row 2: Ch 1, {first} in each st across, turn. (20)
{shaping}
Fasten off.
"""


def proof(shaping: str, terms: str = "US") -> dict[str, Any]:
    first = "Sc" if terms == "US" else "Dc"
    return proof_json(prove_text(PIECE.format(terms=terms, first=first, shaping=shaping)))


def made(shaping: str) -> list[int]:
    told = proof(shaping)
    assert told["faults"] == [], told["faults"]
    return [row["made"] for row in told["rows"][2:]]


@pytest.mark.parametrize(
    ("shaping", "counts"),
    [
        ("Dec 1 st at each end of every row until 12 sts rem.", [18, 16, 14, 12]),
        ("Decrease one stitch at both ends of each row until twelve stitches remain.", [18, 16, 14, 12]),
        ("Dec 1 st at each end of every other row until there are 16 sts.", [20, 18, 18, 16]),
        ("Rep Row 2, increasing 1 st at each end of every 3rd row until there are 24 sts.", [20, 20, 22, 22, 22, 24]),
        ("Inc 1 sc each end of next and every following 4th row until there are 24 sc.", [22, 22, 22, 22, 24]),
        ("Inc 1 st at beg of every row 3 times.", [21, 22, 23]),
        ("Work in sc, dec 1 st at end of every row for 3 rows. (17)", [19, 18, 17]),
        # two in all, as the count shows, or one and two more
        ("Dec 1 st at each end of next and every foll 3rd row twice. (16)", [18, 18, 18, 16]),
        ("Dec 1 st at each end of next and every foll 3rd row 2 times. (14)", [18, 18, 18, 16, 16, 16, 14]),
        ("Rows 3-6: Dec 1 st at each end of every row. (12 sc)", [18, 16, 14, 12]),
        ("Rows 3-8: Sc, inc 1 st at each end of every 3rd row. (24 sc)", [20, 20, 22, 22, 22, 24]),
        ("Row 3: Work in sc, decreasing 1 st at each end. (18 sc)", [18]),
        ("Next row: Dec 1 st at each end. (18 sc)", [18]),
        # the second sentence goes on from the first
        ("Dec 1 st at each end of every row twice.\nInc 1 st at each end of every row until there are 20 sts.", [18, 16, 18, 20]),
    ],
)  # fmt: skip
def test_each_row_is_written_out(shaping: str, counts: list[int]) -> None:
    assert made(shaping) == counts


def test_a_named_edge_lies_where_a_row_before_shows_it() -> None:
    """Row 3 decreases at its beginning; turned, the same edge is met last, then first again."""
    text = PIECE.format(
        terms="US",
        first="Sc",
        shaping="Row 3: Ch 1, sc2tog, sc in each st across, turn. (19)\n"
        "Dec 1 st at neck edge every row until 16 sts rem.",
    )
    assert [row["made"] for row in proof_json(prove_text(text))["rows"][2:]] == [19, 18, 17, 16]
    rows = [line for line in write(read(text), terms="US").splitlines() if line.startswith("Row")]
    assert "sc2tog" in rows[3].split(",")[-1] or "to last 2" in rows[3]
    assert rows[4].index("sc2tog") < rows[4].index("across")


@pytest.mark.parametrize(
    "shaping",
    [
        "Dec 1 st at neck edge every row until 16 sts rem.",  # which end is it?
        "Dec 1 st at each end of every row until 15 sts rem.",  # 20 less twos is never 15
        "Dec 1 st at each end of next and every foll 3rd row 3 times.",  # in all, or more?
        "Dec 1 st at each end of every 4th row and AT THE SAME TIME dec 1 st at neck edge every row.",
    ],
)
def test_what_cannot_be_worked_out_is_told_and_no_row_is_made_of_it(shaping: str) -> None:
    told = proof(shaping)
    assert told["faults"] == []
    assert len(told["rows"]) == 2
    (untold,) = told["not_in_words"]
    assert untold["text"] == shaping


def test_a_wrong_count_at_the_end_of_the_shaping_is_found() -> None:
    """4 rows less two each: 12."""
    (fault,) = proof("Rows 3-6: Dec 1 st at each end of every row. (14 sc)")["faults"]
    assert (fault["code"], fault["label"]) == ("count-mismatch", "Row 6")


def test_shaping_in_uk_terms_keeps_the_rows_own_stitch() -> None:
    told = proof("Dec 1 st at each end of every row until 16 sts rem.", terms="UK")
    assert [row["made"] for row in told["rows"][2:]] == [18, 16]
    assert told["rows"][2]["by_stitch"] == {"sc2tog": 2, "sc": 16}


TALL = """Shawl end
US terms. Ch 3 counts as dc throughout.
Ch 22.
Row 1: Dc in 4th ch from hook and in each ch across, turn. (20 dc)
Row 2: Ch 3, dc in next st and in each st across, turn. (20 dc)
{shaping}
"""


@pytest.mark.parametrize(
    ("shaping", "counts"),
    [
        ("Inc 1 st at each end of every row until there are 24 dc.", [22, 24]),
        ("Dec 1 st at each end of every row until 16 dc rem.", [18, 16]),
    ],
)
def test_a_counted_chain_is_one_of_the_stitches(shaping: str, counts: list[int]) -> None:
    told = proof_json(prove_text(TALL.format(shaping=shaping)))
    assert told["faults"] == []
    assert [row["made"] for row in told["rows"][2:]] == counts


def test_rows_of_several_stitches_are_not_guessed_at() -> None:
    text = PIECE.format(
        terms="US",
        first="Sc",
        shaping="Row 3: Ch 1, *sc in next st, dc in next st; rep from * across, turn. (20)\n"
        "Dec 1 st at each end of every row until 16 sts rem.",
    )
    told = proof_json(prove_text(text))
    assert len(told["rows"]) == 3
    assert told["not_in_words"]


def test_other_words_are_no_shaping_of_rows() -> None:
    for words in (
        "Ch 1, dec, sc in each st to end.",
        "2 sc in first st, sc to end.",
        "Inc 6 sts evenly.",
    ):
        assert shaping_told(words) is None


def test_even_rows_between_two_shapings_are_counted_once() -> None:
    """Rows 3 and 4 take it to 16; 3 even rows in a named stitch are Rows 5 to 7; Row 8 is the next."""
    told = proof(
        "Dec 1 st at each end of every row until 16 sts rem.\nWork even in sc for 3 rows.\n"
        "Inc 1 st at each end of every row until there are 20 sts."
    )
    assert [(row["label"], row["made"]) for row in told["rows"][2:]] == [
        ("Row 3", 18), ("Row 4", 16), ("Row 5", 16), ("Row 6", 16), ("Row 7", 16), ("Row 8", 18), ("Row 9", 20),
    ]  # fmt: skip


def test_rows_after_the_last_three_repeated_go_on_with_the_right_number() -> None:
    text = (
        "Cloth\nUS terms.\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10)\n"
        "Row 2: Ch 1, sc in each st across, turn.\nRow 3: Ch 1, sc in each st across, turn.\n"
        "Repeat the last 2 rows twice more.\nDec 1 st at each end of every row until 6 sts rem. (6)\n"
    )
    rows = proof_json(prove_text(text))["rows"]
    assert [row["label"] for row in rows[-3:]] == ["Row 7", "Row 8", "Row 9"]


def test_shaping_goes_on_after_the_row_that_begins_the_armholes() -> None:
    """3 slipped over and 3 left of 20 are 14; right side rows are odd: 12 in Row 5, 10 in Row 7."""
    text = (
        "Back\nUS terms.\nCh 21.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (20 sc)\n"
        "Row 2: Ch 1, sc in each st across, turn. (20 sc)\n"
        "Row 3: Sl st in first 3 sts, ch 1, sc in each st to last 3 sts, turn, leaving last 3 sts unworked. (14 sc)\n"
        "Dec 1 st at each end of next and every following RS row until 10 sts remain.\n"
    )
    told = proof_json(prove_text(text))
    assert told["faults"] == []
    assert [(row["label"], row["made"]) for row in told["rows"][3:]] == [
        ("Row 4", 14), ("Row 5", 12), ("Row 6", 12), ("Row 7", 10),
    ]  # fmt: skip
