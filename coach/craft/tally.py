"""Counting what a row made, and holding it against the count that the designer states."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from coach.craft import fabric
from coach.craft.fabric import Item, Kind, Section
from coach.craft.pattern import Of, Stated
from coach.craft.stitch import ONE_TOP, answers_to, family


@dataclass(frozen=True, slots=True)
class Tally:
    """What a row made: stitches and spaces in all, by name, by length, by group.

    chains: how many chains the spaces hold together. units: groups by name ("" for one
    without a name), with how many stitches each holds.
    """

    made: int
    spaces: int
    by_stitch: Mapping[str, int]
    by_length: Mapping[int, int]
    units: Mapping[tuple[str, int], int]
    in_units: Mapping[str, int]


def tally(items: tuple[Item, ...]) -> Tally:
    """Count *items*."""
    stitches: Counter[str] = Counter()
    lengths: Counter[int] = Counter()
    units: Counter[tuple[str, int]] = Counter()
    in_units: Counter[str] = Counter()
    _count(items, 1, stitches, lengths, units, in_units)
    made, spaces = fabric.size(items)
    return Tally(made, spaces, dict(stitches), dict(lengths), dict(units), dict(in_units))


def _count(  # noqa: PLR0917
    items: Iterable[Item],
    times: int,
    stitches: Counter[str],
    lengths: Counter[int],
    units: Counter[tuple[str, int]],
    in_units: Counter[str],
) -> None:
    for item in items:
        if isinstance(item, Section):
            _count(item.items, times * item.times, stitches, lengths, units, in_units)
            continue
        cell, count = item.cell, item.count * times
        if cell.kind is Kind.SPACE:
            lengths[cell.length] += count
        else:
            stitches[cell.name] += count
            if cell.unit and cell.unit.name:
                in_units[cell.name] += count
        if cell.unit and cell.unit.index == 0:
            units[(cell.unit.name, cell.unit.size)] += count


def mismatch(
    stated: Sequence[Stated], count: Tally, unit_sizes: Mapping[str, int]
) -> tuple[Stated, int, str] | None:
    """Return (the stated figure that is wrong, what it is, what is counted), or None if all hold."""
    for figure in stated:
        wrong = _wrong(figure, stated, count, unit_sizes)
        if wrong is not None:
            return figure, *wrong
    return None


def _wrong(
    figure: Stated, stated: Sequence[Stated], count: Tally, unit_sizes: Mapping[str, int]
) -> tuple[int, str] | None:
    noun = figure.noun
    number = figure.number
    if noun is None or noun.of is Of.STITCH:
        allowed = {count.made}
        if len(stated) == 1:
            chains = sum(length * times for length, times in count.by_length.items())
            if chains:
                allowed |= {count.made + chains, count.made + count.spaces}
            if noun is None and not count.made:
                allowed.add(count.spaces)
        return None if number in allowed else (count.made, "stitches")
    if noun.of is Of.SPACE:
        if noun.length is None:
            return None if number == count.spaces else (count.spaces, "chain spaces")
        found = count.by_length.get(noun.length, 0)
        return None if number == found else (found, f"ch-{noun.length} spaces")
    if noun.of is Of.UNIT:
        return _wrong_units(number, noun.name or "", count, unit_sizes)
    if noun.of is Of.NAMED and noun.name:
        return _wrong_named(number, noun.name, len(stated) == 1, count)
    return None


def _wrong_units(
    number: int, name: str, count: Tally, unit_sizes: Mapping[str, int]
) -> tuple[int, str] | None:
    if name in count.by_stitch or family(name) in ONE_TOP:
        found = sum(times for stitch, times in count.by_stitch.items() if answers_to(stitch, name))
        return None if number == found else (found, name)
    size = unit_sizes.get(name)
    named = sum(times for (unit, _), times in count.units.items() if unit == name)
    alike = sum(
        times
        for (unit, each), times in count.units.items()
        if unit == name or (size is not None and each == size and not unit)
    )
    if number in (named, alike) or not alike:
        return None
    return alike, f"{name}s"


def _wrong_named(number: int, name: str, alone: bool, count: Tally) -> tuple[int, str] | None:
    exact = count.by_stitch.get(name, 0)
    like = sum(times for stitch, times in count.by_stitch.items() if answers_to(stitch, name))
    outside = exact - count.in_units.get(name, 0)
    allowed = {exact, like, outside}
    if alone:
        allowed.add(count.made)
    return None if number in allowed else (exact or like, name)
