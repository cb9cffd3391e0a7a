"""Rows without words of their own: "work 8 rows even", "work in sc for 6 more rows"."""

from __future__ import annotations

import re
from dataclasses import replace

from coach.craft.pattern import Rerun
from coach.notation.counts import parted
from coach.notation.facts import Facts
from coach.notation.how_many_rows import NUMBER, Extent, extent_of, without_extent
from coach.notation.number_words import in_figures, number_of
from coach.notation.piece import Piece
from coach.notation.row_repeats import ENDING_SIDE, UNTIL, length_of
from coach.notation.tokens import tokens_of
from coach.notation.words import understood

_STITCH = r"(?:[a-z0-9/]+\s+)?(?:sc|dc|hdc|tr|htr|dtr|crochet|trebles?)"
_ROWS = r"(?P<word>rows?|rnds?|rounds?)"
_THE_SAME = (
    r"(?:in\s+)?the\s+same(?:\s+(?:way|manner))?|in\s+this\s+(?:way|manner)|likewise"
    r"|(?:as|like)\s+(?:before|established|set|(?:the\s+)?last(?:\s+(?:one|row|rnd|round))?|th(?:is|at))(?!\s*\d)"
)
EVEN = re.compile(
    rf"^\W*(?:(?:now|then)\s+)?work\s+(?:even\s+(?:for\s+)?)?(?:another\s+|a\s+further\s+)?(?P<number>{NUMBER})\s+(?:more\s+|further\s+)?{_ROWS}\.?\s*(?:more\s+|further\s+)?"
    rf"(?P<how>even|straight|plain|(?P<same>{_THE_SAME})|(?:as|like)\s+(?:for\s+)?(?:row|rnd|round)\s+(?P<as>\d+)|(?:in|of)\s+(?P<stitch>{_STITCH})\b(?!\s+(?:a?round|along|on|over|up|down)\s+(?:the|each|all|both|one|every)\b))?",
    re.IGNORECASE,
)
GOING_ON = re.compile(
    r"^\W*(?:(?:now|then)\s+)?(?:work|continue|cont|carry\s+on|go\s+on|keep(?:\s+on)?|crochet)\s+(?:on\s+|to\s+)?(?:work(?:ing)?\s+)?"
    rf"(?P<how>(?:(?:even(?:ly)?|straight|plain)\s+)?in\s+(?P<stitch>{_STITCH})\b|even(?:ly)?|straight|plain|(?P<same>{_THE_SAME}))"
    r"(?=[\s,](?:[^.*(]*\s)?(?:for|until|till|to)\b)",
    re.IGNORECASE,
)

# How all of these begin; nearly every row does not, and is looked at no further.
_BEGINS = re.compile(r"\W*(?:(?:now|then)\s+)?(?:work|cont|carry|go|keep|crochet)", re.IGNORECASE)
PLAIN = re.compile(
    rf"^\W*(?:(?:now|then)\s+)?(?:work\s+|(?:continue|cont|keep\s+on)\s+(?:to\s+)?)?(?:1\s*)?(?P<stitch>{_STITCH})\s+"
    r"(?:in(?:to)?\s+(?:each|every|all)\s+(?:sts?|stitch(?:es)?|sc|dc|hdc|tr|htr)\s*,?\s*)?(?:a?round|across|to\s+end)?\s*,?\s+for\s+(?:the\s+next\s+)?(?=\S+\s+(?:more\s+)?r)",
    re.IGNORECASE,
)


def is_even(text: str) -> bool:
    """Tell whether *text* asks for rows without words of their own, and says how far they go."""
    if _BEGINS.match(text) is None and PLAIN.match(text) is None:
        return False
    text = in_figures(text)
    found = EVEN.match(text)
    if found and (found["how"] or re.match(r"\W*work\s+even", text, re.IGNORECASE)):
        return True
    return even_length(text) is not None or _going_on(text) is not None


def even_length(text: str) -> re.Match[str] | None:
    """Return the length of "work even until piece measures 12 cm"."""
    going_on = GOING_ON.match(text)
    if going_on is None or going_on["same"]:
        return None
    return UNTIL.search(text)


def _going_on(text: str) -> Extent | None:
    """Return how far "continue in this way until 9 rows have been worked" goes, if in rows."""
    found = GOING_ON.match(text)
    plain = PLAIN.match(text)
    rest = text[found.end() :] if found else f"for {text[plain.end() :]}" if plain else ""
    extent = extent_of(rest)
    return extent if extent and extent.times is None else None


def numbered_even_rows(piece: Piece, facts: Facts, after: int) -> Rerun | None:
    """Return the entry for "Rnd 4: Work 5 rounds even", which begins at its own number."""
    header = piece.header
    numbers = header.numbers if header else ()
    if header is None or not numbers or header.listed or not is_even(piece.text):
        return None
    entry = even_rows(piece, facts, after)
    if entry is None or entry.times is None:
        return entry
    last = numbers[-1] if len(numbers) > 1 else numbers[0] + entry.times - 1
    _, stated = parted(without_extent(understood(tokens_of(piece.spans), facts.vocabulary)))
    times = entry.times if len(numbers) > 1 else None
    return replace(
        entry,
        numbers=(numbers[0], last),
        kind=header.kind,
        times=times,
        stated=stated,
        part=piece.part,
    )


def even_rows(piece: Piece, facts: Facts, after: int) -> Rerun | None:
    """Return the entry for such rows, the last row so far being *after*; None for no row at all."""
    text = in_figures(piece.text)
    kind = "round" if re.search(r"\b(?:rnds?|rounds?)\b", text, re.IGNORECASE) else "row"
    if length := even_length(text):
        side = ENDING_SIDE.search(text)
        return Rerun(
            None,
            _even_source(piece, facts, GOING_ON.match(text)),
            piece.place,
            kind,
            length_cm=length_of(length),
            ending_side=side[1].upper()[:1] + "S" if side else None,
            text=piece.text,
        )
    found = EVEN.match(text)
    if found is not None:
        times, row = number_of(found["number"]), found["as"]
    else:
        found, row = GOING_ON.match(text) or PLAIN.match(text), None
        extent = _going_on(text)
        last = extent.last_after(after, 1) if extent else None
        times = last - after if last is not None else None
    if found is None or times is None or times < 1:
        return None
    source = (row,) if row else _even_source(piece, facts, found)
    return Rerun(None, source, piece.place, kind, times=times, text=piece.text)


def _even_source(piece: Piece, facts: Facts, found: re.Match[str] | None) -> tuple[str, ...]:
    """Return the source: the last row, or one in each, in the stitch named or that of the row below."""
    if found and found.groupdict().get("same"):
        return ("last 1",)
    if found and found["stitch"]:
        tokens = understood(tokens_of(piece.spans), facts.vocabulary)
        named = next((token.text for token in tokens if token.kind == "stitch"), None)
        return ("even", named) if named else ("even",)
    return ("even",)
