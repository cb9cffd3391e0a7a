"""The words before a row's header, or of a line without one: which kind each sentence is.

A foundation, rows told by other rows, talk that ends in a chain, or other text.
"""

from __future__ import annotations

import itertools
import re

from coach.notation.cleaning import CleanLine
from coach.notation.even_rows import is_even
from coach.notation.growing import GROWS
from coach.notation.header import Header
from coach.notation.number_words import number_of
from coach.notation.open_foundation import open_foundation
from coach.notation.pattern_rows import CONTINUES, FORMS, GOES_ON
from coach.notation.piece import Piece
from coach.notation.row_repeats import repeats_rows

FOUNDATION = re.compile(
    r"^\W*(?:(?:foundation|base|starting)(?:\s+(?:chain|ch))?\s*[:–-]\s*)?"
    r"(?:(?:with|using)\s+[^,:]{1,45}?(?:[,:]\s*|\s+(?=make|ch|chain|\d+\s?ch))|[A-Za-z][\w' ]{1,40},\s*|(?:to\s+(?:start|begin)|begin(?:ning)?|start(?:ing)?|set[- ]?up|worked)[^:,.]{0,40}:\s*)?"
    r"(?:(?:make|begin|start|commence|work|loosely|to\s+begin)\s+(?:with\s+)?(?:a\s+)?(?:foundation\s+)?)?"
    r"(?:(?:chain|ch)(?![a-z])\s*-?\s*(?:of\s+)?(?P<after>\d+|[a-z]+(?:-[a-z]+)?)\b|(?P<before>\d+)\s*(?:chain|ch)s?\b)",
    re.IGNORECASE,
)
NOT_FOUNDATION = re.compile(
    r"\bcounts?\b|at (?:the )?(?:start|beginning|beg)\b|\bbegins?\b|=|\bsp\b|\bspaces?\b",
    re.IGNORECASE,
)


def pieces_before(line: CleanLine, begin: int, end: int) -> list[Piece]:
    """Cut the words before a header, or a line without one, into its sentences' kinds."""
    text = line.text[begin:end]
    kind = lead_kind(text)
    if kind == "start" and (at := _row_on_the_chain(text)):
        return [Piece(kind, [(line, begin, begin + at)]), first_row(line, begin + at, end)]
    if kind in ("rerun", "even"):
        return _sentences_of_rows(line, kind, begin, end)
    if kind in ("start", "grow"):
        return [Piece(kind, [(line, begin, end)])]
    out: list[Piece] = []
    cuts = [begin, *(begin + found.end() for found in _SENTENCE.finditer(text)), end]
    for start, stop in itertools.pairwise(cuts):
        kind = _sentence_kind(line.text[start:stop], alone=start == begin)
        if kind == "text" and out and out[-1].kind != "text":
            kind = _rows_told(line.text[start:stop], out[-1].kind) or kind
        if kind == "talk":
            talked = _TALKED_START.match(line.text, start, stop)
            at = talked.start("chain") if talked else start
            out += [Piece("text", [(line, start, at)]), Piece("start", [(line, at, stop)])]
            continue
        if kind == "text" and out:
            last_line, last_start, _ = out[-1].spans[0]
            out[-1].spans[0] = (last_line, last_start, stop)
        else:
            out.append(Piece(kind, [(line, start, stop)]))
    return out


def _sentences_of_rows(line: CleanLine, kind: str, begin: int, end: int) -> list[Piece]:
    """Part "Rep Rows 2 and 3 six times. Rep Row 2 once." where another sentence tells rows."""
    out = [Piece(kind, [(line, begin, end)])]
    for found in _SENTENCE.finditer(line.text, begin, end):
        told = _rows_told(line.text[found.end() : end], kind)
        if told:
            last_line, last_begin, _ = out[-1].spans[0]
            out[-1].spans[0] = (last_line, last_begin, found.end())
            out.append(Piece(told, [(line, found.end(), end)]))
    return out


def _rows_told(sentence: str, before: str) -> str | None:
    """Return the kind of a sentence that tells rows after one of the kind *before*; None for none."""
    if before == "pattern" and GOES_ON.match(sentence):
        return "continue"
    if repeats_further(sentence):
        return "rerun"
    return "even" if is_even(sentence) else None


def repeats_further(text: str) -> bool:
    """Tell whether a sentence after others repeats whole rows: "Repeat Row 2 ten times"."""
    return repeats_rows(text) is not None and bool(
        re.match(
            r"[^.]*\b(?:times?|once|twice|thrice|until|till|more|total|for\s+(?:the\s+next\s+)?\d+\s+r)\b",
            text,
            re.IGNORECASE,
        )
    )


