"""Groups that a pattern names without defining them: "(6 shells)" at the end of their first row.

Doilies and shawls do so: the group is written out once, the count calls it a shell, and from the
next row on the name stands alone; so does "beg shell" for the chain and the rest of the group
that a round begins with. Common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from coach.craft.instruction import Make
from coach.craft.pattern import SpecialStitch
from coach.craft.stitch import height
from coach.notation.piece import Piece
from coach.notation.special_stitches import special_stitch
from coach.notation.words import Vocabulary

_NAMES: Mapping[str, str] = {
    "shell": r"(?<!half )(?<!half-)(?:shells?|sh)",
    "fan": r"fans?",
    "V-st": r"v[ -]?st(?:itche)?s?",
}
_STITCH = r"(?:sc|hdc|dc|tr|dtr|htr|ttr)"
_GROUP = re.compile(
    rf"(?P<all>\((?P<inside>[^()]*(?<![A-Za-z]){_STITCH}\b[^()]*)\)|(?P<plain>[3-9] ?{_STITCH})(?: sts?)?)"
    r"\s*(?:all\s+)?in(?:to)?\s+(?:the\s+|each\s+)?(?:same|next|first|last|corner|indicated|ch\b)",
    re.IGNORECASE,
)
_FIRST = re.compile(rf"\(?\s*(?P<count>\d+)? ?(?P<stitch>{_STITCH})\b\s*,?\s*", re.IGNORECASE)


def named_by_counts(
    pieces: Sequence[Piece], known: Mapping[str, SpecialStitch], vocabulary: Vocabulary
) -> dict[str, SpecialStitch]:
    """Return the groups that the rows' own counts name, and what begins a round with such a group.

    known: the stitches that the pattern defines in words, which go before these.
    """
    rows = [piece.text for piece in pieces if piece.kind in ("row", "rerun", "start")]
    out: dict[str, SpecialStitch] = {}
    for name, written in _NAMES.items():
        words = _group_called(written, rows) if name not in known else None
        if words is not None:
            out[name] = special_stitch(name, words, vocabulary)
    for name, special in {**known, **out}.items():
        begun = f"beg {name}"
        if begun not in known and _NAMES.get(name) and _says_beginning(_NAMES[name], rows):
            words = _beginning(special)
            if words is not None:
                out[begun] = special_stitch(begun, words, vocabulary)
    return out


def _group_called(written: str, rows: Sequence[str]) -> str | None:
    """Return the group of the first row whose count names it and whose words do not."""
    counted = re.compile(rf"(?<![\w-])\d+ +(?:\w+ +)?{written}(?![\w-])", re.IGNORECASE)
    named = re.compile(rf"(?<![\w-]){written}(?![\w-])", re.IGNORECASE)
    for text in rows:
        if named.search(text) is None:
            continue
        found = list(_groups_before(text, counted))
        if not found or named.search(text[: found[-1].end()]):
            return None  # the name stands in a row before anything says what it is
        last = found[-1]
        return f"{last['all']} in same st"
    return None


def _groups_before(text: str, counted: re.Pattern[str]) -> Iterator[re.Match[str]]:
    counts = list(counted.finditer(text))
    if counts:
        yield from _GROUP.finditer(text, 0, counts[-1].start())


def _says_beginning(written: str, rows: Sequence[str]) -> bool:
    begun = re.compile(rf"\bbeg(?:inning)?\.? +{written}(?![\w-])", re.IGNORECASE)
    return any(begun.search(text) for text in rows)


def _beginning(special: SpecialStitch) -> str | None:
    """Return "ch 3, (dc, ch 2, 2 dc) in same st" for the group (2 dc, ch 2, 2 dc)."""
    first = next(iter(special.parts), None)
    found = _FIRST.match(special.definition)
    if not isinstance(first, Make) or found is None or not height(first.stitch):
        return None
    tall = height(first.stitch)
    rest = special.definition[found.end() :]
    count = int(found["count"] or 1) - 1
    if count:
        left = special.definition[found.start("stitch") :].lstrip("( ")
        return f"ch {tall}, ({count} {left}" if ")" in left else f"ch {tall}, {count} {left}"
    return f"ch {tall}, ({rest}"
