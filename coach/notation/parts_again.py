"""A part told by another: "Work Rows 1-5 of first earflap", "Make second sleeve as first".

Only which part and which of its rows are meant is read here; working them again is the proof's.
That a second earflap, sleeve or leg is told so is common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from coach.craft.pattern import Entry, Line, NoWords, Part, PartAgain, Rerun
from coach.notation.piece import Piece
from coach.notation.row_repeats import numbers_in

_ROWS = r"(?:rows?|rnds?|rounds?)\s*(?P<rows>\d+(?:\s*(?:-|–|to|and|through|thru|&)\s*(?:rows?|rnds?|rounds?)?\s*\d+)?)"
_ORDER = (
    r"(?:first|second|third|fourth|1st|2nd|3rd|4th|other|left|right|front|back|same|next|another)"
)
_NAME = r"(?:the\s+)?(?P<name>(?!follow|before|above|set|establish|many|much|long|need|desired|shown|row|rnd|round|usual|normal)[a-z][a-z'-]*(?:\s+(?!to\b|until\b|through\b|ending\b|but\b|and\b|for\b|in\b|with\b|reversing\b|on\b|up\b|from\b|at\b)(?:[a-z][a-z'-]*|\d)){0,3})"
_TO = r"(?:\s*,?\s*(?:to|until|through|thru|up\s+to|ending\s+(?:at|with|after|on))\s+(?:and\s+including\s+)?(?:the\s+)?(?:end\s+of\s+)?(?:row|rnd|round)\s*(?P<to>\d+))?"
_BEGIN = r"(?:^|(?<=[.;:!]\s)|(?<=,\s)|(?<=\band\s)|(?<=\bthen\s))"
_NEW = rf"(?:the\s+)?(?P<new>(?:{_ORDER}|[a-z]+)(?:\s+[a-z]+){{0,2}}?)"
_OF_ROWS = re.compile(
    rf"{_BEGIN}(?:work|rep(?:eat)?|make|follow|complete)\s+{_ROWS}\s+(?:again\s+)?(?:of|from|as\s+(?:for|in|on)|same\s+as)\s+{_NAME}(?:\s+for\s+{_NEW}\b)?",
    re.IGNORECASE,
)
_AS = re.compile(
    rf"{_BEGIN}(?:work|make|crochet|complete|finish)\s+(?:{_NEW}\s+)??(?:exactly\s+|just\s+|in\s+)?(?:the\s+)?(?:same\s+(?:way\s+)?as|as|like|to\s+(?:match|correspond\s+(?:to|with)))\s+(?:for\s+|in\s+|on\s+)?{_NAME}{_TO}",
    re.IGNORECASE,
)
_FOR = re.compile(
    rf"{_BEGIN}rep(?:eat)?\s+(?:{_ROWS}\s+)?(?:(?:all\s+)?(?:of\s+)?the\s+(?:above|same)\s+)?(?:for|on|to\s+(?:make|form))\s+(?:the\s+)?(?P<new>{_ORDER}\s+[a-z]+(?:\s+[a-z]+)?)\s*(?=$|[.,;(])",
    re.IGNORECASE,
)
_BARE = re.compile(
    rf"\W*(?:work(?:ed)?\s+)?(?:exactly\s+)?(?:the\s+)?(?:same\s+as|as|like)\s+(?:for\s+|in\s+)?{_NAME}{_TO}\W*(?:[(\[][^()\[\]]*[)\]])?\W*",
    re.IGNORECASE,
)
_MIRRORED = re.compile(r"\brevers\w*|\bmirror\w*|\bopposite\s+(?:shaping|direction)", re.IGNORECASE)
_NO_PARTS = frozenset(
    ["side", "way", "time", "manner", "row", "rnd", "round", "pattern", "edge", "end", "size"]
)


@dataclass(frozen=True, slots=True)
class _Told:
    """What a sentence says: the part that is made, the part it is made as, its rows, what leads in."""

    new: str
    name: str
    rows: tuple[int, int] | None
    lead: str


def part_again(
    piece: Piece, before: Piece | None, entries: Sequence[Entry]
) -> tuple[Entry, ...] | None:
    """Return the entries of a part that *piece* tells by another; None where it tells no such thing."""
    told = _told(piece) if piece.kind in ("text", "row", "rerun", "continue") else None
    if told is None:
        return None
    fresh = entries[-1] if entries and isinstance(entries[-1], Part) else None
    heading = fresh.name if fresh else (piece.part or "")
    source = _source(told, heading, entries, fresh=fresh is not None)
    if source is None:
        return None
    name = fresh.name if fresh else _titled(told.new or f"Second {_noun(source)}")
    part = () if fresh or _continues(piece, source, heading) else (Part(name, piece.place),)
    if part == () and fresh is None:
        name = heading
    if _MIRRORED.search(piece.text):
        return (*part, NoWords(None, name, piece.place, part=name, why=piece.text))
    lead = told.lead
    if fresh and before is not None and before.kind == "text":
        lead = f"{before.text} {lead}".strip()
    again = PartAgain(source, piece.place, told.rows, part=name, text=piece.text, lead=lead)
    return (*part, again)


def _continues(piece: Piece, source: str, heading: str) -> bool:
    """Tell whether "Rows 2-4: As first earflap" goes on under a heading that has rows already."""
    return piece.header is not None and heading != source and bool(heading)


def _told(piece: Piece) -> _Told | None:
    text = piece.text
    header = piece.header
    if header is not None:
        found = _BARE.fullmatch(text) or _OF_ROWS.match(text)
        if found is None or not header.numbers:
            return None
        return _Told("", found["name"], (header.numbers[0], header.numbers[-1]), "")
    for pattern in (_OF_ROWS, _AS, _FOR):
        found = pattern.search(text)
        if found is None:
            continue
        given = found.groupdict()
        rows = numbers_in(given["rows"]) if given.get("rows") else []
        if given.get("to"):
            rows = [1, int(given["to"])]
        lead = re.sub(r"(?:[,\s]|\band\b|\bthen\b)+$", "", text[: found.start()])
        new = given.get("new") or ""
        span = (min(rows), max(rows)) if rows else None
        after = re.sub(r"^\W+|\s*[(\[][^()\[\]]*[)\]]\W*$|\W+$", "", text[found.end() :])
        said = ". ".join(each for each in (_without_heading(lead), after) if each)
        return _Told(new, given.get("name") or "", span, said)
    return None


def _without_heading(lead: str) -> str:
    """Return what leads in without "Second earflap:" before it."""
    return re.sub(r"^[A-Z][\w' ]{0,30}:\s*", "", lead)


def _source(told: _Told, heading: str, entries: Sequence[Entry], *, fresh: bool) -> str | None:
    """Return the heading whose rows are meant, the nearest one before."""
    with_rows: dict[str, None] = {}
    for entry in entries:
        if isinstance(entry, Line | Rerun | PartAgain) and entry.part:
            with_rows.pop(entry.part, None)
            with_rows[entry.part] = None
    names = [name for name in reversed(with_rows) if not (fresh and name == heading)]
    noun = _noun(told.name) or _noun(told.new) or (_noun(heading) if fresh else "")
    if noun in _NO_PARTS:
        return None
    wanted = _words(told.name)
    if told.name:
        for name in names:
            if _words(name) == wanted or (wanted and wanted <= _words(name)):
                return name if _noun(told.name) or not noun or noun in _words(name) else None
    order = wanted - {noun}
    if told.name and not _noun(told.name):  # "as first": of what the new part is
        noun = _noun(told.new) or _noun(heading)
    alike = [name for name in names if noun and noun == _noun(name)]
    exact = [name for name in alike if order and order <= _words(name)]
    return next(iter([*exact, *alike]), None)


def _words(name: str) -> frozenset[str]:
    """Return the words of a name, in the singular: "First Ears" is first and ear."""
    figures = {"1st": "first", "2nd": "second", "3rd": "third", "4th": "fourth"}
    words = re.findall(r"[a-z0-9'-]+", re.sub(r"\([^)]*\)", "", name).lower())
    return frozenset(
        figures.get(word, _singular(word)) for word in words if word not in ("the", "of", "for")
    )


def _singular(word: str) -> str:
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def _noun(name: str) -> str:
    """Return what a part is, without which one: "earflap" of "Second Earflap"."""
    words = re.findall(r"[a-z'-]+", re.sub(r"\([^)]*\)", "", name).lower())
    words = [
        word
        for word in words
        if not re.fullmatch(rf"{_ORDER}|one|two|the|each|exactly|make|alike|a|b", word)
    ]
    return _singular(words[-1]) if words else ""


def _titled(name: str) -> str:
    return " ".join(word[:1].upper() + word[1:] for word in name.split())
