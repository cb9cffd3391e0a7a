"""Lines of a pattern to pieces: rows with what continues them, foundations, headings, other text.

Only where things begin and end is decided here; what the words say is read elsewhere.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import replace

from coach.notation.cleaning import CleanLine
from coach.notation.color_pieces import without_color_lines
from coach.notation.corrections import is_correction
from coach.notation.header import Header
from coach.notation.headers import header_at, headers_in
from coach.notation.headings import VERBS, heading, heading_over
from coach.notation.lead import (
    ON_THE_CHAIN,
    first_row,
    lead_kind,
    pieces_before,
    repeats_further,
)
from coach.notation.lettered_rounds import lettered, lettered_letters, numbered_step
from coach.notation.open_foundation import open_foundation
from coach.notation.pattern_rows import CONTINUES, FORMS
from coach.notation.piece import Piece
from coach.notation.rejoined import joined_to_their_rows
from coach.notation.run_in_headings import FIRST_STEP, RING_ALONE, RING_START, run_in_heading
from coach.notation.unnumbered_rows import (
    edgings,
    named_first_rows,
    parted_by_counts,
    row_beside_its_name,
)

FURNITURE = re.compile(
    r"^\W*(?:page\s+\d+(?:\s+of\s+\d+)?|\d+\s*/\s*\d+|.*[–-]\s*page\s+\d+\s+of\s+\d+|https?://\S+|www\.\S+.*|pin it!?|save\b.*|share\b.*|advertisement|print this|\(?c\)?\s*\d{4}\b.*|©.*|all rights reserved.*|copyright.*)\W*$",
    re.IGNORECASE,
)


def segmented(lines: Sequence[CleanLine]) -> list[Piece]:
    """Cut the lines into pieces: rows with what continues them, foundations, headings, text."""
    named = any(
        (header := header_at(line.text, bare=False)) is not None and not header.spoken
        for line in lines
    )
    letters = lettered_letters(line.text for line in lines)
    pieces: list[Piece] = []
    current: Piece | None = None
    numbered = False
    coming = list(without_color_lines(lines))
    for index, line in enumerate(coming):
        if isinstance(line, Piece):
            _set_under(pieces, line)
            current = None
            continue
        text = line.text
        if not text.strip():
            current = None if current is None or _finished(current.text) else current
            continue
        if FURNITURE.match(text) and not re.match(
            r"\W*(?:save|share)\b.*\b(?:sc|dc|ch|st)\b", text, re.IGNORECASE
        ):
            continue
        if (named_by_letter := lettered(text, letters)) is not None:
            current = Piece("row", [(line, named_by_letter.end, len(text))], header=named_by_letter)
            pieces.append(current)
            numbered = numbered or named_by_letter.bare
            continue
        going_on = current is not None and current.kind == "row" and _goes_on(current, text)
        if going_on and current is not None:
            current.spans.append((line, 0, len(text)))
            continue
        bare = not named or numbered or _first_step(pieces, text)
        cut = _cut(line, bare=bare) or _step_due(line, pieces) or row_beside_its_name(line, pieces)
        if cut is not None:
            current = _add(pieces, cut)
            numbered = numbered or _numbered_bare(cut)
            continue
        whole = (line, 0, len(text))
        if current is not None and current.kind == "start" and ON_THE_CHAIN.match(text):
            current = first_row(*whole)
            pieces.append(current)
            continue
        phrase = heading_over(text, _next_text(coming[index + 1 :])) if pieces else None
        if (
            phrase is None
            and current is not None
            and current.kind in ("row", "start", "rerun", "even", "grow")
            and _continues(current, text)
        ):
            current.spans.append(whole)
            continue
        if pieces and (name := phrase or heading(text)) is not None:
            pieces.append(Piece("part", [whole], part=name))
            current = None
            continue
        pieces.append(Piece("text", [whole]))
        current = pieces[-1]
    pieces = joined_to_their_rows(pieces)
    pieces = parted_by_counts(_without_open_foundations(edgings(pieces)))
    return named_first_rows(_rows_or_rounds(pieces))


def _first_step(pieces: Sequence[Piece], text: str) -> bool:
    """Tell whether a part's rounds are called by a bare number though others have names."""
    return bool(pieces) and pieces[-1].kind == "part" and FIRST_STEP.match(text) is not None


