"""What a header's brackets and numbers say: its side, its yarn, its count, the rows it covers."""

from __future__ import annotations

import re
from dataclasses import dataclass

from coach.notation.clauses import COLOUR_WORDS
from coach.notation.header import Header

_STITCHY = re.compile(
    r"\b(?:sc|dc|hdc|tr|htr|ch|inc|dec|st|sts|sk|sp|\d+(?:sc|dc|tr|ch|inc|dec))\b|\d", re.IGNORECASE
)
_SIDE = re.compile(r"\b(RS|WS|right side|wrong side)\b", re.IGNORECASE)
_NAMES_CHANGE = re.compile(r"\s*(?:inc|dec)(?:rease)?s?\s*", re.IGNORECASE)
_WORK_BEGINS = re.compile(r"\s*(?:[.–—-]|[A-Z][a-z])")
_ALL_SUCH = re.compile(
    r"\s*(?:,|and|&)?\s*(?:all|every)\s+(?P<kind>[a-z]+)\b[^()\[\]]*", re.IGNORECASE
)
_OF_YARN = re.compile(
    rf"\s*(?i:(?:in|with)\s+)?(?i:colou?r\s+|yarn\s+)?(MC|CC\d?|[A-HJ-Z](?!\w)|(?i:{'|'.join(sorted(COLOUR_WORDS))}))\s*"
)
_COVERS = r"\s*(\d+)\s*(?:rows|rnds|rounds)\s*"
_COUNT = r"\s*\d+\s*(?:sts?|stitches|sc|dc|hdc|tr|htr)?(?:\s*(?:,|and|&)\s*\d+\s*[\w-]+(?:\s+(?:sps?|spaces))?)*\s*"


@dataclass(slots=True)
class _Brackets:
    """What the brackets after a number say, and where the header ends."""

    end: int
    side: str | None = None
    color: str | None = None
    rows: int | None = None
    counted: tuple[int, int] | None = None
    such: str | None = None  # "and all even rows"


def header_made(found: re.Match[str], start: int, end: int) -> Header:
    """Return the header that *found* (its groups: word, a, more, extra, par, sep) makes.

    It ends before the first bracket that is part of the work.
    """
    word = (found["word"] or "rnd").lower()
    said = _Brackets(end, such=found["extra"] if "extra" in found.groupdict() else None)
    if found["par"]:
        _read_brackets(found, said)
    numbers, listed = _numbers_of(found["a"], found["more"] or "")
    every = None
    if said.such:
        such = _ALL_SUCH.search(said.such)
        kind = such["kind"].lower() if such else ""
        every = {"other": "alternate", "alt": "alternate"}.get(kind, kind)
        if last := re.search(r"\b(?:through|thru|to|until)\b\D*(\d{1,4})", said.such):
            step = 2 if every in ("even", "odd", "alternate") else 1
            numbers = tuple(range(numbers[0], int(last[1]) + 1, step)) or numbers
            listed, every = len(numbers) > 1, None
    return Header(
        start,
        said.end,
        "row" if word.startswith(("row", "rw")) else "round",
        numbers,
        side=said.side,
        every=every,
        short=not found.groupdict().get("word"),
        counted=said.counted,
        rows=said.rows,
        listed=listed,
        color=said.color,
    )


def _read_brackets(found: re.Match[str], said: _Brackets) -> None:
    """Read the brackets of a header up to the first that is part of the work."""
    closed = ":" in found["sep"]
    for bracket in re.finditer(r"\s*[(\[]([^()\[\]]*)[)\]]", found["par"]):
        inside = bracket[1]
        said.side = said.side or side_in(inside)
        said.color = said.color or (_OF_YARN.fullmatch(inside) or [None, None])[1]
        begin = found.start("par") + bracket.start()
        if _ALL_SUCH.fullmatch(inside):
            said.such = inside
        elif covered := re.fullmatch(_COVERS, inside, re.IGNORECASE):
            said.rows = int(covered[1])
        elif closed and re.fullmatch(_COUNT, inside, re.IGNORECASE):
            said.counted = (begin, begin + len(bracket.group()))
        elif not closed and not side_in(inside) and not _remark(inside):
            after = found.string[found.start("par") + bracket.end() :]
            if not (_NAMES_CHANGE.fullmatch(inside) and _WORK_BEGINS.match(after)):
                said.end = begin
                return


def _numbers_of(first: str, more: str) -> tuple[tuple[int, ...], bool]:
    """Return the rows of "3", "3-7" (as 3 and 7), "2, 4 and 6" or "2-4 and 6" (each one)."""
    number = 1 if first in ("I", "l") else int(first[:9])
    parts = re.findall(
        r"(,|&|/|\band\b|->|→|-|–|\bto\b|\bthrough\b|\bthru\b)[^\d]*(\d+)", more, re.IGNORECASE
    )
    if not parts:
        return (number,), False
    if all(sign.lower() not in (",", "&", "/", "and") for sign, _ in parts):
        return (number, *(int(each[:9]) for _, each in parts)), False
    numbers = [number]
    for sign, each in parts:
        value = int(each[:9])
        if sign.lower() in (",", "&", "/", "and"):
            numbers.append(value)
        else:
            numbers += range(numbers[-1] + 1, min(value, numbers[-1] + 5000) + 1)
    if numbers == list(range(number, number + len(numbers))):
        return (number, numbers[-1]), False
    return tuple(numbers), True


def _remark(inside: str) -> bool:
    """Tell whether a bracket of a header only names or dates the row: "(inc row)"."""
    if re.search(r"\b(?:row|rnd|round|updated|corrected|revised|new)\b", inside, re.IGNORECASE):
        return not re.search(r"\b(?:in|next|each)\b", inside, re.IGNORECASE)
    return not _STITCHY.search(inside) and len(inside.strip()) > 2


def side_in(text: str) -> str | None:
    """Return the side that *text* names: "RS", "WS", or nothing."""
    found = _SIDE.search(text)
    if not found:
        return None
    return {"right side": "RS", "wrong side": "WS"}.get(found[1].lower(), found[1].upper())


ROW = r"(?P<word>rows?|rnds?|rounds?|rds?|rws?)"

JOIN = r"\s*(?:-|–|\bto\b|\band\b|&|,|\bthrough\b|\bthru\b|/|→|->)\s*"

PAR = r"(?P<par>(?:\s*[(\[][^()\[\]]{0,60}[)\]]){1,3})?"
