"""Several rows under one number, and one count for rows that share their words.

The piece is a ball of 18 stitches or a strip of 10, counted by hand. That the number of the next
row decides what "for 5 rounds" and "repeat 4 times" come to is common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from coach.craft.proof import Proof
from coach.notation.reading import read
from coach.notation.writing import alike, write

BALL = (
    "Pip Ball (US terms)\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: Inc x 6. (12)\n"
    "Rnd 3: (Sc, inc) x 6. (18)\n"
)
STRIP = "Strip (US terms)\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\n"


def labels(proof: Proof) -> list[str]:
    return [row.label for row in proof.rows]


@pytest.mark.parametrize(
    "words",
    [
        "Rnd 4: Sc in each st around for 5 rnds. (18)",
        "Rnd 4: Sc around for the next 5 rounds (18)",
        "Rnd 4: Sc in each st around for a total of five rounds. (18)",
        "Rnd 4: Sc around, work 5 rnds even. (18)",
        "Rnd 4: Sc in each st around, 5 rounds. (18)",
        "Rnd 4: Sc in each st around (18) x 5 rounds",
        "Rnd 4: Sc in each st around (5 rounds). (18)",
        "Rnd 4: Sc in each st around (18), repeat 4 more times.",
        "Rnd 4: Sc in each st around. Repeat this round 4 times. (18)",
        "Rnd 4: Sc in each st around. Repeat for 5 rounds. (18)",
        "Rnd 4: Work 5 rounds of sc. (18)",
        "Rnd 4: Work even for 5 rounds. (18)",
        "Rnds 4-8: Sc in each st around for 5 rnds. (18)",
    ],
)
def test_the_next_number_shows_how_many_rounds_one_number_stands_for(words: str) -> None:
    proof = prove_text(f"{BALL}{words}\nRnd 9: (Sc, dec) x 6. (12)\nRnd 10: Dec x 6. (6)\n")

    assert proof.problems == ()
    assert labels(proof) == [f"Rnd {number}" for number in range(1, 11)]
    assert [row.made for row in proof.rows] == [6, 12, *[18] * 6, 12, 6]


def test_where_the_numbers_go_on_all_rounds_go_by_the_one_number() -> None:
    proof = prove_text(
        f"{BALL}Rnd 4: Sc in each st around for 5 rnds. (18)\nRnd 5: (Sc, dec) x 6. (12)\n"
    )

    assert proof.problems == ()
    assert labels(proof)[3:] == [
        "Rnd 4", "Rnd 4, 2 of 5", "Rnd 4, 3 of 5", "Rnd 4, 4 of 5", "Rnd 4, 5 of 5", "Rnd 5",
    ]  # fmt: skip
    assert [reading.what for reading in proof.readings] == ["how many rows Rnd 4 stands for"]


def test_more_rows_may_come_after_the_one_that_is_written() -> None:
    # Rows 3 to 7 are the five; Row 8 is the next.
    five_more = "Row 2: Ch 1, turn, sc in each st across. Repeat this row for 5 rows. (10)\n"
    after_seven = prove_text(
        f"{STRIP}{five_more}Row 8: Ch 1, turn, 2 sc in first st, sc across. (11)"
    )
    after_six = prove_text(
        f"{STRIP}{five_more}Row 7: Ch 1, turn, 2 sc in first st, sc across. (11)"
    )

    assert (len(after_seven.rows), len(after_six.rows)) == (8, 7)
    assert after_seven.problems == after_six.problems == ()


def test_a_row_worked_until_a_length_is_turned_into_rows_by_the_gauge() -> None:
    # 12 rows to 10 cm: 6 rows to 5 cm, of which Row 1 is one.
    proof = prove_text(
        f"{STRIP.replace('Ch 11', 'Gauge: 10 sc and 12 rows = 10 cm{n}Ch 11').format(n=chr(10))}"
        "Row 2: Ch 1, turn, sc in each st across until piece measures 5 cm. (10)\n"
        "Row 3: Ch 1, turn, 2 sc in first st, sc in each st across. (11)\n"
    )

    assert proof.problems == ()
    assert len(proof.rows) == 7
    assert proof.rows[-2].label == "Row 2, 5 of 5"


@pytest.mark.parametrize(
    "words",
    [
        "Rnd 4: *Sc in next 2 sts, inc; repeat 6 times. (24)",
        "Rnd 4: (Sc in next 2 sts, inc) repeat 6 times. (24)",
        "Rnd 4: Sc in each st around, working in the sts 2 rounds below. (18)",
        "Rnd 4: Sc in each st around (leave a gap, 2 rounds). (18)",
    ],
)
def test_what_is_said_within_a_round_adds_no_round(words: str) -> None:
    assert len(read(f"{BALL}{words}\n").entries) == 4


def test_a_wrong_count_over_several_rounds_is_told_once() -> None:
    (problem,) = prove_text(
        f"{BALL}Rnd 4: Sc in each st around for 5 rnds. (19)\nRnd 9: (Sc, dec) x 6. (12)\n"
    ).problems

    assert (problem.code.value, problem.label) == ("count-mismatch", "Rnd 4")


def test_rows_under_one_number_are_written_back_to_the_same_rows() -> None:
    draft = read(
        f"{BALL}Rnd 4: Sc in each st around for 5 rnds. (18)\nRnd 5: (Sc, dec) x 6. (12)\n"
    )

    assert alike(read(write(draft, terms="US"))) == alike(draft)


@pytest.mark.parametrize(
    "words",
    [
        "Rows 2-4: Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog. (4)",
        "Rows 2-4: Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog. 4 sts remain.",
        "Rows 2-4: Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog. (8, 6, 4)",
        "Row 2: Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog, for 3 rows. (4)",
    ],
)
def test_one_count_of_rows_that_shape_is_the_last_one_s(words: str) -> None:
    # Two stitches fewer in each of three rows: 10, 8, 6, 4.
    proof = prove_text(f"{STRIP}{words}\n")

    assert proof.problems == ()
    assert [row.made for row in proof.rows] == [10, 8, 6, 4]


def test_one_count_of_even_rows_that_shape_is_the_last_one_s() -> None:
    # Row 2 and Row 4 each take two: 8, 8, 6.
    proof = prove_text(
        f"{STRIP}Rows 2 and 4: Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog. (6)\n"
        "Row 3: Ch 1, turn, sc in each st across. (8)\n"
    )

    assert proof.problems == ()
    assert [row.made for row in proof.rows] == [10, 8, 8, 6]


@pytest.mark.parametrize(
    ("words", "label"),
    [
        ("Rows 2-4: Ch 1, turn, sc2tog, sc in each st to last 2 sts, sc2tog. (5)", "Row 4"),
        ("Rows 2-4: Ch 1, turn, 2 sc in first st, sc in each st across. (10)", "Row 2"),
    ],
)
def test_a_count_that_no_row_reaches_is_told_at_the_row_that_comes_nearest(
    words: str, label: str
) -> None:
    (problem,) = prove_text(f"{STRIP}{words}\n").problems

    assert (problem.code.value, problem.label) == ("count-mismatch", label)
