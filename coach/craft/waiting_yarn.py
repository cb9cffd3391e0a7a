"""What becomes of a yarn that is put down at a row's end: carried up to its next row, or cut.

A yarn waits where its last row ended. Worked to and fro it is met there again only after an even
number of rows; at the join of a round always. It is carried over a few rows and cut
otherwise (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from coach.craft.proof import ProvedRow
from coach.craft.row_colors import colors_of

MOST_ROWS_CARRIED = 4  # more would pull the edge in, or hang loose (common practice, no source)
_LOOKED_AHEAD = 100  # rows; a yarn that rests longer is as good as new
_SAYS = re.compile(r"\b(?:fasten|break|cut|carry|carried|drop)\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class WaitingYarn:
    """A yarn put down. again: the row that takes it up, or None; carried: as far as the trade would."""

    color: str
    again: str | None = None
    here: bool = False  # it is met at the edge where it was put down
    carried: bool = False


def waiting_yarn(rows: Sequence[ProvedRow], at: int) -> WaitingYarn | None:
    """Return the yarn that row *at* puts down for the next row's; None where the pattern tells of it."""
    if at + 1 >= len(rows) or _SAYS.search(rows[at].text) or _SAYS.search(rows[at + 1].text):
        return None
    mine, coming = colors_of(rows[at]), colors_of(rows[at + 1])
    if not mine or not coming or mine[-1] in coming:
        return None
    color = mine[-1]
    for index in range(at + 2, min(len(rows), at + 2 + _LOOKED_AHEAD)):
        row = rows[index]
        if row.part != rows[at].part:
            break
        if color in colors_of(row):
            between = index - 1 - at
            here = _met_again(rows[at + 1 : index + 1], between)
            carried = here and between <= MOST_ROWS_CARRIED
            return WaitingYarn(color, row.label, here, carried)
    return WaitingYarn(color)


def _met_again(rows: Sequence[ProvedRow], between: int) -> bool:
    """Whether the last of *rows* begins at the edge where the row before them ended."""
    if all(row.kind == "round" and not row.turned for row in rows):
        return True
    return all(row.turned for row in rows) and between % 2 == 0
