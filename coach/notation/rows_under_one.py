"""Several rows under one number: "Rnd 4: sc in each st around for 5 rnds", "... repeat 4 more times".

How many they are in all is settled by the number of the next row where that decides it; else the
words are taken as they stand (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from coach.craft.pattern import Entry, Line, Rerun
from coach.notation.header import Header
from coach.notation.how_many_rows import NUMBER
from coach.notation.number_words import number_of
from coach.notation.piece import Piece, Span
from coach.notation.row_repeats import ENDING_SIDE, UNTIL, length_of

_UNIT = r"(?:rows?|rnds?|rounds?)\b"
_ENDS = r"(?=\s*(?:$|[.;,(\[{=–:]))"
_IN_ALL = r"(?:\s+(?:in\s+all|in\s+total|total|altogether|even|straight|plain))?"
_FOR = re.compile(
    rf"[,.;]?\s*\(?(?:(?:and|then|work(?:ing)?|continu(?:e|ing)|do\s+this|even|straight)\s+)*\b(?:for|over)\s+"
    rf"(?:(?:a\s+)?total\s+of\s+|(?:the\s+)?(?:next|following)\s+|another\s+)?(?P<rows>{NUMBER})\s+(?P<more>(?:more|further)\s+)?{_UNIT}{_IN_ALL}\)?{_ENDS}",
    re.IGNORECASE,
)
_SO_MANY = re.compile(
    rf"(?:[,.;–]\s*|\s+(?=[x×(\[])|(?<=[)\]])\s*)[(\[]?\s*(?:(?:work|make|for)\s+|[x×]\s*)?(?P<rows>{NUMBER})\s+(?P<more>(?:more|further)\s+)?{_UNIT}{_IN_ALL}[)\]]?{_ENDS}",
    re.IGNORECASE,
)
_AGAIN = re.compile(
    rf"[,.;]?\s*\(?(?:(?:and|then)\s+)?\brep(?:eat(?:ing|ed)?)?\.?\s+(?P<named>(?:this|the\s+last|last)\s+{_UNIT}\s*|(?:row|rnd|round)\s+(?P<own>\d+)\s+)?"
    rf"(?:for\s+(?:the\s+next\s+|another\s+)?(?P<rows>{NUMBER})\s+(?:(?:more|further)\s+)?{_UNIT}(?:\s+more)?"
    rf"|(?:(?P<times>{NUMBER})\s*(?:more\s+|further\s+)?(?:times|x)(?:\s+more)?|(?P<word>once|twice)(?:\s+more)?))\)?{_ENDS}",
    re.IGNORECASE,
)
# A repeat without a name is one of whole rows only after a row that is whole.
_WHOLE_ROW = re.compile(
    r"\b(?:a?round|across|(?:to|till)\s+(?:the\s+)?end|turn|join|sts?|stitch(?:es)?)\s*(?:[,.;]\s*)?(?:[(\[{][^()\[\]{}]*[)\]}]\s*)?[,.;]?\s*$",
    re.IGNORECASE,
)
_NAMES_ROWS = re.compile(rf"\b{_UNIT}", re.IGNORECASE)
_REPEATS = re.compile(r"\brep", re.IGNORECASE)
_MOST = 500  # rows that one number may stand for


@dataclass(frozen=True, slots=True)
class Several:
    """Rows that one number stands for.

    rows: how many in all; 1 where a *length* decides. one_number: the next row's number follows on the first's, so that all
    of them go by it. spans: the words without how many.
    """

    rows: int
    one_number: bool
    spans: tuple[Span, ...]
    length: Fraction | None = None  # centimetres
    ending_side: str | None = None


def several(piece: Piece, following: Sequence[Piece]) -> Several | None:
    """Return how many rows the one number of *piece* stands for; None for a single row."""
    header = piece.header
    if header is None or len(header.numbers) != 1 or header.every or header.unnamed:
        return None
    first = header.numbers[0]
    told = _told(piece.text, first)
    if told is None:
        return _until_length(piece, next_number(header, following) == first + 1)
    number, more, found = told
    rows = _settled(first, number, next_number(header, following), more=more)
    if not 1 < rows <= _MOST:
        return None
    follows = next_number(header, following) == first + 1
    spans = without(piece, found.start(), found.end())
    return Several(rows, follows, spans)


def _until_length(piece: Piece, one_number: bool) -> Several | None:
    """Return the extent of "sc in each st across until piece measures 20 cm"."""
    found = UNTIL.search(piece.text)
    before = piece.text[: found.start()] if found else ""
    if found is None or not _WHOLE_ROW.search(before) or before.count("(") > before.count(")"):
        return None
    side = ENDING_SIDE.search(piece.text)
    end = found.end()
    rest = _REST_OF_LENGTH.match(piece.text, end)
    spans = without(piece, found.start(), rest.end() if rest else end)
    return Several(
        1,
        one_number,
        spans,
        length=length_of(found),
        ending_side=side[1].upper()[:1] + "S" if side else None,
    )


_REST_OF_LENGTH = re.compile(r"[^.;(\[]*")


def _told(text: str, own: int) -> tuple[int, bool, re.Match[str]] | None:
    """Return the number of rows told, whether they come after this one, and where it is said."""
    if _NAMES_ROWS.search(text) is None and ("*" in text or _REPEATS.search(text) is None):
        return None  # as nearly all rows are: the longer searches would find nothing
    for pattern in (_AGAIN, _FOR, _SO_MANY):
        for found in pattern.finditer(text):
            before = text[: found.start()]
            if not _stands_alone(pattern, found, before, own):
                continue
            given = found.groupdict()
            word = given["rows"] or given.get("times") or given.get("word")
            number = number_of(word)
            if number:
                more = pattern is _AGAIN or bool(given.get("more"))
                return number, more, found
    return None


def _stands_alone(pattern: re.Pattern[str], found: re.Match[str], before: str, own: int) -> bool:
    """Tell whether the words are said of the whole row."""
    if before.count("(") > before.count(")") or before.count("[") > before.count("]"):
        return False
    if pattern is not _AGAIN:
        return bool(_STITCH.search(before))
    if found["own"] and int(found["own"]) != own:
        return False
    if found["named"]:
        return bool(before.strip())
    return "*" not in before and _WHOLE_ROW.search(before) is not None


_STITCH = re.compile(
    r"(?<![a-z])(?:sc|hdc|dc|htr|tr|dtr|inc|dec|work|single|double|half|treble|crochet)\b", re.I
)


def next_number(header: Header, following: Sequence[Piece]) -> int | None:
    """Return the number of the next row under the same heading; None where there is none."""
    for piece in following:
        if piece.kind in ("part", "start"):
            return None
        if piece.header is not None and piece.header.numbers:
            same = piece.header.kind == header.kind
            return piece.header.numbers[0] if same else None
    return None


def _settled(first: int, number: int, coming: int | None, *, more: bool) -> int:
    """Return how many rows there are in all: as the next row's number says, else as the words do."""
    if coming is not None and coming in (first + number, first + number + 1):
        return coming - first
    return number + more


