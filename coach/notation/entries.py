"""Pieces to the entries of a draft: rows, ranges, repeats of rows, foundations, headings."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from coach.craft.pattern import Entry, Line, NoWords, Part, Rerun, Start
from coach.craft.problem import Problem
from coach.notation.corrections import CORRECTION, corrected, mended
from coach.notation.counts import parted
from coach.notation.facts import Facts
from coach.notation.number_words import SMALL
from coach.notation.piece import Piece
from coach.notation.pieces import FOUNDATION
from coach.notation.remarks import BY_COLOUR, SHOWN
from coach.notation.row_repeats import RERUN, even_rows, really_rerun, rerun
from coach.notation.row_text import read_line
from coach.notation.tokens import Token, tokens_of
from coach.notation.words import understood


def entries_of(
    pieces: Sequence[Piece], facts: Facts
) -> tuple[list[Entry], list[Problem], list[Piece]]:
    """Return the entries that the pieces make, and what is wrong with them."""
    entries: list[Entry] = []
    problems: list[Problem] = []
    base = "sc"
    part: str | None = None
    corrections = {
        corrected(piece.text)[0]: piece
        for piece in pieces
        if piece.kind == "text" and CORRECTION.match(piece.text)
    }
    for piece in pieces:
        if piece.kind == "part":
            part = piece.part
            entries.append(Part(piece.part or "", piece.place))
        elif piece.kind == "start":
            start = start_of(piece, facts)
            if isinstance(start, Line):
                entries.append(replace(start, part=part))
            else:
                entries.append(replace(start, part=part))
        elif piece.kind == "even":
            entries.append(even_rows(piece))
        elif piece.kind in ("row", "rerun"):
            made = row_entries(piece, facts, base, part)
            for entry in made:
                if isinstance(entry, Line):
                    base = entry.base_stitch or base
            entries += made
    if corrections:
        entries = [mended(entry, corrections, facts) for entry in entries]
    return entries, problems, []


def row_entries(piece: Piece, facts: Facts, base: str, part: str | None) -> list[Entry]:
    """Return the entries of one piece with a row header: a line, a range, a repeat of rows."""
    header = piece.header
    text = piece.text
    numbers = header.numbers if header else ()
    first, last = (numbers[0], numbers[-1]) if numbers else (None, None)
    kind = header.kind if header else "row"
    label = header.label if header and header.label else None
    if shown_only(text):
        span = (first, last if last is not None else first) if first is not None else None
        return [NoWords(span, label or label_of(kind, first), piece.place, kind, part, text)]
    again = RERUN.match(text)
    if again and (piece.kind == "rerun" or really_rerun(text, again)):
        return [rerun(piece, again, facts, part)]
    line = read_line(piece, facts, base)
    line = replace(
        line,
        kind=kind,
        number=first,
        label=label or label_of(kind, first),
        side=header.side if header else None,
        part=part,
    )
    out: list[Entry] = []
    if (
        len(numbers) == 2
        and header is not None
        and last is not None
        and first is not None
        and last > first
    ):
        count = last - first + 1
        count = min(count, 20000)
        source = (line.label,)
        out.append(replace(line, stated=line.stated[:1]))
        out.append(
            Rerun(
                (first + 1, first + count - 1),
                source,
                piece.place,
                kind,
                stated=line.stated[1:] if len(line.stated) > 1 else line.stated,
                part=part,
                text=text,
            )
        )
        return out
    if len(numbers) > 2:
        out.append(line)
        for number in numbers[1:]:
            out.append(
                Rerun(
                    (number, number),
                    (line.label,),
                    piece.place,
                    kind,
                    part=part,
                    stated=line.stated[:1],
                    text=text,
                )
            )
        return out
    if header is not None and header.every:
        return [
            line,
            Rerun(
                None, (line.label,), piece.place, kind, alternate=header.every, part=part, text=text
            ),
        ]
    return [line]


def label_of(kind: str, number: int | None) -> str:
    """Return the usual label of a row: "Row 6", "Rnd 2"."""
    short = "Row" if kind == "row" else "Rnd"
    return f"{short} {number}" if number is not None else short


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
    found = FOUNDATION.match(piece.text)
    assert found is not None  # noqa: S101
    word = (found["after"] or found["before"]).lower()
    chains = int(word) if word.isdigit() else SMALL[word]
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
