"""A round that begins "ch 3, dc2tog": where its clusters are dc3tog, the chain is their first leg.

So a round of clusters is begun in most published lace: the chain and one leg fewer close to one top,
and the chain is no stitch of its own (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from coach.craft.instruction import (
    Act,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Make,
    Of,
    Repeated,
    Which,
)
from coach.craft.stitch import LEG, legs

_LEG = range(2, 7)  # chains that stand for one leg


def with_beginning_clusters(items: Sequence[Instruction]) -> tuple[Instruction, ...]:
    """Return *items* with the chain before a beginning cluster told as its first leg."""
    at = next((i for i, item in enumerate(items) if not _before_the_work(item)), None)
    if at is None:
        return tuple(items)
    first = items[at]
    if isinstance(first, GroupIn):
        begun = _begun(first.parts, items[at + 1 :], in_one=True)
        changed = None if begun is None else (replace(first, parts=begun), *items[at + 1 :])
    else:
        changed = _begun(items[at:], (), in_one=False)
    return tuple(items) if changed is None else (*items[:at], *changed)


def _before_the_work(item: Instruction) -> bool:
    return isinstance(item, Act) or (isinstance(item, Make) and item.stitch == "sl st")


def _begun(
    items: Sequence[Instruction], later: Sequence[Instruction], *, in_one: bool
) -> tuple[Instruction, ...] | None:
    """Return *items* with their first chain as a leg; None where no cluster shows that it is one."""
    if len(items) < 2:
        return None
    chain, cluster = items[0], items[1]
    if not isinstance(chain, Chain) or chain.counts_as is not None or chain.count not in _LEG:
        return None
    if not isinstance(cluster, Make) or _legs(cluster) < 2 or cluster.increase:
        return None
    if not in_one and not _in_one_place(cluster):
        return None  # a decrease at the edge of a ripple: the chain is no part of it
    others = {(_base(made), _legs(made)) for made in _makes((*items[2:], *later))}
    if (_base(cluster), _legs(cluster) + 1) not in others:
        return None
    return (replace(chain, counts_as=LEG), *items[1:])


def _in_one_place(made: Make) -> bool:
    where = made.target
    return made.legs > 0 or (
        where is not None and (where.which is Which.SAME or where.noun.of is Of.SPACE)
    )


def _legs(made: Make) -> int:
    return made.legs or legs(made.stitch)


def _base(made: Make) -> str:
    return made.stitch if made.legs else made.stitch.rstrip("tog").rstrip("0123456789")


def _makes(items: Iterable[Instruction]) -> Iterator[Make]:
    for item in items:
        match item:
            case Make():
                yield item
            case GroupIn() | EachOf():
                yield from _makes(item.parts)
            case Repeated():
                yield from _makes(item.body)
