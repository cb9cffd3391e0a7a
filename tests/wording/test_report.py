"""The proof page tells the verdict first and shows each fault with its line and a caret."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.problem import Place, Problem, Verdict
from coach.craft.proof import Foundation, Multiple, Proof, ProvedRow, Question, Reading
from coach.wording.report import WIDTH, proof_page

TEXT = "Pond Mat\nCh 7.\nRow 1: Sc in 2nd ch from hook and in each ch across. (6 sc)\nRow 2: Ch 1, sc in next 5 sts. (5 sc)\n"


def row(number: int, *, line: int, made: int = 6, verdict: Verdict = Verdict.OK) -> ProvedRow:
    return ProvedRow(
        kind="row",
        label=f"Row {number}",
        number=number,
        part=None,
        side="RS" if number % 2 else "WS",
        line=line,
        worked=6,
        spaces_worked=0,
        made=made,
        spaces=0,
        by_stitch={"sc": made},
        stated=made if number < 3 else None,
        verdict=verdict,
        work=(),
    )


FAULTY = Proof(
    title="Pond Mat",
    terms="US",
    foundation=Foundation(chains=7, line=2),
    rows=(row(1, line=3), row(2, line=4, made=5, verdict=Verdict.STITCHES_LEFT_OVER)),
    problems=(
        Problem(
            Verdict.STITCHES_LEFT_OVER,
            Place(4, 14, 16),
            "Row 2 works 5 of the 6 stitches of Row 1; 1 is left over.",
            "work 6, or say to leave 1 unworked.",
            row=2,
            label="Row 2",
        ),
    ),
    readings=(Reading("turning chain of sc rows", "does not count", "a chain 1 never counts"),),
    questions=(Question("Is it US or UK?", ("US", "UK")),),
    multiple=Multiple(1, 0, "stitches", 1),
)


def test_the_page_of_a_faulty_pattern_is_whole() -> None:
    assert (
        proof_page(FAULTY, TEXT)
        == """\
Pond Mat
1 fault in 1 row, of 2 rows proved.

Row 2, line 4, column 14: leaves stitches over [stitches-left-over]
    Row 2: Ch 1, sc in next 5 sts. (5 sc)
                 ^^^^^^^^^^^^^^^^
  Row 2 works 5 of the 6 stitches of Row 1; 1 is left over.
  Try: work 6, or say to leave 1 unworked.

Questions for the designer
  Is it US or UK? US / UK

Readings taken
  turning chain of sc rows: does not count. Because a chain 1 never counts.

Terms: US.
Foundation: 7 chains.
Multiple, from the repeats: 1 plus 0 stitches, and 1 chain more for the
  foundation.

Every row in working order: places used, stitches made
  Row 1 (RS): uses 6, makes 6 (6 sc); as stated
  Row 2 (WS): uses 6, makes 5 (5 sc); leaves stitches over"""
    )


def test_a_long_faulty_line_is_cut_so_that_the_caret_still_points_at_the_place() -> None:
    text = "Row 1: " + "sc in next st, " * 30 + "flump in next st."
    column = text.index("flump") + 1
    problem = Problem(Verdict.UNKNOWN_WORD, Place(1, column, 5), "flump?", "", label="Row 1")
    proof = Proof("Long", "US", None, (row(1, line=1),), problems=(problem,))

    lines = proof_page(proof, text).splitlines()
    caret = next(at for at, line in enumerate(lines) if line.strip() == "^^^^^")

    start = lines[caret].index("^")
    assert lines[caret - 1][start : start + 5] == "flump"
    assert all(len(line) <= WIDTH for line in lines)


def test_a_row_that_states_no_count_is_marked_as_worked_out() -> None:
    proof = Proof("Plain", "US", None, (row(3, line=1),))

    assert "Row 3 (RS): uses 6, makes 6 (6 sc); worked out by the coach" in proof_page(proof, "")


def test_a_uk_pattern_is_told_in_uk_terms() -> None:
    """The work is kept in US terms; a US double crochet is a UK treble (handbook table, see
    `coach/craft/stitch.py`)."""
    uk = replace(row(3, line=1), by_stitch={"sc": 2, "dc": 3, "FPdc": 1})
    proof = Proof("Harbour Mat", "UK", None, (uk,))

    assert "(2 dc, 3 tr, 1 FPtr)" in proof_page(proof, "")


def test_rows_that_repeat_are_told_in_one_line() -> None:
    """Rows 3 to 6 twice over Rows 1 and 2; Rows 3 to 6 four times over Row 2 alone."""
    pair = tuple(
        replace(row(3 + at, line=3), worked_as=f"Row {1 + at % 2}", repeat=(1 + at // 2, 2))
        for at in range(4)
    )
    single = tuple(
        replace(row(3 + at, line=3), worked_as="Row 2", repeat=(1 + at, 4)) for at in range(4)
    )

    assert "Row 3 to Row 6: worked as Row 1 to Row 2, 2 times; 6 stitches each" in proof_page(
        Proof("Pairs", "US", None, pair), ""
    )
    assert "Row 3 to Row 6: worked as Row 2; 6 stitches each" in proof_page(
        Proof("One", "US", None, single), ""
    )


def test_rows_of_a_part_worked_as_another_are_told_in_one_line() -> None:
    """Rows 3 to 6 of the front, each as the row of the back that has its number."""
    front = tuple(replace(row(3 + at, line=9), worked_as=f"Back Row {3 + at}") for at in range(4))
    page = proof_page(Proof("Vest", "US", None, front), "")
    assert "Row 3 to Row 6: worked as Back Row 3 to Back Row 6; counts as there" in page

    alike = tuple(replace(each, worked_as="Row 2") for each in front)
    assert "counts as there" not in proof_page(Proof("Vest", "US", None, alike), "")
