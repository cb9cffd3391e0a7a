"""Where a side is begun, told on a line before its first row: the words become that row's own.

"With RS facing, skip next 10 sts of Row 28 and join yarn in next st." over "Row 29: Ch 2, ...".
"""

from __future__ import annotations

import re

from coach.notation.header import Header
from coach.notation.piece import Piece

_JOINS = r"\b(?:join|rejoin|re-join|attach|re-?attach)\w*\b"
_BEGINS = r"(?:with|working|return(?:ing)?|go(?:ing)?\s+back|from|on|along|now|next|skip|sk|miss|leave|leaving|join|rejoin|re-join|attach|re-?attach)\b"
_WHERE = r"\b(?:skip|sk|miss|leave|leaving|unworked|(?:armhole|neck|side|shoulder|outer|other|opposite)\s+edge|(?:of|on|to|in)\s+(?:row|rnd|round)\s+\d+)\b"
_REJOINS = re.compile(
    rf"(?:^|(?<=[.:;])\s+)(?P<told>(?=[^.]*{_JOINS})(?=[^.]*{_WHERE}){_BEGINS}[^.]*\.?\s*)$",
    re.IGNORECASE,
)


# The whole of a side's first row told without a name: "Sk next 10 sc, join yarn in next sc, ch 1, ...".
_ROW_TOLD = re.compile(
    rf"\W*(?=[^.]*{_JOINS})(?=[^.]*{_WHERE}){_BEGINS}[^.]*{_JOINS}[^.]*,\s*(?:ch|\d+\s*ch|\d*\s*(?:sc|hdc|dc|htr|tr))\b[^.]*\b(?:turn|across|end)\b",
    re.IGNORECASE,
)


def _as_first_row(told: Piece, following: Piece) -> bool:
    """Take *told* as the row before *following*, where it tells all of a side's first row."""
    header = following.header
    if header is None or header.kind != "row" or not header.numbers or header.numbers[0] < 2:
        return False
    if _ROW_TOLD.match(told.text) is None:
        return False
    told.kind = "row"
    told.header = Header(0, 0, "row", (header.numbers[0] - 1,))
    return True


def joined_to_their_rows(pieces: list[Piece]) -> list[Piece]:
    """Return *pieces* with the words that rejoin yarn set before the words of the row after them."""
    out: list[Piece] = []
    for piece in pieces:
        told = out[-1] if out else None
        if piece.kind == "row" and told is not None and told.kind == "text" and len(out) > 1:
            if _as_first_row(told, piece):
                out.append(piece)
                continue
            line, start, end = told.spans[-1]
            found = _REJOINS.search(line.text[start:end])
            if found is not None and len(told.spans) == 1:
                at = start + found.start("told")
                piece.spans.insert(0, (line, at, end))
                told.spans[0] = (line, start, at)
                if not told.text:
                    out.pop()
        out.append(piece)
    return out
