"""What the instructions of a row tell before it is worked: how it ends, its first stitch, its skips."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from coach.craft.instruction import (
    Act,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Join,
    Leave,
    Make,
    Noun,
    Of,
    Repeated,
    Sides,
    Skip,
    Target,
    Which,
    makes_in,
)
from coach.craft.next_places import BEHIND
from coach.craft.pattern import SpecialStitch


def without_closing_chain(
    items: Sequence[Instruction], rounds: bool
) -> tuple[tuple[Instruction, ...], Chain | None, bool]:
    """Part the chain that a row ends with, which belongs to the next row; tell if it is turned."""
    turned = any(isinstance(item, Act) and item.kind == "turn" for item in items)
    body = list(items)
    while (
        body
        and isinstance(body[-1], Sides | Act)
        and any(isinstance(item, Sides) for item in body[-1:])
    ):
        body.pop()
    for index in range(len(body) - 1, 0, -1):
        item = body[index]
        if isinstance(item, Act | Leave):
            continue
        made = any(isinstance(each, Make | GroupIn | EachOf | Repeated) for each in body[:index])
        after_join = index and isinstance(body[index - 1], Join)
        if isinstance(item, Chain) and made and (not rounds or turned or after_join):
            return (*body[:index], *body[index + 1 :]), item, turned
        break
    return tuple(body), None, turned


def with_last_slip_stitch_joining(
    items: Sequence[Instruction], rounds: bool
) -> tuple[Instruction, ...]:
    """Let a slip stitch without a place, "1 sc in each st around, ss.", close the round.

    What goes all round has left no place for it.
    """
    working = [index for index, item in enumerate(items) if not isinstance(item, Act)]
    if not rounds or len(working) < 2:
        return tuple(items)
    before, last = items[working[-2]], items[working[-1]]
    match last:
        case Make(stitch="sl st", each=1, times=1, target=None) if _goes_all_round(before):
            at = working[-1]
            return (*items[:at], Join(last.place), *items[at + 1 :])
    return tuple(items)


def _goes_all_round(item: Instruction) -> bool:
    if isinstance(item, Make | GroupIn):
        target = item.target
        return target is not None and target.which is Which.EACH and target.until is None
    if isinstance(item, Repeated):
        return item.times is None and item.until is None
    return isinstance(item, EachOf) and item.until is None


def with_stitches_behind(items: Sequence[Instruction]) -> tuple[Instruction, ...]:
    """Mark a stitch worked rows below whose place in this row is the skip that follows it."""
    out: list[Instruction] = []
    for index, item in enumerate(items):
        following = items[index + 1] if index + 1 < len(items) else None
        if isinstance(item, Repeated):
            item = replace(item, body=with_stitches_behind(item.body))  # noqa: PLW2901
        elif (
            isinstance(item, Make)
            and item.target is not None
            and item.target.rows_below
            and isinstance(following, Skip)
            and following.target.count == item.target.count
        ):
            item = replace(item, target=replace(item.target, remark=BEHIND))  # noqa: PLW2901
        out.append(item)
    return tuple(out)


def into_ring(body: Sequence[Instruction]) -> bool:
    """Tell whether the row works into a ring and does not make it itself from a chain."""
    if any(isinstance(item, Join) and item.ring for item in body):
        return False
    return any(
        make.target is not None and make.target.noun.of is Of.RING for make in makes_in(body)
    )


def with_mesh_skips(
    items: Sequence[Instruction], *, within: bool = False
) -> tuple[Instruction, ...]:
    """Return *items* as a mesh is read: each "ch 2" also passes over 2, though said only once."""
    out: list[Instruction] = []
    for index, item in enumerate(items):
        if isinstance(item, Repeated):
            out.append(replace(item, body=with_mesh_skips(item.body, within=True)))
            continue
        out.append(item)
        following = items[index + 1] if index + 1 < len(items) else None
        if (
            isinstance(item, Chain)
            and (within or any(isinstance(each, Make | Repeated) for each in items[:index]))
            and isinstance(following, Make)
            and following.target is not None
            and following.target.which in (Which.NEXT, Which.LAST)
            and following.target.noun.of in (Of.STITCH, Of.NAMED)
        ):
            out.append(Skip(Target(Which.NEXT, Noun(Of.STITCH), count=item.count), item.place))
    return tuple(out)


def first_stitch(items: Sequence[Instruction], specials: Mapping[str, SpecialStitch]) -> str | None:
    """Return the first stitch that is no slip stitch; "sl st" if there are no others."""
    found = _first_in(items, specials)
    if (
        found is None
        and any(isinstance(item, Make | EachOf | Repeated) for item in items)
        and _slips_only(items)
    ):
        return "sl st"
    return found


def _slips_only(items: Sequence[Instruction]) -> bool:
    slips = False
    for item in items:
        match item:
            case Make():
                if item.stitch != "sl st":
                    return False
                slips = True
            case EachOf():
                slips = slips or _slips_only(item.parts)
            case Repeated():
                if not _slips_only(item.body):
                    return False
                slips = True
            case GroupIn():
                return False
            case _:
                pass
    return slips


def slips_in_turn(items: Sequence[Instruction]) -> bool:
    """Tell whether a repeat takes slip stitches and other stitches in turn: "*sl st, hdc; rep"."""
    for item in items:
        if isinstance(item, Repeated):
            made = [part for part in item.body if not isinstance(part, Act)]
            slips = {isinstance(part, Make) and part.stitch == "sl st" for part in made}
            if slips == {True, False} and all(isinstance(part, Make) for part in made):
                return True
            if slips_in_turn(item.body):
                return True
    return False


def _first_in(items: Sequence[Instruction], specials: Mapping[str, SpecialStitch]) -> str | None:
    for item in items:
        found: str | None = None
        match item:
            case Make():
                if item.stitch == "sl st":
                    continue
                special = specials.get(item.named or "")
                found = (
                    _first_in(special.parts, specials) if special and special.parts else None
                ) or item.stitch
            case GroupIn():
                found = _first_in(item.parts, specials)
            case EachOf():
                found = _first_in(item.parts, specials)
            case Repeated():
                found = _first_in(item.body, specials)
            case _:
                pass
        if found:
            return found
    return None
