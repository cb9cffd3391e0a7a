"""Rows that say the same are read once; each still stands at its own place in the text."""

from __future__ import annotations

from coach.app.proving import prove_text
from coach.craft.instruction import makes_in
from coach.craft.pattern import Line
from coach.notation.reading import read

STRIP = "Strip\nUS terms\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 sc)\n"
AGAIN = "Ch 1, turn, *sc in next st, (sc, dc) in next st; rep from * across. (15 sts)"
BACK = "Ch 1, turn, sc in each st across. ({} sts)"


def test_rows_of_the_same_words_are_the_same_but_for_their_places() -> None:
    text = STRIP + "".join(f"Row {row}: {BACK.format(10)}\n" for row in range(2, 13))
    lines = [entry for entry in read(text, terms="US").entries if isinstance(entry, Line)]
    assert [line.number for line in lines] == list(range(1, 13))
    assert [line.place.line for line in lines] == list(range(4, 16))
    for line in lines[1:]:
        at = text.splitlines()[line.place.line - 1].index("sc in each") + 1
        assert [make.place.column for make in makes_in(line.items)] == [at]
        assert {make.place.line for make in makes_in(line.items)} == {line.place.line}
        assert {figure.place.line for figures in line.stated for figure in figures} == {
            line.place.line
        }


def test_a_slip_in_words_said_before_is_told_where_it_stands() -> None:
    """Row 2 fits 10 (10 used, 15 made); the same words in Row 3 meet 15, an odd number."""
    proof = prove_text(STRIP + f"Row 2: {AGAIN}\nRow 3: {AGAIN}\n")
    (problem,) = proof.problems
    assert (problem.row, problem.place.line) == (3, 6)
    assert str(problem.code) == "repeat-does-not-fit"


def test_the_same_words_after_another_row_mean_what_they_mean_there() -> None:
    """ "inc" is the stitch of the row that it stands in, or else of the rows before."""
    text = STRIP + "Row 2: Ch 1, turn, inc across. (20)\nRow 3: Ch 1, turn, inc across. (40)\n"
    assert [row.made for row in prove_text(text).rows] == [10, 20, 40]
