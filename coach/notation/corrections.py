"""Corrections printed beside a pattern, put where they belong: new words, a new number, a new count.

"Row 12 should read: ...", "Erratum: in Rnd 4 change 46 to 48", "the count on Rnd 4 should be 48".
What names no row that is there is left as a note.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from coach.notation.piece import Piece, Span

_HEAD = r"(?P<word>rows?|rnds?|rounds?)\s*(?P<number>\d+)"
_MARK = r"^\W*(?:erratum|errata|corrections?|corrected|amendment)\b"
_NEW_WORDS = re.compile(
    rf"^\W*(?:(?:erratum|errata|corrections?)\W*)?(?:in\s+)?{_HEAD}(?:\s*[-–]\s*\d+)?\s+(?:should|ought\s+to|now|must)\s+reads?\s*[:–-]?\s*(?P<text>.+)$",
    re.IGNORECASE,
)
_CHANGE = re.compile(
    r"\b(?:change|replace|for)\s+[\"']?(?P<old>[^\"']+?)[\"']?\s*,?\s*(?:\bto\b|\bwith\b|\bby\b|\bread\b)\s+[\"']?(?P<new>[^\"'.;]+?)[\"']?\s*(?=[.;]|\bin\s+(?:row|rnd|round)|$)",
    re.IGNORECASE,
)
_COUNT = re.compile(
    r"\b(?:should|ought\s+to|must)\s+(?:be|read|say)\s*:?\s*[(\[]?\s*(?P<count>\d+[^.,;:()\[\]]*?)\s*[)\]]?(?=\s*(?:[.,;]|\bnot\b|\band\s+not\b|\binstead\b|$))",
    re.IGNORECASE,
)
_ABOUT_A_COUNT = re.compile(
    r"\b(?:counts?|totals?|number|wrong|stitch(?:es)?|misprint)\b", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Correction:
    """What one correction says: of which row (None where it names none), and what it puts there."""

    kind: str | None
    number: int | None
    words: Span | None = None
    old: str = ""
    new: str = ""
    count: Span | None = None


def is_correction(text: str) -> bool:
    """Tell whether a line corrects a row that stands elsewhere."""
    return (
        _NEW_WORDS.match(text) is not None
        or (re.match(_MARK, text, re.IGNORECASE) is not None and _changes(text))
        or _counts(text)
    )


def _changes(text: str) -> bool:
    return _CHANGE.search(text) is not None or _COUNT.search(text) is not None


def _counts(text: str) -> bool:
    """Tell whether a note says what a row's count should be."""
    return bool(
        re.match(r"^\W*(?:please\s+)?note\b|^\W*the\s+(?:stitch\s+)?count\b", text, re.IGNORECASE)
        and re.search(_HEAD, text, re.IGNORECASE)
        and _COUNT.search(text)
        and _ABOUT_A_COUNT.search(text)
    )


def correction_of(piece: Piece) -> Correction | None:
    """Return the correction that a piece of text makes, or None."""
    if piece.kind != "text" or not is_correction(piece.text):
        return None
    line, start, end = piece.spans[0]
    text = line.text[start:end]
    head = re.search(_HEAD, text, re.IGNORECASE)
    kind = None if head is None else ("row" if head["word"].lower().startswith("row") else "round")
    number = int(head["number"][:9]) if head else None
    count = _COUNT.search(text)
    words = _NEW_WORDS.match(text)
    if words and not (count and count.start("count") <= words.start("text") + 1):
        return Correction(kind, number, (line, start + words.start("text"), end))
    if count:
        return Correction(
            kind, number, count=(line, start + count.start("count"), start + count.end("count"))
        )
    change = _CHANGE.search(text)
    if change is None:
        return None
    return Correction(kind, number, old=change["old"].strip(), new=change["new"].strip())


def corrected(pieces: Sequence[Piece]) -> list[Piece]:
    """Return the pieces with every correction put in the row that it names."""
    found = [each for piece in pieces if (each := correction_of(piece)) is not None]
    if not found:
        return list(pieces)
    out = []
    for piece in pieces:
        for correction in found:
            if _concerns(correction, piece):
                piece = _mended(piece, correction)  # noqa: PLW2901
        out.append(piece)
    return out


def _concerns(correction: Correction, piece: Piece) -> bool:
    header = piece.header
    if header is None or piece.kind != "row":
        return False
    if correction.number is None:
        return bool(correction.old) and _old_in(correction, piece.text) is not None
    return bool(header.numbers) and correction.number == header.numbers[0]


def _old_in(correction: Correction, text: str) -> re.Match[str] | None:
    """Return where the words to be changed stand last, as whole words."""
    found = list(re.finditer(rf"(?<!\w){re.escape(correction.old)}(?!\w)", text, re.IGNORECASE))
    return found[-1] if found else None


def _mended(piece: Piece, correction: Correction) -> Piece:
    if correction.words is not None:
        return replace(piece, spans=[correction.words])
    if correction.count is not None:
        return replace(piece, count=correction.count)
    for index in range(len(piece.spans) - 1, -1, -1):
        line, start, end = piece.spans[index]
        found = _old_in(correction, line.text[start:end])
        if found is None:
            continue
        at = start + found.start()
        text = line.text[:at] + correction.new + line.text[start + found.end() :]
        fresh = replace(line, text=text)
        moved = (fresh, start, end + len(text) - len(line.text))
        return replace(piece, spans=[*piece.spans[:index], moved, *piece.spans[index + 1 :]])
    return piece