def _next_text(coming: Sequence[CleanLine | Piece]) -> str:
    """Return the text of the next line that has any; of colours told between rows, none."""
    for line in coming:
        if isinstance(line, Piece):
            return ""
        if line.text.strip():
            return line.text
    return ""


def _without_open_foundations(pieces: list[Piece]) -> list[Piece]:
    """Where "ch a multiple of 6 + 2" is followed by "ch 62", only the number is the foundation.

    Headings may stand between: "TO ADJUST THE SIZE" over the multiple, "THE PATTERN" over the number.
    """
    worked = [piece for piece in pieces if piece.kind not in ("text", "part")]
    for piece, following in itertools.pairwise(worked):
        if piece.kind == following.kind == "start" and open_foundation(piece.text) is not None:
            piece.kind = "text"
    return pieces


def _set_under(pieces: list[Piece], colour: Piece) -> None:
    """Add what tells colours; a heading that stands over it alone ("Stripes") begins no part."""
    if pieces and pieces[-1].kind == "part" and _COLOUR_HEADING.search(pieces[-1].text):
        pieces[-1].kind = "text"
    pieces.append(colour)


_COLOUR_HEADING = re.compile(r"\bstrip|\bcolou?rs?\b|\bnotes?\b|\byarn", re.IGNORECASE)


def _rows_or_rounds(pieces: list[Piece]) -> list[Piece]:
    """A bare "R3" is a row where the pattern turns its work, else a round."""
    short = [piece for piece in pieces if piece.header is not None and piece.header.short]
    if any(re.search(r"\bturn\b", piece.text, re.IGNORECASE) for piece in short):
        for piece in short:
            assert piece.header is not None  # noqa: S101
            piece.header = replace(piece.header, kind="row")
    return pieces


def _add(pieces: list[Piece], cut: list[Piece]) -> Piece:
    pieces += cut
    return cut[-1]


def _numbered_bare(pieces: Sequence[Piece]) -> bool:
    return any(piece.header is not None and piece.header.bare for piece in pieces)


def _step_due(line: CleanLine, pieces: Sequence[Piece]) -> list[Piece] | None:
    """Return the row of a numbered line whose number is due: "6. Fold flat and work 4 sc ..."."""
    last = next((piece.header for piece in reversed(pieces) if piece.header is not None), None)
    if last is None or not last.bare:
        return None
    header = numbered_step(line.text, last.numbers[-1] + 1)
    return [Piece("row", [(line, header.end, len(line.text))], header=header)] if header else None


def _cut(line: CleanLine, *, bare: bool) -> list[Piece] | None:
    """Cut one line where rows, foundations and repeats begin; None if it is other text."""
    text = line.text
    if is_correction(text):
        return None
    begin, out = 0, []
    if (opened := run_in_heading(text)) is not None:
        name, begin = opened
        out.append(Piece("part", [(line, 0, begin)], part=name))
    heads = [
        header
        for header in headers_in(" " * begin + text[begin:], bare=bare)
        if not FORMS.match(text, header.start)
    ]
    if not heads and _FOUNDATION_STITCHES.match(text, begin):
        header = Header(0, 0, "row", (1,), unnamed=True)
        return [*out, Piece("row", [(line, begin, len(text))], header=header)]
    if not heads and (out or not bare) and RING_START.match(text, begin):
        header = Header(0, 0, "round", (1,), unnamed=True)
        return [*out, Piece("row", [(line, begin, len(text))], header=header)]
    first = heads[0].start if heads else len(text)
    if RING_ALONE.fullmatch(text[begin:first]):
        out.append(Piece("start", [(line, begin, first)]))
    elif out and heads and RING_START.match(text, begin, first):
        header = Header(0, 0, "round", (1,), unnamed=True)
        out.append(Piece("row", [(line, begin, first)], header=header))
    elif text[begin:first].strip(" \t•*–—>-#_"):
        lead = pieces_before(line, begin, first)
        if all(piece.kind == "text" for piece in lead) and not heads and not out:
            return None
        out += lead
    for index, header in enumerate(heads):
        end = heads[index + 1].start if index + 1 < len(heads) else len(text)
        out += _row_and_after(line, header, end)
    return out or None


