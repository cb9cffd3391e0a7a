"""Rows told by other rows: worked as an earlier one but for an edge, set out as a table.

The texts are ours and the sums by hand; where the trade itself is the rule it is common
practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.test_what_makers_met import codes, made

BEGUN = (
    "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\n"
    "Row 2: Ch 1, turn, sc in first st, dc in each st to last st, sc in last st. (20)\n"
)


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("Rep Row 2, but work 2 sc in last st. (21)", 21),
        ("As Row 2, but 2 sc in the first st. (21)", 21),
        ("Rep Row 2, but 2 sc in first st and 2 sc in last st. (22)", 22),
        ("Work as Row 2, ending with sc in last 3 sts. (20)", 20),
        ("Repeat Row 2, but sc2tog over the last 2 sts. (19)", 19),
        ("Rep Row 2, except skip the last st. (19)", 19),
        ("Rep Row 2, but in the main colour. (20)", 20),
        ("Rep Row 2, but do not turn. (20)", 20),
        ("Rep Row 2, ending with a WS row. (20)", 20),
    ],
)
def test_a_row_is_worked_as_another_but_for_its_edge(words: str, wanted: int) -> None:
    proof = prove_text(f"{BEGUN}Row 3: {words}")
    assert (proof.verdict, made(proof)) == ("proved", [20, 20, wanted])


def test_each_row_of_a_range_has_the_other_edge() -> None:
    proof = prove_text(f"{BEGUN}Rows 3-5: Rep Row 2, but work 2 sc in last st. (23)")
    assert (proof.verdict, made(proof)) == ("proved", [20, 20, 21, 22, 23])


def test_what_is_worked_otherwise_must_have_a_place() -> None:
    proof = prove_text(f"{BEGUN}Row 3: Rep Row 2, but 3 sc in next st. (22)")
    assert [str(code) for code in codes(proof)] == ["broken-notation"]
    assert (proof.problems[0].label, proof.problems[0].place.line) == ("Row 3", 4)


def test_a_wrong_count_after_another_edge_is_found() -> None:
    proof = prove_text(f"{BEGUN}Row 3: Rep Row 2, but work 2 sc in last st. (20)")
    assert [str(code) for code in codes(proof)] == ["count-mismatch"]


@pytest.mark.parametrize(
    "lines",
    [
        ("R 1 | 6 sc in magic ring | 6", "R 2 | inc | x6 | 12", "R 3 | 1 sc, inc | x6 | 18"),
        ("| 1 | 6 sc in magic ring | 6 |", "| 2 | inc x 6 | 12 |", "| 3 | (1 sc, inc) x 6 | 18 |"),
        ("Rnd 1 | 6 sc in magic ring | 6", "Rnd 2 | 6 inc | 12", "Rnd 3 | [sc, inc] x 6 | 18"),
    ],
)
def test_rounds_may_stand_in_a_table(lines: tuple[str, ...]) -> None:
    proof = prove_text("\n".join(lines))
    assert (proof.verdict, made(proof)) == ("proved", [6, 12, 18])
    wrong = prove_text("\n".join((*lines[:2], lines[2].replace("18", "17"))))
    assert [str(code) for code in codes(wrong)] == ["count-mismatch"]
