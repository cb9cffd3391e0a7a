"""A part worked again under another name: its rows stand there as they stood before.

"Work Rows 1-5 of first earflap": the words, and the place that they are begun on, are the first
part's; the sums are proved once more, and nothing is told twice.
"""

from __future__ import annotations

from dataclasses import replace

from coach.craft.pattern import PartAgain
from coach.craft.problem import Problem, Verdict
from coach.craft.row_walk import work_row
from coach.craft.walk import Walk, WorkedRow
from coach.craft.working import Action, Block, Work


def part_again(walk: Walk, entry: PartAgain) -> None:
    """Work the rows of *entry*'s source again."""
    meant = _rows_of(walk, entry)
    if not meant:
        walk.problems.append(
            Problem(
                Verdict.NO_SUCH_PLACE,
                entry.place,
                f"It is worked as {entry.source}, but that part has no such rows.",
                "Name rows that were written before, or write these out.",
            )
        )
        return
    if entry.part is not None and entry.part != walk.shown_part:
        walk.shown_part, walk.lines, walk.last_number = entry.part, {}, 0
    if walk.begins_part or meant[0].number == 1:
        walk.below, walk.begins_part = replace(meant[0].ground), True
    for index, row in enumerate(meant):
        if row.begun is not None:
            walk.begun = row.begun
        work_row(
            walk,
            row.line,
            row.label,
            row.number,
            row.stated,
            worked_as=row.shown,
            at=entry.place,
            text=f"{entry.lead} {row.line.text}".strip() if index == 0 else row.line.text,
        )
        if index == 0 and entry.lead:
            first = walk.rows[-1]
            walk.rows[-1] = replace(first, work=_begun_as_said(first.work, entry.lead))


def _rows_of(walk: Walk, entry: PartAgain) -> list[WorkedRow]:
    rows = [row for row in walk.worked if row.part == entry.source]
    if entry.rows is None:
        return rows
    first, last = entry.rows
    return [row for row in rows if row.number is not None and first <= row.number <= last]


def _begun_as_said(work: tuple[Work, ...], lead: str) -> tuple[Work, ...]:
    """Return *work* begun where *lead* says, and no more where the first part was begun."""
    told = lead.lower()
    skips = any(word in told for word in ("skip", "sk ", "miss"))
    rest = list(work)
    kept: list[Work] = []
    while rest and (isinstance(rest[0], Action) or _passes_over(rest[0])):
        item = rest.pop(0)
        joins = isinstance(item, Action) and item.kind == "join yarn" and "join" in told
        if not joins and not (skips and _passes_over(item)):
            kept.append(item)
    return (Action("remark", lead), *kept, *rest)


def _passes_over(item: Work) -> bool:
    return isinstance(item, Block) and item.stitch == "sk"
