"""Rows that only turn part way, and later rows that go on into what those left.

The texts are ours and the sums by hand; the customs are common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

PIECE = "US terms\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)\n"
# Row 2 leaves 5 of 20; Row 4 works 15 and those 5; Row 5 leaves 10; Row 7 works 10 and those 10.
SCARF = (
    "Row 2: Ch 1, sc in first 15 sts, turn{left}. (15 sc)\n"
    "Row 3: Ch 1, sc in each st across, turn. (15 sc)\n"
    "Row 4: Ch 1, {again}, turn. (20 sc)\n"
    "Row 5: Ch 1, sc in each of first 10 sts, turn. (10 sc)\n"
    "Row 6: Ch 1, sc in each st across, turn. (10 sc)\n"
    "Row 7: Ch 1, sc in first 10 sts, sc in next 10 sts of Row 4. (20 sc)\n"
)


def told(text: str) -> list[tuple[str, str]]:
    return [(problem.label or "", problem.code.value) for problem in prove_text(text).problems]


@pytest.mark.parametrize("left", ["", ", leaving last 5 sts unworked"])
@pytest.mark.parametrize(
    "again",
    [
        "sc in each of 15 sts, sc in each of 5 unworked sts of Row 1",
        "sc in each st across, sc in 5 unworked sts of Row 1",
        "sc in next 15 sts, sc in next 5 skipped sts",
    ],
)
def test_a_later_row_takes_up_what_a_short_row_left(left: str, again: str) -> None:
    proof = prove_text(PIECE + SCARF.format(left=left, again=again))

    assert proof.problems == ()
    assert [row.made for row in proof.rows] == [20, 15, 15, 20, 10, 10, 20]
    assert [row.worked for row in proof.rows[1:]] == [20, 15, 20, 20, 10, 20]


def test_a_short_row_takes_up_no_more_than_was_left() -> None:
    again = "sc in each of 15 sts, sc in each of 6 unworked sts of Row 1"
    assert ("Row 4", "too-many-stitches") in told(PIECE + SCARF.format(left="", again=again).replace("(20 sc)", "(21 sc)", 1))  # fmt: skip


def test_the_turn_of_a_heel_works_over_each_gap() -> None:
    # Row 1 works 14 of 20 and leaves 6, Row 2 works 8 of 13 and leaves 5; Row 3 works the 6 made
    # and 3 of the 6 left, Row 4 the 7 made and 3 of the 5.
    proof = prove_text(
        PIECE + "HEEL\nRow 1: Ch 1, sc in first 11 sts, sc2tog, sc in next st, turn.\n"
        "Row 2: Ch 1, sk first st, sc in next 4 sts, sc2tog, sc in next st, turn.\n"
        "Row 3: Ch 1, sk first st, sc in next 5 sts, sc2tog, sc in next st, turn.\n"
        "Row 4: Ch 1, sk first st, sc in next 6 sts, sc2tog, sc in next st, turn.\n"
    )
    assert proof.problems == ()
    assert [row.made for row in proof.rows[1:]] == [13, 6, 7, 8]


def test_a_gusset_goes_along_the_flap_and_over_the_instep() -> None:
    # 36 around: a flap of 18, turned to 7; 7 + 10 + 18 + 10 = 45.
    proof = prove_text(
        "US terms\nCh 36, join to form a ring.\nLEG\nRnd 1: Ch 1, sc in each ch around, join. (36 sc)\n"
        "HEEL FLAP\nRow 1: Ch 1, sc in next 18 sts, turn, leaving remaining 18 sts unworked. (18 sc)\n"
        "Rows 2-10: Ch 1, sc in each st across, turn. (18 sc)\n"
        "TURN HEEL\nRow 1: Ch 1, sc in first 11 sts, sc2tog, sc in next st, turn.\n"
        "Row 2: Ch 1, sk first st, sc in next 5 sts, sc2tog, sc in next st, turn.\n"
        "GUSSET\nRnd 1: Ch 1, sc across heel, 10 sc along side of heel flap, sc in 18 instep sts, "
        "10 sc along other side of heel flap, join. (45 sc)\n"
    )
    assert proof.problems == ()
    assert [row.made for row in proof.rows[-3:]] == [13, 7, 45]


def test_a_neck_that_only_turns_is_borne_out_by_its_heading() -> None:
    neck = "SHAPE NECK\nRow 2: Ch 1, sc in next 7 sts, turn. (7 sc)\nRow 3: Ch 1, sc in each st across. (7 sc)\n"
    assert told(PIECE + neck) == []


@pytest.mark.parametrize(
    "row",
    [
        "Row 2: Ch 1, sc in next 19 sts, turn.\nRow 3: Ch 1, sc in each st across, turn.",
        "Row 2: Ch 1, sc in next 19 sts, turn. (19 sc)\nRow 3: Ch 1, sc in each st across, turn. (19 sc)",
        "Row 2: Ch 1, sc in next 18 sts, turn.\nRow 3: Ch 1, sc in next 18 sts, turn.",
        "Row 2: Ch 1, *sc in next 3 sts, hdc in next 3 sts; rep from * twice more, sc in next st, turn.",
    ],
)
def test_a_row_that_nothing_bears_out_leaves_stitches_over(row: str) -> None:
    assert told(f"{PIECE}{row}\n") == [("Row 2", "stitches-left-over")]


def test_a_count_that_a_short_row_does_not_make_is_told() -> None:
    text = PIECE + "SHAPE NECK\nRow 2: Ch 1, sc in next 7 sts, turn. (8 sc)\n"
    assert [code for _, code in told(text)] != []
