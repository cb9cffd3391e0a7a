"""What lies below a row: its places in order, as runs and repeated sections.

A row of four hundred equal blocks is held as one section and its count, never as one object
a stitch. The work moves along it with :class:`coach.craft.fabric_ahead.Rest`, an unchanging
chain of what is still to be met, so that a repeated section can be proved once and then passed
over in one step.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import TypeAlias


class Kind(StrEnum):
    """What a place is."""

    STITCH = "stitch"
    SPACE = "space"
    CHAIN = "chain"  # of the foundation


@dataclass(frozen=True, slots=True)
class Unit:
    """Which part of a group in one place a cell is: third of the five of a shell."""

    name: str
    index: int
    size: int


@dataclass(frozen=True, slots=True)
class Cell:
    """One place: a stitch by name, a chain space by length, or a foundation chain.

    turning: a counted turning or beginning chain; its length is that of the chain, 0 if unknown.
    """

    kind: Kind
    name: str
    length: int = 0
    turning: bool = False
    unit: Unit | None = None

    @property
    def is_stitch(self) -> bool:
        """True for whatever is counted as a stitch to work into (foundation chains too)."""
        return self.kind is not Kind.SPACE


CHAIN = Cell(Kind.CHAIN, "ch")


def stitch_cell(name: str, *, turning: bool = False, chains: int = 0) -> Cell:
    """Return the cell that a stitch called *name* leaves; chains: how long a counted chain is."""
    return Cell(Kind.STITCH, name, chains, turning=turning)


def space_cell(length: int) -> Cell:
    """Return the cell of a chain space of *length* chains."""
    return Cell(Kind.SPACE, f"ch-{length} sp", length)


@dataclass(frozen=True, slots=True)
class Run:
    """So many equal cells side by side."""

    cell: Cell
    count: int


@dataclass(frozen=True, slots=True)
class Section:
    """The same items *times* over; stitches and spaces are those of one pass."""

    items: tuple[Item, ...]
    times: int
    stitches: int
    spaces: int


Item: TypeAlias = Run | Section


def size(items: Iterable[Item]) -> tuple[int, int]:
    """Return (stitches, spaces) of *items*."""
    stitches = spaces = 0
    for item in items:
        if isinstance(item, Section):
            stitches += item.stitches * item.times
            spaces += item.spaces * item.times
        elif item.cell.is_stitch:
            stitches += item.count
        else:
            spaces += item.count
    return stitches, spaces


def section(items: tuple[Item, ...], times: int) -> tuple[Item, ...]:
    """Return *items* worked *times* over, in the shortest form."""
    if times <= 0 or not items:
        return ()
    if times == 1:
        return items
    if len(items) == 1:
        only = items[0]
        if isinstance(only, Run):
            return (Run(only.cell, only.count * times),)
        return (replace(only, times=only.times * times),)
    stitches, spaces = size(items)
    return (Section(items, times, stitches, spaces),)


def joined(items: Iterable[Item]) -> tuple[Item, ...]:
    """Return *items* with equal neighbours drawn into one run or section."""
    out: list[Item] = []
    for item in items:
        last = out[-1] if out else None
        if isinstance(item, Run) and isinstance(last, Run) and item.cell == last.cell:
            out[-1] = Run(last.cell, last.count + item.count)
        elif isinstance(item, Section) and isinstance(last, Section) and item.items == last.items:
            out[-1] = replace(last, times=last.times + item.times)
        else:
            out.append(item)
    return tuple(out)


def from_other_side(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """Return *items* as they are met when the work is turned: last made comes first."""
    out: list[Item] = []
    for item in reversed(items):
        if isinstance(item, Section):
            out.append(replace(item, items=from_other_side(item.items)))
        elif item.cell.unit:
            unit = item.cell.unit
            turned = replace(unit, index=unit.size - 1 - unit.index)
            out.append(Run(replace(item.cell, unit=turned), item.count))
        else:
            out.append(item)
    return tuple(out)


def cells(items: Iterable[Item]) -> Iterator[Cell]:
    """Yield each different cell of *items*, once for each time it is written."""
    for item in items:
        if isinstance(item, Section):
            yield from cells(item.items)
        else:
            yield item.cell


def cells_one_by_one(items: Iterable[Item], most: int) -> Iterator[Cell]:
    """Yield the cells of *items* in order, at most *most* of them and one."""
    yielded = 0
    for item in items:
        times = item.times if isinstance(item, Section) else item.count
        for _ in range(min(times, most + 1)):
            inner = item.items if isinstance(item, Section) else ()
            for cell in cells_one_by_one(inner, most) if inner else (item.cell,):  # type: ignore[union-attr]
                yield cell
                yielded += 1
                if yielded > most:
                    return


def holds(item: Item, wanted: Callable[[Cell], bool]) -> bool:
    """Tell whether *item* has a cell that is wanted."""
    if isinstance(item, Run):
        return wanted(item.cell)
    return any(holds(each, wanted) for each in item.items)


def count_of(items: Iterable[Item], wanted: Callable[[Cell], bool]) -> int:
    """Return how many cells of *items* are *wanted*, those of every pass."""
    total = 0
    for item in items:
        if isinstance(item, Section):
            total += count_of(item.items, wanted) * item.times
        elif wanted(item.cell):
            total += item.count
    return total
