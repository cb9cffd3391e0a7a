"""Which places of the row below an instruction means, and what is there when they are not."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from coach.craft import fabric
from coach.craft.fabric import Cell, Kind, Run
from coach.craft.fabric_ahead import Rest, opened, rest_of
from coach.craft.fabric_taken import Taken
from coach.craft.hand import Hand
from coach.craft.instruction import EachOf, GroupIn, Make, Noun, Of, Target, Which
from coach.craft.problem import Place, Verdict
from coach.craft.row_bench import Bench, Misfit, any_place, any_stitch
from coach.craft.stitch import answers_to, called
from coach.craft.working import Into, Where


def sought(bench: Bench, target: Target, hand: Hand) -> Callable[[Cell], bool]:  # noqa: PLR0911
    """Return the test of a place for *target*."""
    noun = target.noun
    if target.rows_below:
        return any_stitch  # its name is that of a stitch farther down
    if target.within is not None:
        return _within(bench, target)
    if target.which is Which.CORNER and (corner := _marked_corner(bench, noun)) is not None:
        return corner
    match noun.of:
        case Of.SPACE:
            length = noun.length
            if target.which is Which.CORNER and length is None:
                length = _longest_space(bench)
            if length is None:
                return lambda cell: cell.kind is Kind.SPACE
            return lambda cell: cell.kind is Kind.SPACE and cell.length == length
        case Of.STITCH_OR_SPACE:
            return any_place
        case Of.UNIT:
            return _unit(bench, noun)
        case Of.NAMED:
            name = noun.name or "st"
            return lambda cell: (
                cell.kind is Kind.CHAIN
                or (cell.kind is Kind.STITCH and (cell.turning or answers_to(cell.name, name)))
            )
    if target.which is Which.CENTER or target.which is Which.CORNER:  # noqa: SIM102
        if any(cell.unit for cell in fabric.cells(bench.ground.below)):
            return lambda cell: bool(
                cell.unit and cell.unit.size % 2 and cell.unit.index == cell.unit.size // 2
            )
    return any_stitch


def _within(bench: Bench, target: Target) -> Callable[[Cell], bool]:
    """A place of a group: the center dc of the next shell, the space of the next V-stitch."""
    inner = target.within
    assert inner is not None  # noqa: S101
    if target.noun.of is Of.SPACE:
        length = target.noun.length
        name = (inner.noun.name or "-").lower()
        in_group = any(
            cell.unit and cell.unit.name.lower() == name and cell.kind is Kind.SPACE
            for cell in fabric.cells(bench.ground.below)
        )
        return lambda cell: (
            cell.kind is Kind.SPACE
            and (length is None or cell.length == length)
            and (cell.unit is not None or not in_group)
        )
    units = _unit(bench, inner.noun)
    if target.which is Which.CENTER:
        return units
    nth = target.nth - 1 if target.which is Which.NTH else 0
    if target.which is Which.LAST:
        return lambda cell: bool(cell.unit and cell.unit.index == cell.unit.size - 1)
    return lambda cell: bool(cell.unit and cell.unit.index == nth)


def _unit(bench: Bench, noun: Noun) -> Callable[[Cell], bool]:
    """The middle of a group: its space where it has one, else its center stitch."""
    below = list(fabric.cells(bench.ground.below))
    name = noun.name or ""
    if any(cell.unit is None and _is_made_as_one(cell, name) for cell in below):
        return lambda cell: _is_made_as_one(cell, name)
    spaced = {
        (cell.unit.name, cell.unit.size) for cell in below if cell.unit and cell.kind is Kind.SPACE
    }
    if not any(cell.unit for cell in below):
        if any(cell.kind is Kind.SPACE for cell in below):
            return lambda cell: cell.kind is Kind.SPACE
        return lambda cell: answers_to(cell.name, name)

    def middle(cell: Cell) -> bool:
        unit = cell.unit
        if unit is None:
            return False
        if (unit.name, unit.size) in spaced:
            return cell.kind is Kind.SPACE
        return unit.index == unit.size // 2

    return middle


def _is_made_as_one(cell: Cell, name: str) -> bool:
    """Tell whether a place is what is named: a cluster, puff or popcorn is one stitch."""
    return bool(name) and cell.kind is Kind.STITCH and answers_to(cell.name, name)


def _marked_corner(bench: Bench, noun: Noun) -> Callable[[Cell], bool] | None:
    """Return the test of a corner that is a stitch; None where it is a space, or nothing marks it."""
    if noun.of in (Of.STITCH, Of.NAMED):
        return corner_stitch(bench)
    if noun.of is Of.SPACE and noun.length is None and _longest_space(bench) is None:
        return corner_stitch(bench)
    return None


def corner_stitch(bench: Bench) -> Callable[[Cell], bool] | None:
    """The middle stitch of the groups that stand in the corners: of those there are four of.

    None where the row below has no group with a stitch in its middle. Where no size of group is
    there four times, the largest is the corner's.
    """
    below = bench.ground.below
    sizes = {
        cell.unit.size
        for cell in fabric.cells(below)
        if cell.unit and cell.unit.size % 2 and cell.is_stitch
    }
    if not sizes:
        return None

    def middle_of(size: int) -> Callable[[Cell], bool]:
        return lambda cell: bool(
            cell.unit and cell.is_stitch and (cell.unit.size, cell.unit.index) == (size, size // 2)
        )

    four = [size for size in sizes if fabric.count_of(below, middle_of(size)) == 4]
    return middle_of(max(four or sizes))


def _longest_space(bench: Bench) -> int | None:
    return max(
        (cell.length for cell in fabric.cells(bench.ground.below) if cell.kind is Kind.SPACE),
        default=None,
    )


def none_found(bench: Bench, got: Taken, target: Target, hand: Hand, place: Place) -> Taken:
    """No such place ahead: a fault if there is none below at all, else one place too many."""
    wanted = sought(bench, target, hand)
    if bench.ground.below and not any(wanted(cell) for cell in fabric.cells(bench.ground.below)):
        raise Misfit(Verdict.NO_SUCH_PLACE, place, what_is_there(bench, target.noun))
    return Taken(hand.rest, missing=got.missing)


def what_is_there(bench: Bench, noun: Noun) -> str:
    """Say what is asked for and what the row below has instead."""
    uk = bench.switches.uk
    named = called(noun.name or "", uk=uk) or (
        f"ch-{noun.length} space" if noun.length else "chain space"
    )
    there = dict.fromkeys(
        called(cell.name, uk=uk).replace(" sp", " space")
        for cell in fabric.cells(bench.ground.below)
        if (cell.kind is Kind.SPACE) == (noun.of is Of.SPACE)
    )
    kinds = ", ".join(there) or "no chain space"
    return f"it asks for a {named}, but the row below has {kinds}"


def where_of(bench: Bench, target: Target, into: Into, got: Taken) -> Where:
    """Return the place in the working tree's terms."""
    length = got.last.length if got.last and not got.last.is_stitch else target.noun.length
    return Where(
        into,
        places=target.count,
        named=name_of(target),
        chain_length=length,
        position=position_of(target),
    )


