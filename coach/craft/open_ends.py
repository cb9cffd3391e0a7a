"""How far an instruction goes by its own words: open ones depend on what follows them."""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.pattern import (
    EachOf,
    GroupIn,
    Instruction,
    Leave,
    Make,
    Of,
    Repeated,
    Skip,
    Which,
)
from coach.craft.stitch import legs


def is_open(item: Instruction) -> bool:
    """Tell whether how far *item* goes depends on what follows it."""
    if isinstance(item, Repeated):
        return item.times is None
    if isinstance(item, EachOf):
        return item.until is None
    if isinstance(item, Make | GroupIn):
        target = item.target
        if target is None:
            return False
        return any(
            each.which is Which.EACH and each.until is None and each.noun.of is not Of.ROW_END
            for each in (target, *target.also)
        )
    return False


def demand_of(items: Sequence[Instruction]) -> int:
    """Return how many stitches *items* need, as far as their own words tell."""
    total = 0
    for item in items:
        match item:
            case Make():
                total += _demand_of_make(item)
            case Skip():
                total += 0 if item.target.noun.of is Of.SPACE else item.target.count
            case GroupIn():
                target = item.target
                if target.which is not Which.SAME and target.noun.of is not Of.SPACE:
                    total += target.count
            case Repeated():
                times = (item.times or 0) + (1 if item.custom != "in all" else 0)
                total += demand_of(item.body) * times
            case Leave():
                total += item.count or 0
            case _:
                pass
    return total


def _demand_of_make(item: Make) -> int:
    target = item.target
    drawn = legs(item.stitch)
    if target is None:
        if item.increase:
            return item.times
        return item.each * drawn * item.times if drawn > 1 else item.each
    total = 0
    for each in (target, *target.also):
        if each.which in (Which.SAME, Which.EACH) or each.noun.of in (
            Of.SPACE,
            Of.RING,
            Of.SKIPPED,
            Of.ROW_END,
            Of.BETWEEN,
        ):
            continue
        if drawn > 1 and (each.together or each.count == drawn):
            total += each.count * item.each * item.times
        else:
            total += each.count
    return total
