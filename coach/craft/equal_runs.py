"""Equal neighbours drawn into one run: what the pattern writes in two pieces and hands do in one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from coach.craft.working import Action, Block, Group, Into, Work

_Work = TypeVar("_Work", Block | Group | Action, Work)


def equal_runs(items: Sequence[_Work]) -> list[_Work]:
    """Draw equal neighbours into one run: "sc in 2nd ch from hook and in each ch across"."""
    drawn: list[_Work] = []
    for item in items:
        last = drawn[-1] if drawn else None
        if isinstance(last, Block) and isinstance(item, Block) and _goes_on(last, item):
            drawn[-1] = replace(
                last,
                count=last.count + item.count,
                where=replace(
                    last.where, places=last.where.places + item.where.places, position=None
                ),
                uses=last.uses + item.uses,
                uses_spaces=last.uses_spaces + item.uses_spaces,
                makes=last.makes + item.makes,
                makes_spaces=last.makes_spaces + item.makes_spaces,
            )
        else:
            drawn.append(item)
    return drawn


def _goes_on(last: Block, item: Block) -> bool:
    """Whether *item* only goes on with *last*: the same stitch into places of the same kind."""
    return (
        item.where.into in {Into.NEXT, Into.CHAIN}
        and item.role is None
        and item.each == last.each == 1
        and item.stitch not in {"ch", "sk"}
        and not item.passing
        and item.where.position is None
        and last.where.position in {None, "first"}
        and _kind(item) == _kind(last)
    )


def _kind(block: Block) -> Block:
    """What a block is, apart from how many."""
    return replace(
        block,
        count=0,
        where=replace(block.where, places=0, position=None),
        uses=0,
        uses_spaces=0,
        makes=0,
        makes_spaces=0,
        passing=0,
    )
