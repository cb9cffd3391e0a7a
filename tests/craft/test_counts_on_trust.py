"""A count along an edge is only the pattern's own word, unless the words of the row give its number."""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from coach.craft.counts_on_trust import taken_on_trust
from coach.wording.report import proof_page

MAT = (
    "Mat\nUS terms\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (12 sc)\n"
    "Rows 2-12: Ch 1, sc in each st across, turn.\nEDGING\nRnd 1: Ch 1, {around}, join. ({count} sc)\n"
)


@pytest.mark.parametrize(
    ("around", "count", "trusted"),
    [
        ("sc evenly around", 52, True),
        ("sc evenly around, 3 sc in each corner", 52, True),
        ("work 52 sc evenly around", 52, False),
        ("12 sc along side edge, 12 sc across top, 12 sc down other side, 12 sc along bottom", 48, False),
        ("sc in each st around", 12, False),
    ],
)  # fmt: skip
def test_a_count_that_nothing_bears_out_is_told_as_the_patterns_own(
    around: str, count: int, trusted: bool
) -> None:
    text = MAT.format(around=around, count=count)
    proof = prove_text(text)

    assert proof.problems == ()
    assert (proof.rows[-1].made, taken_on_trust(proof.rows[-1])) == (count, trusted)
    assert ("taken from the pattern" in proof_page(proof, text)) is trusted
