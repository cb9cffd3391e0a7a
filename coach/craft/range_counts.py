"""One count of rows that share their words: each row's own, or what the last of them comes to.

"Rows 3-7: Ch 1, sc in each st across. (20)" counts each row; "Rows 3-7: Ch 1, sc2tog, sc to last
2 sts, sc2tog. (10)" only the last, since no two of them have the same count (common practice, no
source).
"""

from __future__ import annotations

from coach.craft.pattern import Line, Rerun, Stated
from coach.craft.problem import Verdict
from coach.craft.row_attempts import attempt
from coach.craft.row_walk import work_row
from coach.craft.stated_counts import total_of
from coach.craft.walk import Walk, label_of, tried_on

_LOOKED_AHEAD = 400  # rows; a piece that shapes in every row has fewer


def stated_of(walk: Walk, line: Line) -> tuple[Stated, ...]:
    """Return what is stated of *line* itself, and remember where its count is the last row's."""
    if not line.stated:
        return ()
    if line.until is not None and len(line.stated) == 1 and _is_of_the_last(walk, line):
        walk.end_counts.add(line.place)
        return ()
    return line.stated[0]


def _is_of_the_last(walk: Walk, line: Line) -> bool:
    """Tell whether the rows shape the piece, and their last comes nearer to the count than the first."""
    tried = attempt(walk, line, line.stated[0])
    total = total_of(line.stated[0])
    fits = tried.result.fault is None and not line.problems and not tried.result.from_nothing
    if not fits or total is None or tried.result.used == tried.count.made:
        return False
    last = _last_made(walk, line)
    return last is not None and abs(last - total) <= abs(tried.count.made - total)


def _last_made(walk: Walk, line: Line) -> int | None:
    """Return what the last of the rows makes; None where one of them does not fit."""
    ahead = tried_on(walk)
    for index in range(min(line.alike, _LOOKED_AHEAD)):
        number = None if line.number is None else line.number + index
        own = line.stated[0] if index == line.alike - 1 else ()
        work_row(ahead, line, label_of(line.kind, number), number, own)
        if any(problem.code is not Verdict.COUNT_MISMATCH for problem in ahead.problems):
            return None
    return ahead.rows[-1].made


def not_its_own(walk: Walk, entry: Rerun, line: Line) -> bool:
    """Tell whether a row of "Rows 2, 4 and 6" has no count, since theirs is the last one's."""
    return (
        entry.listed
        and line.place in walk.end_counts
        and entry.numbers is not None
        and line.until is not None
        and entry.numbers[1] < line.until
    )
