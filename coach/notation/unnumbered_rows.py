"""Rows that have no number: a part's one row beside its name, rounds of a paragraph parted by counts."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from coach.notation.cleaning import CleanLine
from coach.notation.edges_named import is_edging, states_its_count
from coach.notation.header import Header
from coach.notation.named_headers import works_in_places
from coach.notation.parts_in_prose import THINGS
from coach.notation.piece import Piece

_NAME = re.compile(
    rf"\s*(?P<name>(?:[A-Za-z][A-Za-z'-]*\s){{0,2}}(?:{THINGS}|border|edging|edge|trim|band|ruffle|frill|hem|rib|ribbing|rim|lip))"
    r"(?:\s*\([^()]{1,40}\))?\s*[:–—]\s*(?=\S)",
    re.IGNORECASE,
)
_OVER_ALL = re.compile(r"\b(?:each|every|next)\b[^.]*\b(?:around|across)\b", re.IGNORECASE)


def row_beside_its_name(line: CleanLine, before: Sequence[Piece]) -> list[Piece] | None:
    """Return the part and the row of "Brim: *Sc in next 2 sts, 2 sc in next st; rep from *. (24)".

    It goes on where the rows before it ended; words without a count or a stretch are no row.
    """
    worked = [piece for piece in before if piece.kind == "row" and piece.header is not None]
    found = _NAME.match(line.text)
    if not worked or found is None:
        return None
    text = line.text[found.end() :]
    whole = states_its_count(text) or _OVER_ALL.search(text) is not None
    if not works_in_places(text) or not whole:
        return None
    last = worked[-1].header
    turned = re.search(r"\b(?:turn|across)\b", text, re.IGNORECASE) is not None
    kind = "row" if turned or last is None else last.kind
    if is_edging(text) or re.search(r"\b(?:a?round|join)\b", text, re.IGNORECASE):
        kind = "round"
    name = found["name"].strip().title()
    row = Piece(
        "row", [(line, found.end(), len(line.text))], header=Header(0, 0, kind, (1,), unnamed=True)
    )
    return [Piece("part", [(line, 0, found.end())], part=name), row]


def edgings(pieces: list[Piece]) -> list[Piece]:
    """Take "Sc around the blanket, 3 sc in each corner. (68 sc)" under EDGING for its first round."""
    for piece, following in itertools.pairwise(pieces):
        if (
            piece.kind == "part"
            and following.kind == "text"
            and re.search(r"\b(?:edg\w+|border|trim)\b", piece.text, re.IGNORECASE)
            and is_edging(following.text)
        ):
            following.kind = "row"
            following.header = Header(0, 0, "round", (1,), unnamed=True)
    return pieces


_COUNT = r"[(\[]\s*\d+\s*(?:sts?|stitches|sc|hdc|dc|htr|tr)?\s*[)\]]"
_COUNT_BETWEEN = re.compile(
    rf"{_COUNT}\s*[.,;]?\s+"
    r"(?=(?:then\s+)?[*\[(]*(?:\d+\s*)?(?:sc|hdc|dc|htr|tr|inc|dec|ch|single|double|half|treble)\b)",
    re.IGNORECASE,
)


def parted_by_counts(pieces: Iterable[Piece]) -> list[Piece]:
    """Part "6 sc in magic ring (6). 2 sc in each st around (12)." into its rounds, one a count."""
    out: list[Piece] = []
    for piece in pieces:
        out += _parted(piece) if piece.header is not None and piece.header.unnamed else [piece]
    return out


def _parted(piece: Piece) -> list[Piece]:
    assert piece.header is not None  # noqa: S101
    line, start, end = piece.spans[0]
    cuts = [found.end() for found in _COUNT_BETWEEN.finditer(line.text, start, end)]
    if not cuts or len(piece.spans) > 1 or not re.search(_COUNT, line.text[cuts[-1] : end], re.I):
        return [piece]
    edges = [start, *cuts, end]
    return [
        Piece("row", [(line, begin, stop)], header=replace(piece.header, numbers=(number,)))
        for number, (begin, stop) in enumerate(itertools.pairwise(edges), start=1)
    ]


def named_first_rows(pieces: list[Piece]) -> list[Piece]:
    """Where the next row is called Row 1, a first row without a name is the foundation row."""
    for index, piece in enumerate(pieces):
        if piece.header is None or not piece.header.unnamed:
            continue
        after = itertools.takewhile(
            lambda each: each.kind not in ("part", "start"), pieces[index + 1 :]
        )
        following = next((each.header for each in after if each.header is not None), None)
        if following is not None and following.numbers[:1] == (1,):
            piece.header = replace(piece.header, numbers=(), label="Foundation Row")
    return pieces
