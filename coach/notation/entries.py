"""Pieces to the entries of a draft: rows, ranges, repeats of rows, foundations, headings."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from coach.craft.color_plan import ColorPlan
from coach.craft.pattern import Entry, Line, NoWords, Part, PartAgain, Rerun, Start
from coach.craft.problem import Problem, Verdict
from coach.notation.color_entries import ColorsOfRows
from coach.notation.corrections import corrected
from coach.notation.even_rows import even_rows
from coach.notation.facts import Facts
from coach.notation.foundation_lines import start_of
from coach.notation.growing import grown
from coach.notation.headings import copies_of, stands_before_work
from coach.notation.named_headers import row_like
from coach.notation.parts_again import part_again
from coach.notation.pattern_rows import (
    PatternRows,
    continued,
    implied_rows,
    last_number,
    pattern_rows,
    repeated_at_once,
)
from coach.notation.piece import Piece
from coach.notation.row_entries import row_entries, wrong_range
from coach.notation.rows_under_one import several
from coach.notation.shaped_rows import shaped_rows
from coach.notation.words_elsewhere import rows_from_chart


def entries_of(
    pieces: Sequence[Piece], facts: Facts
) -> tuple[list[Entry], list[Problem], ColorPlan]:
    """Return the entries that the pieces make, what is wrong with the pieces, and the yarn by rows."""
    taken = _Entries(corrected(pieces), facts)
    for index, piece in enumerate(taken.pieces):
        taken.take(index, piece)
    return in_working_order(taken.entries), taken.problems, taken.colors.plan(taken.entries)


class _Entries:
    """The entries so far, and what the next piece needs to know of the pieces before it."""

    def __init__(self, pieces: Sequence[Piece], facts: Facts) -> None:
        self.pieces = pieces
        self.facts = facts
        self.entries: list[Entry] = []
        self.problems: list[Problem] = []
        self.colors = ColorsOfRows()
        self.base = "sc"
        self.part: str | None = None
        self.pattern: PatternRows | None = None

    def take(self, index: int, piece: Piece) -> None:
        """Take one piece, by what it is."""
        if piece.kind == "part" and stands_before_work(piece.part or ""):
            piece.part = self.part
            return
        piece.part = self.part if piece.kind != "part" else piece.part
        self.problems += unread_row(piece, self.entries)
        again = part_again(piece, self.pieces[index - 1] if index else None, self.entries)
        if again is not None:
            piece.kind = "again"
            self.entries += again
            self.part = again[-1].part if isinstance(again[-1], PartAgain) else self.part
        elif shaped := self._shaped(piece):
            piece.kind = "again"
            self.entries += self.colors.begun(list(shaped))
        elif not self._said_in_words(piece):
            if piece.kind in ("grow", "row", "rerun") and (
                more := grown(piece, self.entries, self.facts)
            ):
                self.entries += more
            elif piece.kind in ("row", "rerun"):
                self._row(index, piece)
            else:
                self.entries += self._by_kind(piece)

    def _shaped(self, piece: Piece) -> list[Line]:
        """Return the rows that a sentence tells by their shaping, where it is one."""
        if piece.kind not in ("row", "rerun", "text", "continue", "even", "grow"):
            return []
        return shaped_rows(piece, self.entries, self.facts)

    def _said_in_words(self, piece: Piece) -> bool:
        """Take rows that stand in a chart, and how many are made of the part just begun."""
        charted = (
            None if piece.kind == "part" else rows_from_chart(piece, last_number(self.entries))
        )
        if charted and self.entries:
            self.entries.append(charted)
            return True
        if piece.kind == "text" and (said := _copies_said(piece, self.entries)):
            self.entries[-1] = said
            return True
        return False

    def _by_kind(self, piece: Piece) -> list[Entry]:
        """Return the entries of a piece that is no row of its own."""
        made: Entry | None = None
        match piece.kind:
            case "part":
                self.part = piece.part
                made = Part(piece.part or "", piece.place, copies_of(piece.text))
            case "start":
                return self.colors.begun([replace(start_of(piece, self.facts), part=self.part)])
            case "even":
                made = even_rows(piece, self.facts, last_number(self.entries))
            case "pattern":
                self.pattern = pattern_rows(piece.text, self.entries) or self.pattern
                if self.pattern is not None:
                    made = repeated_at_once(piece, self.pattern, self.entries)
            case "continue":
                rows = self.pattern or implied_rows(self.entries)
                made = continued(piece, rows, self.entries) if rows else None
            case "colour":
                made = self.colors.take(piece, self.part, self.entries)
        return [made] if made else []

    def _row(self, index: int, piece: Piece) -> None:
        """Take a row with its number or its name, and what is said of further rows beside it."""
        piece = self.colors.cut_from(piece)
        self.problems += wrong_range(piece)
        told = several(piece, self.pieces[index + 1 :])
        after = last_number(self.entries)
        made = row_entries(piece, self.facts, self.base, self.pattern, after, told=told)
        lines = [each for each in made if isinstance(each, Line)]
        self.base = next((line.base_stitch for line in lines if line.base_stitch), self.base)
        self.entries += self.colors.begun(made, piece.header.color if piece.header else None)


def _copies_said(piece: Piece, entries: Sequence[Entry]) -> Part | None:
    """Return the heading above "Make 2.", with that number."""
    last = entries[-1] if entries else None
    if not isinstance(last, Part) or not re.match(r"\W*(?:make|work)\b", piece.text, re.I):
        return None
    copies = copies_of(piece.text)
    return replace(last, copies=copies) if copies > 1 else None


def unread_row(piece: Piece, entries: Sequence[Entry]) -> list[Problem]:
    """Tell of words among the rows that look like one more, so that none is passed over silently."""
    begun = any(isinstance(entry, Line) for entry in entries)
    if piece.kind != "text" or not begun or not row_like(piece.text):
        return []
    return [
        Problem(
            Verdict.BROKEN_NOTATION,
            piece.place,
            "This looks like a row, but its name does not say which one.",
            "Give it a number, as in Row 12, or call it Next Row or Last Row.",
            label=piece.text.split(":", maxsplit=1)[0].strip()[:40],
        )
    ]


def in_working_order(entries: Sequence[Entry]) -> list[Entry]:
    """Put each row of "Rows 2, 4 and 6" where its number belongs among the rows written."""
    out: list[Entry] = []
    waiting: list[Rerun] = []
    for entry in entries:
        if isinstance(entry, Rerun) and entry.listed:
            waiting.append(entry)
            waiting.sort(key=lambda each: _first_number(each) or 0)
            continue
        number = _first_number(entry)
        if isinstance(entry, Part | Start):
            out += waiting
            waiting = []
        elif number is not None:
            out += [each for each in waiting if (_first_number(each) or 0) < number]
            waiting = [each for each in waiting if (_first_number(each) or 0) >= number]
        out.append(entry)
    return out + waiting


def _first_number(entry: Entry) -> int | None:
    if isinstance(entry, Line):
        return entry.number
    if isinstance(entry, Rerun | NoWords) and entry.numbers:
        return entry.numbers[0]
    return None
