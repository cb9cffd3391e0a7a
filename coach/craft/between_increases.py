""" "2 sc in every other st" as an increase: what lies between is worked plainly, not passed.

The words alone allow both; the count of the row tells which is meant (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.instruction import Act, Chain, Instruction, Make, Of, Repeated, Skip, Which


def with_the_others_worked(items: Sequence[Instruction]) -> tuple[Instruction, ...] | None:
    """Return *items* with what lies between increases worked plainly; None where there are none."""
    out = tuple(_worked(item) for item in items)
    return out if out != tuple(items) else None


def _worked(item: Instruction) -> Instruction:
    if not isinstance(item, Repeated) or item.times is not None or item.star:
        return item
    body = [part for part in item.body if not isinstance(part, Act)]
    if len(body) != 2 or any(isinstance(part, Chain) for part in body):
        return item
    made, passed = body
    if not isinstance(made, Make) or not isinstance(passed, Skip) or made.each < 2:
        return item
    where = made.target
    plain = {Of.STITCH, Of.NAMED}
    if where is None or where.which is not Which.NEXT or where.noun.of not in plain:
        return item
    between = replace(made, each=1, target=passed.target)
    return replace(item, body=(between, replace(made, increase=True)))