def moved_on(hand: Hand, got: Taken, uses: int, uses_spaces: int) -> Hand:
    """Return the hand past the places that were taken."""
    return replace(
        hand,
        rest=got.rest,
        used=hand.used + uses,
        used_spaces=hand.used_spaces + uses_spaces,
        over=hand.over + (got.missing if uses else 0),
        moved=True,
    )


def target_of(part: Make | GroupIn) -> Target:
    """Return where *part* goes: simply the next stitch where nothing is said."""
    return part.target or Target(Which.NEXT, Noun(Of.STITCH))


def name_of(target: Target) -> str | None:
    """Return the name of the stitch or group that is met there."""
    if target.within is not None and target.within.noun.name:
        return target.within.noun.name
    return target.noun.name if target.noun.of in (Of.NAMED, Of.UNIT) else None


def position_of(target: Target) -> str | None:
    """Return how the place is told from its neighbours, or None for simply the next."""
    names = {
        Which.FIRST: "first",
        Which.LAST: "last",
        Which.CENTER: "center",
        Which.CORNER: "corner",
    }
    return names.get(target.which)


def left_of(rest: Rest | None, wanted: Callable[[Cell], bool]) -> int:
    """Return how many cells that are wanted are still to be met."""
    total = 0
    while rest is not None:
        total += fabric.count_of((rest.item,), wanted)
        rest = rest.next
    return total


def over_several_kinds(part: Make | GroupIn, target: Target) -> EachOf:
    """ "in each tr and in each 1-ch sp to next 2-ch sp": the same over places of several kinds."""
    parts = tuple(
        replace(part, target=replace(each, also=(), until=None)) for each in (target, *target.also)
    )
    until = next((each.until for each in (target, *target.also) if each.until is not None), None)
    return EachOf(parts, part.place, until)


def begun_at(rest: Rest | None, wanted: Callable[[Cell], bool]) -> Rest | None:
    """Return a round's places beginning at the first that is wanted: a round has no beginning.

    What lies before that place comes last. Unchanged where there is no such place.
    """
    whole, before = rest, []
    while rest is not None:
        rest = opened(rest)
        if wanted(_run(rest).cell):
            break
        before.append(rest.item)
        rest = rest.next
    if rest is None or not before:
        return whole
    items = []
    node: Rest | None = rest
    while node is not None:
        items.append(node.item)
        node = node.next
    return rest_of(fabric.joined((*items, *before)))


def _run(rest: Rest) -> Run:
    assert isinstance(rest.item, Run)  # noqa: S101 - opened rests begin with a run
    return rest.item
