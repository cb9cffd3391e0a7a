"""The second side of a neck: joined to what the first side left of a row that both lie on."""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

# Row 3 of the first side uses 11 + 2 of 36 and leaves 23; 10 for the neck leave 13 for the second.
BACK = """\
Millrace Vest, back (US terms)
Ch 37.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (36 sc)
Row 2: Ch 1, sc in each st across, turn. (36 sc)
FIRST SHOULDER
Row 3: Ch 1, sc in next 11 sts, sc2tog over next 2 sts, turn, leaving remaining sts unworked. (12 sc)
Rows 4-6: Rep Row 2. (12 sc)
Fasten off.
SECOND SHOULDER
{side}
Row 4: Ch 1, sc in each st across, turn. (12 sc)
Rows 5-6: Rep Row 2. Fasten off.
"""


@pytest.mark.parametrize(
    "side",
    [
        "With RS facing, skip next 10 sts of Row 2 and join yarn in next st.\n"
        "Row 3: Ch 1, sc2tog over next 2 sts, sc in each st across, turn. (12 sc)",
        "Skip center 10 sts, join yarn in next st.\n"
        "Row 3: Ch 1, sc2tog over next 2 sts, sc in each st across, turn. (12 sc)",
        "Row 3: Leave next 10 sts unworked, join yarn in next st, ch 1, sc2tog over next 2 sts, sc in "
        "each rem st, turn. (12 sc)",
        "Sk 10 sts on Row 2, rejoin yarn with sl st in next st.\n"
        "Row 3: Ch 1, sc in same st, sc in each of next 10 sts, sc2tog, turn. (12 sc)",
        "Leave center 10 sts of Row 2 unworked and attach yarn to next st.\n"
        "Row 3 (RS): Ch 1, sc2tog, sc in each st to end, turn. (12 sc)",
        "Return to Row 2, skip 10 sts, join yarn to next st.\nRow 3: Ch 1, sc2tog, sc across, turn. (12 sc)",
        "Row 3: Return to Row 2. Miss next 10 sts, join yarn to next st, ch 1, sc2tog, sc to end, turn. (12 sc)",
        "Row 3: With RS facing, join yarn in 11th unworked st of Row 2, ch 1, sc2tog, sc to end, turn. (12 sc)",
        "With right side facing, join yarn at armhole edge.\n"
        "Row 3: Ch 1, sc in next 11 sts, sc2tog, turn, leaving 10 sts unworked. (12 sc)",
    ],
)  # fmt: skip
def test_the_second_side_is_worked_on_what_the_first_left(side: str) -> None:
    proof = prove_text(BACK.format(side=side))

    assert proof.problems == ()
    # Rows before the split can be named from either side: Row 2 is worked again as Rows 5 and 6.
    assert [row.made for row in proof.rows] == [36, 36, 12, 12, 12, 12, 12, 12, 12, 12]


def test_a_counted_chain_stands_on_the_stitch_that_is_joined_in() -> None:
    proof = prove_text(
        "Pocket (US terms). Ch 3 counts as dc throughout.\nCh 22.\n"
        "Row 1: Dc in 4th ch from hook and in each ch across, turn. (20 dc)\n"
        "Row 2: Ch 3, dc in next 5 sts, turn, leaving rem sts unworked. (6 dc)\n"
        "Row 3: Ch 3, dc in next 5 dc. Fasten off. (6 dc)\n"
        "OTHER SIDE\nSkip next 8 sts of Row 1, join yarn in next st.\n"
        "Row 2: Ch 3, dc in next 5 sts, turn. (6 dc)\n"  # 6 used + 8 + 6 = 20
        "Row 3: Ch 3, dc in each dc across. (6 dc)\n"
    )
    assert proof.problems == ()
    assert [row.made for row in proof.rows] == [20, 6, 6, 6, 6]


@pytest.mark.parametrize(
    ("side", "code"),
    [
        # 36 - 13 - 11 = 12 are left: 1 + 10 = 11.
        ("Row 3: Skip next 11 sts of Row 2, join yarn in next st, ch 1, sc2tog, sc to end, turn. (12 sc)", "count-mismatch"),
        # 13 are left, and 14 are asked for.
        ("Row 3: Skip next 10 sts of Row 2, join yarn in next st, ch 1, sc in next 14 sts, turn. (14 sc)", "too-many-stitches"),
    ],
)  # fmt: skip
def test_a_side_that_does_not_fit_is_told_once(side: str, code: str) -> None:
    proof = prove_text(
        BACK.format(side=side).replace("Row 4: Ch 1, sc in each st across, turn. (12 sc)\n", "")
    )

    assert [problem.code.value for problem in proof.problems] == [code]


def test_three_pieces_over_one_row_leave_what_lies_between_them() -> None:
    # 10 + 2 + 16 + 2 + 10 = 40.
    proof = prove_text(
        "Harbour Jacket (US terms)\nCh 41.\n"
        "Row 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (40 sc)\n"
        "Rows 2-4: Ch 1, sc in each sc across, turn. (40 sc)\n"
        "LEFT FRONT\n"
        "Row 5: Ch 1, sc in next 10 sc, turn. Leave remaining 30 sc unworked. (10 sc)\n"
        "Row 6: Ch 1, sc in each sc, turn. (10 sc)\nFasten off.\n"
        "BACK\n"
        "Row 5: Skip next 2 sc from Left Front, join yarn in next sc, ch 1, sc in same sc and next 15 sc, "
        "turn, leaving rem sts unworked. (16 sc)\n"
        "Row 6: Ch 1, sc in each sc, turn. (16 sc)\nFasten off.\n"
        "RIGHT FRONT\n"
        "Row 5: Skip next 2 sc, join yarn in next sc, ch 1, sc in same sc and in each sc to end, turn. (10 sc)\n"
        "Row 6: Ch 1, sc in each sc, turn. (10 sc)\n"
    )
    assert proof.problems == ()
    assert [row.made for row in proof.rows] == [40] * 4 + [10, 10, 16, 16, 10, 10]


def test_a_first_row_of_a_side_without_a_name_is_the_one_before_the_next() -> None:
    proof = prove_text(
        "Tea Cosy Side (US terms)\nCh 41.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (40 sc)\n"
        "Row 2: Ch 1, sc in each sc across, turn.\n"
        "Row 3: Ch 1, sc in first 15 sc, turn, leave rem 25 sc unworked. (15 sc)\n"
        "Row 4: Ch 1, sc2tog, sc in each sc to end, turn. (14 sc)\nFasten off.\n"
        "Sk next 10 sc on Row 2, join yarn in next sc, ch 1, sc in same sc and in each sc to end, turn. (15 sc)\n"
        "Row 4: Ch 1, sc in each sc to last 2 sc, sc2tog. (14 sc)\n"
    )
    assert proof.problems == ()
    assert [(row.number, row.made) for row in proof.rows] == [
        (1, 40), (2, 40), (3, 15), (4, 14), (3, 15), (4, 14),
    ]  # fmt: skip
