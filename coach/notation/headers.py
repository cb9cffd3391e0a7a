"""Row and round headers in all their forms, wherever they stand in a line."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from coach.notation.clauses import COLOUR_WORDS
from coach.notation.number_words import number_of

_UNITS = "one|two|three|four|five|six|seven|eight|nine"
_NUMBER_WORD = (
    rf"(?:(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:[- ](?:{_UNITS})\b)?"
    r"|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
    rf"|{_UNITS})"
)
_WORD_ORDINALS = {
    word: value
    for value, word in enumerate(
        [
            "first",
            "second",
            "third",
            "fourth",
            "fifth",
            "sixth",
            "seventh",
            "eighth",
            "ninth",
            "tenth",
        ],
        1,
    )
}
_ROW = r"(?P<word>rows?|rnds?|rounds?|rds?|rws?)"
_JOIN = r"\s*(?:-|–|\bto\b|\band\b|&|,|\bthrough\b|\bthru\b|/|→|->)\s*"
_EXTRA = r"(?P<extra>\s*(?:,|and|&)\s*(?:all|every)\s+(?P<kind>[a-z]+)\s*(?:rows?|rnds?|rounds?)?[^:.]{0,40}?(?=\s*[:.(\[–]))?"
_PAR = r"(?P<par>(?:\s*[(\[][^()\[\]]{0,60}[)\]]){1,3})?"
_SEP = r"\s*(?P<sep>[:.–—)=|-]*)\s*"

_NUMBERED = re.compile(
    rf"(?:{_ROW}\.?\s*#?|(?P<r>\br\.?\s?))(?P<a>\d+|(?-i:[Il])(?=\b))(?P<more>(?:{_JOIN}(?:(?:rows?|rnds?|rounds?|r)\s*)?\d+(?!\s*(?:sc|dc|hdc|tr|ch|sts?)\b))*)"
    rf"(?:\s+(?:onwards?|and\s+(?:on(?:wards?)?|up)|on)\b(?!\s+\w))?{_EXTRA}{_PAR}{_SEP}",
    re.IGNORECASE,
)
_ORDINAL = re.compile(
    rf"(?P<a>\d+)\s?(?:st|nd|rd|th)(?P<more>(?:{_JOIN}\d+\s?(?:st|nd|rd|th))*)\s+{_ROW}{_EXTRA}{_PAR}{_SEP}",
    re.IGNORECASE,
)
_BARE = re.compile(
    r"(?P<a>\d{1,3})\s*[.)]?(?P<more>(?:\s*[-–]\s*\d{1,3})?)\s*[.):|]\s*(?P<par>\(\s*\d+\s*(?:rows|rnds|rounds)\s*\))?\s*"
    r"(?=(?:\d+\s*)?(?:x\s*)?(?:sc|inc|dec|hdc|dc|tr|ch|sl st|unchanged|mr|magic|rep|work)\b|[(\[*]|\d+\s*(?:sc|inc|dec|hdc|dc|ch|tr))",
    re.IGNORECASE,
)
_NAMED = re.compile(
    rf"(?P<name>[A-Za-z][A-Za-z-]*(?:\s[A-Za-z-]+)?)\s+{_ROW}\s*(?P<a>\d+)?(?P<more>(?:{_JOIN}\d+)*){_PAR}\s*(?P<sep>[:–—])\s*",
    re.IGNORECASE,
)
_LAST = re.compile(
    rf"(?:(?:[Oo]n|[Ff]or|[Ii]n)\s+)?(?:[Tt]he\s+)?(?P<name>(?i:last|final))\s+(?P<word>(?i:row|rnd|round))\s*{_PAR}\s*(?P<sep>[:.–—-])\s*"
)
_SPOKEN = re.compile(
    r"(?:(?:okay|ok|alright|so|now|and|then|right)[,\s]+)*(?:(?:for|on|in|to)\s+)?(?:the\s+)?"
    r"(?:(?:we're|we are|you're|this is)\s+(?:now\s+)?(?:on\s+|at\s+)?(?:to\s+)?)?"
    rf"(?:{_ROW}\s+(?:number\s+)?(?P<number>{_NUMBER_WORD})(?:\s+(?P<join>to|through|until|and)\s+(?P<last>{_NUMBER_WORD}))?|(?P<next>next|(?<=in )this|(?<=for )this|(?<=on )this)\s+(?P<word2>row|round|rnd)"
    rf"|(?P<ordinal>{'|'.join(_WORD_ORDINALS)})\s+(?P<word3>row|round|rnd)"
    r"|(?:the\s+)?(?P<named>decrease|increase|dec|inc|plain|even|set-up|setup)\s+(?P<word4>row|round|rnd)(?=\s*[:,]))\b\s*[:,.–-]?\s*",
    re.IGNORECASE,
)
_STITCHY = re.compile(
    r"\b(?:sc|dc|hdc|tr|htr|ch|inc|dec|st|sts|sk|sp|\d+(?:sc|dc|tr|ch|inc|dec))\b|\d", re.IGNORECASE
)
_SIDE = re.compile(r"\b(RS|WS|right side|wrong side)\b", re.IGNORECASE)
_NAMES_CHANGE = re.compile(r"\s*(?:inc|dec)(?:rease)?s?\s*", re.IGNORECASE)
_WORK_BEGINS = re.compile(r"\s*(?:[.–—-]|[A-Z][a-z])")
_ALL_SUCH = re.compile(
    r"\s*(?:,|and|&)?\s*(?:all|every)\s+(?P<kind>[a-z]+)\b[^()\[\]]*", re.IGNORECASE
)
_NEXT_ROWS = re.compile(
    rf"(?:(?:for|work)\s+)?(?:the\s+)?(?:next|following)\s+(?P<rows>\d+|{_NUMBER_WORD})\s+{_ROW}\s*{_PAR}\s*[:–]\s*",
    re.IGNORECASE,
)
_OF_YARN = re.compile(
    rf"\s*(?i:(?:in|with)\s+)?(?i:colou?r\s+|yarn\s+)?(MC|CC\d?|[A-HJ-Z](?!\w)|(?i:{'|'.join(sorted(COLOUR_WORDS))}))\s*"
)
_COVERS = r"\s*(\d+)\s*(?:rows|rnds|rounds)\s*"
_COUNT = r"\s*\d+\s*(?:sts?|stitches|sc|dc|hdc|tr|htr)?(?:\s*(?:,|and|&)\s*\d+\s*[\w-]+(?:\s+(?:sps?|spaces))?)*\s*"
_NOT_NAMES = (
    "rep",
    "repeat",
    "of",
    "the",
    "each",
    "every",
    "this",
    "last",
    "in",
    "for",
    "from",
    "work",
    "as",
    "work as",
    "note",
    "notes",
    "tip",
)


@dataclass(frozen=True, slots=True)
class Header:
    """One header: where its words begin and its instructions start, and what it says."""

    start: int
    end: int
    kind: str  # "row" or "round"
    numbers: tuple[int, ...]
    label: str | None = None  # for named rows: "Dec Rnd 3"
    side: str | None = None
    every: str | None = None  # "even", "odd", "alternate"
    bare: bool = False
    spoken: bool = False
    short: bool = False  # "R3"
    counted: tuple[int, int] | None = (
        None  # where the header itself states the count: "Rnd 8 (28 sts):"
    )
    listed: bool = False  # "Rows 2, 4 and 6": each by its number, and not what lies between
    unnamed: bool = False  # the first row, by its words alone
    color: str | None = None  # "Row 3 (MC):"
    rows: int | None = None  # how many rows it says that it covers: "Rnds 11-17 (6 rnds):"


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
            or _last(text, found.end())
            or _named(text, found.end())
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
        or _last(text, start)
        or _named(text, start)
        or _next_rows(text, start)
        or (_bare(text, start) if bare else None)
        or _spoken(text, start)
    )


def _numbered(text: str, start: int) -> Header | None:
    found = _NUMBERED.match(text, start)
    if not found or (start and text[start - 1].isalnum()):
        return None
    header = _made(found, start, found.end())
    rest = text[header.end :]
    if found["word"]:
        if not found["sep"] and rest.strip() and not found["par"] and not _begins_work(rest):
            return None
    elif not found["sep"] and rest.strip() and not re.match(r"\s*[(\[*\da-z]", rest, re.IGNORECASE):
        return None
    return header


def _begins_work(rest: str) -> bool:
    return bool(
        re.match(
            r"\s*(?:[(\[*{]|\d|ch\b|sc\b|dc\b|hdc\b|tr\b|htr\b|inc\b|dec\b|sl\b|ss\b|rep|with\b|in\b|turn|sk\b|miss|work|fp|bp|join|beg|follow|as\b|same|single|double|half|chain|\w+ in )",
            rest,
            re.IGNORECASE,
        )
    )


def _made(found: re.Match[str], start: int, end: int) -> Header:
    word = (found["word"] or "rnd").lower()
    side = None
    counted = rows = color = None
    extra = found["extra"] if "extra" in found.groupdict() else None
    if found["par"]:
        closed = ":" in found["sep"]
        for bracket in re.finditer(r"\s*[(\[]([^()\[\]]*)[)\]]", found["par"]):
            inside = bracket[1]
            side = side or _side(inside)
            color = color or (_OF_YARN.fullmatch(inside) or [None, None])[1]
            if _ALL_SUCH.fullmatch(inside):
                extra = inside
                continue
            if covered := re.fullmatch(_COVERS, inside, re.IGNORECASE):
                rows = int(covered[1])
            elif closed and re.fullmatch(_COUNT, inside, re.IGNORECASE):
                begin = found.start("par") + bracket.start()
                counted = (begin, begin + len(bracket.group()))
            elif not closed and not _side(inside) and not _remark(inside):
                after = found.string[found.start("par") + bracket.end() :]
                if not (_NAMES_CHANGE.fullmatch(inside) and _WORK_BEGINS.match(after)):
                    end = found.start("par") + bracket.start()
                    break
    every = None
    kind = ""
    if extra:
        such = _ALL_SUCH.search(extra)
        kind = such["kind"].lower() if such else ""
        every = {"other": "alternate", "alt": "alternate"}.get(kind, kind)
    numbers, listed = _numbers_of(found["a"], found["more"] or "")
    if extra and (last := re.search(r"\b(?:through|thru|to|until)\b\D*(\d{1,4})", extra)):
        step = {"even": 2, "odd": 2, "alternate": 2, "other": 2, "alt": 2}.get(kind, 1)
        numbers = tuple(range(numbers[0], int(last[1]) + 1, step)) or numbers
        listed, every = len(numbers) > 1, None
    kind = "row" if word.startswith(("row", "rw")) else "round"
    return Header(
        start,
        end,
        kind,
        numbers,
        side=side,
        every=every,
        short=not found.groupdict().get("word"),
        counted=counted,
        rows=rows,
        listed=listed,
        color=color,
    )


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


def _side(text: str) -> str | None:
    found = _SIDE.search(text)
    if not found:
        return None
    return {"right side": "RS", "wrong side": "WS"}.get(found[1].lower(), found[1].upper())


def _ordinal(text: str, start: int) -> Header | None:
    found = _ORDINAL.match(text, start)
    return _made(found, start, found.end()) if found else None


def _next_rows(text: str, start: int) -> Header | None:
    """Return the header of "Next 5 rounds:": how many, but no number."""
    found = _NEXT_ROWS.match(text, start)
    if not found:
        return None
    kind = "row" if found["word"].lower().startswith(("row", "rw")) else "round"
    label = "Next Row" if kind == "row" else "Next Rnd"
    return Header(start, found.end(), kind, (), label=label, rows=number_of(found["rows"]))


_LETTERED = re.compile(r"[\s•*]*(?P<letter>[A-QS-Z])(?P<number>\d{1,2})\s*[:.)–-]\s*(?=\S)")


_LETTERED_WORK = re.compile(r"\b(?:sc|hdc|dc|htr|tr|inc|dec|sl\s+st|ss|mr|ch)\b", re.IGNORECASE)


def lettered_letters(texts: Iterable[str]) -> frozenset[str]:
    """Return the letters that the rounds of a part are called by: "C1:", "C2:", "C3:" in turn."""
    seen: dict[str, list[int]] = {}
    for text in texts:
        found = _LETTERED.match(text)
        if found and _LETTERED_WORK.search(text, found.end()):
            seen.setdefault(found["letter"], []).append(int(found["number"]))
    return frozenset(
        letter for letter, numbers in seen.items() if len(numbers) > 1 and numbers[:2] == [1, 2]
    )


def lettered(text: str, letters: frozenset[str]) -> Header | None:
    """Return the header of "C2: ch 2, dc2tog around", where *letters* are names of rounds."""
    found = _LETTERED.match(text) if letters else None
    if found is None or found["letter"] not in letters:
        return None
    kind = "row" if re.search(r"\bturn\b", text, re.IGNORECASE) else "round"
    label = f"{found['letter']}{found['number']}"
    return Header(0, found.end(), kind, (), label=label)


def numbered_step(text: str, number: int) -> Header | None:
    """Return the header of "6. Fold flat and work 4 sc ..." where 6 is the number that is due."""
    found = re.match(rf"[\s•*]*{number}\s*[.)]\s+(?=[A-Za-z])", text)
    if not found or not re.search(r"\d\s*(?:sc|hdc|dc|htr|tr)\b", text, re.IGNORECASE):
        return None
    return Header(0, found.end(), "round", (number,), bare=True)


def _bare(text: str, start: int) -> Header | None:
    found = _BARE.match(text, start)
    if not found:
        return None
    numbers = [int(found["a"]), *(int(each) for each in re.findall(r"\d+", found["more"] or ""))]
    return Header(start, found.end(), "round", tuple(numbers), bare=True)


def _named(text: str, start: int) -> Header | None:
    found = _NAMED.match(text, start)
    if (
        not found
        or found["name"].lower() in _NOT_NAMES
        or found["name"].split()[0].lower() in _NOT_NAMES
    ):
        return None
    word = found["word"].lower()
    kind = "row" if word.startswith(("row", "rw")) else "round"
    name = found["name"].strip().title()
    short = "Row" if kind == "row" else "Rnd"
    numbers = [int(found["a"])] if found["a"] else []
    numbers += [int(each) for each in re.findall(r"\d+", found["more"] or "")]
    ordinal = _WORD_ORDINALS.get(name.lower())
    side = _side(found["par"]) if found["par"] else None
    if ordinal and not numbers:
        return Header(start, found.end(), kind, (ordinal,), side=side)
    label = f"{name} {short}" + (f" {numbers[0]}" if numbers else "")
    return Header(start, found.end(), kind, tuple(numbers), label=label, side=side)


def _last(text: str, start: int) -> Header | None:
    """Return the header of "Last Rnd: ch 1, sc in each st around", where work follows.

    "Rep last row: ..." and "The last row: it is wavy" are none; nor is a line that only goes on
    from the one before ("... to end of / last row. Sc in next st").
    """
    found = _LAST.match(text, start)
    if found is None or not _begins_work(text[found.end() :]):
        return None
    if found["sep"] != ":" and not text[start].isupper():
        return None
    kind = "row" if found["word"].lower() == "row" else "round"
    label = f"{found['name'].title()} {'Row' if kind == 'row' else 'Rnd'}"
    side = _side(found["par"]) if found["par"] else None
    return Header(start, found.end(), kind, (), label=label, side=side)


def row_like(text: str) -> bool:
    """Tell whether a line looks like a row with a name that is not known: "This round: sc in ..."."""
    found = re.match(r"\W*[A-Za-z][\w' -]{0,40}?\b(?:row|rnd|round)s?\b[^:.]{0,20}:\s*", text, re.I)
    return found is not None and re.match(_WORK, text[found.end() :], re.IGNORECASE) is not None


_WORK = (
    r"[(\[*]*\s*(?:with\s+\w+,\s*)?(?:ch\s+\d+,\s*)?(?:turn,\s*)?[(\[*]*\s*"
    r"(?:\d+\s*)?(?:sc|hdc|dc|htr|tr|inc|dec|sl\s+st|ss)\b[^.]*?\b(?:in|into|around|across|next|each)\b"
)


def _spoken(text: str, start: int) -> Header | None:
    found = _SPOKEN.match(text, start)
    if not found:
        return None
    word = (found["word"] or found["word2"] or found["word3"] or found["word4"]).lower()
    kind = "row" if word.startswith("row") else "round"
    if found["next"]:
        return Header(
            start,
            found.end(),
            kind,
            (),
            label="Next Row" if kind == "row" else "Next Rnd",
            spoken=True,
        )
    if found["named"]:
        short = "Row" if kind == "row" else "Rnd"
        name = f"{found['named'].title()} {short}"
        return Header(start, found.end(), kind, (), label=name, spoken=True)
    if found["ordinal"]:
        numbers: tuple[int, ...] = (_WORD_ORDINALS[found["ordinal"].lower()],)
    else:
        words = [found["number"], found["last"]]
        numbers = tuple(number_of(word.replace(" ", "-")) or 0 for word in words if word)
    listed = (found["join"] or "").lower() == "and"
    return Header(start, found.end(), kind, numbers, spoken=True, listed=listed)
