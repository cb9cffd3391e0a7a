"""A row's work as plain steps: what a maker is told, in order, repeats written out in full."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from coach.craft.working import Block, Group, Into, Passes, Work

MOST_STEPS = 6000

_INTO = {
    Into.NEXT: "next st",
    Into.SAME: "same st",
    Into.RING: "ring",
    Into.CHAIN: "next ch",
    Into.FREE_LOOP: "next free loop",
    Into.TURNING_CHAIN: "top of turning ch",
    Into.SKIPPED: "skipped st",
    Into.BELOW: "next st below",
    Into.BETWEEN: "between groups",
    Into.ROW_END: "row end",
    Into.STITCH_OR_SPACE: "next st or sp",
}


def steps_of(works: Iterable[Work]) -> list[dict[str, Any]]:
    """Return the steps of *works*; a row of more than 6000 is cut there."""
    out: list[dict[str, Any]] = []
    for step in _steps(works):
        out.append(step)
        if len(out) >= MOST_STEPS:
            break
    return out


def _steps(works: Iterable[Work]) -> Iterator[dict[str, Any]]:
    for work in works:
        if isinstance(work, Block):
            yield _block(work)
        elif isinstance(work, Group):
            for _ in range(work.times):
                yield from _group(work)
        elif isinstance(work, Passes):
            for _ in range(work.times):
                yield from _steps(work.parts)
            if work.last is not None:
                yield from _steps(work.last)


def _group(group: Group) -> Iterator[dict[str, Any]]:
    if group.name and group.name not in ("", "group"):
        made = sum(part.makes for part in group.parts)
        spaces = sum(part.makes_spaces for part in group.parts)
        step: dict[str, Any] = {"n": 1, "stitch": group.name, "into": _into(group.where, one=True)}
        step["makes"] = made
        if spaces:
            step["makes_spaces"] = spaces
        if group.color:
            step["color"] = group.color
        yield step
        return
    first = True
    for part in group.parts:
        step = _block(part)
        if part.stitch != "ch":
            step["into"] = _into(group.where, one=True) if first else _same(group.where)
            step.pop("times", None)
            step["n"] = part.count
            first = False
        yield step


def _same(where: Any) -> str:
    return "same sp" if where.into is Into.SPACE else "same st"


def _block(block: Block) -> dict[str, Any]:  # noqa: PLR0912
    where = block.where
    step: dict[str, Any] = {"n": block.count, "stitch": block.stitch, "into": None}
    if block.stitch == "ch":
        if block.counts_as:
            step["counts_as"] = block.counts_as
        if block.already_made:
            step["already_made"] = True
    elif block.role == "join":
        step["into"] = where.remark or "first st"
        step["join"] = True
    elif block.stitch == "sk":
        step["into"] = _into(where, one=False)
        if block.counts_as:
            step["counts_as"] = block.counts_as
    else:
        step["into"] = _into(where, one=False)
        if where.into is Into.TOGETHER:
            step["into"] = f"next {where.places} sts"
        elif block.each > 1 and where.into in (Into.NEXT, Into.CHAIN):
            times = block.count // block.each
            step["n"] = block.each
            step["into"] = "one ch" if where.into is Into.CHAIN else "one st"
            if times > 1:
                step["times"] = times
        if block.role == "travel":
            step["travel"] = True
    if where.loop:
        step["loop"] = {"back": "BLO", "front": "FLO"}.get(where.loop, where.loop)
    if where.rows_below:
        step["rows_below"] = where.rows_below
    if block.stitch.startswith("beg "):
        step["stitch"] = block.stitch.removeprefix("beg ")
        step["beginning"] = True
    if block.color:
        step["color"] = block.color
    return step


def _into(where: Any, *, one: bool) -> str | None:
    if where.into is Into.SPACE:
        return f"next ch-{where.chain_length} sp" if where.chain_length else "next ch sp"
    if where.into is Into.NEXT and one:
        return "one st"
    return _INTO.get(where.into)
