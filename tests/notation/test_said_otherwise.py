"""The same work in words that a designer or teacher also uses. The texts are ours and the sums by hand."""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.rows import came_to


@pytest.mark.parametrize(
    ("words", "text", "right"),
    [
        ("round sc 45", "Rnd 9: Work without shaping in sc. (45 sc)", "ok 45 -> 45"),
        ("round sc 45", "Rnd 9: Continue without increasing or decreasing. (45)", "ok 45 -> 45"),
        ("round sc 45", "Rnd 9: Work without shaping in sc. (44 sc)", "count-mismatch"),
        ("round sc 45", "Rnd 9: Continue without shaping, hdc in each st around.", "ok 45 -> 45"),
        # 16 + 8 + 16
        (
            "round sc 40",
            "Rnd 3: sc in next 16 sts, hdc in next 8, sc in the remaining 16",
            "ok 40 -> 40",
        ),
        ("sc 12", "Row 3: Ch 1, sc in first 5 sts, hdc in rem 7", "ok 12 -> 12"),
        ("sc 13", "Row 3: Ch 1, sc in first 5 sts, hdc in rem 7", "stitches-left-over"),
    ],
)
def test_plain_work_in_other_words(words: str, text: str, right: str) -> None:
    assert came_to(words, text) == right


@pytest.mark.parametrize(
    ("words", "text", "right"),
    [
        ("round sc 13", "In this round we put two half doubles in every stitch.", "ok 13 -> 26"),
        ("row sc 9", "For this row single crochet in every stitch.", "ok 9 -> 9"),
        (
            "round sc 18",
            "Round four. Two single crochet, then an increase, and you repeat that six times.",
            "ok 18 -> 24",
        ),
        (
            "round sc 36",
            "Round six, five singles and then two in the next, and we'll do that six times, "
            "which gives us forty stitches.",
            "count-mismatch",  # 6 x 7 = 42
        ),
    ],
)
def test_who_works_is_no_part_of_the_work(words: str, text: str, right: str) -> None:
    assert came_to(words.removeprefix("row "), text) == right


@pytest.mark.parametrize(
    ("words", "text", "right"),
    [
        ("sc 18", "Row 4: Ch 1, sc in next 8 sts, sc2tog, sc in next 8 sts. (16 sc)", False),
        ("sc 18", "Row 4: Ch 1, sc in next 8 sts, sc2tog, sc in next 8 sts. (17 sc)", True),
        ("hdc 30", "Row 4: Ch 1, hdc2tog, hdc in next 26 sts, hdc2tog. (26 hdc)", False),
        ("hdc 30", "Row 4: Ch 1, hdc2tog, hdc in next 26 sts, hdc2tog. (28 hdc)", True),
        ("sc 18", "Row 4: Ch 1, sc2tog, sc in next 16 sts. (16 sc, 1 sc2tog)", True),
    ],
)
def test_a_decrease_is_counted_with_its_kind(words: str, text: str, right: bool) -> None:
    """A decrease is one stitch (common practice, no source)."""
    assert came_to(words, text).startswith("ok" if right else "count-mismatch")


@pytest.mark.parametrize(
    ("below", "right"),
    [(92, "ok 92 -> 100"), (88, "too-many-stitches"), (96, "stitches-left-over")],
)
def test_a_corner_that_nothing_marks_is_the_stitch_come_to(below: int, right: str) -> None:
    text = "Rnd 2: Ch 1, *sc in next 22 sts, 3 sc in corner; rep from * 3 times more, join."
    assert came_to(f"round sc {below}", text) == right  # 4 x 23 places, 4 x 25 stitches


@pytest.mark.parametrize(
    "said",
    [
        "FPtr around the sc 2 rows below next st, sk the st behind it",
        "FPtr around next st 2 rows below, skip st behind",
        "FPdc around next st 2 rows below, sk next sc behind FPdc",
    ],
)
def test_the_stitch_behind_a_long_one_is_its_own_place(said: str) -> None:
    text = f"Row 8: Ch 1, sc in 1st st, *{said}, sc in next 3 sts; rep from * 4 more times, turn."
    assert came_to("sc 21", text) == "ok 21 -> 21"  # 1 + 5 x 4


@pytest.mark.parametrize(
    ("long_one", "worked"),
    [
        ("long sc in next st 2 rows below", "long sc"),
        ("long dc in next st", "long dc"),
        ("spike sc in next st 2 rows below", "spike sc"),
        ("spike st in next st", "spike st"),
        ("1 long crochet in next st", "long crochet"),
    ],
)
def test_a_stitch_set_far_below_takes_the_place_that_it_covers(long_one: str, worked: str) -> None:
    # 10 below: 1, and 3 times a long one with 2 behind it.
    proof = prove_text(
        "US terms\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10)\n"
        "Row 2: Ch 1, sc in each st across, turn. (10)\n"
        f"Row 3: Ch 1, sc in first st, *{long_one}, sc in next 2 sts; rep from * across. (10)\n"
    )
    assert proof.problems == ()
    assert proof.rows[-1].by_stitch == {"sc": 7, worked: 3}


@pytest.mark.parametrize(
    ("words", "made"),
    [
        # 13 below: an upright, then 4 squares of 3.
        ("Ch 5 (counts as first sp with next dc), sk 2 dc, dc in next dc, *ch 2, sk 2 dc, dc in next dc; rep from * across.", "ok 13 -> 5/4"),
        ("Ch 5 (counts as first mesh), sk 2 dc, dc in next dc, *ch 2, sk 2 dc, dc in next dc; rep from * across.", "ok 13 -> 5/4"),
        ("Ch 4 (counts as first sp), sk 1 dc, dc in next dc, *ch 1, sk 1 dc, dc in next dc; rep from * across.", "ok 13 -> 7/6"),
    ],
)  # fmt: skip
def test_a_chain_that_counts_as_a_square_is_its_upright_and_its_chain(
    words: str, made: str
) -> None:
    assert came_to("dc 13", f"Row 2: {words}") == made


@pytest.mark.parametrize(
    "how",
    [
        ", 4 dc in every 3 rows",
        ", working 4 dc for every 3 rows",
        " – 2 dc per row",
        ", placing 4 dc over every 3 rows",
        " working 4 dc in every 3 rows",
    ],
)
def test_how_many_go_in_so_many_rows_tells_no_others(how: str) -> None:
    assert came_to("nothing", f"Work 16 dc along side edge{how}. (16 dc)") == "ok - -> 16"
