"""Sentences on the yarn of the rows, set beside the rows that they speak of."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from coach.craft.color_plan import ColorPlan, ColorStretch, Stripe
from coach.craft.instruction import Act
from coach.craft.pattern import Entry, Line, NoWords, Rerun, Start
from coach.notation.color_changes import ColorsTold
from coach.notation.color_rows import colors_told, stripes_at_end
from coach.notation.pattern_rows import last_number
from coach.notation.piece import Piece

_CLAUSE_ENDS = re.compile(r"\.(?:\s|$)|\s*[(\[]")
_CLAUSE = re.compile(
    r"[,;.]\s+(?:(?:and\s+)?at\s+the\s+same\s+time,?\s+)?(?=(?:alternat|work|in\s+strip|strip|chang|us)\w*\b)",
    re.IGNORECASE,
)


@dataclass(slots=True)
class ColorsOfRows:
    """What was told so far, and what waits for the next row: its yarn, or the stripes from it on."""

    stretches: list[ColorStretch] = field(default_factory=list)
    now: str | None = None
    waiting: tuple[ColorsTold, str | None] | None = None

    def take(self, piece: Piece, part: str | None, entries: Sequence[Entry]) -> Rerun | None:
        """Take one sentence; return rows worked again, where it asks for that in another yarn."""
        told = colors_told(piece.text)
        if told is None:
            return None
        if told.now is not None:
            self.now = told.now
        elif told.stripes:
            self.waiting = (told, part)
        elif told.again is not None and told.again[1] <= last_number(entries):
            first, last = told.again
            source = tuple(str(number) for number in range(first, last + 1))
            stripes = (Stripe(told.stretches[0].stripes[0].color),)
            return Rerun(None, source, piece.place, part=part, text=piece.text, stripes=stripes)
        else:
            self.stretches += [replace(each, part=part) for each in told.stretches]
        return None

    def cut_from(self, piece: Piece) -> Piece:
        """Return a range of rows without the stripes at its end ("alternating 2 rows B, 2 rows A")."""
        header = piece.header
        if header is None or len(header.numbers) < 2 or header.listed or not piece.spans:
            return piece
        line, start, stop = piece.spans[-1]
        for found in _CLAUSE.finditer(line.text, start, stop):
            ends = _CLAUSE_ENDS.search(line.text, found.end(), stop)
            end = ends.start() if ends else stop
            told = stripes_at_end(line.text[found.end() : end])
            if told is not None:
                first, last = header.numbers[0], header.numbers[-1]
                self.stretches.append(
                    ColorStretch(first, last, told, repeats=True, part=piece.part)
                )
                rest = [(line, end, stop)] if end < stop else []
                return replace(
                    piece, spans=[*piece.spans[:-1], (line, start, found.start()), *rest]
                )
        return piece

    def begun(self, entries: Sequence[Entry], named: str | None = None) -> list[Entry]:
        """Return *entries* with the yarn that was told just before them, or *named* in their header."""
        color = named or self.now
        if color is not None and entries and not isinstance(entries[0], NoWords):
            entries = [in_yarn(entries[0], color), *entries[1:]]
            self.now = None
        number = next((n for each in entries if (n := _number(each)) is not None), None)
        if self.waiting is not None and number is not None:
            told, part = self.waiting
            self.stretches += _from_row(number, told, part)
            self.waiting = None
        return list(entries)

    def plan(self, entries: Sequence[Entry]) -> ColorPlan:
        """Return the plan; what stands under a heading that has no rows is told of the first rows."""
        if self.waiting is not None:
            told_last, part = self.waiting
            self.stretches += _from_row(_first_number(entries, part), told_last, part)
        worked = [entry.part for entry in entries if isinstance(entry, Line | Rerun | Start)]
        parts = [None, *dict.fromkeys(part for part in worked if part is not None)]
        told = [each if each.part in parts else replace(each, part=None) for each in self.stretches]
        told += _back_to_the_first_yarn(told, entries)
        return ColorPlan(tuple(sorted(told, key=lambda each: parts.index(each.part))))


def _first_number(entries: Sequence[Entry], part: str | None) -> int:
    """Return the first row's number of *part*, or of the pattern: stripes may be told after the rows."""
    own = [entry for entry in entries if getattr(entry, "part", None) == part]
    numbers = (_number(entry) for entry in own or entries)
    return next((number for number in numbers if number is not None), 1)


def _back_to_the_first_yarn(
    told: Sequence[ColorStretch], entries: Sequence[Entry]
) -> list[ColorStretch]:
    """Return where the yarn of the foundation is taken up again after "Rows 12 to 15 in B".

    Where the rows are told from the first one on, the last yarn told goes on.
    """
    out: list[ColorStretch] = []
    for part in dict.fromkeys(each.part for each in told):
        own = [each for each in told if each.part == part]
        begun = [e.color for e in entries if isinstance(e, Start) and e.color and e.part == part]
        plain = all(not each.repeats and not each.change and each.last for each in own)
        if len(begun) != 1 or not plain or min(each.first for each in own) <= 1:
            continue
        out += [
            ColorStretch(each.last + 1, None, (Stripe(begun[0]),), change=True, part=part)
            for each in own
            if each.last and not any(o.first <= each.last + 1 <= (o.last or 0) for o in own)
        ]
    return out


def _from_row(number: int, told: ColorsTold, part: str | None) -> list[ColorStretch]:
    """Return the stripes from row *number* on; told once, they are rows by name."""
    if told.repeats:
        return [ColorStretch(number, None, told.stripes, repeats=True, part=part)]
    out: list[ColorStretch] = []
    for stripe in told.stripes:
        last = number + stripe.rows - 1
        out.append(ColorStretch(number, last, (stripe,), part=part))
        number = last + 1
    return out


def _number(entry: Entry) -> int | None:
    if isinstance(entry, Line):
        return entry.number
    return entry.numbers[0] if isinstance(entry, Rerun) and entry.numbers else None


def in_yarn(entry: Entry, color: str) -> Entry:
    """Return *entry* as if its words began "With B,"."""
    text = f"With {color}, {getattr(entry, 'text', '')}"
    match entry:
        case Line():
            return replace(
                entry, items=(Act("colour", entry.place, color), *entry.items), text=text
            )
        case Rerun():
            return replace(entry, stripes=entry.stripes or (Stripe(color),), text=text)
        case Start():
            return replace(entry, color=entry.color or color)
        case _:
            return entry
