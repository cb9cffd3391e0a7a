"""Pattern text as tokens: numbers, ordinals, words and signs, each with its place."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from coach.craft.problem import Place
from coach.notation.cleaning import CleanLine

_TOKEN = re.compile(
    r"(?P<tog>(?:[a-z]+)?\d+tog\b)"
    r"|(?P<mixed>(?<![A-Za-z0-9])(?-i:\d[\dOolI]*[OolI]\d*|[OlI]\d+)(?![A-Za-z0-9]))"
    r"|(?P<ord>\d+(?:st|nd|rd|th)\b)"
    r"|(?P<num>\d+(?:\.\d+)?)"
    r"|(?P<word>[^\W\d_]+(?:'[^\W\d_]+)*)"
    r"|(?P<sign>\*+|†+|\.\.\.|[^\w\s])",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Token:
    """One token. kind: num, ord, word, tog, sign, or stitch once it is understood.

    text is in small letters; raw as written. glued: no space before it. line_end: the last
    of its line. For a stitch, text is the US abbreviation, and form what it is.
    """

    kind: str
    text: str
    raw: str
    place: Place
    value: int = 0
    glued: bool = False
    line_end: bool = False
    form: str = ""

    def is_(self, *texts: str) -> bool:
        """Tell whether the token is one of these words or signs."""
        return self.text in texts and self.kind in ("word", "sign")


def tokens_of(lines: Sequence[tuple[CleanLine, int, int]]) -> list[Token]:
    """Return the tokens of stretches of lines, each (line, from, to); hyphenated ends are joined."""
    out: list[Token] = []
    for line, start, end in lines:
        first = len(out)
        previous = start
        for found in _TOKEN.finditer(line.text, start, end):
            out.append(_token(found, line, found.start() == previous and found.start() > start))
            previous = found.end()
        if len(out) > first:
            out[-1] = replace(out[-1], line_end=True)
    return _without_abbreviation_stops(_mended(out))


def _token(found: re.Match[str], line: CleanLine, glued: bool) -> Token:
    raw = found.group()
    kind = found.lastgroup or "sign"
    place = Place(line.number, line.column(found.start()), len(raw))
    text = raw.lower()
    value = 0
    if kind == "mixed":
        kind = "num"
        text = re.sub(r"[oO]", "0", re.sub(r"[lI]", "1", raw))
        value = int(text)
    elif kind == "num":
        value = int(float(text)) if len(text) < 12 else 10**12
    elif kind == "ord":
        value = int(re.sub(r"\D", "", text)[:9])
    elif kind == "sign" and text == "×":
        kind, text = "word", "x"
    return Token(kind, text, raw, place, value, glued)


ABBREVIATED = frozenset(
    [
        "ch",
        "tr",
        "dc",
        "sc",
        "hdc",
        "htr",
        "dtr",
        "st",
        "sts",
        "sp",
        "sps",
        "rep",
        "sk",
        "rnd",
        "beg",
        "inc",
        "dec",
        "tog",
        "ss",
        "sl",
        "lp",
        "lps",
        "foll",
        "rem",
        "cl",
        "d",
        "s",
        "h",
        "t",
        "c",
        "yo",
        "blo",
        "flo",
        "rd",
        "patt",
        "alt",
        "cont",
        "fpdc",
        "bpdc",
        "ea",
        "nxt",
        "incl",
        "approx",
    ]
)


def _without_abbreviation_stops(tokens: list[Token]) -> list[Token]:
    """Drop the full stops of old abbreviations: "3 ch., miss 1 tr., 1 d.c. into next"."""
    out: list[Token] = []
    for index, token in enumerate(tokens):
        after = tokens[index + 1] if index + 1 < len(tokens) else None
        if (
            token.text == "."
            and token.glued
            and out
            and out[-1].text in ABBREVIATED
            and after is not None
            and (
                (after.kind == "sign" and after.text in ",;:)].")
                or (after.kind == "word" and after.raw[:1].islower())
                or (after.glued and after.kind == "word")
            )
        ):
            continue
        out.append(
            replace(token, glued=False)
            if token.kind == "word" and out and token.glued and out[-1].kind == "word"
            else token
        )
    return out


def _mended(tokens: list[Token]) -> list[Token]:
    """Join a word that was hyphenated at a line's end: "turn-" / "ing"."""
    out: list[Token] = []
    index = 0
    while index < len(tokens):
        token = tokens[index]
        if (
            token.text == "-"
            and token.line_end
            and token.glued
            and out
            and out[-1].kind == "word"
            and index + 1 < len(tokens)
            and tokens[index + 1].kind == "word"
            and tokens[index + 1].raw[:1].islower()
        ):
            after = tokens[index + 1]
            whole = out[-1].text + after.text
            out[-1] = replace(
                out[-1], text=whole, raw=out[-1].raw + after.raw, line_end=after.line_end
            )
            index += 2
            continue
        out.append(token)
        index += 1
    return out
