"""A part told by another part: its rows are listed and worked under its own name.

The flap of the hat is 7, 7, 5 and 3 single crochet; a sleeve is 10 and 9; counted by hand. That a
second part is told so is common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from coach.craft.proof import Proof
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.craft.steps import StageKind
from coach.wording.step_sentences import step_told

HAT = """\
Breakwater Hat (US terms)
Rnd 1: 8 dc in magic ring; join. (8 dc)
Rnd 2: Ch 2 (does not count), 2 dc in each dc around; join. (16 dc)
Rnd 3: Ch 2, *dc in next dc, 2 dc in next dc; rep from * around; join. Fasten off. (24 dc)

FIRST EARFLAP
Row 1: Skip 3 dc from the seam, join yarn in next dc, ch 1, sc in same dc and in next 6 dc, turn. (7 sc)
Row 2: Ch 1, sc in each sc across, turn. (7 sc)
Row 3: Ch 1, sc2tog, sc in each sc to last 2 sc, sc2tog, turn. (5 sc)
Row 4: Ch 1, sc2tog, sc in next sc, sc2tog. Fasten off. (3 sc)

"""
SLEEVE = """\
Doll Coat (US terms)

RIGHT SLEEVE
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (10)
Row 2: Ch 1, sc2tog, sc in each sc across. Turn. (9)

"""


def second(proof: Proof) -> list[int]:
    return [row.made for row in proof.rows if row.part in {"Second Earflap", "Left Sleeve"}]


@pytest.mark.parametrize(
    "words",
    [
        "SECOND EARFLAP\nWork Rows 1-4 of first earflap.",
        "SECOND EARFLAP\nSkip 6 dc at front, join yarn in next dc and work Rows 1-4 of first earflap.",
        "SECOND EARFLAP\nWith RS facing, skip next 6 dc, join yarn in next dc. Work as for First Earflap.",
        "SECOND EARFLAP\nMake as first.",
        "Make second earflap as first.",
        "Make second earflap the same as first earflap.",
        "Repeat Rows 1-4 for second earflap.",
        "Repeat for second earflap.",
        "Second earflap: Skip 6 dc for front, join yarn in next dc. Work as for first earflap.",
        "SECOND EARFLAP\nRows 1-4: Work as for first earflap.",
        "SECOND EARFLAP\nRow 1: Sk 6 dc for front, join yarn in next dc, ch 1, sc in same dc and in next 6 dc, "
        "turn. (7 sc)\nRows 2-4: As first earflap. (3 sc)",
        "SECOND EARFLAP\nWork as for first earflap to Row 3.\nRow 4: Ch 1, sc2tog, sc in next sc, sc2tog. (3 sc)",
    ],
)
def test_a_second_earflap_has_the_rows_of_the_first(words: str) -> None:
    proof = prove_text(f"{HAT}{words}\n")

    assert proof.problems == ()
    assert second(proof) == [7, 7, 5, 3]


def test_it_is_begun_where_its_own_words_say() -> None:
    words = "SECOND EARFLAP\nSkip 6 dc at front, join yarn in next dc and work Rows 1-4 of first earflap."
    proof = prove_text(f"{HAT}{words}\n")
    begun = next(each for each in stages(proof) if each.label == "Second Earflap Row 1")
    told = " ".join(step_told(begun, step) for step in steps(begun))

    assert begun.worked_as == "First Earflap Row 1"
    assert "Skip 6" in told
    assert "3" not in told


@pytest.mark.parametrize(
    ("words", "rows"),
    [
        ("LEFT SLEEVE\nWork as for right sleeve.", [10, 9]),
        ("LEFT SLEEVE\nWork same as right sleeve to Row 1.\nRow 2: Ch 1, sc in each sc across. (10)", [10, 10]),
        ("Make left sleeve to match right sleeve.", [10, 9]),
        ("Repeat Rows 1 and 2 for left sleeve.", [10, 9]),
        ("LEFT SLEEVE\nRep Rows 1-2 of Right Sleeve.\nRow 3: Ch 1, sc in each sc across. (9)", [10, 9, 9]),
    ],
)  # fmt: skip
def test_a_second_sleeve_begins_with_its_own_chain(words: str, rows: list[int]) -> None:
    proof = prove_text(f"{SLEEVE}{words}\n")
    begun = [each for each in stages(proof) if each.kind is StageKind.FOUNDATION]

    assert proof.problems == ()
    assert second(proof) == rows
    assert [(each.label, each.stitches) for each in begun] == [
        ("Foundation", 11), ("Left Sleeve foundation", 11),
    ]  # fmt: skip


def test_a_row_after_the_rows_of_another_part_is_held_against_them() -> None:
    (problem,) = prove_text(
        f"{SLEEVE}LEFT SLEEVE\nWork as right sleeve to Row 2.\nRow 3: Ch 1, sc in each sc across. (10)\n"
    ).problems

    assert (problem.code.value, problem.label) == ("count-mismatch", "Left Sleeve Row 3")


def test_a_part_that_is_mirrored_has_no_words_of_its_own() -> None:
    (problem,) = prove_text(
        f"{SLEEVE}LEFT SLEEVE\nWork as for right sleeve, reversing all shaping.\n"
    ).problems

    assert (problem.code.value, problem.label, problem.place.line) == ("no-words", "Left Sleeve", 9)


@pytest.mark.parametrize(
    "words",
    [
        "FINISHING\nSew second sleeve as first.",
        "Work corners as before.",
        "FINISHING\nWork the border as follows.",
        "FINISHING\nMake as many sleeves as you like.",
        "Repeat on the other side.",
        "FINISHING\nJoin the left side same as the right side.",
    ],
)
def test_what_tells_no_part_adds_no_row(words: str) -> None:
    proof = prove_text(f"{SLEEVE}{words}\n")

    assert (proof.problems, len(proof.rows)) == ((), 2)


def test_what_else_is_said_of_the_part_is_told_at_its_first_row() -> None:
    proof = prove_text(f"{SLEEVE}LEFT SLEEVE\nWork as for right sleeve, but do not fasten off.\n")
    begun = next(each for each in stages(proof) if each.label == "Left Sleeve Row 1")

    assert step_told(begun, next(iter(steps(begun)))).startswith("But do not fasten off.")
