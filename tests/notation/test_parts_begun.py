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


LEGS = """\
Bramble the Goblin (US terms)
LEGS (make 2)
Rnd 1: MR, 6 sc (6)
Rnd 2: inc x 6 (12)
Cut the yarn on the first leg. Do not cut the yarn on the second leg.

BODY
{body}
Rnd 2: sc in each st (24)
"""


def test_two_legs_are_joined_into_a_body() -> None:
    # 1 and 11 of the first leg, 12 of the second.
    body = (
        "Rnd 1: sc in any st of the first leg, sc in the next 11 sts around the first leg, "
        "then sc in the 12 sts of the second leg. (24)"
    )
    proof = prove_text(LEGS.format(body=body))

    assert proof.problems == ()
    assert [(row.worked, row.made) for row in proof.rows[-2:]] == [(None, 24), (24, 24)]


def test_legs_that_do_not_make_the_stated_body_are_a_fault() -> None:
    body = "Rnd 1: sc in any st of the first leg, sc in the next 11 sts around the first leg, sc in the 10 sts of the second leg. (24)"

    assert not prove_text(LEGS.format(body=body)).holds


def test_a_slip_stitch_into_another_motif_uses_no_place_of_this_one() -> None:
    # 16 dc: four times ch 2, joined, ch 2 over 3 of them, and a sc in the fourth.
    proof = prove_text(
        "Harbour Runner (US terms)\nMOTIF ONE\nCh 6, join with a sl st to form a ring.\n"
        "Rnd 1: Ch 3 (counts as dc), 15 dc in ring; join in top of ch-3. (16 dc)\n"
        "Rnd 2: Ch 1, sc in same st, *ch 5, sk next 3 dc, sc in next dc; rep from * 2 more times, ch 5, sk last 3 dc; join. (4 sc, 4 ch-5 lps)\n"
        "MOTIF TWO\nRnd 1: Work same as Rnd 1 of Motif One.\n"
        "Rnd 2: Ch 1, sc in same st, *ch 2, sl st in a ch-5 lp of Motif One, ch 2, sk next 3 dc, sc in next dc; "
        "rep from * 2 more times, ch 5, sk last 3 dc; join. (4 sc)\n"
    )

    assert proof.problems == ()
    assert (proof.rows[-1].worked, proof.rows[-1].made) == (16, 4)


@pytest.mark.parametrize(
    ("note", "terms"),
    [
        ("Ch 3 at beg of row counts as first dc.", "US"),
        ("Ch 4 counts as dc and ch 1.", "US"),
        ("3ch counts as 1tr.", "UK"),
        ("Ch 4 counts as tr.", "US"),
        ("4ch counts as 1dtr.", "UK"),
    ],
)
def test_a_chain_as_tall_as_its_stitch_tells_the_terms(note: str, terms: str) -> None:
    # US: dc 3 chains, tr 4; UK: tr 3, dtr 4 (common practice).
    stitch = note.rstrip(".").split()[-1].removeprefix("1") if "ch 1" not in note else "dc"
    proof = prove_text(f"Scarf\n{note}\nCh 22.\nRow 1: Work 1 {stitch} in each ch.\n")

    assert proof.terms == terms
    assert not any("US or UK" in question.what for question in proof.questions)
