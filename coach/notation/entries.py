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
from coach.notation.counts import parted
from coach.notation.even_rows import even_rows, numbered_even_rows
from coach.notation.facts import Facts
from coach.notation.growing import grown
from coach.notation.header import Header
from coach.notation.headings import copies_of
from coach.notation.lead import FOUNDATION
from coach.notation.named_headers import row_like
from coach.notation.named_rows import in_rows_below
from coach.notation.number_words import number_of
from coach.notation.open_foundation import open_foundation
from coach.notation.parts_again import part_again
from coach.notation.pattern_rows import (
    PatternRows,
    as_set,
    continued,
    implied_rows,
    last_number,
    pattern_rows,
    repeated_at_once,
)
from coach.notation.piece import Piece
from coach.notation.remark_words import BY_COLOUR, SHOWN
from coach.notation.row_repeats import really_rerun, repeats_rows, rerun, then_again
from coach.notation.row_text import read_line
from coach.notation.rows_under_one import Several, numbered_on, several, under_one_number
from coach.notation.run_in_headings import RING_ALONE
from coach.notation.tokens import Token, tokens_of
from coach.notation.words import understood
from coach.notation.words_elsewhere import rows_from_chart, shapes_at_once


def entries_of(
    pieces: Sequence[Piece], facts: Facts
) -> tuple[list[Entry], list[Problem], ColorPlan]:
    """Return the entries that the pieces make, what is wrong with the pieces, and the yarn by rows."""
    entries: list[Entry] = []
    colors = ColorsOfRows()
    problems: list[Problem] = []
    base = "sc"
    part: str | None = None
    pattern: PatternRows | None = None
    whole = corrected(pieces)
    for index, piece in enumerate(whole):
        piece.part = part if piece.kind != "part" else piece.part
        problems += unread_row(piece, entries)
        again_part = part_again(piece, whole[index - 1] if index else None, entries)
        if again_part is not None:
            piece.kind = "again"
            entries += again_part
            part = again_part[-1].part if isinstance(again_part[-1], PartAgain) else part
        elif piece.kind == "part":
            part = piece.part
            entries.append(Part(piece.part or "", piece.place, copies_of(piece.text)))
        elif (charted := rows_from_chart(piece, last_number(entries))) and entries:
            entries.append(charted)
        elif piece.kind == "text" and (said := _copies_said(piece, entries)):
            entries[-1] = said
        elif piece.kind == "start":
            entries += colors.begun([replace(start_of(piece, facts), part=part)])
        elif piece.kind == "even":
            even = even_rows(piece, facts, last_number(entries))
            entries += [even] if even else []
        elif piece.kind == "pattern":
            pattern = pattern_rows(piece.text, entries) or pattern
            again = repeated_at_once(piece, pattern, entries) if pattern else None
            entries += [again] if again else []
        elif piece.kind == "continue":
            rows = pattern or implied_rows(entries)
            again = continued(piece, rows, entries) if rows else None
            entries += [again] if again else []
        elif piece.kind == "colour":
            repeated = colors.take(piece, part, entries)
            entries += [repeated] if repeated else []
        elif piece.kind in ("grow", "row", "rerun") and (more := grown(piece, entries, facts)):
            entries += more
        elif piece.kind in ("row", "rerun"):
            piece = colors.cut_from(piece)  # noqa: PLW2901
            problems += wrong_range(piece)
            told = several(piece, whole[index + 1 :])
            made = row_entries(piece, facts, base, pattern, last_number(entries), told=told)
            base = next(
                (each.base_stitch for each in made if isinstance(each, Line) and each.base_stitch),
                base,
            )
            entries += colors.begun(made, piece.header.color if piece.header else None)
    return in_working_order(entries), problems, colors.plan(entries)


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


def start_of(piece: Piece, facts: Facts) -> Start | Line:
    """A foundation on a line of its own."""
    tokens = understood(tokens_of(piece.spans), facts.vocabulary)
    body, _stated = parted(tokens)
    if (opened := open_foundation(piece.text)) is not None:
        joined = any(token.is_("join", "ring", "twist") for token in body)
        multiple = None if opened.sample else (opened.of, opened.plus)
        kind = "joined chain" if joined else "chain"
        return Start(opened.chains, kind, piece.place, open_multiple=multiple)
    if (ring := RING_ALONE.fullmatch(piece.text)) is not None:
        return Start(None, "magic ring", piece.place, ring["color"])
    found = FOUNDATION.match(piece.text)
    assert found is not None  # noqa: S101
    word = (found["after"] or found["before"]).lower()
    chains = number_of(word) or 0
    texts = [token.text for token in body]
    kind = "chain"
    made = _from_start(body)
    if made:
        line = read_line(piece, facts, "sc")
        return replace(line, label="Start", kind="round")
    if (
        "join" in texts
        or "ring" in texts
        or "twist" in texts
        or any(t.text == "sl st" for t in body)
    ):
        kind = "joined chain"
    colour = re.match(
        r"\W*(?:with|using)\s+(?:colou?r\s+)?([A-Za-z]\w*)", piece.text, re.IGNORECASE
    )
    return Start(chains, kind, piece.place, colour[1] if colour else None)


def _from_start(tokens: Sequence[Token]) -> bool:
    """Tell whether a foundation line goes on to work stitches into its chain."""
    for index, token in enumerate(tokens):
        if token.kind == "stitch" and token.text != "sl st":
            following = tokens[index + 1] if index + 1 < len(tokens) else None
            if following is not None and following.is_("in", "into", "across"):
                return True
    return False
