"""A later row that comes to the edge where the piece began: as many as the first row is long."""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

# 18 stitches, 9 rows: top 18, side 9, chain 18, side 9.
CLOTH = """\
Wash Cloth (US terms)
Ch 19.
Row 1: Sc in 2nd ch from hook and in each ch across. (18 sc)
Rows 2-9: Ch 1, turn, sc in each st across. (18 sc)

EDGING
{edging}
"""


@pytest.mark.parametrize(
    ("edging", "made"),
    [
        ("Rnd 1: Ch 1, sc in each st across top, sc in each row end down side, sc in each ch of foundation, sc in each row end up side, join. (54 sc)", 54),
        ("Rnd 1: Ch 1, sc in each st, sc in each row end, sc in each foundation ch, sc in each row end, join.", 54),
        ("Rnd 1: Ch 1, sc in each st across, working along opposite side of foundation ch, sc in each ch across, join. (36)", 36),
        ("Rnd 1: Ch 1, sc in each st across, working in free loops of foundation ch, 2 sc in each ch across, join. (54)", 54),
        ("Rnd 1: Ch 1, sc in each st across, sc in each ch along bottom edge, join. (36 sc)", 36),
        # Corners of chains: 18 + 9 + 18 + 9 = 54, and 4 spaces.
        ("Rnd 1: Ch 1, sc in each st across, ch 2, sc in each row end, ch 2, sc in each foundation ch, ch 2, sc in each row end, ch 2, join. (54 sc, 4 ch-2 sps)", 54),
    ],
)  # fmt: skip
def test_each_chain_of_the_foundation_is_worked(edging: str, made: int) -> None:
    proof = prove_text(CLOTH.format(edging=edging))
    assert proof.problems == ()
    assert (proof.rows[-1].worked, proof.rows[-1].made) == (None, made)


@pytest.mark.parametrize(
    "edging",
    [
        "Rnd 1: Ch 1, sc in each st, sc in each row end, sc in each foundation ch, sc in each row end, join. (53 sc)",
        "Rnd 1: Ch 1, sc in each st across, sc in each ch of foundation, join. (35 sc)",
        "Rnd 1: Ch 1, sc in each st across, sc in each ch of foundation, join. (18 sc)",
    ],
)
def test_a_count_without_them_is_told(edging: str) -> None:
    codes = [problem.code.value for problem in prove_text(CLOTH.format(edging=edging)).problems]
    assert codes == ["count-mismatch"]


def test_chains_made_in_the_row_itself_are_worked_first() -> None:
    # 18 along the row, then 6 chains less the first: 5 more.
    proof = prove_text(
        CLOTH.format(
            edging="Row 1: Ch 1, sc in each st across, ch 6, sc in 2nd ch from hook and in each ch across. (23 sc)"
        )
    )
    assert proof.problems == ()
    assert (proof.rows[-1].worked, proof.rows[-1].made) == (18, 23)


def test_a_further_piece_has_its_own_chain() -> None:
    proof = prove_text(
        CLOTH.format(edging="Row 1: Ch 1, sc in each st across. (18 sc)")
        + "\nPOCKET\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
        "Row 2: Ch 1, sc in each st across, turn. (10 sc)\n"
        "Rnd 3: Ch 1, sc in each st across, sc in each foundation ch, join. (20 sc)\n"
    )
    assert proof.problems == ()
    assert proof.rows[-1].made == 20
