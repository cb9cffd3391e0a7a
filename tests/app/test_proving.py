"""The contract's JSON of a proof, and the built-in patterns counted by hand."""

from __future__ import annotations

import json
from importlib import resources

import pytest

from coach.app.proving import proof_json, prove_lines, prove_text


def built_in(name: str) -> str:
    return (resources.files("coach.patterns") / f"{name}.txt").read_text(encoding="utf-8")


def test_the_pebble_cloth_holds_at_16_in_all_its_rows() -> None:
    got = proof_json(prove_text(built_in("pebble-cloth")))
    assert got["verdict"] == "proved"
    assert got["foundation"] == {"chains": 17}
    assert [row["made"] for row in got["rows"]] == [16] * 12
    assert got["multiple"] == {"of": 2, "plus": 0, "unit": "stitches", "base_chains": 1}


def test_the_cushion_front_holds_at_60_in_34_rows() -> None:
    got = proof_json(prove_text(built_in("orchard-gate-cushion")))
    assert got["verdict"] == "proved"
    assert [row["made"] for row in got["rows"]] == [60] * 34
    # Row 2: edge dc, 7 x (2 FPdc, 3 sc, 3 dc), 2 FPdc, dc in the chain: 1 + 56 + 3 = 60
    assert got["rows"][1]["by_stitch"] == {"dc": 23, "FPdc": 16, "sc": 21}
    assert got["rows"][5]["worked_as"] == "Row 2"
    assert got["rows"][5]["repeat"] == [1, 7]
    assert [row["side"] for row in got["rows"][:4]] == ["WS", "RS", "WS", "RS"]


@pytest.mark.parametrize(("size", "made"), [("Small", 12), ("Large", 18)])
def test_a_size_is_proved_by_its_own_numbers(size: str, made: int) -> None:
    text = "Sizes: Small (Large)\nCh 13 (19).\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 (18) sc)\n"
    assert prove_text(text, size=size).rows[0].made == made


def test_a_fault_in_another_size_is_told_with_its_size() -> None:
    text = "Sizes: Small (Large)\nCh 13 (19).\nRow 1: Sc in 2nd ch from hook and in each ch across. 12 (19) sc\n"
    proof = prove_text(text)
    assert [problem.row for problem in proof.problems] == [1]
    assert "In size Large" in proof.problems[0].message


def test_a_measured_length_becomes_rows_by_the_gauge_and_ends_on_its_side() -> None:
    """8 rows to 4 in: 10 in are 20 rows; Row 1 is RS, so Row 20 is WS."""
    text = (
        "Scarf\nGauge: 14 sts and 8 rows = 4 in\nCh 21.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across, turn. (20)\n"
        'Row 2: Ch 1, sc in each st across, turn. (20)\nRep Row 2 until piece measures 10" from beg, ending with a WS row.\n'
    )
    proof = prove_text(text)
    assert (len(proof.rows), proof.rows[-1].side) == (20, "WS")


def test_lines_that_are_no_records_are_answered() -> None:
    answers = [json.loads(line) for line in prove_lines(["{", "[]", '{"id":"a","text":"Ch 5."}'])]
    assert [answer["verdict"] for answer in answers] == ["broken-notation", "broken-notation", "ok"]
    assert answers[2]["produces"] == 5


def test_one_slip_is_told_once_and_the_rest_still_proved() -> None:
    text = (
        "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)\n"
        "Row 2: Ch 1, sc in next 19 sts, turn. (20 sc)\n"
        "Rows 3-10: Ch 1, sc in each st across, turn. (20 sc)\n"
    )
    proof = prove_text(text)
    assert [problem.label for problem in proof.problems] == ["Row 2"]
    assert len(proof.rows) == 10


def test_a_reading_that_changes_nothing_is_not_told() -> None:
    """Ways of reading that come to the same stitches and spaces in every row are no news."""
    proof = prove_text(
        "V-st: (dc, ch 1, dc) in one st.\n"
        "Ch 13.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across: 12 sc.\n"
        "Row 2: Ch 3 (counts as dc), turn; *skip next 2 sc, V-st in next sc; repeat from * across "
        "to last 2 sc, skip next sc, dc in last sc. (8 dc, 3 ch-1 sps)\n"
        "Row 3: Ch 3 (counts as dc), turn; V-st in ch-1 sp of each V-st across, dc in top of "
        "turning ch. (8 dc, 3 ch-1 sps)\n"
    )

    assert proof.verdict == "proved"
    assert proof.readings == ()
