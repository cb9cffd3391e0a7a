"""Rows told in a sentence and not one by one: how many there are, and which they are worked as."""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from coach.notation.cleaning import clean_lines
from coach.notation.reading import read
from coach.notation.sizes import sizes_in
from coach.notation.writing import alike, write

MAT = """\
Slipway Mat (US terms)
Gauge: 16 sts and 10 rows = 10 cm
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across. (20)
Row 2: Ch 1, turn, dc in each st across. (20)
Row 3: Ch 1, turn, sc in each st across. (20)
"""


@pytest.mark.parametrize(
    ("sentence", "rows"),
    [
        ("Row 2 forms the pattern. Cont in pattern until 80 rows in all have been worked.", 80),
        ("Rows 2 and 3 form pattern. Cont in patt until 31 rows have been worked.", 31),
        ("Row 2 forms the pattern. Continue in pattern for another 70 rows, working evenly.", 73),
        ("Rep Rows 2 and 3 until 31 rows have been worked.", 31),
        ("Rep Row 2 until you have 30 rows.", 30),
        ("Rep Rows 2-3 to Row 41.", 41),
        ("Repeat Row 3 for a total of 12 rows.", 12),
        ("Rep last 2 rows 4 more times, then Row 2 once.", 12),  # 3 and 4 times 2 and 1
        ("Rows 4-12: Rep Rows 2-3 four times, then Row 2 once more. (20)", 12),
        ("Work 6 more rows in patt.", 9),
        ("Work in patt as set for a further 10 rows.", 13),
        ("Continue in this way until 21 rows are complete.", 21),
        ("Work 10 rows in sc.", 13),
        ("Work in sc for 10 more rows.", 13),
        ("Work a further 8 rows straight.", 11),
        ("Continue in sc until piece measures 20 cm.", 20),  # 10 rows to 10 cm
    ],
)
def test_a_sentence_stands_for_so_many_rows(sentence: str, rows: int) -> None:
    proof = prove_text(f"{MAT}{sentence}\n")

    assert proof.problems == ()
    assert [row.number for row in proof.rows] == list(range(1, rows + 1))


def test_rows_in_a_stitch_that_is_named_are_in_that_stitch() -> None:
    us = prove_text(f"{MAT}Work 2 rows in dc.\n").rows[-1]
    uk = prove_text(
        "Slipway Mat (UK terms)\n21ch.\nRow 1: 1dc in 2nd ch from hook and in each ch to end. (20)\n"
        "Work 2 rows in tr.\n"
    ).rows[-1]

    assert us.by_stitch == {"dc": 20}
    assert uk.by_stitch == {"dc": 20}


def test_pattern_rows_go_on_as_those_repeated_last() -> None:
    rows = prove_text(f"{MAT}Rows 4-7: Rep Rows 2 and 3.\nWork 3 more rows in patt.\n").rows

    assert [row.worked_as for row in rows[7:]] == ["Row 2", "Row 3", "Row 2"]


COASTER = """\
Ferry Coaster (US terms)
Rnd 1: 8 hdc in magic ring; join. 8 hdc
Rnd 2: Ch 1, 2 hdc in each hdc around; join. 16 hdc
Rnd 3: Ch 1, *hdc in next hdc, 2 hdc in next hdc; rep from * around; join. 24 hdc
Rnd 4: Ch 1, *hdc in each of next 2 hdc, 2 hdc in next hdc; rep from * around; join. 32 hdc
"""


@pytest.mark.parametrize(
    "sentence",
    [
        "Continue in this manner, working 1 more hdc between increases, until 8th round is complete. 64 hdc",
        "Cont in this way, with one more st between increases each round, until there are 64 sts.",
        "Rnds 5-8: Continue as established, working 1 more hdc between increases. (40, 48, 56, 64)",
    ],
)
def test_rounds_that_grow_by_one_more_between_the_increases(sentence: str) -> None:
    # 8 increases a round: 32 and 4 times 8.
    proof = prove_text(f"{COASTER}{sentence}\n")

    assert proof.problems == ()
    assert [row.made for row in proof.rows] == [8, 16, 24, 32, 40, 48, 56, 64]


