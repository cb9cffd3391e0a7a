"""How far rows go on: "until 80 rows have been worked", "for 6 more rows", "19 times more".

Only the words are read here; which rows they are said of is read beside each.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from coach.notation.number_words import number_of
from coach.notation.tokens import Token

_TEN = "one|two|three|four|five|six|seven|eight|nine|ten"
NUMBER = (
    rf"(?:\d+|{_TEN}|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
    r"|(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:-[a-z]+)?)"
)
_UNIT = r"(?:rows?|rnds?|rounds?)\b"
_FURTHER = r"(?:more|further|additional|extra)"
_TO_ROW = re.compile(
    r"\b(?:until|till|to|through|thru|for|up\s+to(?:\s+and\s+including)?|including)\s+(?:the\s+)?"
    r"(?:end\s+of\s+|after\s+)?(?:row|rnd|round)(?:s\s*\d+\s*(?:-|–|to|through))?\s*(?P<rows>\d{1,5})\b",
    re.IGNORECASE,
)
_MORE_ROWS = re.compile(
    rf"\b(?:(?:another|(?:a\s+)?further|an\s+additional|(?:for\s+)?(?:the\s+)?next)\s+(?P<before>{NUMBER})\s+{_UNIT}"
    rf"|(?P<within>{NUMBER})\s+{_FURTHER}\s+(?:patt(?:ern)?\s+)?{_UNIT}"
    rf"|(?P<after>{NUMBER})\s+(?:patt(?:ern)?\s+)?{_UNIT}\s+{_FURTHER}\b)",
    re.IGNORECASE,
)
_TOTAL = re.compile(
    rf"\b(?:(?:until|till)\b[^.;]*?\b(?P<until>{NUMBER})\s+{_UNIT}"
    rf"|a?\s*total\s+of\s+(?P<of>{NUMBER})\s+{_UNIT}"
    rf"|(?P<all>{NUMBER})\s+{_UNIT}\s+(?:in\s+all|in\s+total|total|altogether)\b)",
    re.IGNORECASE,
)
_ROWS = re.compile(
    rf"(?:\b(?:for|work)\s+(?:the\s+)?|^\W*)(?P<rows>{NUMBER})\s+(?:patt(?:ern)?\s+)?{_UNIT}",
    re.IGNORECASE,
)
_TIMES = re.compile(
    rf"(?:\b(?P<number>{NUMBER})\s*(?:{_FURTHER}\s+)?(?:times?\b|x\b)"
    rf"|\b(?P<single>once|twice|thrice)\b"
    rf"|(?:\bx\s?|[×*]\s?)(?P<sign>\d+)\b"
    rf"|\b(?P<more>{NUMBER})\s+{_FURTHER}\b)",
    re.IGNORECASE,
)
# Rows counted from a marker, an armhole or the like begin where no one can tell from the words.
_FROM_ELSEWHERE = re.compile(
    r"\bfrom\s+(?!(?:the\s+)?(?:beg(?:inning)?|start|foundation)\b(?!\s+of\b))"
    r"|\b(?:remain|left|before|less|fewer|short)\b",
    re.IGNORECASE,
)
_LONGEST = 400  # signs of a sentence that are looked at: hostile text must not cost its square
_SAID_TWICE = re.compile(rf"\b(?P<word>{NUMBER})\s*\(\s*(?P<figure>\d+)\s*\)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Extent:
    """How far rows go on: to a row by its number, for more rows, or for more times; one of them."""

    to_row: int | None = None
    rows: int | None = None
    times: int | None = None

    def last_after(self, last: int, period: int) -> int | None:
        """Return the row they end at, *period* rows a time, after row *last*."""
        if self.to_row is not None:
            return self.to_row
        if self.rows is not None:
            return last + self.rows
        return last + self.times * period if self.times is not None else None


def extent_of(text: str) -> Extent | None:
    """Return how far the rows of *text* go on; None where it gives no number of rows or times."""
    text = _once(_SAID_TWICE.sub(_in_figures, text[:_LONGEST]))
    total = _TOTAL.search(text)
    more = _MORE_ROWS.search(text)
    if more:
        return Extent(rows=number_of(more["before"] or more["within"] or more["after"]))
    if total and not _FROM_ELSEWHERE.search(text, total.end()):
        return Extent(to_row=number_of(total["until"] or total["of"] or total["all"]))
    times = _TIMES.search(text)
    last = _TO_ROW.search(text)
    if last and not (times and times.start() < last.start()):
        return Extent(to_row=int(last["rows"]))
    if times:
        word = times["number"] or times["single"] or times["sign"] or times["more"]
        return Extent(times=3 if word.lower() == "thrice" else number_of(word))
    rows = _ROWS.search(text)
    return Extent(rows=number_of(rows["rows"])) if rows else None


def _in_figures(found: re.Match[str]) -> str:
    """Return "three (3)" as 3, where both say the same."""
    return found["figure"] if number_of(found["word"]) == int(found["figure"]) else found.group()


def _once(text: str) -> str:
    """Return the words up to the end of their sentence; a bracket only where it says how often."""
    sentence = re.split(r"[.:;]", text, maxsplit=1)[0]

    def inside(found: re.Match[str]) -> str:
        words = found[1].strip()
        return f" {words} " if _TIMES.fullmatch(words) or _MORE_ROWS.fullmatch(words) else " "

    return re.sub(r"[(\[]([^()\[\]]*)[)\]]?", inside, sentence)


def without_extent(tokens: Sequence[Token]) -> list[Token]:
    """Return *tokens* without the number of rows or times, so that it is taken for no count."""
    out: list[Token] = []
    index = 0
    while index < len(tokens):
        token = tokens[index]
        after = tokens[index + 1 : index + 4]
        if (
            token.is_("(")
            and len(after) > 1
            and after[0].kind == "num"
            and after[1].is_(")")
            and out
            and number_of(out[-1].text) == number_of(after[0].text)
        ):
            index += 3
            continue
        if (
            token.kind == "num"
            and after
            and after[0].is_("row", "rows", "rnd", "rnds", "round", "rounds")
        ):
            index += 2
            continue
        out.append(token)
        index += 1
    return out
