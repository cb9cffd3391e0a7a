"""Lines of a pattern to pieces: rows with what continues them, foundations, headings, other text.

Only where things begin and end is decided here; what the words say is read elsewhere.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from coach.notation.cleaning import CleanLine
from coach.notation.corrections import CHANGE, CORRECTION
from coach.notation.headers import header_at, headers_in
from coach.notation.number_words import SMALL
from coach.notation.piece import Piece
from coach.notation.row_repeats import EVEN, RERUN

FOUNDATION = re.compile(
    r"^\W*(?:(?:foundation|base|starting)(?:\s+(?:chain|ch))?\s*[:–-]\s*)?"
    r"(?:(?:with|using)\s+[^,:]{1,45}?(?:[,:]\s*|\s+(?=make|ch|chain|\d+\s?ch))|[A-Za-z][\w' ]{2,40},\s*|(?:to\s+(?:start|begin)|begin(?:ning)?|start(?:ing)?|set[- ]?up)[^:,]{0,20}:\s*)?"
    r"(?:(?:make|begin|start|work|loosely|to\s+begin)\s+(?:with\s+)?(?:a\s+)?(?:foundation\s+)?)?"
    r"(?:(?:chain|ch)(?![a-z])\s*-?\s*(?P<after>\d+|[a-z]+(?:-[a-z]+)?)\b|(?P<before>\d+)\s*(?:chain|ch)s?\b)",
    re.IGNORECASE,
)
NOT_FOUNDATION = re.compile(
    r"\bcounts?\b|at the (?:start|beginning)|\bbegins?\b|=|\bsp\b|\bspaces?\b", re.IGNORECASE
)
FURNITURE = re.compile(
    r"^\W*(?:page\s+\d+(?:\s+of\s+\d+)?|\d+\s*/\s*\d+|.*[–-]\s*page\s+\d+\s+of\s+\d+|https?://\S+|www\.\S+.*|pin it!?|save\b.*|share\b.*|advertisement|print this|\(?c\)?\s*\d{4}\b.*|©.*|all rights reserved.*|copyright.*)\W*$",
    re.IGNORECASE,
)
_VERBS = re.compile(
    r"^\W*(?:fasten|weave|sew|join|block|cut|finish|begin|stuff|insert|leave|fold|turn|do not|don't|repeat|rep|work|make|with|note|lay|wet|pin|thread|change|keep|move|place|attach|embroider|close|press)\b",
    re.IGNORECASE,
)


def segmented(lines: Sequence[CleanLine]) -> list[Piece]:
    """Cut the lines into pieces: rows with what continues them, foundations, headings, text."""
    named = any(
        (header := header_at(line.text, bare=False)) is not None and not header.spoken
        for line in lines
    )
    pieces: list[Piece] = []
    current: Piece | None = None
    started = False
    for line in lines:
        text = line.text
        if not text.strip():
            current = None if current is None or _finished(current.text) else current
            continue
        if FURNITURE.match(text) and not re.match(
            r"\W*(?:save|share)\b.*\b(?:sc|dc|ch|st)\b", text, re.IGNORECASE
        ):
            continue
        going_on = current is not None and current.kind == "row" and _goes_on(current, text)
        if going_on and current is not None:
            current.spans.append((line, 0, len(text)))
            continue
        cut = _cut(line, bare=not named or (started and _numbered_bare(pieces)))
        if cut is not None:
            current = _add(pieces, cut)
            started = True
            continue
        whole = (line, 0, len(text))
        if (
            current is not None
            and current.kind in ("row", "start", "rerun", "even")
            and _continues(current, text)
        ):
            current.spans.append(whole)
            continue
        kind = "text"
        if started and (name := heading(text)) is not None:
            kind = "part"
            pieces.append(Piece(kind, [whole], part=name))
            current = None
            continue
        if not started and (name := heading(text)) is not None and pieces:
            pieces.append(Piece("part", [whole], part=name))
            current = None
            continue
        pieces.append(Piece(kind, [whole]))
        current = pieces[-1]
    return _rows_or_rounds(pieces)


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


def _cut(line: CleanLine, *, bare: bool) -> list[Piece] | None:
    """Cut one line where rows, foundations and repeats begin; None if it is other text."""
    text = line.text
    if CORRECTION.match(text) or CHANGE.match(text):
        return None
    heads = headers_in(text, bare=bare)
    out: list[Piece] = []
    first = heads[0].start if heads else len(text)
    lead = text[:first]
    if lead.strip(" \t•*–—>-"):
        kind = _lead_kind(lead)
        if kind is None and not heads:
            return None
        out.append(Piece(kind or "text", [(line, 0, first)]))
    for index, header in enumerate(heads):
        end = heads[index + 1].start if index + 1 < len(heads) else len(text)
        out.append(Piece("row", [(line, header.end, end)], header=header))
    return out or None


def _lead_kind(lead: str) -> str | None:
    found = FOUNDATION.match(lead)
    if found and not NOT_FOUNDATION.search(
        lead[: found.end() + 25].split("multiple", maxsplit=1)[0]
    ):
        number = found["after"] or found["before"]
        if number.isdigit() or number.lower() in SMALL:
            return "start"
    if RERUN.match(lead) and not re.match(
        r"^\W*(?:work|as|like)\s+rows?\s*\d+\s*[,;]", lead, re.IGNORECASE
    ):
        return "rerun"
    even = EVEN.match(lead)
    if even and (even["how"] or re.match(r"\W*work\s+even", lead, re.IGNORECASE)):
        return "even"
    return None


def _finished(text: str) -> bool:
    return bool(re.search(r"[.)\]}!:;]\s*$", text))


def _goes_on(current: Piece, text: str) -> bool:
    """Tell whether a row broke off in the middle of a sentence, so that this line belongs to it."""
    header = header_at(text, bare=False)
    if header is not None and not header.spoken:
        return False
    if re.match(
        r"\s*(?:rep|repeat)\s+(?:from|between)\b|\s*(?:ending|end) last\b", text, re.IGNORECASE
    ):
        return True
    before = current.text
    return (
        bool(before)
        and not _finished(before)
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
    if re.match(r"\s*(?:[(\[{*]|[a-z0-9]|=|–)", text) and not _VERBS.match(text):
        return not re.match(r"\s*\d+\s*(?:\.|\))\s*[A-Z]", text)
    if re.match(r"\s*[(\[{]\s*\d", text):
        return True
    if _VERBS.match(text) and text.strip()[:1].isupper():
        return False
    return not _finished(current.text) and not _heading_like(text)


def _heading_like(text: str) -> bool:
    return heading(text) is not None


def heading(text: str) -> str | None:
    """Return the name of a part ("BORDER", "Heel") if the line is a heading."""
    bare = re.sub(r"\([^)]*\)", "", text).strip().rstrip(":").strip()
    if not bare or len(bare) > 42 or len(bare.split()) > 5 or re.search(r"[.,;=!?]|\d{2,}", bare):
        return None
    if _VERBS.match(bare) and not bare.isupper():
        return None
    words = bare.split()
    if (
        bare.isupper()
        or (text.strip().endswith(":") and len(words) <= 3)
        or (
            all(
                word[:1].isupper() or word in ("and", "of", "the", "for", "to", "a")
                for word in words
            )
            and len(words) <= 3
        )
    ):
        return bare.title()
    return None