def test_growth_that_does_not_reach_the_stated_count_is_told() -> None:
    sentence = "Rnds 5-7: Continue as established, working 1 more hdc between increases. (58 hdc)"
    (problem,) = prove_text(f"{COASTER}{sentence}\n").problems

    assert (problem.code.value, problem.row) == ("count-mismatch", 7)


def test_growing_rounds_are_read_the_same_after_writing() -> None:
    sentence = (
        "Continue in this manner, working 1 more hdc between increases, until Rnd 8 is complete."
    )
    draft = read(f"{COASTER}{sentence}\n")

    assert alike(read(write(draft, terms="UK"))) == alike(draft)


def test_a_loop_that_opens_a_repeat_is_a_loop_in_the_first_pass_too() -> None:
    # 32 hdc, 4 of them to each of 8 loops.
    row = prove_text(
        f"{COASTER}Rnd 5: *Ch 3, sk next 3 hdc, sl st in next hdc; rep from * around. Fasten off. 8 loops\n"
    ).rows[-1]

    assert (row.worked, row.spaces, row.verdict.value) == (32, 8, "ok")


def test_a_first_row_on_the_line_of_its_chain_begins_its_part() -> None:
    proof = prove_text(
        "Pebble the Newt (US terms)\nBODY\nR1: 6 sc in MR (6)\nR2-R7: sc around (6)\nF/O.\n"
        "TAIL\nWith pink, ch 26. Sc in 2nd ch from hook and in each ch across (25). F/O.\n"
    )
    tail = proof.rows[-1]

    assert proof.problems == ()
    assert (tail.label, tail.part, tail.worked, tail.made) == ("Tail Row 1", "Tail", 26, 25)


def test_a_first_row_without_a_name_before_row_1_is_the_foundation_row() -> None:
    proof = prove_text(
        "Pebble Mat (US terms)\nCh 21. Sc in 2nd ch from hook and in each ch across. (20)\n"
        "Row 1: Ch 1, turn, sc in each st across. (20)\n"
    )

    assert proof.problems == ()
    assert [row.label for row in proof.rows] == ["Foundation Row", "Row 1"]


@pytest.mark.parametrize(
    ("line", "names"),
    [
        ("Sizes: Toddler (Child, Adult S/M, Adult L/XL)", ("Toddler", "Child", "Adult S/M", "Adult L/XL")),
        ("To fit: S (M, L)", ("S", "M", "L")),
        ("TO FIT: 0-3 (3-6, 6-12) months", ("0-3", "3-6", "6-12")),
        ("Sizes S/M (L/XL)", ("S/M", "L/XL")),
        ("Instructions are given for size S (M, L)", ("S", "M", "L")),
        ("Sizes: S-M-L", ("S", "M", "L")),
        ("To fit chest: 80 (85, 90) cm", ()),
    ],
)  # fmt: skip
def test_sizes_are_found_under_their_headings(line: str, names: tuple[str, ...]) -> None:
    assert sizes_in(clean_lines(line)) == names


CLOTH = """\
Slipway Cloth (US terms)
Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)
Row 2: Ch 1, sc in each st across, turn. (20 sc)
Row 3: Ch 1, hdc in each st across, turn. (20 hdc)
"""
BOTH, LAST = ["sc", "hdc"] * 3, ["hdc"] * 6


