"""A maker's own list of colours, where the pattern's words leave the colours open.

"In next colour", "see photo": the words count the rows and say nothing of the yarn. The maker's
list is taken in order, one colour further at each line of the pattern that changes colour. It
invents no colour: past the end of the list it says nothing.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from coach.craft.proof import ProvedRow
from coach.craft.stage import blocks

_NEXT = re.compile(
    r"\b(?:next|new|another|different|contrasting|second|third|following)\s+colou?r"
    r"|\bchang(?:e|ing)\s+colou?rs?\b|\bjoin\s+(?:a\s+)?new\s+colou?r",
    re.IGNORECASE,
)
_SHOWN = re.compile(
    r"colou?rs?\b[^.]{0,30}\b(?:see|as|in|on)\b[^.]{0,20}\b(?:photo|picture|image|shown|chart)",
    re.IGNORECASE,
)


def colors_left_open(rows: Sequence[ProvedRow], other_words: Sequence[str] = ()) -> bool:
    """Return whether the pattern changes colour without saying to which."""
    told = any(block.color for row in rows for block in blocks(row.work))
    if told:
        return False
    shown = any(_SHOWN.search(words) for words in other_words)
    return shown or any(_changes(row) for row in rows)


def own_color(rows: Sequence[ProvedRow], at: int, colors: Sequence[str]) -> str | None:
    """Return the colour of the maker's list that is brought in at row *at*, or None.

    The first of the list is the one to begin with.
    """
    if not colors or not 0 <= at < len(rows):
        return None
    if at == 0:
        return colors[0]
    if not _begins_change(rows, at):
        return None
    which = sum(1 for each in range(1, at + 1) if _begins_change(rows, each))
    return colors[which] if which < len(colors) else None


def _begins_change(rows: Sequence[ProvedRow], at: int) -> bool:
    """Whether row *at* is the first one of a line that changes colour."""
    return _changes(rows[at]) and (at == 0 or rows[at - 1].line != rows[at].line)


def _changes(row: ProvedRow) -> bool:
    return _NEXT.search(row.text) is not None
