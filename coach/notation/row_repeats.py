"""Rows told by other rows: "Rows 6-45: Rep Rows 2-5", "work 8 rows even".

Which rows are meant is read here; working them again is the proof's.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from coach.craft.pattern import Act, Instruction, Make, Rerun, Skip, Which
from coach.craft.problem import Place
from coach.notation.color_rows import stripes_of_repeat
from coach.notation.counts import parted
from coach.notation.facts import Facts
from coach.notation.number_words import FRACTIONS, number_of
from coach.notation.piece import Piece
from coach.notation.row_grammar import RowReader
from coach.notation.tokens import Token, tokens_of
from coach.notation.words import understood

RERUN = re.compile(
    r"^\W*(?:(?:with|using|in)\s+[\w ]{1,20}[,:]\s*)?(?:(?:now|then|so|just|simply|keep|is|are|you|we|exactly|(?:the\s+)?exact|work|continue(?: to| on)?|carry\s+on)[\s,]+)*(?P<verb>rep(?:eat(?:ing)?)?s?|alternat(?:e|ing)(?:\s+between)?|work(?:ed)?(?:\s+(?:as(?:\s+for)?|same as))?|as(?:\s+for)?|(?:the\s+)?same\s+as|(?:just\s+)?like|work\s+rows?)\s+"
    r"(?:(?:the\s+)?(?P<word>rows?|rnds?|rounds?|r)\.?\s*(?P<numbers>\d+(?:\s*(?:-|–|to|and|&|,(?!\s*\d+\s*(?:more|additional|extra|times?|x)\b)|through)\s*(?:(?:rows?|rnds?|rounds?|r)\s*)?\d+)*)"
    r"|(?:(?:the\s+)?(?:last|previous)|these|those|this|both)\s+(?:(?P<last>\d+|two|three|four|five|six|seven|eight|nine|ten)\s+)?(?P<word2>rows?|rnds?|rounds?))",
    re.IGNORECASE,
)
_TIMES = re.compile(
    r"\b(?P<number>\d+|once|twice|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:-[a-z]+)?)\s*(?:more\s+|additional\s+)?(?:times?\b|x\b)?\s*(?P<more>more)?",
    re.IGNORECASE,
)
UNTIL = re.compile(
    r"(?:(?:until|till|for|to)\b[^.]*?\b(?:measures?|measuring|reach(?:es)?|is)\b[^.\d]*|\bfor\s+(?:about\s+|another\s+)?(?=[\d.]+\s*(?:\"|cm\b|mm\b|inch)))(?P<whole>\d+(?:\.\d+)?)\s*(?P<part>[¼½¾⅓⅔⅛])?\s*(?P<unit>\"|''|in\b|inch(?:es)?\b|cm\b|mm\b)",
    re.IGNORECASE,
)
TO_ROW = re.compile(
    r"\b(?:until|till|to|through|for)\s+(?:the\s+)?(?:end\s+of\s+|after\s+)?(?:(?:row|rnd|round)\s*(?P<row>\d{1,5})\b"
    r"|(?:there\s+are|you\s+have|(?:you\s+have\s+)?a\s+total\s+of)\s+(?P<rows>\d{1,5})\s+(?:rows|rnds|rounds)\b"
    r"|(?P<done>\d{1,5})\s+(?:rows|rnds|rounds)\s+(?:in\s+(?:all|total)|altogether|total|(?:have\s+been|are|is)\s+(?:worked|complete|done|made|finished)))",
    re.IGNORECASE,
)
ENDING_SIDE = re.compile(
    r"ending\s+(?:with|on|after)\s+(?:a\s+)?(RS|WS|right[- ]side|wrong[- ]side)", re.IGNORECASE
)
EVEN = re.compile(
    r"^\W*(?:(?:now|then)\s+)?(?:work|continue|cont)\s+(?:(?:even|straight)\s+(?:for\s+)?|in\s+(?P<first>sc|dc|hdc|tr|htr)\s+for\s+)?(?:a\s+further\s+|another\s+|the\s+next\s+)?"
    r"(?P<number>\d+|\w+)\s+(?:more\s+)?(?P<word>rows?|rnds?|rounds?)\.?\s*(?:more\s+)?(?P<how>even|straight|plain|(?P<same>(?:in\s+)?the\s+same(?:\s+way)?|likewise|as\s+(?:before|established|set|the\s+last|last)|like\s+th(?:is|at))|in\s+(?P<last>sc|dc|hdc|tr|htr)\b)?",
    re.IGNORECASE,
)


def really_rerun(text: str, found: re.Match[str]) -> bool:
    """Tell whether the words repeat whole rows, and not a star within the row."""
    rest = text[found.end() :].lstrip()
    return not (
        found["verb"].lower().startswith(("work", "as", "like")) and re.match(r"[,;]?\s*\*", rest)
    )


def rerun(
    piece: Piece, found: re.Match[str], facts: Facts, part: str | None, after: int = 0
) -> Rerun:
    """Return the entry for rows that are worked as earlier ones."""
    header = piece.header
    text = piece.text
    named, rest = _rows_named(found)
    numbers = header.numbers if header else ()
    word = (found["word"] or found["word2"] or "row").lower()
    kind = header.kind if header else ("row" if word.startswith(("row", "r ")) else "round")
    if named:
        source = numbers_in(named)
        names = tuple(str(number) for number in source)
    else:
        names = (f"last {number_of(found['last']) or _said_of_last(found.group())}",)
    times, _more = _times_in(rest)
    if numbers and _THEN.search(rest):
        times = None  # the last rows are cut short, as the row numbers say
    stripes = stripes_of_repeat(found.string, rest, _period(names))
    length = UNTIL.search(rest)
    side = ENDING_SIDE.search(rest)
    tokens = understood(tokens_of(piece.spans), facts.vocabulary)
    body, stated = parted(tokens)
    span: tuple[int, int] | None = None
    if numbers:
        span = (numbers[0], numbers[-1])
    if times is None and len(numbers) < 2 and (last := TO_ROW.search(rest)) is not None:
        first, end = (numbers[0] if numbers else after + 1), row_reached(last)
        span = (first, end) if end >= first > 1 else span
        stated = tuple(each for each in stated if [figure.number for figure in each] != [end])
    if times is None and span is None and length is None and len(stripes) > 1:
        times = len(stripes)
    alternate = header.every if header else None
    spread = re.search(r"\bfor\s+(?:all|every)\s+(even|odd|alternate|other)", rest, re.IGNORECASE)
    if spread:
        alternate = spread[1].lower()
    return Rerun(
        span,
        names,
        piece.place,
        kind,
        times=times,
        stated=stated,
        length_cm=length_of(length) if length else None,
        ending_side=side[1].upper()[:1] + "S" if side else None,
        part=part,
        alternate=alternate,
        text=text,
        tail=_tail_acts(rest, piece.place),
        instead=_instead(body, facts),
        stripes=stripes,
    )


def _rows_named(found: re.Match[str]) -> tuple[str, str]:
    """Return the rows that are repeated and the words after them: "Rows 2-3 to Row 41" ends there."""
    named, rest = found["numbers"] or "", found.string[found.end() :]
    to_row = re.fullmatch(
        r"(\d+\s*(?:-|–|and|&)\s*\d+)(\s*(?:to|through)\s+(?:rows?|rnds?|rounds?)\s*\d+)",
        named,
        re.IGNORECASE,
    )
    return (to_row[1], to_row[2] + rest) if to_row else (named, rest)


_THEN = re.compile(
    r"[,;.]?\s*\b(?:then|and\s+then|and\s+(?:rep|repeat|work))\s+(?:rep(?:eat)?\s+|work\s+)?(?:rows?|rnds?|rounds?)\s*(?P<rows>\d+(?:\s*(?:-|–|to|and|&)\s*\d+)?)\b(?:\s+(?:(?P<times>\d+|[a-z]+)\s+(?:more\s+)?times?|once|again|more))*",
    re.IGNORECASE,
)


def then_again(entry: Rerun, rest: str) -> list[Rerun]:
    """Return the rows of "4 more times, then Row 2 once", where no row numbers cover them already."""
    found = _THEN.search(rest)
    if found is None or entry.numbers is not None:
        return []
    source = tuple(str(number) for number in numbers_in(found["rows"]))
    times = number_of(found["times"]) if found["times"] else None
    return [replace(entry, source=source, times=times, length_cm=None, tail=(), instead=())]


def _period(names: Sequence[str]) -> int:
    """Return how many rows are worked again each time."""
    last = re.fullmatch(r"last (\d+)", names[0])
    return int(last[1]) if last else len(names)


def _instead(tokens: Sequence[Token], facts: Facts) -> tuple[Make | Skip, ...]:
    """Return what "but 2 sc in last st", "ending with sc in last 2 sts" changes at an edge."""
    at = next((i for i, token in enumerate(tokens) if token.is_(*_OTHERWISE)), None)
    if at is None:
        return ()
    words = [token for token in tokens[at + 1 :] if not token.is_("with", "on", "after", "a")]
    if words and words[0].is_("row", "rnd"):
        return ()  # "ending with a Row 4" tells which row is the last, not how it is worked
    read = RowReader(words, specials=facts.specials).read()
    return tuple(
        item
        for item in read
        if isinstance(item, Make | Skip)
        and item.target is not None
        and item.target.which in (Which.FIRST, Which.LAST, Which.NEXT)
    )


_OTHERWISE = ("but", "except", "ending", "working", "beg")


def _said_of_last(words: str) -> int:
    """Return how many rows "the last row", "both rows" are."""
    return 2 if re.search(r"\bboth\b", words, re.IGNORECASE) else 1


def _tail_acts(rest: str, place: Place) -> tuple[Instruction, ...]:
    out: list[Instruction] = []
    facing = re.search(r"\b(RS|WS)\s+is\s+facing|with\s+(RS|WS)\s+facing", rest, re.IGNORECASE)
    if facing:
        out.append(Act("facing", place, (facing[1] or facing[2]).upper()))
    return tuple(out)


def row_reached(found: re.Match[str]) -> int:
    """Return the last row of "to Row 41", "until 31 rows have been worked"."""
    return int(found["row"] or found["rows"] or found["done"])


def numbers_in(text: str) -> list[int]:
    """Return the rows of "2-5", "2 and 3", "3, 4 and 5"."""
    out: list[int] = []
    for found in re.finditer(
        r"(\d+)(?:\s*(?:-|–|to|through)\s*(?:[a-z]+\s*)?(\d+))?", text, re.IGNORECASE
    ):
        first = int(found[1])
        last = int(found[2]) if found[2] else first
        out += (
            range(first, min(last, first + 5000) + 1)
            if last >= first
            else range(first, last - 1, -1)
        )
    return out


def _times_in(rest: str) -> tuple[int | None, bool]:
    rest = re.split(r"[.:;(]", rest, maxsplit=1)[0]
    for found in _TIMES.finditer(rest):
        text = found.group().lower()
        if (
            "time" not in text
            and "x" not in text
            and found["number"].lower() not in ("once", "twice")
            and not found["more"]
        ):
            continue
        number = number_of(found["number"])
        if number:
            return number, bool(found["more"] or "more" in text)
    return None, False


def length_of(found: re.Match[str]) -> Fraction:
    """Return the length in centimetres, exactly."""
    value = Fraction(found["whole"]) + FRACTIONS.get(found["part"] or "", Fraction(0))
    unit = found["unit"].lower()
    if unit == "cm":
        return value
    if unit == "mm":
        return value / 10
    return value * Fraction(254, 100)


def even_rows(piece: Piece, facts: Facts) -> Rerun:
    """Return the entry for "work 8 rows even" or "work even until piece measures 12 cm"."""
    text = piece.text
    if length := even_length(text):
        side = ENDING_SIDE.search(text)
        named = re.search(r"\bin\s+(sc|dc|hdc|tr|htr)\b", text, re.IGNORECASE)
        known = facts.vocabulary.names.get(named[1].lower(), ("", "")) if named else ("", "")
        return Rerun(
            None,
            ("even", known[1]) if known[1] else ("even",),
            piece.place,
            "round" if re.search(r"\b(?:rnds?|rounds?)\b", text, re.IGNORECASE) else "row",
            length_cm=length_of(length),
            ending_side=side[1].upper()[:1] + "S" if side else None,
            text=text,
        )
    found = EVEN.match(text)
    assert found is not None  # noqa: S101
    kind = "row" if found["word"].lower().startswith("row") else "round"
    source: tuple[str, ...] = ("last 1",) if found["same"] else ("even",)
    if told := found["first"] or found["last"]:
        source = ("even", facts.vocabulary.names.get(told.lower(), ("", told.lower()))[1])
    times = number_of(found["number"]) or 1
    return Rerun(None, source, piece.place, kind, times=times, text=text)


def even_length(text: str) -> re.Match[str] | None:
    """Return the length of "work even until piece measures 12 cm"."""
    if not re.match(
        r"\W*(?:(?:now|then)\s+)?(?:work|continue|cont|crochet)\s+(?:on\s+)?(?:even(?:ly)?|straight|plain|in\s+(?:sc|dc|hdc|tr|htr)\s+until)\b",
        text,
        re.IGNORECASE,
    ):
        return None
    return UNTIL.search(text)
