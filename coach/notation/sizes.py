"""Several sizes in one text: which there are, and one size's numbers in the place of all.

Replaced text keeps its length, so that lines and columns stay those of the file.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from coach.notation.cleaning import CleanLine

_NUMBER = r"(?:\d+(?:\.\d+)?[¼½¾]?|[-–])"
_GROUP = re.compile(
    rf"(?P<first>\d+|(?<![\w-])[-–])\s*(?P<open>[(\[])\s*(?P<rest>{_NUMBER}(?:\s*[,;:/]\s*{_NUMBER})*)\s*[)\]]"
)
_RANGE = r"(?:r(?:ows?|nds?|ounds?)?\s*)?\d+\s*(?:-|–|to)\s*(?:r(?:ows?|nds?|ounds?)?\s*)?\d+"
_RANGES = re.compile(
    rf"(?P<first>{_RANGE})\s*[(\[]\s*(?P<rest>{_RANGE}(?:\s*[,;:/]\s*{_RANGE})*)\s*[)\]]",
    re.IGNORECASE,
)
_ENDS = re.compile(
    r"(?<=[-–])\s*r?(?P<first>\d+)\s*[(\[]\s*(?P<rest>r\d+(?:\s*[,;:/]\s*r\d+)*)\s*[)\]]",
    re.IGNORECASE,
)
_SLASHED = re.compile(r"(?<![\d/])\d+(?:\s*/\s*\d+){2,}(?![\d/])")
_SEMICOLONS = re.compile(r"(?<![\d;])\d+(?:\s*;\s*\d+)+(?!\s*;)")
_LISTED = re.compile(
    r"[(\[]\s*(?P<list>\d+(?:\s*[,;/]\s*\d+)+)(?P<noun>\s*[a-z][\w -]*)?\s*[)\]](?=[\s.]*$)",
    re.IGNORECASE,
)
_ALTERNATE = re.compile(r"\d+(?:\s*\(\s*\d+\s*\)\s*\d+)+(?:\s*\(\s*\d+\s*\))?")
_HEADING = re.compile(
    r"^\W*(?:(?:to fit\s+|(?:two|three|four|five|six|\d)\s+)?(?:finished\s+|garment\s+)?sizes?(?:\s+(?:available|included|given))?\s*[:–-]?"
    r"|(?:to\s+fit|fits|ages?|available\s+in|comes\s+in)(?:\s+(?:sizes?|ages?|chest|bust|head|foot|dolls?|babies|children))?\s*[:–-]"
    r"|(?:pattern|instructions?|directions?)\s+(?:is|are)\s+(?:given\s+|written\s+)?for\s+(?:sizes?)?\s*[:–-]?)\s*(?P<names>[^:]+?(?:\[[^\]]*\]|\([^)]*\))?)\.?\s*$",
    re.IGNORECASE,
)
_IN_TITLE = re.compile(
    r"^\W*[^.:]{3,60}?\s[-–—,]\s*(?:in\s+)?(?:(?:two|three|four|five|\d)\s+)?sizes?\s*[:–-]?\s*(?P<names>[^:]+)$",
    re.IGNORECASE,
)
_ENOUGH_LINES = (
    3  # as many with so many numbers each, and the pattern has sizes that it doesn't name
)
_ONLY = re.compile(
    r"^\W*(?:for\s+)?(?:sizes?\s+)?(?P<names>[\w/ ,&-]{1,40}?)(?:\s+sizes?)?\s+only\b\s*[:–-]?\s*",
    re.IGNORECASE,
)
_ONLY_IN_HEADER = re.compile(r"[(\[](?P<names>[^()\[\]]{1,50}?)\s+only[)\]]", re.IGNORECASE)
_NAME = r"[A-Za-z0-9][\w /+'-]*"


_LIST_PARTS = r"[,;]\s*(?:and\s+)?|\s+and\s+"


def sizes_in(lines: Sequence[CleanLine]) -> tuple[str, ...]:
    """Return the names of the sizes, as a line of the front matter lists them; else nothing."""
    for index, line in enumerate(lines):
        if re.fullmatch(r"\W*sizes?\W*", line.text, re.IGNORECASE) and index + 1 < len(lines):
            names = _names(lines[index + 1].text.split(".")[0])
            if len(names) > 1:
                return names
        found = _HEADING.match(line.text) or _IN_TITLE.match(line.text)
        if found:
            names = _names(found["names"]) or _names(re.split(r"[.;]\s", found["names"])[0])
            if len(names) > 1:
                return names
    return tuple(f"size {index}" for index in range(1, _unnamed(lines) + 1))


def _unnamed(lines: Sequence[CleanLine]) -> int:
    """Return how many sizes the numbers of chains and rows show, where none is named; else 0."""
    worked = re.compile(
        r"\W*(?:r|rows?|rnds?|rounds?)\.?\s*\d|.{0,30}\bch(?:ain)?\s+\d", re.IGNORECASE
    )
    shown: Counter[int] = Counter()
    for line in lines:
        if not worked.match(line.text):
            continue
        groups = [found for found in _GROUP.finditer(line.text) if re.search("[,;]", found["rest"])]
        many = {len(re.findall(_NUMBER, found["rest"])) + 1 for found in groups}
        if _rows_headed(line.text) == 1:
            many |= {
                len(re.findall(r"\d+", found["list"])) for found in _LISTED.finditer(line.text)
            }
        if many and re.match(r"\W*(?:with \w+,? )?ch(?:ain)?\s+\d", line.text, re.IGNORECASE):
            return max(many)
        shown.update(many)
    most = max(shown, key=lambda many: shown[many], default=0)
    return most if shown[most] >= _ENOUGH_LINES else 0


def _names(text: str) -> tuple[str, ...]:
    text = re.sub(
        r"[(\[][^()\[\]]*\b(?:brackets?|parenthes[ei]s|changes?|shown|given|larger)\b[^()\[\]]*[)\]]",
        "",
        text,
    )
    text = re.split(r"\s[-–]\s", text)[0].strip().rstrip(".")
    text = re.sub(r"(?<=[)\]])\s*(?:months?|mths?|mos|years?|yrs?|old|size)\b.*$", "", text)
    if '"' in text or re.search(r"\b(?:in|cm|wide|long|about|approx|x|inches|needed|mm)\b", text):
        return ()
    inside = re.fullmatch(rf"({_NAME}?)\s*[(\[]([^()\[\]]+)[)\]]", text)
    in_turn = re.fullmatch(r"(?:[\w-]+\s*[(\[]\s*[\w-]+\s*[)\]]\s*)+(?:[\w-]+)?", text)
    if in_turn and len(re.findall(r"[\w-]+", text)) > 2:
        names = re.findall(r"[\w-]+", text)
    elif inside:
        slashed = "/" in inside[1] or re.search(r"[,;]", inside[2])
        parting = r"\s*[,;]\s*" if slashed else r"\s*[:/]\s*"
        names = [inside[1], *re.split(parting, inside[2])]
    elif re.fullmatch(rf"{_NAME}(?:\s*[,;]\s*(?:and\s+)?{_NAME})+", text) and all(
        len(name.split()) <= 2 and len(name.strip()) <= 12 for name in re.split(_LIST_PARTS, text)
    ):
        names = re.split(_LIST_PARTS, text)
    elif re.fullmatch(r"(?:\dX|X{0,3})[SML](?:\s*[-–]\s*(?:\dX|X{0,3})[SML])+", text):
        names = re.split(r"\s*[-–]\s*", text)
    elif re.fullmatch(r"\s*[A-Za-z0-9]{1,8}(?:\s*/\s*[A-Za-z0-9]{1,8})+\s*", text):
        names = text.split("/")
    else:
        return ()
    return tuple(name.strip() for name in names if name.strip())


def for_size(lines: Sequence[CleanLine], sizes: Sequence[str], index: int) -> list[CleanLine]:
    """Return *lines* with only the numbers of size *index*, at the same places."""
    out: list[CleanLine] = []
    left_out = False
    for line in lines:
        text = _one_size(line.text, len(sizes), index)
        only = _ONLY.match(text)
        if (
            not text.strip()
            or re.match(r"\W*(?:for\s+)?(?:all|both)\s+sizes\b", text, re.IGNORECASE)
            or (text.strip().isupper() and len(text.split()) < 4)
        ):
            left_out = False
        if left_out and not only:
            text = " " * len(text)
        if only and (named := _sizes_named(only["names"], sizes)):
            left_out = False
            if index in named:
                text = " " * only.end() + text[only.end() :]
            else:
                left_out = not text[only.end() :].strip()
                text = " " * len(text)
        inside = _ONLY_IN_HEADER.search(text)
        if inside and (named := _sizes_named(inside["names"], sizes)):
            if index in named:
                text = text[: inside.start()] + " " * len(inside.group()) + text[inside.end() :]
            else:
                text = " " * len(text)
        out.append(replace(line, text=text) if text != line.text else line)
    return out


def _sizes_named(text: str, sizes: Sequence[str]) -> set[int]:
    """Return which sizes *text* names: "3-6 and 6-12 months", "L", "Large"."""
    parts = [part.strip().lower() for part in re.split(r"[,&]|\band\b", text) if part.strip()]
    named: set[int] = set()
    for part in parts:
        part = re.sub(r"^sizes?\s+", "", part)  # noqa: PLW2901
        found = {
            index
            for index, size in enumerate(sizes)
            if size.lower() == part or size.lower().startswith(part + " ")
        }
        if not found:
            return set()
        named |= found
    return named


def _one_size(text: str, number: int, index: int) -> str:
    """Return *text* with the value of size *index* in the place of each list of all sizes."""

    def kept(value: str, found: re.Match[str]) -> str:
        return value + " " * (len(found.group()) - len(value))

    def chosen(found: re.Match[str]) -> str:
        values = [found["first"], *re.findall(_NUMBER, found["rest"])]
        if len(values) != number:
            return found.group()
        return kept("0" if values[index] in "-–" else values[index], found)

    def chosen_range(found: re.Match[str]) -> str:
        values = [found["first"], *re.findall(_RANGE, found["rest"], re.IGNORECASE)]
        if len(values) != number:
            return found.group()
        word = re.match(r"[a-z]*\s*", found["first"], re.IGNORECASE)
        value = values[index]
        return kept((word.group() if word and value[0].isdigit() else "") + value, found)

    def alternate(found: re.Match[str]) -> str:
        values: list[str] = re.findall(r"\d+", found.group())
        return kept(values[index], found) if len(values) == number else found.group()

    def listed(found: re.Match[str]) -> str:
        values: list[str] = re.findall(r"\d+", found["list"])
        if len(values) != number or (one_for_each_row and _rows_headed(text) == number):
            return found.group()
        return kept(f"({values[index]}{found['noun'] or ''})", found)

    # where the header has as many ranges as there are sizes, the list is one for each size too
    one_for_each_row = not any(form.search(text[:40]) for form in (_RANGES, _ENDS))
    for pattern, choice in (
        (_RANGES, chosen_range),
        (_ENDS, alternate),
        (_GROUP, chosen),
        (_ALTERNATE, alternate),
        (_SLASHED, alternate),
        (_SEMICOLONS, alternate),
        (_LISTED, listed),
    ):
        text = pattern.sub(choice, text)
    return text


def _rows_headed(text: str) -> int:
    """Return how many rows the line's header covers: then a list may be one count for each."""
    found = re.match(
        r"\W*(?:r|rows?|rnds?|rounds?)\.?\s*(\d{1,6})\s*(?:-|–|to|and|&|,)\s*(?:r\s*)?(\d{1,6})",
        text,
        re.IGNORECASE,
    )
    return int(found[2]) - int(found[1]) + 1 if found else 1
