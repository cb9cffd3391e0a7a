"""Foundations that give a multiple in place of a number, and other beginnings.

The texts are ours and the sums by hand; that a designer gives a multiple and a sample is common
practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.test_what_makers_met import codes, made

ROWS = "\nRow 1: Sc in 2nd ch from hook and in each ch across.\nRow 2: Ch 1, turn, sc in each st across.\n"


@pytest.mark.parametrize(
    "words",
    [
        "Ch a multiple of 6 plus 2 (sample: ch 62).",
        "Foundation: Chain a multiple of 6 + 2. Sample uses ch 62.",
        "Chain in multiples of 6 + 2. I chained 62.",
        "Foundation ch: multiple of 6 + 2. Sample: ch 62.",
        "Foundation chain – any multiple of 6 plus 2 (62 shown: ch 62).",
        "Foundation chain: Any multiple of 6, plus 2. For the sample shown, ch 62.",
        "Ch any even number (sample shown 62 chains).",
        "Ch a multiple of 6 + 2.\nCh 62.",
        "Ch a multiple of 6 + 1 (plus 1 for the turning chain). Mine has 62 chains.",
    ],
)
def test_the_sample_of_a_multiple_is_the_foundation(words: str) -> None:
    proof = prove_text(f"US terms.\n{words}{ROWS}")
    assert (proof.verdict, made(proof)) == ("proved", [61, 61])
    assert proof.foundation is not None
    assert proof.foundation.chains == 62


def test_a_multiple_alone_is_made_a_few_repeats_wide_and_told() -> None:
    proof = prove_text(f"US terms.\nCh a multiple of 6 + 2.{ROWS}")
    # 3 x 6 + 2 = 20 chains, so 19 single crochet
    assert (proof.verdict, made(proof)) == ("proved", [19, 19])
    assert proof.readings[0].taken.startswith("20, which is 3 times 6 and 2 more")


def test_a_sample_that_is_not_of_the_multiple_is_found() -> None:
    text = (
        "US terms.\nCh a multiple of 6 + 2 (sample: ch 63).\n"
        "Row 1: Sc in 2nd ch from hook, *ch 5, sk 5 ch, sc in next ch; rep from * across.\n"
    )
    # 63 - 2 = 61, and 61 is not 10 x 6
    assert codes(prove_text(text))


def test_the_place_may_be_told_before_the_stitch() -> None:
    text = "US terms.\nCh 11.\nRow 1: In the second chain from your hook, work 1 sc. Sc in each ch across. (10)\n"
    proof = prove_text(text)
    assert (proof.verdict, made(proof)) == ("proved", [10])


@pytest.mark.parametrize("count", ["(8)", "(8 sts)"])
def test_slip_stitches_of_a_leaf_are_counted_where_the_count_says_so(count: str) -> None:
    # 9 chains less the one at the hook: 8 places, a slip stitch at either end
    text = f"US terms.\nCh 9.\nRow 1: Sl st in 2nd ch from hook, sc, hdc, dc, dc, hdc, sc, sl st. {count}\n"
    proof = prove_text(text)
    assert (proof.verdict, made(proof)) == ("proved", [8])


def test_rows_may_say_which_of_them_is_the_last() -> None:
    text = (
        "US terms.\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\n"
        "Row 2: Ch 1, turn, 2 sc in first st, sc in each st across. (11)\n"
        "Row 3: Ch 1, turn, sc in each st across. (11)\n"
        "Rows 4-8: Rep Rows 2 and 3, ending with a Row 2. — 14 sc at end of Row 8\n"
    )
    proof = prove_text(text)  # Rows 4, 6 and 8 each grow by one: 12, 12, 13, 13, 14
    assert (proof.verdict, made(proof)) == ("proved", [10, 11, 11, 12, 12, 13, 13, 14])


@pytest.mark.parametrize(
    ("begun", "yarn"),
    [
        ("With A, ch 13.", "A"),
        ("With rust, ch 13.", "rust"),
        ("Using colour B, ch 13.", "B"),
        ("With the main shade, ch 13.", "MC"),
        ("With contrast colour, ch 13.", "CC"),
        ("Using the smaller hook and A, ch 13.", "A"),
        # A tool or a number of strands is no yarn's name.
        ("With the smaller hook, ch 13.", None),
        ("With 4 mm hook, ch 13.", None),
        ("With two strands held together, ch 13.", None),
    ],
)
def test_a_foundation_is_in_the_yarn_that_its_words_name(begun: str, yarn: str | None) -> None:
    proof = prove_text(
        f"TEST MAT\n\n{begun}\nRow 1: Sc in 2nd ch from hook and in each ch across. (12)\n"
    )

    assert proof.foundation is not None
    assert (proof.foundation.chains, proof.foundation.color) == (13, yarn)
