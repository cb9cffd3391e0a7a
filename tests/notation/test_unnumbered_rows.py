"""Rows without a number: beside a part's name, and rounds of one paragraph parted by their counts."""

from __future__ import annotations

from typing import Any

import pytest

from coach.app.proving import proof_json, prove_text

HAT = """Rope bucket hat
US terms. Worked in the round.

CROWN
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: 2 sc in each st around. (12)
Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. (18)

{last}
Fasten off.
"""

CLOTH = """Dish square
US terms.
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
Rows 2-{rows}: Ch 1, sc in each st across, turn. (10 sc)

{last}
"""


def rows_of(text: str) -> list[tuple[str, int, int]]:
    proof: dict[str, Any] = proof_json(prove_text(text))
    assert proof["faults"] == [], proof["faults"]
    return [
        (f"{row['part'] or ''} {row['label']}", row["worked"], row["made"]) for row in proof["rows"]
    ]


@pytest.mark.parametrize(
    ("last", "made"),
    [
        ("Brim: *Sc in next 2 sts, 2 sc in next st; rep from * around. (24)", 24),  # 6 x 4
        ("BRIM – 2 sc in each st around (36 sts)", 36),
        ("Wavy brim: 3 dc in each sc around, join.", 54),
        ("Rolled Edge: Ch 1, sc in each st around, join with sl st. (18)", 18),
    ],
)
def test_the_one_round_beside_its_name_goes_on_from_the_crown(last: str, made: int) -> None:
    label, worked, produced = rows_of(HAT.format(last=last))[-1]
    assert label.split()[0].lower() in last.lower()
    assert label.endswith("Rnd 1")
    assert (worked, produced) == (18, made)


def test_a_wrong_count_beside_a_name_is_found() -> None:
    """6 repeats of four are 24."""
    text = HAT.format(last="Brim: *Sc in next 2 sts, 2 sc in next st; rep from * around. (25)")
    (fault,) = proof_json(prove_text(text))["faults"]
    assert (fault["code"], fault["label"]) == ("count-mismatch", "Brim Rnd 1")


@pytest.mark.parametrize(
    "last",
    [
        "Brim: turn up by two fingers and sew down.",
        "Ears: sew one on each side, 4 sts apart.",
        "Note: 2 sc in each st makes a wavy brim.",
        "Edging: work as you like.",
    ],
)
def test_words_beside_a_name_that_are_no_row_stay_words(last: str) -> None:
    assert len(rows_of(HAT.format(last=last))) == 3


@pytest.mark.parametrize(
    ("rows", "last", "made"),
    [
        # four sides of 10 and four corners of 3
        (
            10,
            "Edging: Ch 1, sc evenly around, working 10 sc on each side and 3 sc in each corner, join. (52 sc)",
            52,
        ),
        # two of 14, two of 10 and four corners of 3
        (
            14,
            "Edging: Ch 1, sc evenly around, working 14 sc along each long side, 10 sc along each short side and 3 sc in each corner, join. (60 sc)",
            60,
        ),
        (
            14,
            "Border: Ch 1, sc evenly around, 14 along both long sides, 10 across the top, 10 across the bottom, join. (48 sc)",
            48,
        ),
        (10, "Border: Ch 1, sc evenly around, 3 sc in each corner, join. (52 sc)", 52),
    ],
)
def test_sides_told_at_once_are_two_or_four(rows: int, last: str, made: int) -> None:
    label, _, produced = rows_of(CLOTH.format(rows=rows, last=last))[-1]
    assert label.endswith("Rnd 1")
    assert produced == made


def test_sides_that_do_not_come_to_the_count_are_told() -> None:
    """4 x 10 and 4 x 3 are 52."""
    last = "Edging: Ch 1, sc evenly around, working 10 sc on each side and 3 sc in each corner, join. (54 sc)"
    (fault,) = proof_json(prove_text(CLOTH.format(rows=10, last=last)))["faults"]
    assert fault["code"] == "count-mismatch"
    assert "makes 52" in fault["message"]


@pytest.mark.parametrize(
    "ears",
    [
        "Ears (make 2): 6 sc in magic ring. (6) 2 sc in each st around. (12) Sc in each st around. (12) Fasten off.",
        "Ears (make 2): 6 sc in magic ring (6). [2 sc in next st] 6 times (12). Sc in each st around (12).",
    ],
)
def test_rounds_of_a_paragraph_are_parted_by_their_counts(ears: str) -> None:
    rows = rows_of(HAT.format(last=ears))[3:]
    assert [(label.split()[-1], made) for label, _, made in rows] == [
        ("1", 6),
        ("2", 12),
        ("3", 12),
    ]


def test_a_wrong_count_in_a_paragraph_is_of_its_own_round() -> None:
    ears = "Ears (make 2): 6 sc in magic ring. (6) 2 sc in each st around. (13) Fasten off."
    (fault,) = proof_json(prove_text(HAT.format(last=ears)))["faults"]
    assert (fault["code"], fault["label"]) == ("count-mismatch", "Ears Rnd 2")
