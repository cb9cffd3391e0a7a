"""One piece with a row header to its entries: a row, a range, a repeat of rows, rows without words."""

from __future__ import annotations

import re
from dataclasses import replace

from coach.craft.pattern import Entry, Line, NoWords, Rerun
from coach.craft.problem import Problem, Verdict
from coach.notation.counts import parted
from coach.notation.even_rows import numbered_even_rows
from coach.notation.facts import Facts
from coach.notation.header import Header
from coach.notation.named_rows import in_rows_below
from coach.notation.pattern_rows import (
    PatternRows,
    as_set,
)
from coach.notation.piece import Piece
from coach.notation.remark_words import BY_COLOUR, SHOWN
from coach.notation.row_repeats import really_rerun, repeats_rows, rerun, then_again
from coach.notation.row_text import read_line
from coach.notation.rows_under_one import Several, numbered_on, under_one_number
from coach.notation.tokens import tokens_of
from coach.notation.words import understood
from coach.notation.words_elsewhere import shapes_at_once


def wrong_range(piece: Piece) -> list[Problem]:
    """Hold "Rnds 11-17" against "(6 rnds)" of the same header."""
    header = piece.header
    if header is None or header.rows is None or len(header.numbers) != 2 or header.listed:
        return []
    first, last = header.numbers
    if last - first + 1 == header.rows or last < first:
        return []
    what = "Rows" if header.kind == "row" else "Rnds"
    message = f"{what} {first} to {last} are {last - first + 1}, but {header.rows} are stated."
    remedy = "Correct the row numbers or how many they are."
    return [
        Problem(
            Verdict.COUNT_MISMATCH,
            piece.place,
            message,
            remedy,
            row=first,
            label=label_of(header.kind, first),
        )
    ]


def row_entries(
    piece: Piece,
    facts: Facts,
    base: str,
    pattern: PatternRows | None = None,
    after: int = 0,
    *,
    told: Several | None = None,
) -> list[Entry]:
    """Return the entries of one piece with a row header: a line, a range, a repeat of rows.

    told: how many rows its one number stands for, where its words say so.
    """
    own_words = piece.text
    if told is not None:
        piece = numbered_on(piece, told)
    header = piece.header
    if header is not None and not header.numbers and header.rows:
        header = replace(header, numbers=(after + 1, after + header.rows), label=None)
        piece = replace(piece, header=header)
    text = piece.text
    numbers = header.numbers if header else ()
    span = (numbers[0], numbers[-1]) if numbers else None
    kind = header.kind if header else "row"
    label = (header.label if header else None) or label_of(kind, span[0] if span else None)
    if span and as_set(text) and pattern is not None:
        return [_as_set(piece, facts, pattern, span)]
    if shown_only(text) or tells_nothing(text) or shapes_at_once(text):
        return [NoWords(span, label, piece.place, kind, piece.part, text)]
    again = repeats_rows(text)
    if again and (piece.kind == "rerun" or really_rerun(text, again)):
        entry = rerun(piece, again, facts, piece.part, after)
        return [*_one_by_one(entry, header), *then_again(entry, again.string[again.end() :])]
    if (even := numbered_even_rows(piece, facts, after)) is not None:
        return [even]
    line = replace(
        read_line(piece, facts, base),
        kind=kind,
        number=span[0] if span else None,
        label=label,
        side=header.side if header else None,
        part=piece.part,
    )
    line = in_rows_below(line)
    if told is not None and (told.one_number or told.length):
        return under_one_number(replace(line, text=own_words), told)
    return [line] if header is None else _with_the_same(line, piece, header)


def _one_by_one(entry: Rerun, header: Header | None) -> list[Entry]:
    """Part "Rows 11, 13 and 15: Rep Rows 3, 5 and 3" into a repeat for each row."""
    if header is None or not header.listed:
        return [entry]
    last = len(header.numbers) - 1
    return [
        replace(
            entry,
            numbers=(number, number),
            source=(entry.source[index % len(entry.source)],),
            listed=index > 0,
            stated=entry.stated if index == last else (),
        )
        for index, number in enumerate(header.numbers)
    ]


def _with_the_same(line: Line, piece: Piece, header: Header) -> list[Entry]:
    """Return a row and those of its header that are worked the same."""
    numbers = header.numbers
    if header.listed:
        line = replace(line, until=numbers[-1], alike=len(numbers))
        return [line, *(_again(line, piece, (number, number)) for number in numbers[1:])]
    if len(numbers) > 1 and numbers[-1] > numbers[0]:
        return _range(line, piece, (numbers[0], numbers[-1]))
    if header.every:
        return [line, replace(_again(line, piece, None), alternate=header.every, listed=False)]
    return [line]


def _as_set(piece: Piece, facts: Facts, pattern: PatternRows, span: tuple[int, int]) -> Rerun:
    """Rows whose words are only "continue in pattern"."""
    _, stated = parted(understood(tokens_of(piece.spans), facts.vocabulary))
    return Rerun(
        span,
        pattern.from_row(span[0]),
        piece.place,
        pattern.kind,
        stated=stated,
        part=piece.part,
        text=piece.text,
    )


def _again(line: Line, piece: Piece, span: tuple[int, int] | None) -> Rerun:
    return Rerun(
        span,
        (line.label,),
        piece.place,
        line.kind,
        part=line.part,
        stated=line.stated[:1],
        text=piece.text,
        listed=True,
    )


def _range(line: Line, piece: Piece, span: tuple[int, int]) -> list[Entry]:
    """A row and the rows after it that are worked the same: "Rows 3-7"."""
    count = min(span[1] - span[0] + 1, 20000)
    rest = replace(
        _again(line, piece, (span[0] + 1, span[0] + count - 1)),
        stated=line.stated[1:] if len(line.stated) > 1 else line.stated,
        listed=False,
    )
    return [replace(line, stated=line.stated[:1], until=span[1], alike=count), rest]


def label_of(kind: str, number: int | None) -> str:
    """Return the usual label of a row: "Row 6", "Rnd 2"."""
    short = "Row" if kind == "row" else "Rnd"
    return f"{short} {number}" if number is not None else short


def tells_nothing(text: str) -> bool:
    """Tell whether a row's words name no work at all: "???", "as before", "continue in pattern"."""
    return not re.search(r"[^\W_]", text) or as_set(text)


def shown_only(text: str) -> bool:
    """Tell whether a row rests on a chart or a photo alone, or on colour alone."""
    lowered = text.lower()
    if any(re.search(rf"\b{word}\b", lowered) for word in SHOWN):
        return not re.search(r"\b\d+\s*(?:sc|dc|hdc|tr)\b|\b(?:sc|dc|hdc|tr) in\b", lowered)
    return bool(
        re.search(
            rf"\b(?:{'|'.join(BY_COLOUR)})\s+(?:st|sts|stitch|stitches|sp|sps|ones)\b", lowered
        )
    )
