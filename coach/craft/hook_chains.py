"""Chains at the hook where the words leave them unsaid, and chains that make a row longer.

"Ch 41. Row 1: Sc across" begins in the second chain from the hook, for the chain beside the hook
is the height of the stitch. "Ch 7, sc in 2nd ch from hook" at the beginning of a later row makes
new places to work into, before those of the row below. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.instruction import (
    Act,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Make,
    Noun,
    Of,
    Repeated,
    Skip,
    Target,
    Which,
)
from coach.craft.row_bench import Ground
from coach.craft.stitch import height

_INTO_CHAIN = (Of.STITCH, Of.CHAIN)


def leaves_hook_unsaid(items: Sequence[Instruction], ground: Ground) -> bool:
    """Tell whether a first row goes along the chain without a word on where it begins."""
    if ground.kind != "chain" or ground.round or not ground.below or ground.already:
        return False
    first: Instruction | None = next((item for item in items if not isinstance(item, Act)), None)
    if isinstance(first, Repeated) and first.body:
        first = first.body[0]
    if isinstance(first, EachOf):
        first = first.parts[0]
    if not isinstance(first, Make | GroupIn):
        return False
    where = first.target
    return where is None or (
        where.noun.of in _INTO_CHAIN and where.which in (Which.NEXT, Which.EACH, Which.FIRST)
    )


def with_hook_skipped(
    items: Sequence[Instruction], first_stitch: str | None
) -> tuple[Instruction, ...]:
    """Return *items* with as many chains left at the hook as the first stitch is tall."""
    tall = height(first_stitch) if first_stitch else None
    if not tall:
        return tuple(items)
    at = next(index for index, item in enumerate(items) if not isinstance(item, Act))
    passed = Target(Which.NEXT, Noun(Of.FROM_HOOK), count=tall)
    return (*items[:at], Skip(passed, items[at].place), *items[at:])


def with_chains_worked(items: Sequence[Instruction], ground: Ground) -> tuple[Instruction, ...]:
    """Mark each chain that is worked into from the hook on: "ch 7, sc in 2nd ch from hook".

    Not so at the beginning of a first round: "ch 3 (counts as dc), sk next ch" skips a chain of
    the ring.
    """
    first_round = ground.round and ground.kind == "chain"
    out: list[Instruction] = []
    for index, item in enumerate(items):
        if isinstance(item, Repeated):
            item = replace(item, body=with_chains_worked(item.body, ground))  # noqa: PLW2901
        elif isinstance(item, Chain) and item.counts_as is None and not (first_round and not out):
            into = item.worked or item.count > _left_at_hook(_worked_next(items, index))
            item = replace(item, worked=into)  # noqa: PLW2901
        out.append(item)
    return tuple(out)


def _worked_next(items: Sequence[Instruction], index: int) -> Sequence[Instruction]:
    """Return the two instructions after *index* that are worked: "ch 7, turn, sc in 2nd ch"."""
    following = [each for each in items[index + 1 : index + 6] if not isinstance(each, Act)]
    return following[:2]


def _left_at_hook(items: Sequence[Instruction]) -> float:
    """Return how many chains are left at the hook before one is worked; endlessly many for none.

    "Ch 5, sk 2 ch, dc in next dc" of a mesh passes over a space: no chain is worked into.
    """
    if len(items) < 2:
        return float("inf")
    skip, made = items[:2]
    if not isinstance(skip, Skip) or skip.target.noun.of is not Of.FROM_HOOK:
        return float("inf")
    if not isinstance(made, Make) or (
        made.target is not None and made.target.noun.of is not Of.CHAIN
    ):
        return float("inf")
    return skip.target.count


def chains_ahead(items: Sequence[Instruction], ground: Ground) -> int:
    """Return how many chains, made before the turn, a row works into: 0 for none."""
    if ground.kind not in ("row", "round") or ground.already is None:
        return 0
    begun = [item for item in items if not isinstance(item, Act)]
    chains = ground.already[0]
    return chains if chains > _left_at_hook(begun) else 0


def as_turning_chain(
    items: Sequence[Instruction], ground: Ground
) -> tuple[Sequence[Instruction], Ground]:
    """Return a first row's words as they are meant when they are worked again on a later row.

    "Rep Rows 1 and 2" of "dc in 4th ch from hook and in each ch across": there is no chain to
    leave at the hook, only the turning chain that stands in its place.
    """
    if ground.kind not in ("row", "round") or chains_ahead(items, ground):
        return items, ground
    out: list[Instruction] = []
    already = ground.already
    for index, item in enumerate(items):
        if isinstance(item, Skip) and item.target.noun.of is Of.FROM_HOOK:
            if any(isinstance(each, Chain) and each.worked for each in out):
                break
            if not out and not already:
                out.append(Chain(item.target.count, item.place, counts_as=item.counts_as))
            elif already and item.counts_as is not None:
                already = (already[0], item.counts_as)
            return [*out, *items[index + 1 :]], replace(ground, already=already)
        if not isinstance(item, Act | Chain):
            break
        out.append(item)
    return items, ground