@pytest.mark.parametrize(
    ("sentence", "worked"),
    [
        ("Rows 2 and 3 form the pattern. Cont in patt until you have worked 9 rows.", BOTH),
        ("Rows 2 and 3 form the pattern. Cont in patt until work has 9 rows.", BOTH),
        ("Rows 2 and 3 form the pattern. Cont in patt up to and including Row 9.", BOTH),
        ("Rows 2 and 3 form patt. Rep these 2 rows until 9 rows have been worked.", BOTH),
        ("Rows 2 and 3 form the pattern. Rep until 9 rows have been worked.", BOTH),
        ("Rows 2 and 3 are repeated for pattern. Continue until 9 rows are done.", BOTH),
        ("The last 2 rows form the patt and are repeated 3 times more.", BOTH),
        ("Rows 2 and 3 form the pattern.\nRows 4-9: In patt as set.", BOTH),
        ("Rows 2 and 3 form the pattern.\nRows 4-9: Rep pattern rows.", BOTH),
        ("The last two rows are repeated 3 more times.", BOTH),
        ("Rep Rows 2 and 3 until 9 rows.", BOTH),
        ("Rep Rows 2 and 3 until you have 9 rows.", BOTH),
        ("Rep Rows 2 and 3 for 6 more rows.", BOTH),
        ("Rep last 2 rows for 6 rows.", BOTH),
        ("Rep rows 2-3 thrice.", BOTH),
        ("Rep Rows 2 and 3 (3 more times).", BOTH),
        ("Rep Rows 2 and 3, three (3) more times.", BOTH),
        ("Rep Rows 2 and 3 x 3.", BOTH),
        ("Repeat Rows 2-3 through Row 9.", BOTH),
        ("Rep from 2nd row to 3rd row 3 times.", BOTH),
        ("Rep 2nd and 3rd rows until 9 rows in all have been worked.", BOTH),
        ("Cont to rep Rows 2 and 3 until 9 rows have been worked.", BOTH),
        ("Continue in the same manner, repeating Rows 2 and 3, until 9 rows are worked.", BOTH),
        ("Rep Rows 2 and 3, 2 times. Change to B. Rep Rows 2 and 3 once more.", BOTH),
        ("Rep Rows 2 and 3 three more times. Rep Row 2 once.", [*BOTH, "sc"]),
        ("Repeat Row 3 for 6 rows.", LAST),
        ("Row 4 and on: Repeat Row 3 until 9 rows have been worked.", LAST),
        ("Work 6 more rows as Row 3.", LAST),
        ("Work 6 more rows like the last one.", LAST),
        ("Work even until 9 rows have been completed.", LAST),
        ("Work even in sc for 6 rows. Fasten off.", ["sc"] * 6),
        ("Continue in dc until 9 rows have been worked.", ["dc"] * 6),
        ("Repeat Row 3 for next 6 rows.", LAST),
        ("Repeat Row 3 for Rows 4-9.", LAST),
        ("Sc in each st across for 6 rows. (20)", ["sc"] * 6),
        ("Dc across for the next 6 rows.", ["dc"] * 6),
        ("Continue to hdc in each st across for 6 more rows.", LAST),
    ],
)
def test_how_far_rows_go_on_is_read_in_every_dress(sentence: str, worked: list[str]) -> None:
    proof = prove_text(f"{CLOTH}{sentence}\n")

    assert proof.problems == ()
    assert [max(row.by_stitch) for row in proof.rows[3:]] == worked
    assert {row.made for row in proof.rows} == {20}


@pytest.mark.parametrize(
    "sentence",
    [
        "For a longer cloth, work 10 more rows in pattern.",
        "To make it longer, repeat Rows 2 and 3 as often as you like.",
        "Work 2 rows in sc around the neck edge.",
        "Work another 2 the same.",
        "Rep from * for the other side.",
        "Repeat these instructions for the second mitten.",
        "Work the other earflap the same way.",
        "Continue in this way to the end.",
        "Rows 2 and 3 are the pattern repeat.",
        "Continue until you run out of yarn.",
    ],
)
@pytest.mark.parametrize("before", [False, True])
def test_a_note_that_names_rows_adds_none(sentence: str, before: bool) -> None:
    text = f"NOTES\n{sentence}\n\n{CLOTH}" if before else f"{CLOTH}{sentence}\n"
    proof = prove_text(text)

    assert proof.problems == ()
    assert len(proof.rows) == 3
