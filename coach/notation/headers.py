"""Row and round headers in all their forms, wherever they stand in a line."""

from __future__ import annotations

import re
from dataclasses import replace

from coach.notation.header import Header
from coach.notation.header_parts import JOIN, PAR, ROW, header_made
from coach.notation.named_headers import (
    begins_work,
    last_header,
    named_header,
    next_rows_header,
    spoken_header,
)

_EXTRA = r"(?P<extra>\s*(?:,|and|&)\s*(?:all|every)\s+(?P<kind>[a-z]+)\s*(?:rows?|rnds?|rounds?)?[^:.]{0,40}?(?=\s*[:.(\[–]))?"
_SEP = r"\s*(?P<sep>[:.–—)=|-]*)\s*"

_NUMBERED = re.compile(
    rf"(?:{ROW}\.?\s*#?|(?P<r>\br\.?\s?))(?P<a>\d+|(?-i:[Il])(?=\b))(?P<more>(?:{JOIN}(?:(?:rows?|rnds?|rounds?|r)\s*)?\d+(?!\s*(?:sc|dc|hdc|tr|ch|sts?)\b))*)"
    rf"(?:\s+(?:onwards?|and\s+(?:on(?:wards?)?|up)|on)\b(?!\s+\w))?{_EXTRA}{PAR}{_SEP}",
    re.IGNORECASE,
)
_ORDINAL = re.compile(
    rf"(?P<a>\d+)\s?(?:st|nd|rd|th)(?P<more>(?:{JOIN}\d+\s?(?:st|nd|rd|th))*)\s+{ROW}{_EXTRA}{PAR}{_SEP}",
    re.IGNORECASE,
)
_BARE = re.compile(
    r"(?P<a>\d{1,3})\s*[.)]?(?P<more>(?:\s*[-–]\s*\d{1,3})?)\s*[.):|]\s*(?P<par>\(\s*\d+\s*(?:rows|rnds|rounds)\s*\))?\s*"
    r"(?=(?:\d+\s*)?(?:x\s*)?(?:sc|inc|dec|hdc|dc|tr|ch|sl st|unchanged|mr|magic|rep|work)\b|[(\[*]|\d+\s*(?:sc|inc|dec|hdc|dc|ch|tr))",
    re.IGNORECASE,
)


def headers_in(text: str, *, bare: bool = True) -> list[Header]:
    """Return the headers of one line, in order."""
    out: list[Header] = []
    first = header_at(text, bare=bare)
    if first is not None:
        out.append(first)
    at = first.end if first else 0
    for found in re.finditer(
        r"(?<=[.;:)\]}\"!?])\s+(?=(?:Rows?|Rnds?|Rounds?|ROWS?|RNDS?|R\d|[A-Z][a-z]+ (?:Row|Rnd|Round)|\d+(?:st|nd|rd|th) (?:[Rr]ow|[Rr]ound|[Rr]nd)))",
        text,
    ):
        if found.end() <= at:
            continue
        later = (
            _numbered(text, found.end())
            or _ordinal(text, found.end())
            or last_header(text, found.end())
            or named_header(text, found.end())
        )
        if later is not None and ":" in text[later.start : later.end]:
            out.append(later)
            at = later.end
    return out


def header_at(text: str, *, bare: bool = True) -> Header | None:
    """Return the header that a line begins with, if it does."""
    lead = re.match(r"[\s•*–—>#_|-]*", text)
    start = lead.end() if lead else 0
    if lead and (dress := re.search(r"\*\*|__", lead.group())):
        return _dressed(text, start, dress.group(), bare=bare)
    return _plain_header_at(text, start, bare=bare)


def _dressed(text: str, start: int, dress: str, *, bare: bool) -> Header | None:
    """A header between stars that only make it bold: "**Rnd 4:** sc in each st"."""
    close = text.find(dress, start)
    if close < 0:
        return _plain_header_at(text, start, bare=bare)
    undressed = text[:close] + " " * len(dress) + text[close + len(dress) :]
    header = _plain_header_at(undressed, start, bare=bare)
    if header is None or header.end < close:
        return _plain_header_at(text, start, bare=bare)
    return replace(header, end=max(header.end, close + len(dress)))


def _plain_header_at(text: str, start: int, *, bare: bool) -> Header | None:
    return (
        _numbered(text, start)
        or _ordinal(text, start)
        or last_header(text, start)
        or named_header(text, start)
        or next_rows_header(text, start)
        or (_bare(text, start) if bare else None)
        or spoken_header(text, start)
    )


def _numbered(text: str, start: int) -> Header | None:
    found = _NUMBERED.match(text, start)
    if not found or (start and text[start - 1].isalnum()):
        return None
    header = header_made(found, start, found.end())
    rest = text[header.end :]
    if found["word"]:
        if not found["sep"] and rest.strip() and not found["par"] and not begins_work(rest):
            return None
    elif not found["sep"] and rest.strip() and not re.match(r"\s*[(\[*\da-z]", rest, re.IGNORECASE):
        return None
    return header


def _ordinal(text: str, start: int) -> Header | None:
    found = _ORDINAL.match(text, start)
    return header_made(found, start, found.end()) if found else None


def _bare(text: str, start: int) -> Header | None:
    found = _BARE.match(text, start)
    if not found:
        return None
    numbers = [int(found["a"]), *(int(each) for each in re.findall(r"\d+", found["more"] or ""))]
    return Header(start, found.end(), "round", tuple(numbers), bare=True)