def without(piece: Piece, begin: int, end: int) -> tuple[Span, ...]:
    """Return the spans of *piece* without the characters *begin* to *end* of its text."""
    out: list[Span] = []
    at = 0
    for line, start, stop in piece.spans:
        words = line.text[start:stop]
        lead = len(words) - len(words.lstrip())
        length = len(words.strip())
        cut_from, cut_to = max(begin - at, 0), min(end - at, length)
        if cut_from >= length or cut_to <= 0:
            out.append((line, start, stop))
        else:
            origin = start + lead
            out += [
                (line, *span)
                for span in ((start, origin + cut_from), (origin + cut_to, stop))
                if line.text[slice(*span)].strip()
            ]
        at += length + 1
    return tuple(out)


def numbered_on(piece: Piece, told: Several) -> Piece:
    """Return *piece* under the numbers of all its rows, without the words that tell how many."""
    header = piece.header
    assert header is not None  # noqa: S101
    first = header.numbers[0]
    numbers = (first,) if told.one_number or told.length else (first, first + told.rows - 1)
    return replace(piece, header=replace(header, numbers=numbers), spans=list(told.spans))


def under_one_number(line: Line, told: Several) -> list[Entry]:
    """Return a row and the further ones that go by its number."""
    again = Rerun(
        None,
        (line.label,),
        line.place,
        line.kind,
        times=told.rows - 1 or None,
        length_cm=told.length,
        ending_side=told.ending_side,
        part=line.part,
        stated=line.stated[-1:],
        text=line.text,
        under=line.number if told.one_number else None,
    )
    return [replace(line, stated=line.stated[:1], until=line.number, alike=told.rows), again]
