"""Rows told by other rows: "Rows 6-45: Rep Rows 2-5", "work 8 rows even".

Which rows are meant is read here; working them again is the proof's.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from coach.craft.instruction import Act, Instruction, Make, Skip, Which
from coach.craft.pattern import Rerun
from coach.craft.problem import Place
from coach.notation.color_rows import stripes_of_repeat
from coach.notation.counts import parted
from coach.notation.facts import Facts
from coach.notation.how_many_rows import extent_of, without_extent
from coach.notation.number_words import FRACTIONS, in_figures, number_of
from coach.notation.piece import Piece
from coach.notation.row_grammar import RowReader
from coach.notation.tokens import Token, tokens_of
from coach.notation.words import understood

_HOW_OFTEN = r"\d+\s*(?:more|additional|extra|further|times?|x)\b"
# "Rep Row 3 – 19 dc": after the dash stands a count, and no row
_COUNTED = r"\d+\s*(?:sts?|stitches|sc|hdc|dc|htr|tr|sps?|spaces|ch)\b"
_SPAN = (
    r"(?:(?:rows?|rnds?|rounds?|r)\s*)?\d+"
    rf"(?:\s*(?:-|–|to|through|thru)\s*(?:(?:rows?|rnds?|rounds?|r)\s*)?(?!{_HOW_OFTEN})(?!{_COUNTED})\d+)?"
)
RERUN = re.compile(
    r"^\W*(?:(?:with|using|in)\s+[\w ]{1,20}[,:]\s*)?(?:(?:now|then|so|just|simply|keep|is|are|you|we|exactly|the\s+same(?:\s+thing)?(?:\s+over)?\s+again|(?:the\s+)?exact|work|cont(?:inue)?(?: to| on)?|carry\s+on)[\s,]+)*(?P<verb>rep(?:eat(?:ing)?)?s?|alternat(?:e|ing)(?:\s+between)?|work(?:ed)?(?:\s+(?:as(?:\s+for)?|same as))?|as(?:\s+for)?|(?:the\s+)?same\s+as|(?:just\s+)?like|work\s+rows?)\s+"
    rf"(?:(?:the\s+)?(?P<word>rows?|rnds?|rounds?|r)\.?\s*(?P<numbers>{_SPAN}(?:\s*(?:and|&|,(?!\s*{_HOW_OFTEN}))\s*{_SPAN})*)(?P<on>\s+to\s+last\b)?"
    r"|(?:(?:the\s+)?(?:last|previous)|these|those|this|both)\s+(?:(?P<last>\d+|two|three|four|five|six|seven|eight|nine|ten)\s+)?(?P<word2>rows?|rnds?|rounds?))",
    re.IGNORECASE,
)
UNTIL = re.compile(
    r"(?:(?:until|till|for|to)\b[^.]{0,120}?\b(?:measures?|measuring|reach(?:es)?|is)\b[^.\d]{0,60}|\bfor\s+(?:about\s+|another\s+)?(?=[\d.]+\s*(?:\"|cm\b|mm\b|inch)))(?P<whole>\d+(?:\.\d+)?)\s*(?P<part>[¼½¾⅓⅔⅛])?\s*(?P<unit>\"|''|in\b|inch(?:es)?\b|cm\b|mm\b)",
    re.IGNORECASE,
)
ENDING_SIDE = re.compile(
    r"ending\s+(?:with|on|after)\s+(?:a\s+)?(RS|WS|right[- ]side|wrong[- ]side)", re.IGNORECASE
)


_REWORDED = tuple(
    (re.compile(pattern, re.IGNORECASE), words)
    for pattern, words in (
        (r"^\W*(?:continue|cont|carry\s+on|work|keep)\b[^.*(]{0,40}?\brep(?:eat)?ing\s+(?=(?:the\s+)?(?:last\s|previous\s|rows?\s*\d|rnds?\s*\d|rounds?\s*\d))", "repeat "),
        (r"^(\W*(?:the\s+)?(?:(?:last|these)\b[^.,;]{0,12}?)?\b(?:rows?|rnds?|rounds?)\b[\d\s,&–-]*(?:and\s+\d+\s+)?)(?:is|are)\s+(?:then\s+)?repeated\b", r"repeat \1"),
        (r"^(\W*rep(?:eat)?(?:ing)?)\s+from\s+(?:the\s+)?(row|rnd|round)\s*(\d+)\s*(?:to|through|-|–|until)\s*(?:the\s+)?(?:end\s+of\s+)?(?:row|rnd|round)\s*(\d+)", r"\1 \2s \3-\4"),
    )
)  # fmt: skip


def repeats_rows(text: str) -> re.Match[str] | None:
    """Return the match of words that repeat whole rows, their numbers in figures; None for others."""
    text = in_figures(text)
    for pattern, words in _REWORDED:
        text = pattern.sub(words, text)
    return RERUN.match(text)


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
    rest = found.string[found.end() :]
    numbers = header.numbers if header else ()
    word = (found["word"] or found["word2"] or "row").lower()
    kind = header.kind if header else ("row" if word.startswith(("row", "r ")) else "round")
    if found["numbers"]:
        source = numbers_in(found["numbers"])
        if found["on"] and after > source[-1]:
            source += range(source[-1] + 1, after + 1)
        names = tuple(str(number) for number in source)
    else:
        names = (f"last {number_of(found['last']) or _said_of_last(found.group())}",)
    length = UNTIL.search(rest)
    extent = extent_of(rest)
    times = extent.times if extent else None
    if numbers and found["numbers"] and times and (then := _THEN.search(rest)):
        names, times = _one_after_another(names, times, then), None
    stripes = stripes_of_repeat(found.string, rest, _period(names))
    side = ENDING_SIDE.search(rest)
    tokens = understood(tokens_of(piece.spans), facts.vocabulary)
    body, stated = parted(without_extent(tokens))
    span: tuple[int, int] | None = None
    if numbers:
        span = (numbers[0], numbers[-1])
    if length is None and len(numbers) < 2 and extent and extent.times is None:
        first = numbers[0] if numbers else after + 1
        last = extent.last_after(first - 1, 1)
        span = (first, last) if last is not None and last >= first > 1 else span
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


def _one_after_another(
    names: tuple[str, ...], times: int | None, then: re.Match[str]
) -> tuple[str, ...]:
    """Return each row of "Rows 2 and 3 four times, then Row 2 once" by its number."""
    again = tuple(str(number) for number in numbers_in(then["rows"]))
    more = number_of(then["times"]) or 1
    return names * min(times or 1, 5000) + again * min(more, 5000)


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


def length_of(found: re.Match[str]) -> Fraction:
    """Return the length in centimetres, exactly."""
    value = Fraction(found["whole"]) + FRACTIONS.get(found["part"] or "", Fraction(0))
    unit = found["unit"].lower()
    if unit == "cm":
        return value
    if unit == "mm":
        return value / 10
    return value * Fraction(254, 100)
