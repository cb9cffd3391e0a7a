"""How far an instruction goes by its own words: open ones depend on what follows them."""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.instruction import (
    EachOf,
    GroupIn,
    Instruction,
    Leave,
    Make,
    Of,
    Repeated,
    Skip,
    Target,
    Which,
)
from coach.craft.stitch import legs


def is_open(item: Instruction) -> bool:
    """Tell whether how far *item* goes depends on what follows it."""
    if isinstance(item, Repeated):
        return item.times is None or (item.ending and item.stop_at is None)
    if isinstance(item, EachOf):
        return item.until is None
    if isinstance(item, Make | GroupIn):
        target = item.target
        if target is None:
            return False
        stretches = [each for each in (target, *target.also) if each.which is Which.EACH]
        if any(each.until is not None for each in stretches):
            return any(each.until is None for each in stretches) and not _all_stop(target)
        return any(each.noun.of is not Of.ROW_END for each in stretches)
    return False


def _all_stop(target: Target) -> bool:
    """ "In each dc and ch-1 sp to next corner": the bound holds for every kind of place named."""
    return all(each.which is Which.EACH for each in (target, *target.also))


def demand_of(items: Sequence[Instruction]) -> int:
    """Return how many stitches *items* need, as far as their own words tell."""
    total = 0
    for item in items:
        match item:
            case Make():
                total += _demand_of_make(item)
            case Skip():
                gap = item.target.noun.of is Of.SPACE or item.target.until is not None
                total += 0 if gap else item.target.count
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