ON_THE_CHAIN = re.compile(
    r"\s*(?:[Ww]ork\s+)?(?:1|one)?\s*(?:sc|hdc|dc|htr|tr|(?:half\s+)?(?:single|double|treble)(?:\s+crochet)?)\s+in(?:to)?\s+(?:the\s+)?(?:\d|second|third|fourth)[^.]*?"
    r"\b(?:hook|chain|ch)\b[^.]*\b(?:across|each|every|to\s+end|along)\b",
    re.IGNORECASE,
)


def _row_on_the_chain(text: str) -> int:
    """Return where the first row begins in "Ch 26. Sc in 2nd ch from hook and in each ch across"."""
    found = FOUNDATION.match(text)
    after = re.compile(
        r"\s*(?:sts?|stitches|chains?|loosely)?\s*[.,;]\s*(?:turn\s*[.,;]\s*)?", re.I
    )
    between = after.match(text, found.end()) if found else None
    return between.end() if between and ON_THE_CHAIN.match(text, between.end()) else 0


def first_row(line: CleanLine, begin: int, end: int) -> Piece:
    """A first row that has no name of its own."""
    return Piece("row", [(line, begin, end)], header=Header(0, 0, "row", (1,), unnamed=True))


_SENTENCE = re.compile(r"(?<=[.;!])\s+(?=[A-Z])")


def _sentence_kind(sentence: str, *, alone: bool) -> str:
    if FORMS.match(sentence):
        return "pattern"
    if CONTINUES.match(sentence) and not repeats_rows(sentence):
        return "continue"
    if _TALKED_START.match(sentence):
        return "talk"
    if alone:
        return "text"
    found = FOUNDATION.match(sentence)
    if (
        found
        and lead_kind(sentence) == "start"
        and re.fullmatch(rf"{_AFTER_CHAINS}|{_THEN_JOINED}", sentence[found.end() :], re.IGNORECASE)
    ):
        return "start"
    return "text"


_TALKED_START = re.compile(
    r"(?:[^.:]*\b(?:slip\s?knot|go\s+ahead|start(?:s|ing)?|begin(?:s|ning)?|you'll|we'll|let's|you're|we're|want|need)\b)"
    r"(?![^.]*\b(?:single|double|half|treble|crochet|sc|dc|row|round|multiple|counts?)\b)"
    r"[^.:]*?\b(?P<chain>(?:chain|ch)\s+(?:\d+|[a-z]+(?:-[a-z]+)?)\b)(?!\s*(?:sp|space|st))",
    re.IGNORECASE,
)
_THEN_JOINED = (
    r"\s*(?:sts?|stitches|chains?|loosely)?\s*[,;]?\s*(?:and\s+)?(?:join|sl\s*st|ss)\b[^.:]*\.?\s*"
)
_AFTER_CHAINS = (
    r"(?:\s*(?:sts?|stitches|chains?|ch|loosely|and\s+turn|turn|for\s+\w+|in\s+\w+))*\s*[.,;]?\s*"
)


def _is_foundation(text: str, found: re.Match[str]) -> bool:
    """Tell a foundation from a note on a beginning chain: "ch 3 counts as a dc" is none."""
    number = number_of(found["after"] or found["before"])
    if number is None:
        return False
    name = "after" if found["after"] else "before"
    if number < _LONGER_THAN_A_TURNING_CHAIN and _NAMES_A_STITCH.search(text[: found.start(name)]):
        return False  # "Beginning shell (beg shell): ch 3, ..."
    told = text[found.start(name) : found.end() + 60].split("multiple", maxsplit=1)[0]
    told = _SENTENCE.split(told, maxsplit=1)[0]
    if number >= _LONGER_THAN_A_TURNING_CHAIN:
        told = re.sub(r"\bcounts?\b", "", told, flags=re.IGNORECASE)
    return not NOT_FOUNDATION.search(told)


_LONGER_THAN_A_TURNING_CHAIN = 9
_NAMES_A_STITCH = re.compile(
    r"[()]|\b(?:shell|cluster|cl|v-?st|st(?:itch)?|puff|popcorn|bobble|picot|fan|mesh)\b",
    re.IGNORECASE,
)


def lead_kind(text: str) -> str | None:
    """Return what kind of piece *text* begins; None for other text."""
    found = FOUNDATION.match(text)
    if (found and _is_foundation(text, found)) or open_foundation(text) is not None:
        return "start"
    if FORMS.match(text):
        return None
    if repeats_rows(text) and not re.match(
        r"^\W*(?:work|as|like)\s+rows?\s*\d+\s*[,;]", text, re.IGNORECASE
    ):
        return "rerun"
    if is_even(text):
        return "even"
    return "grow" if GROWS.match(text) else None
