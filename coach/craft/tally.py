"""Counting what a row made, and holding it against the count that the designer states."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from coach.craft import fabric
from coach.craft.fabric import Cell, Item, Kind, Run, Section, Unit
from coach.craft.instruction import Noun, Of
from coach.craft.pattern import Stated
from coach.craft.stitch import ONE_TOP, answers_to, family, legs
from coach.craft.working import Block, Group, Passes, Work


@dataclass(frozen=True, slots=True)
class Tally:
    """What a row made: stitches and spaces in all, by name, by length, by group.

    chains: how many chains the spaces hold together. units: groups by name ("" for one
    without a name), with how many stitches each holds. in_units: stitches that stand in named
    groups; in_groups: in any group. spaces_in_groups: by length, in any group. picots: how many, or None where nobody counted.
    begun: the counted chain at the beginning may be the first stitch of a group.
    """

    made: int
    spaces: int
    by_stitch: Mapping[str, int]
    by_length: Mapping[int, int]
    units: Mapping[tuple[str, int], int]
    in_units: Mapping[str, int]
    in_groups: Mapping[str, int] = field(default_factory=dict)
    spaces_in_groups: Mapping[int, int] = field(default_factory=dict)
    picots: int | None = None
    begun: bool = False


def tally(items: tuple[Item, ...]) -> Tally:
    """Count *items*."""
    stitches: Counter[str] = Counter()
    lengths: Counter[int] = Counter()
    units: Counter[tuple[str, int]] = Counter()
    in_units: Counter[str] = Counter()
    in_groups: Counter[str] = Counter()
    spaces_in_groups: Counter[int] = Counter()
    for cell, count in _cells(items, 1):
        if cell.kind is Kind.SPACE:
            lengths[cell.length] += count
            if cell.unit:
                spaces_in_groups[cell.length] += count
        else:
            stitches[cell.name] += count
            if cell.unit:
                in_groups[cell.name] += count
            if cell.unit and cell.unit.name:
                in_units[cell.name] += count
        if cell.unit and cell.unit.index == 0:
            units[(cell.unit.name, cell.unit.size)] += count
    begun = _begun_group(items)
    if begun is not None:
        units[("", begun)] += 1
    made, spaces = fabric.size(items)
    return Tally(
        made,
        spaces,
        dict(stitches),
        dict(lengths),
        dict(units),
        dict(in_units),
        dict(in_groups),
        dict(spaces_in_groups),
        begun=begun is not None,
    )


def _begun_group(items: tuple[Item, ...]) -> int | None:
    """Return the size of the first group with its counted chain: "ch 3, (dc, ch 1, 2 dc) in sp".

    The chain stands outside the bracket, yet in the same place: it is that group's first stitch.
    """
    match items:
        case (Run(Cell(turning=True), 1), Run(Cell(unit=Unit("", 0, size))), *_):
            return size + 1
        case _:
            return None


def picots_in(work: Sequence[Work]) -> int:
    """Return how many picots *work* holds, those of groups and repeats too."""
    total = 0
    for each in work:
        match each:
            case Block():
                total += each.count if each.role == "picot" else 0
            case Group():
                total += picots_in(each.parts) * each.times
            case Passes():
                total += picots_in(each.parts) * each.times + picots_in(each.last or ())
            case _:
                pass
    return total


def _cells(items: Iterable[Item], times: int) -> Iterator[tuple[Cell, int]]:
    """Yield each cell as it is written, with how often it is there."""
    for item in items:
        if isinstance(item, Section):
            yield from _cells(item.items, times * item.times)
        else:
            yield item.cell, item.count * times


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
        return _wrong_spaces(number, noun.length, stated, count)
    if noun.of is Of.UNIT and noun.length is None:
        return _wrong_units(number, noun.name or "", count, unit_sizes)
    if noun.of is Of.NAMED and noun.name:
        return _wrong_named(number, noun.name, stated, count)
    return _wrong_blocks(number, noun, count)


def _wrong_spaces(
    number: int, length: int | None, stated: Sequence[Stated], count: Tally
) -> tuple[int, str] | None:
    """Hold a figure of spaces: where groups are counted as well, theirs may be left out of it."""
    if length is None:
        found, in_groups = count.spaces, sum(count.spaces_in_groups.values())
    else:
        found = count.by_length.get(length, 0)
        in_groups = count.spaces_in_groups.get(length, 0)
    allowed = {found}
    if any(figure.noun is not None and figure.noun.of is Of.UNIT for figure in stated):
        allowed.add(found - in_groups)
    what = "chain spaces" if length is None else f"ch-{length} spaces"
    return None if number in allowed else (found, what)


def _wrong_blocks(number: int, noun: Noun, count: Tally) -> tuple[int, str] | None:
    """Corner to corner: a row has as many blocks as chains that blocks hang in."""
    if noun.of is not Of.UNIT:
        return _wrong_squares(number, noun, count) if noun.of is Of.SQUARE else None
    found = count.by_length.get(noun.length or 0, 0)
    if not found:
        return None if number == count.made else (count.made, "stitches")
    return None if number == found else (found, f"{(noun.name or 'block').lower()}s")


def _wrong_squares(number: int, noun: Noun, count: Tally) -> tuple[int, str] | None:
    """Filet: n squares are n times their width of stitches and chains, and one stitch more.

    A row of other things as well (a border, chains of other lengths) is not judged by it.
    """
    width = noun.length or 1
    opened = count.by_length.get(width - 1, 0)
    found, other = divmod(count.made - 1 - opened, width)
    if other or count.spaces != opened or number == found:
        return None
    return found, f"{(noun.name or 'block').lower()}s"


def _wrong_units(
    number: int, name: str, count: Tally, unit_sizes: Mapping[str, int]
) -> tuple[int, str] | None:
    if not name:
        return None  # "32 groups": what makes one is not said
    if name.lower() in ("picot", "p"):
        return None if number == count.picots or not count.picots else (count.picots, "picots")
    if name in count.by_stitch or family(name) in ONE_TOP:
        found = sum(times for stitch, times in count.by_stitch.items() if answers_to(stitch, name))
        return None if number == found else (found, name)
    plain = name.lower()
    sizes = {each for unit, each in unit_sizes.items() if unit.lower() == plain}
    named = sum(times for (unit, _), times in count.units.items() if unit.lower() == plain)
    alike = named + sum(
        times for (unit, each), times in count.units.items() if each in sizes and not unit
    )
    if number in (named, alike) or not alike:
        return None
    return alike, f"{name}s"


def _wrong_named(
    number: int, name: str, stated: Sequence[Stated], count: Tally
) -> tuple[int, str] | None:
    exact = count.by_stitch.get(name, 0)
    like = sum(times for stitch, times in count.by_stitch.items() if answers_to(stitch, name))
    outside = exact - count.in_units.get(name, 0)
    allowed = {exact, like, outside}
    if len(stated) == 1 and like == count.made and _some_drawn(name, count):
        return None if number == like else (like, name)  # each decrease is a stitch of its kind
    if len(stated) == 1:
        allowed.add(count.made)
    elif any(figure.noun is not None and figure.noun.of is Of.UNIT for figure in stated):
        allowed.add(exact - count.in_groups.get(name, 0))
    return None if number in allowed else (exact or like, name)


def _some_drawn(name: str, count: Tally) -> bool:
    """Tell whether what is left beside *name* are decreases in it, and no other kinds."""
    others = [stitch for stitch, times in count.by_stitch.items() if times and stitch != name]
    return bool(others) and all(legs(stitch) > 1 and family(stitch) == name for stitch in others)
