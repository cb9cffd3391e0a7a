"""Which lines tell the yarn by rows, and nothing else: cut out before rows are looked for.

"Rows 4-21 in A" looks like a row with its words, "Work Rows 1-8 in A" like rows to be worked
again; neither is one.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from coach.notation.clauses import COLOUR_WORDS
from coach.notation.cleaning import CleanLine
from coach.notation.color_rows import colors_told, one_stripe, stripe_heading
from coach.notation.piece import Piece

_TOLD = re.compile(
    r"\b(?:rows?|rnds?|rounds?|change|switch|join|with|using|cont\w*|use|in|r\d)\b", re.IGNORECASE
)
# A code, a shade or a name after "in": without one of these a line need not be looked at.
_NAMES_YARN = re.compile(
    rf"(?<![A-Za-z.])(?:MC|CC\d?|C?[A-HJ-Z])(?![\w'])|\b(?i:colou?rs?|{'|'.join(sorted(COLOUR_WORDS))})\b|\b(?i:in|with|using|use|to|of)\s+[A-Z][a-z]"
)
_LONGEST = 600  # characters of a sentence on colours
_WRAPPED = 3  # lines that one such sentence may run over


def without_color_lines(lines: Sequence[CleanLine]) -> Iterator[CleanLine | Piece]:
    """Yield the lines, and in the place of what tells colours by rows its pieces."""
    taken: set[int] = set()
    for index, line in enumerate(lines):
        if index in taken:
            continue
        if not _may_tell(line.text):
            yield line
            continue
        which = _list_of_stripes(lines, index)
        if not which and colors_told(line.text) is not None:
            which = [index]
        which = which or _wrapped(lines, index)
        taken.update(which)
        if which:
            yield Piece("colour", [(lines[each], 0, len(lines[each].text)) for each in which])
        else:
            yield from _sentences(line)


def _may_tell(text: str) -> bool:
    if len(text) > _LONGEST:
        return False
    named = _NAMES_YARN.search(text) is not None and _TOLD.search(text) is not None
    return named or stripe_heading(text)


def _list_of_stripes(lines: Sequence[CleanLine], index: int) -> list[int]:
    """Return the lines of a list with one stripe a line, its heading and its "repeat" too."""
    headed = stripe_heading(lines[index].text)
    which = [index]
    at = index + 1 if headed else index
    stripes = 0
    while at < len(lines) and (one_stripe(lines[at].text) or not lines[at].text.strip()):
        if lines[at].text.strip():
            stripes += 1
            which += [at] if at != index else []
        at += 1
    if stripes < (1 if headed else 2):
        return []
    if at < len(lines) and re.match(
        r"\W*rep(?:eat)?\b(?!.*\b(?:row|rnd|round)\s*\d)", lines[at].text, re.IGNORECASE
    ):
        which.append(at)
    return which if colors_told(" ".join(lines[each].text.strip() for each in which)) else []


def _wrapped(lines: Sequence[CleanLine], index: int) -> list[int]:
    """Return the lines of a sentence on colours that the page broke off."""
    for count in range(2, _WRAPPED + 1):
        which = list(range(index, index + count))
        if which[-1] >= len(lines) or not lines[which[-1]].text.strip():
            return []
        if re.search(r"[.!?:]\s*$", lines[which[-2]].text):
            return []
        if colors_told(" ".join(lines[each].text.strip() for each in which)):
            return which
    return []


# "Rep Rows 2 and 3 thirty times more: Rows 4-21 in A, Rows 22-42 in B" holds both
_CUT = re.compile(
    r"(?<=[.!])\s+(?=[A-Z])|(?<=[:;])\s+(?=(?i:rows?|rnds?|rounds?)\s+\d[\d\s–-]*(?:in|with)\s)"
)


def _sentences(line: CleanLine) -> Iterator[CleanLine | Piece]:
    """Cut out the sentences of a line that tell colours by rows; what remains keeps its columns."""
    cuts = [0, *(found.end() for found in _CUT.finditer(line.text))]
    spans = list(itertools.pairwise([*cuts, len(line.text)]))
    told = [_of_rows(line.text[start:stop]) for start, stop in spans]
    if not any(told):
        yield line
        return
    for is_told, group in itertools.groupby(
        zip(told, spans, strict=True), key=lambda each: each[0]
    ):
        parts = [span for _, span in group]
        start, stop = parts[0][0], parts[-1][1]
        if is_told:
            yield from (Piece("colour", [(line, *span)]) for span in parts)
        else:
            yield replace(line, text=" " * start + line.text[start:stop])


def _of_rows(sentence: str) -> bool:
    """Within a line, only a sentence that names rows or stripes is cut out."""
    told = colors_told(sentence)
    return told is not None and told.now is None