_FOUNDATION_STITCHES = re.compile(
    r"\W*(?:(?:with|using)\s+[\w ]{1,20}[:,]\s*)?(?:(?:work|make)\s+)?"
    r"(?:\d+\s*f(?:sc|dc|hdc|tr)\b|f(?:sc|dc|hdc|tr)\s*\d+\b|\d+\s+foundation\s+(?:single|double|half|sc|dc|hdc|tr)\b)",
    re.IGNORECASE,
)


def _row_and_after(line: CleanLine, header: Header, end: int) -> list[Piece]:
    """Return a row's piece, and after it what the line says of the pattern rows."""
    for found in re.finditer(r"(?<=[.)\]!])\s+(?=[A-Z0-9])", line.text[header.end : end]):
        at = header.end + found.end()
        if (
            FORMS.match(line.text, at)
            or _CONTINUES_FOR.match(line.text, at)
            or repeats_further(line.text[at:end])
        ):
            row = Piece("row", [(line, header.end, at)], header=header)
            return [row, *pieces_before(line, at, end)]
    return [Piece("row", [(line, header.end, end)], header=header)]


_CONTINUES_FOR = re.compile(rf"{CONTINUES.pattern}[^.]*\b(?:for|until|till|\d+)\b", re.IGNORECASE)


def _finished(text: str) -> bool:
    return bool(re.search(r"[.)\]}!:;]\s*$", text)) or bool(_STATED_LAST.search(text))


# "Turn. 120 sts": the count is the end of a row, with a stop behind it or without.
_STATED_LAST = re.compile(r"(?:\.|=)\s*\d+\s*(?:sts?|stitches|sc|hdc|dc|htr|tr)\s*$", re.IGNORECASE)


def _goes_on(current: Piece, text: str) -> bool:
    """Tell whether a row broke off in the middle of a sentence, so that this line belongs to it."""
    header = header_at(text, bare=False)
    if header is not None and not header.spoken:
        return False
    if FORMS.match(text) or CONTINUES.match(text):
        return False
    if re.match(
        r"\s*(?:rep|repeat)\s+(?:from|between)\b(?!\s+(?:the\s+)?(?:rows?|rnds?|rounds?|\d+(?:st|nd|rd|th)\s+r))"
        r"|\s*(?:ending|end) last\b",
        text,
        re.IGNORECASE,
    ):
        return bool(re.search(r"[*†]", current.text)) or not _finished(current.text)
    if (VERBS.match(text) and text.strip()[:1].isupper()) or lead_kind(text) in (
        "rerun",
        "even",
        "grow",
    ):
        return False
    before = current.text
    if not before:
        return RING_START.match(text) is not None
    return (
        not _finished(before)
        and bool(
            re.search(
                r"[,&–-]$|\b(?:in|next|of|each|to|the|and|last|first|sk|ch|\d+|from|into|around|sts?|sc|dc|hdc|tr)$",
                before,
                re.IGNORECASE,
            )
        )
        and heading(text) is None
    )


def _continues(current: Piece, text: str) -> bool:
    """Tell whether a line goes on with the row before it."""
    if re.match(r"\s*(?:[(\[{*]|[a-z0-9]|=|–)", text) and not VERBS.match(text):
        return not re.match(r"\s*\d+\s*(?:\.|\))\s*[A-Z]", text)
    if re.match(r"\s*[(\[{]\s*\d", text):
        return True
    if _WORK_LINE.match(text) and not _COUNTED.search(current.text):
        kind = lead_kind(text)
        return kind != "start" or len(text.split()) > 3
    if VERBS.match(text) and text.strip()[:1].isupper():
        return False
    return not _finished(current.text) and heading(text) is None


_WORK_LINE = re.compile(
    r"\s*(?:\d+\s*)?(?:sc|dc|hdc|tr|htr|sl\s+st|ss|sk|skip|miss|[fb]pdc|[fb]psc|(?:single|double|half\s+double)\s+crochet)\s+(?:in|into|the|next|\d)",
    re.IGNORECASE,
)
_COUNTED = re.compile(r"(?:[)\]}>]|\d\s*(?:sts?|sc|dc|hdc|tr|htr)?)[\s.]*$", re.IGNORECASE)
