"""What holds a pattern together: headers, ranges, repeats of rows, sizes, corrections, parts.

The texts are ours and the sums are counted by hand: each pattern is 20 stitches wide unless it
says otherwise. The forms themselves are common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from coach.craft.problem import Verdict
from coach.craft.proof import Proof

CLOTH = (
    "Ch 21.\n"
    "Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (20 sc)\n"
    "Row 2: Ch 1, sc in each st across, turn. (20 sc)\n"
)


def labels(proof: Proof) -> list[str]:
    return [row.label for row in proof.rows]


def made(proof: Proof) -> list[int]:
    return [row.made for row in proof.rows]


def codes(proof: Proof) -> list[Verdict]:
    return [problem.code for problem in proof.problems]


def worked_as(proof: Proof) -> list[str | None]:
    return [row.worked_as for row in proof.rows]


# -- which rows there are ------------------------------------------------------------------------

PATTERN = CLOTH + "Row 3: Ch 1, hdc in each st across, turn. (20 hdc)\n"


@pytest.mark.parametrize(
    ("words", "last"),
    [
        ("Rows 2 and 3 form the pattern. Continue in pattern for another 6 rows.", 9),
        ("2nd and 3rd rows form pattern. Work 6 rows more in pattern.", 9),
        ("The last 2 rows form the pattern.\nCont in patt until Row 9 is complete.", 9),
        ("These two rows form the pattern.\nRepeat the pattern rows three times.", 9),
        ("Rows 2 and 3 set the pattern. Continue in patt until there are 9 rows in total.", 9),
        ("Rep these 2 rows 3 times more.", 9),
        ("Rows 4-9: Alternate Rows 2 and 3.", 9),
        ("Rows 2 and 3 are the pattern rows.\nRows 4-9: Continue in pattern.", 9),
        ("So rows four to nine, just keep repeating rows two and three.", 9),
    ],
)
def test_pattern_rows_go_on_in_turn(words: str, last: int) -> None:
    proof = prove_text(PATTERN + words + "\n")
    assert proof.verdict == "proved"
    assert made(proof) == [20] * last
    kinds = [max(row.by_stitch) for row in proof.rows]
    assert kinds == ["sc", "sc", "hdc", "sc", "hdc", "sc", "hdc", "sc", "hdc"][:last]


def test_a_pattern_of_one_row_is_worked_over_and_over() -> None:
    proof = prove_text(CLOTH + "Row 2 forms the pattern. Work 10 more rows in pattern.\n")
    assert made(proof) == [20] * 12
    assert worked_as(proof)[2:] == ["Row 2"] * 10


def test_listed_rows_stand_where_their_numbers_belong() -> None:
    text = (
        CLOTH + "Rows 3, 5 and 7: Ch 1, hdc in each st across, turn. (20 hdc)\n"
        "Rows 4 and 6: Ch 1, sc in each st across, turn. (20 sc)\n"
        "Row 8: Ch 1, sc in each st across. (20 sc)\n"
    )
    proof = prove_text(text)
    assert labels(proof) == [f"Row {number}" for number in range(1, 9)]
    assert [max(row.by_stitch) for row in proof.rows][2:7] == ["hdc", "sc", "hdc", "sc", "hdc"]


def test_every_even_row_through_a_row_is_each_of_them() -> None:
    text = (
        "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)\n"
        "Row 2 and every even row through Row 6: Ch 1, sc in each st across, turn. (20 sc)\n"
        "Row 3: Ch 1, hdc in each st across, turn. (20 hdc)\n"
        "Rows 5 and 7: Rep Rows 3 and 1.\n".replace("Rows 3 and 1", "Row 3")
    )
    proof = prove_text(text)
    assert labels(proof) == [f"Row {number}" for number in range(1, 8)]
    assert made(proof) == [20] * 7


def test_work_more_rounds_the_same_repeats_the_last_one() -> None:
    text = (
        "Rnd 1: 6 sc in a magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
        "Next round: Ch 2, hdc in each st around, join. (12)\nWork 5 more rounds the same.\n"
    )
    proof = prove_text(text)
    assert made(proof) == [6, 12] + [12] * 6
    assert [max(row.by_stitch) for row in proof.rows[2:]] == ["hdc"] * 6


@pytest.mark.parametrize(
    ("words", "rows"),
    [
        ("Row 3 onwards: Repeat Row 2 until there are 8 rows in total.", 8),
        ("Repeat Row 2 until Row 9 is complete.", 9),
        ("Row 3: Ch 1, sc in each st across, turn. (20 sc) Repeat 2nd row five times more.", 8),
        ("Rows 3 → 7: As 2nd row.", 7),
    ],
)
def test_repeated_rows_end_where_the_words_say(words: str, rows: int) -> None:
    proof = prove_text(CLOTH + words + "\n")
    assert (proof.verdict, made(proof)) == ("proved", [20] * rows)


def test_a_row_goes_on_over_lines_that_begin_with_work() -> None:
    text = CLOTH + "Row 3 - Ch 1, turn.\n  Sc in first 12 sts,\n  Hdc in last 8 sts (20)\n"
    proof = prove_text(text)
    assert (proof.verdict, made(proof)) == ("proved", [20, 20, 20])
    assert proof.rows[2].by_stitch == {"sc": 12, "hdc": 8}


def test_work_even_until_it_measures_ends_on_the_side_that_is_asked() -> None:
    """14 rows to 10 cm: 12 cm are 16.8, so 17 rows; Row 17 is RS, so Row 18 (the need R29)."""
    text = (
        "Gauge: 16 sts and 14 rows = 10 cm\n" + CLOTH
    ) + "Work even until piece measures 12 cm, ending with a WS row.\n"
    proof = prove_text(text)
    assert (len(proof.rows), proof.rows[-1].side) == (18, "WS")


def test_a_range_and_the_number_of_its_rounds_must_agree() -> None:
    text = "Rnd 1: 6 sc in a magic ring. (6)\nRnds 2-8 ({} rnds): Sc in each st around. (6)\n"
    assert prove_text(text.format(7)).verdict == "proved"
    assert codes(prove_text(text.format(6))) == [Verdict.COUNT_MISMATCH]


@pytest.mark.parametrize("row", ["Row 3: ???", "Row 3:", "Row 3: As before.", "Row 3: As set."])
def test_a_row_that_tells_no_work_is_never_ok(row: str) -> None:
    assert codes(prove_text(CLOTH + row + "\n")) == [Verdict.NO_WORDS]


def test_a_numbered_step_that_is_no_round_makes_none() -> None:
    text = "1. MR, 6 sc (6)\n2. inc x 6 (12)\n3. sc around (12)\n4. Fasten off.\n"
    assert labels(prove_text(text)) == ["Rnd 1", "Rnd 2", "Rnd 3"]


# -- headers -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "header",
    ["Row 3 (inc):", "Row 3 (increase row):", "Row 3 (eyelets) –", "**Row 3:**", "## Row 3:"],
)
def test_a_remark_or_dress_of_a_header_is_no_work(header: str) -> None:
    proof = prove_text(CLOTH + f"{header} Ch 1, 2 sc in first st, sc in each st across. (21 sc)\n")
    assert (proof.verdict, made(proof)) == ("proved", [20, 20, 21])


@pytest.mark.parametrize("header", ["Row 3 (21 sts):", "Row 3 [21]:", "Row 3 (21 sc):"])
def test_a_count_in_a_header_is_held_against_the_row(header: str) -> None:
    proof = prove_text(CLOTH + f"{header} Ch 1, sc in each st across.\n")
    assert codes(proof) == [Verdict.COUNT_MISMATCH]


def test_run_in_headings_begin_parts_and_lose_no_row() -> None:
    text = (
        "SOLE—With white, ch 11. 1st rnd: sc in 2nd ch from hook and in each ch across. (10 sc)\n"
        "2nd rnd: sc in each sc around. (10 sc)\n"
        "SIDES—3rd rnd: 2 sc in each sc around. (20 sc)\n"
    )
    proof = prove_text(text)
    assert (labels(proof), made(proof)) == (["Rnd 1", "Rnd 2", "Rnd 3"], [10, 10, 20])
    assert proof.foundation is not None
    assert proof.foundation.chains == 11


@pytest.mark.parametrize(
    "heading",
    ["** BORDER **", "~ Border ~", "== BORDER ==", "### Border", "BORDER – make two, brown"],
)
def test_a_heading_in_any_dress_names_its_part(heading: str) -> None:
    proof = prove_text(
        CLOTH + f"Fasten off.\n\n{heading}\nRow 1: Ch 1, sc in each st across. (20)\n"
    )
    assert labels(proof)[-1] == "Border Row 1"


@pytest.mark.parametrize(
    "words",
    [
        "Commence with 21 ch.",
        "Make a chain of 21.",
        "Colours: see photo. Ch 21.",
        "Okay, so make your slip knot, and then go ahead and chain twenty-one.",
        "BACK: Starting at lower edge, ch 21.",
        "To begin: chain 21.",
        "Chain 21 (this counts as 20 sts plus 1 turning chain).",
    ],
)
def test_the_foundation_is_found_in_any_wording(words: str) -> None:
    proof = prove_text(
        f"{words}\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n", terms="US"
    )
    assert proof.foundation is not None
    assert (proof.verdict, proof.foundation.chains, made(proof)) == ("proved", 21, [20])


# -- corrections ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "correction",
    [
        "Erratum: Row 3: the count should be 19 sts, not 18.",
        "ERRATUM: Row 3 should read (19 sts), not 18.",
        "Correction: in Row 3 change 18 to 19.",
        "NOTE: the count on Row 3 is wrong, it should be 19.",
        "Row 3 should read: Ch 1, sc in next 18 sts, sc2tog. (19 sts)",
    ],
)
def test_a_correction_is_put_in_the_row_it_names(correction: str) -> None:
    wrong = CLOTH + "Row 3: Ch 1, sc in next 18 sts, sc2tog. (18 sts)\n"
    assert codes(prove_text(wrong)) == [Verdict.COUNT_MISMATCH]
    proof = prove_text(wrong + correction + "\n")
    assert (proof.verdict, made(proof)) == ("proved", [20, 20, 19])


# -- counts --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "count",
    [
        " (now 18 sts)", " (18 sts counting the first)", ", 18 stitches in total.", " → 18 sts", " -> 18",
        " / 18", " <18>", " <18 sc>", " for a total of 18 stitches.", ". Fasten off (18 sc).",
        " (18 sc + 2 handles)", " (18 sc, 5 petals)", " – you will have 18 sc at the end of this row",
        ". Sts: 18", " — 18 sc, turn.", " ~18~", " // 18 sc", ". You now have 18 sc.",
    ],
)  # fmt: skip
def test_a_wrong_count_is_found_in_any_dress(count: str) -> None:
    row = "Row 3: Ch 1, sc in each st across"
    assert codes(prove_text(CLOTH + row + count + "\n")) == [Verdict.COUNT_MISMATCH]
    right = prove_text(CLOTH + row + count.replace("18", "20") + "\n")
    assert (right.verdict, made(right)) == ("proved", [20, 20, 20])


def test_a_count_of_figures_that_are_no_stitches_is_let_go() -> None:
    proof = prove_text(CLOTH + "Row 3: Ch 1, sc in each st across. Fasten off (6 scallops).\n")
    assert (proof.verdict, made(proof)) == ("proved", [20, 20, 20])


# -- sizes ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("heading", "chains", "count"),
    [
        ("Sizes: S (M, L)", "21 (25, 29)", "20 (24, 28) sts"),
        ("Sizes S[M:L]", "21[25:29]", "20[24:28] sts"),
        ("Sizes: S; M; L", "21; 25; 29", "20 (24; 28) sts"),
        ("Sizes: S / M / L", "21 / 25 / 29", "(20/24/28)"),
        ("Sizes: S, M, L (changes for M and L in brackets)", "21 (25, 29)", "(20, 24, 28 sts)"),
    ],
)
@pytest.mark.parametrize(("size", "stitches"), [("S", 20), ("M", 24), ("L", 28)])
def test_sizes_are_read_in_every_dress(
    heading: str, chains: str, count: str, size: str, stitches: int
) -> None:
    text = f"{heading}\nCh {chains}.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. {count}\n"
    proof = prove_text(text, size=size)
    assert (proof.verdict, made(proof)) == ("proved", [stitches])


@pytest.mark.parametrize(("size", "rows"), [("S", 4), ("L", 7)])
def test_a_range_may_differ_by_size(size: str, rows: int) -> None:
    text = (
        "Two sizes: S (L)\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20)\n"
        "Rows 2-4 (2-6): Ch 1, sc in each st across, turn. (20)\n"
        "Size L only: Row 7: Ch 1, sc in each st across. (20)\n"
    )
    assert labels(prove_text(text, size=size)) == [f"Row {number}" for number in range(1, rows + 1)]


# -- what is defined and what is finished --------------------------------------------------------


@pytest.mark.parametrize(
    "words",
    [
        "Shell: 6 dc in same st.",
        "SPECIAL STITCHES\nShell:\n6 dc in the same stitch.",
        "Special stitches: Shell (6 dc in one st), picot (ch 3, sl st in 3rd ch from hook).",
        "Abbreviations: ch chain, sc single crochet, shell (6 dc) in same st, st stitch",
        "US terms. 'Shell' = 6 dc in the same space.",
        "A shell is 6 dc in the same st.",
        "Notes: 1 shell = 6 dc worked in the same st. Ch 1 does not count.",
        "* Shell: 6 dc in st indicated.",
    ],
)
def test_a_stitch_is_defined_anywhere_before_the_first_row(words: str) -> None:
    """19 sc: sc, 3 x (skip 2, 6 dc, skip 2, sc) uses 1 + 3 x 6 = 19 and makes 1 + 3 x 7 = 22."""
    text = (
        f"{words}\nCh 20.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (19 sc)\n"
        "Row 2: Ch 1, sc in first st, *sk 2 sts, shell in next st, sk 2 sts, sc in next st; "
        "rep from * across. (22 sts)\n"
    )
    proof = prove_text(text)
    assert (proof.verdict, made(proof)) == ("proved", [19, 22])


def test_a_note_on_one_chain_says_nothing_of_another() -> None:
    text = (
        "The ch3 at the beginning of a row counts as a dc, as does the first part of the ch4.\n"
        "Ch 5.\nRow 1: 2 dc in 4th ch from hook, dc in last ch. Turn. (4 dc)\n"
        "Row 2: Ch 3, dc in each st across. (4 dc)\n"
    )
    assert [(row.made, row.spaces) for row in prove_text(text).rows] == [(4, 0), (4, 0)]


def test_finishing_words_of_the_last_row_are_kept() -> None:
    proof = prove_text(CLOTH + "Row 3: Ch 1, sc across. (20) Fasten off. Weave in ends.\nBlock.\n")
    assert [sentence for _, sentence in proof.finishing] == [
        "Fasten off.",
        "Weave in ends.",
        "Block.",
    ]


@pytest.mark.parametrize(("size", "rounds", "stitches"), [("S", 5, 24), ("M", 7, 32)])
def test_rounds_for_some_sizes_only_and_the_next_rounds(
    size: str, rounds: int, stitches: int
) -> None:
    """S: 3 rounds and 2 more of 24; M: 4 rounds and 3 more of 32."""
    text = (
        "Sizes: S (M, L)\nRnd 1: 8 hdc in a magic ring. (8)\nRnd 2: 2 hdc in each st around. (16)\n"
        "Rnd 3: *Hdc in next st, 2 hdc in next st; rep from * around. (24)\n"
        "M and L sizes only:\nRnd 4: *Hdc in next 2 sts, 2 hdc in next st; rep from * around. (32)\n"
        "All sizes:\nNext 2 (3, 3) rounds: Hdc in each st around. (24, 32, 32)\n"
    )
    proof = prove_text(text, size=size)
    assert (proof.verdict, len(proof.rows), made(proof)[-1]) == ("proved", rounds, stitches)


def test_all_even_rows_may_stand_in_a_bracket() -> None:
    text = CLOTH.replace("Row 2:", "Row 2 (and all even rows):") + (
        "Row 3: Ch 1, hdc in each st across, turn. (20)\nRow 5: Ch 1, dc in each st across, turn. (20)\n"
    )
    proof = prove_text(text)
    assert labels(proof) == [f"Row {number}" for number in range(1, 6)]
    assert [max(row.by_stitch) for row in proof.rows] == ["sc", "sc", "hdc", "sc", "dc"]


@pytest.mark.parametrize("yarn", ["With MC, sc", "MC, sc", "With A, sc", "Using CC, sc"])
def test_the_main_colour_is_no_magic_circle(yarn: str) -> None:
    """MC names both; only a number of stitches worked into it makes it a ring."""
    proof = prove_text(f"Ch 21.\nRow 1: {yarn} in 2nd ch from hook and in each ch across. (20)\n")
    assert (proof.verdict, made(proof)) == ("proved", [20])


def test_a_magic_circle_in_short_is_still_a_ring() -> None:
    proof = prove_text("Rnd 1: MC, 6 sc. (6)\nRnd 2: 2 sc in each st around. (12)\n")
    assert (proof.verdict, made(proof)) == ("proved", [6, 12])
