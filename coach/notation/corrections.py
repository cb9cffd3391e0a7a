"""Corrections printed beside a pattern: "Row 12 should read: ...", put where they belong."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from coach.craft.pattern import Entry, Line
from coach.notation.facts import Facts
from coach.notation.piece import Piece
from coach.notation.row_text import read_line

CORRECTION = re.compile(
    r"^\W*(?:erratum|errata|correction)?\W*(?P<head>(?:rows?|rnds?|rounds?)\s*\d+(?:\s*[-–]\s*\d+)?)\s+(?:should|ought to|now)\s+reads?\s*[:–-]?\s*(?P<text>.+)$",
    re.IGNORECASE,
)
CHANGE = re.compile(
    r"(?:erratum|errata|correction)\W+.*?(?:in\s+|on\s+)?(?P<head>(?:row|rnd|round)\s*\d+)?[,:]?\s*(?:change|replace)\s+\"?(?P<old>[^\"]+?)\"?\s+(?:to|with|by)\s+\"?(?P<new>[^\".]+)\"?",
    re.IGNORECASE,
)


def corrected(text: str) -> tuple[tuple[str, int], str]:
    """Return which row a correction mends, as (kind, number), and its new words."""
    found = CORRECTION.match(text)
    if not found:
        return ("", 0), text
    number = int(re.findall(r"\d+", found["head"])[0])
    kind = "row" if found["head"].lower().startswith("row") else "round"
    return (kind, number), found["text"]


def mended(entry: Entry, corrections: Mapping[tuple[str, int], Piece], facts: Facts) -> Entry:
    """Put a correction ("Row 12 should read: ...") in the place of the row it mends."""
    if not isinstance(entry, Line) or entry.number is None:
        return entry
    piece = corrections.get((entry.kind, entry.number))
    if piece is None:
        return entry
    line, _, _ = piece.spans[0]
    at = line.text.lower().find("read")
    at = at + len(re.match(r"reads?\s*[:–-]?\s*", line.text[at:], re.IGNORECASE).group())  # type: ignore[union-attr]
    fresh = Piece("row", [(line, at, len(line.text)), *piece.spans[1:]], header=None)
    made = read_line(fresh, facts, entry.base_stitch or "sc")
    return replace(
        made,
        label=entry.label,
        kind=entry.kind,
        number=entry.number,
        side=entry.side,
        part=entry.part,
    )
