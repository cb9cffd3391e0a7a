"""A row worked as an earlier one but for its beginning or end: "Rep Row 2, but 2 sc in last st"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.instruction import (
    Act,
    Bound,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Join,
    Make,
    Noun,
    Of,
    Repeated,
    Skip,
    Target,
    Which,
)

_ANY = Noun(Of.STITCH)


def worked_otherwise(
    items: Sequence[Instruction], instead: Sequence[Make | Skip]
) -> tuple[Instruction, ...] | None:
    """Return *items* with *instead* in their places; None where nothing tells where it goes."""
    out: tuple[Instruction, ...] | None = tuple(items)
    for made in instead:
        if out is None or made.target is None:
            return None
        if made.target.which is Which.FIRST:
            out = _begun_with(out, made, made.target)
        elif made.target.which is Which.LAST:
            out = _ended_with(out, made, made.target)
        else:
            return None
    return out


def _begun_with(
    items: tuple[Instruction, ...], made: Make | Skip, where: Target
) -> tuple[Instruction, ...] | None:
    at = next((i for i, item in enumerate(items) if not isinstance(item, Act | Chain)), None)
    if at is None:
        return None
    rest = _without_first(items[at], where.count)
    return None if rest is None else (*items[:at], made, *rest, *items[at + 1 :])


def _without_first(item: Instruction, count: int) -> tuple[Instruction, ...] | None:
    """Return *item* less its first *count* places."""
    match item:
        case EachOf():
            return (item,)
        case Make(target=Target(which=Which.EACH)):
            return (item,)
        case Make(target=Target(which=Which.NEXT | Which.FIRST, also=()) as where) if (
            item.each == 1
        ):
            left = where.count - count
            fewer = replace(where, which=Which.NEXT, count=left)
            return None if left < 0 else (replace(item, target=fewer),) if left else ()
        case Make(target=Target(which=Which.FIRST, count=had, also=())) if had == count:
            return ()
        case Make(target=None) if item.each >= count and not item.increase:
            return (replace(item, each=item.each - count),) if item.each > count else ()
        case _:
            return None


def _ended_with(
    items: tuple[Instruction, ...], made: Make | Skip, where: Target
) -> tuple[Instruction, ...] | None:
    """Put *made* in the place of the last so many places, of one instruction or of several."""
    worked = [i for i, item in enumerate(items) if not isinstance(item, Act | Chain | Join)]
    after = items[worked[-1] + 1 :] if worked else ()
    dropped = 0
    for at in reversed(worked):
        item = items[at]
        held = _held(item)
        if held is not None and dropped + held <= where.count:
            dropped += held
            if dropped == where.count:
                return (*items[:at], made, *after)
            continue
        rest = _without_last(item, where.count, dropped)
        return None if rest is None else (*items[:at], rest, made, *after)
    return None


def _held(item: Instruction) -> int | None:
    """Return how many places *item* goes into, where its own words tell it."""
    match item:
        case Make(target=Target(which=Which.LAST | Which.NEXT | Which.FIRST, also=()) as where):
            return where.count
        case Skip(target=Target(which=Which.LAST | Which.NEXT) as where):
            return where.count
        case GroupIn(target=Target(which=Which.LAST, count=count)):
            return count
        case _:
            return None


def _without_last(item: Instruction, count: int, dropped: int) -> Instruction | None:
    """Return *item* so that *count* places are left after it, of which *dropped* were others'."""
    until = Bound("last", _ANY, count)
    match item:
        case Repeated(times=None) | EachOf() if _stops_at(item.until, dropped):
            return replace(item, until=until)
        case Make(target=Target(which=Which.EACH, also=()) as where) if _stops_at(
            where.until, dropped
        ):
            return replace(item, target=replace(where, until=until, open=False))
        case Make(target=Target(which=Which.NEXT, also=()) as where) if not dropped:
            return replace(item, target=replace(where, count=where.count - count))
        case _:
            return None


def _stops_at(until: Bound | None, dropped: int) -> bool:
    """Tell whether a stretch runs on to the end, or to the places that were taken out after it."""
    if until is None:
        return True
    return until.kind == "last" and until.noun.of is Of.STITCH and until.count == dropped
