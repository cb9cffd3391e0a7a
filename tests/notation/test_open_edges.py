"""Rounds along the edges whose number the pattern leaves open: worked with the usual one, and told."""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

PIECE = """Hearth Square
US terms.
Ch {chains}.
{rows}

BORDER
Rnd 1: {first}
Rnd 2: {second}
"""
SC = "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\nRows 2-8: Ch 1, sc in each st across, turn. (10 sc)"
DC = "Row 1: Dc in 4th ch from hook and in each ch across, turn. (10 dc)\nRows 2-5: Ch 3 (counts as dc), dc in each st across, turn. (10 dc)"
PLAIN = "Ch 1, sc in each st around, join."


@pytest.mark.parametrize(
    ("chains", "rows", "first", "made"),
    [
        # 10 and 10, and 8 rows on either side
        (11, SC, "Ch 1, sc evenly around, join.", 36),
        # and three in each of four corners
        (
            11,
            SC,
            "Join yarn in any corner, ch 1, sc evenly around, working 3 sc in each corner, join.",
            48,
        ),
        (11, SC, "Ch 1, sc evenly around, 3 sc in each corner, join.", 48),
        # 10 and 10, and 5 rows of double crochet, two to each row, on either side
        (12, DC, "Ch 1, sc evenly around, placing 3 sc in each corner, join.", 52),
    ],
)
def test_the_usual_number_goes_round_and_is_told(
    chains: int, rows: str, first: str, made: int
) -> None:
    proof = prove_text(PIECE.format(chains=chains, rows=rows, first=first, second=PLAIN))
    assert proof.verdict == "proved"
    assert [row.made for row in proof.rows[-2:]] == [made, made]
    (told,) = [reading for reading in proof.readings if "round the edge" in reading.what]
    assert "Border Rnd 1" in told.what
    assert "leaves it open" in told.because


def test_another_number_in_the_next_round_is_no_fault() -> None:
    """The maker's edge, or the designer's, may take more."""
    second = "Ch 1, sc in each st around, join. (60 sc)"
    first = "Ch 1, sc evenly around, working 3 sc in each corner, join."
    proof = prove_text(PIECE.format(chains=11, rows=SC, first=first, second=second))
    assert proof.problems == ()
    assert proof.rows[-1].made == 60


def test_a_stated_number_is_the_patterns_own() -> None:
    first = "Ch 1, sc evenly around, working 3 sc in each corner, join. (44 sc)"
    proof = prove_text(PIECE.format(chains=11, rows=SC, first=first, second=PLAIN))
    assert [row.made for row in proof.rows[-2:]] == [44, 44]
    assert not [reading for reading in proof.readings if "round the edge" in reading.what]
