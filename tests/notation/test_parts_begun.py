"""Parts that begin away from the last row, and rounds called by a letter."""

from __future__ import annotations

import pytest

from coach.app.proving import proof_json, prove_text
from coach.craft.problem import Verdict

HAT = """\
Breakwater Hat (US terms)
Rnd 1: 8 dc in magic ring; join. (8 dc)
Rnd 2: Ch 2 (does not count), 2 dc in each dc around; join. (16 dc)
Rnd 3: Ch 2, *dc in next dc, 2 dc in next dc; rep from * around; join. (24 dc)
Rnd 4: Ch 2, dc in each dc around; join. Fasten off. (24 dc)

FIRST EARFLAP
{flap}
Row 2: Ch 1, sc2tog, sc in each sc to last 2 sc, sc2tog, turn. (5 sc)
"""


def test_an_earflap_leaves_the_rest_of_the_brim() -> None:
    flap = "Row 1: Skip 3 dc from the seam, join yarn in next dc, ch 1, sc in same dc and in next 6 dc, turn. (7 sc)"
    proof = prove_text(HAT.format(flap=flap))
    first, second = proof.rows[-2:]

    assert proof.problems == ()
    assert (first.label, first.worked, first.made) == ("First Earflap Row 1", None, 7)
    assert (second.worked, second.made) == (7, 5)


def test_an_earflap_whose_count_is_wrong_is_a_fault() -> None:
    flap = "Row 1: Skip 3 dc from the seam, join yarn in next dc, ch 1, sc in same dc and in next 5 dc, turn. (7 sc)"

    assert not prove_text(HAT.format(flap=flap)).holds


def test_a_sleeve_goes_round_its_own_opening() -> None:
    # The ch 3 and a dc in the space at the underarm, and 8 dc: 10.
    proof = prove_text(
        "Doll Jersey (US terms)\nCh 3 counts as dc.\nCh 26.\n"
        "Row 1: Dc in 4th ch from hook and in each ch across. Turn. (24 dc)\n"
        "Row 2: Ch 3, dc in next 7 dc, ch 2, skip 8 dc for sleeve, dc in last 8 dc. Turn. (16 dc, 1 ch-2 sp)\n"
        "Row 3: Ch 3, dc in each dc and 2 dc in each ch-2 sp across. Fasten off. (18 dc)\n"
        "SLEEVE\n"
        "Rnd 1: Join yarn in ch-2 sp at underarm, ch 3, dc in same sp, dc in each of 8 sleeve dc; join to top of ch 3. (10 dc)\n"
        "Rnd 2: Ch 3, dc in each dc around; join. (10 dc)\n"
    )

    assert proof.problems == ()
    assert [(row.worked, row.made) for row in proof.rows[-2:]] == [(None, 10), (10, 10)]


def test_a_shoulder_leaves_the_rest_after_its_turning_chain() -> None:
    proof = prove_text(
        "Doll Vest (US terms)\nCh 22.\nRow 1: Hdc in 3rd ch from hook and in each ch across: 20 hdc. Ch 2, turn.\n"
        "Note: The ch-2 turn never counts as a st.\n"
        "RIGHT SHOULDER: Row 2: Hdc in first 6 hdc: 6 hdc. Ch 2, turn, leaving rem sts unworked.\n"
        "Row 3: Hdc2tog, hdc in last 4 hdc: 5 sts. Fasten off.\n"
    )

    assert proof.problems == ()
    assert [(row.made, row.spaces) for row in proof.rows] == [(20, 0), (6, 0), (5, 0)]


CROWN = """\
Lantern Hat (US terms)
Starting ch-2 isn't a stitch.
BRIM
Ch 24, sl st to first ch to form a ring.
R1: ch 2, dc in each ch, sl st to first dc - 24
CROWN
C1: ch 2, *dc in next 4 sts, dc2tog, rep from * around, sl st - {first}
C2: ch 2, *dc in next 3 sts, dc2tog, rep from * around, sl st - 16
C3: ch 2, dc2tog around, sl st - 8
"""


def test_rounds_are_called_by_the_letter_of_their_part() -> None:
    rows = proof_json(prove_text(CROWN.format(first=20)))["rows"]

    assert [(row["label"], row["made"]) for row in rows] == [
        ("Rnd 1", 24), ("C1", 20), ("C2", 16), ("C3", 8),
    ]  # fmt: skip


def test_a_fault_in_a_round_called_by_a_letter_is_told_there() -> None:
    (problem,) = prove_text(CROWN.format(first=21)).problems

    assert (problem.code, problem.label) == (Verdict.COUNT_MISMATCH, "C1")


@pytest.mark.parametrize("list_of_yarns", ["C1: navy\nC2: white", "A1: 2 balls\nA2: 1 ball"])
def test_yarns_called_by_a_letter_are_no_rounds(list_of_yarns: str) -> None:
    proof = prove_text(
        f"Mat (US terms)\nYarn\n{list_of_yarns}\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\n"
    )

    assert [row.label for row in proof.rows] == ["Row 1"]
