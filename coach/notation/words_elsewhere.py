"""Sentences that rest on a picture or a chart, or ask for two shapings at once: told at load.

They are no fault of a row, but no coach can lead through them: "Sew the eyes on as pictured",
"dec 1 st at neck edge every row, AT THE SAME TIME dec at armhole edge".
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from coach.craft.pattern import NoWords
from coach.craft.problem import NotInWords
from coach.notation.number_words import number_of
from coach.notation.piece import Piece
from coach.notation.shaping_words import shaping_told

_PICTURE = r"(?:photo(?:graph)?s?|pictures?|pics?|images?|diagrams?|charts?|schematics?|illustrations?|videos?)\b"
_SHOWN = re.compile(
    r"\b(?:see|refer(?:ring)?\s+to|follow(?:ing)?|as\s+(?:in|per|on|by)|using|use|according\s+to|consult|look\s+at|from|shown\s+(?:in|on|by))\s+"
    rf"(?:the\s+|your\s+|my\s+|a\s+|each\s+)?(?:\w+\s+){{0,2}}?{_PICTURE}"
    r"|\bas\s+(?:shown|pictured|illustrated|photographed)\b|\((?:shown|pictured)\)|\b(?:shown|pictured)\s+(?:above|below|here)\b",
    re.IGNORECASE,
)
_AT_ONCE = re.compile(r"\bat\s+the\s+same\s+time\b", re.IGNORECASE)
_SHAPES = re.compile(r"\b(?:dec|inc|decreas\w*|increas\w*|shap\w*|neck|armhole)\b", re.IGNORECASE)
_ROWS_FROM_CHART = re.compile(
    r"\b(?:work|follow|use)\b[^.]*?(?:(?:next|following)\s+(?P<many>\d+|[a-z]+)\s+(?:rows?|rnds?|rounds?)|(?:rows?|rnds?|rounds?)\s*(?P<first>\d+)\s*(?:-|–|to)\s*(?P<last>\d+))",
    re.IGNORECASE,
)
_MOST_ROWS = 500
# One of these is in every such sentence; most lines have none, and are looked at no further.
_MAY_BE = re.compile(
    r"phot|pic|imag|diagram|chart|schem|illus|video|shown|\bsame\s+time|\b(?:dec|inc)",
    re.IGNORECASE,
)


def not_in_words(pieces: Sequence[Piece]) -> tuple[NotInWords, ...]:
    """Return the sentences of *pieces* that no one can be led through, with their lines."""
    out: list[NotInWords] = []
    for piece in pieces:
        if piece.kind in ("colour", "part"):
            continue
        for line, start, end in piece.spans:
            if not _MAY_BE.search(line.text, start, end):
                continue
            for sentence in re.split(r"(?<=[.!?])\s+(?=[A-Z])", line.text[start:end].strip()):
                if _SHOWN.search(sentence):
                    out.append(NotInWords(line.number, sentence, "picture"))
                elif (_AT_ONCE.search(sentence) and _SHAPES.search(sentence)) or (
                    piece.kind in ("text", "rerun", "continue", "even", "grow")
                    and _shapes_rows(sentence)
                ):
                    out.append(NotInWords(line.number, sentence, "at once"))
    return tuple(out)


def _shapes_rows(sentence: str) -> bool:
    """Tell whether a sentence shapes rows that could not be written out: it names an edge and how often."""
    told = shaping_told(sentence)
    return told is not None and (told.until is not None or told.times is not None or told.every > 1)


def shapes_at_once(text: str) -> bool:
    """Tell whether a row's words are only two shapings at once: they name no place stitch by stitch."""
    return _AT_ONCE.search(text) is not None and _EDGE.search(text) is not None


_EDGE = re.compile(r"\b(?:neck|armhole|side|front|sleeve|shoulder)\s+edge\b", re.IGNORECASE)


def rows_from_chart(piece: Piece, after: int) -> NoWords | None:
    """Return the rows of "Now follow the chart for the next 10 rows", the last so far being *after*."""
    if piece.kind != "text" or not _SHOWN.search(piece.text):
        return None
    found = _ROWS_FROM_CHART.search(piece.text)
    if found is None:
        return None
    first = int(found["first"]) if found["first"] else after + 1
    many = number_of(found["many"]) if found["many"] else None
    last = int(found["last"]) if found["last"] else after + (many or 0)
    if not after < first <= last < first + _MOST_ROWS:
        return None
    kind = "round" if re.search(r"\b(?:rnds?|rounds?)\b", piece.text, re.IGNORECASE) else "row"
    label = f"{'Row' if kind == 'row' else 'Rnd'} {first}"
    return NoWords((first, last), label, piece.place, kind, piece.part, piece.text)
