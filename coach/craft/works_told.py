"""The same work so many times over, and like blocks told as one."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.hand import merged_block, passes
from coach.craft.working import Block, Group, Work


def many_times(works: tuple[Work, ...], times: int) -> tuple[Work, ...]:
    """Return one work so many times over: a block grows, a group counts its places."""
    if times == 1:
        return works
    if len(works) == 1:
        only = works[0]
        if isinstance(only, Block):
            return (
                replace(
                    only,
                    count=only.count * times,
                    uses=only.uses * times,
                    uses_spaces=only.uses_spaces * times,
                    makes=only.makes * times,
                    makes_spaces=only.makes_spaces * times,
                    passing=only.passing * times,
                    where=replace(only.where, places=only.where.places * times),
                ),
            )
        if isinstance(only, Group):
            return (
                replace(
                    only,
                    times=only.times * times,
                    uses=only.uses * times,
                    uses_spaces=only.uses_spaces * times,
                ),
            )
    return passes([(works, times)])


def told_on(works: list[Work], more: tuple[Work, ...]) -> None:
    """Add *more* to *works*: like blocks in like places grow into one."""
    for work in more:
        if isinstance(work, Block) and works:
            both = merged_block(works[-1], work)
            if both is not None:
                works[-1] = both
                continue
        works.append(work)
