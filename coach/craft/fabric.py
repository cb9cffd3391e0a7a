"""What lies below a row: its places in order, as runs and repeated sections.

A row of four hundred equal blocks is held as one section and its count, never as one object
a stitch. The work moves along it with :class:`Rest`, an unchanging chain of what is still to
be met, so that a repeated section can be proved once and then passed over in one step.
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


class Rest:
    """What is still to be met: one item, then the rest; stitches and spaces count all of it."""

    __slots__ = ("item", "next", "spaces", "stitches")

    item: Item
    next: Rest | None
    stitches: int
    spaces: int

    def __init__(self, item: Item, following: Rest | None) -> None:
        self.item = item
        self.next = following
        stitches, spaces = size((item,))
        self.stitches = stitches + (following.stitches if following else 0)
        self.spaces = spaces + (following.spaces if following else 0)


def rest_of(items: tuple[Item, ...], following: Rest | None = None) -> Rest | None:
    """Return *items* as a rest that goes on into *following*."""
    for item in reversed(items):
        following = Rest(item, following)
    return following


def items_of(rest: Rest | None) -> tuple[Item, ...]:
    """Return all that is still to be met, in order."""
    items: list[Item] = []
    while rest is not None:
        items.append(rest.item)
        rest = rest.next
    return tuple(items)


def cells_ahead(rest: Rest | None) -> Iterator[Cell]:
    """Yield each different cell still to be met, in order, once for each time it is written."""
    while rest is not None:
        yield from cells((rest.item,))
        rest = rest.next


def before_last(
    rest: Rest | None, wanted: Callable[[Cell], bool], count: int
) -> tuple[tuple[Item, ...], Rest | None]:
    """Return what lies before the last *count* wanted cells, and the rest that begins with them."""
    items: list[Item] = []
    while rest is not None:
        items.append(rest.item)
        rest = rest.next
    aside: Rest | None = None
    while items and count:
        item = items.pop()
        if isinstance(item, Section) and holds(item, wanted):
            if item.times > 1:
                items.append(replace(item, times=item.times - 1))
            items += item.items
        elif isinstance(item, Run) and wanted(item.cell):
            taken = min(item.count, count)
            count -= taken
            aside = Rest(replace(item, count=taken), aside)
            if item.count > taken:
                items.append(replace(item, count=item.count - taken))
        else:
            aside = Rest(item, aside)
    return tuple(items), aside


def stitches_left(rest: Rest | None) -> int:
    """Return how many stitches are still to be met."""
    return rest.stitches if rest else 0


def spaces_left(rest: Rest | None) -> int:
    """Return how many chain spaces are still to be met."""
    return rest.spaces if rest else 0


def opened(rest: Rest) -> Rest:
    """Return the same rest with a run in front: one pass of a section is unfolded."""
    while isinstance(rest.item, Section):
        item = rest.item
        after = (
            Rest(replace(item, times=item.times - 1), rest.next) if item.times > 1 else rest.next
        )
        unfolded = rest_of(item.items, after)
        assert unfolded is not None  # noqa: S101 - a section is never empty
        rest = unfolded
    return rest


def without(rest: Rest, count: int) -> Rest | None:
    """Return *rest* (a run in front) less the first *count* cells of that run."""
    run = rest.item
    assert isinstance(run, Run)  # noqa: S101
    return Rest(Run(run.cell, run.count - count), rest.next) if run.count > count else rest.next


@dataclass(slots=True)
class Taken:
    """Places taken in order: the rest after them, what was passed over, what was not there."""

    rest: Rest | None
    found: int = 0
    passed: int = 0
    passed_spaces: int = 0
    missing: int = 0
    last: Cell | None = None


def take(rest: Rest | None, count: int, wanted: Callable[[Cell], bool]) -> Taken:
    """Take the next *count* cells that are wanted, passing over what lies between.

    What lies after the last one stays. When they are not all there, everything is passed
    and ``missing`` says how many are wanting.
    """
    got = Taken(rest)
    while count > 0:
        if got.rest is None:
            got.missing = count
            break
        item = got.rest.item
        if isinstance(item, Section):
            count = _take_passes(got, item, count, wanted)
            continue
        if wanted(item.cell):
            number = min(count, item.count)
            got.last = item.cell
            got.found += number
            count -= number
            got.rest = without(got.rest, number)
        else:
            _pass_run(got, item)
    return got


def _take_passes(got: Taken, item: Section, count: int, wanted: Callable[[Cell], bool]) -> int:
    """Go along a section: over whole passes at once where that is safe, else unfold one."""
    assert got.rest is not None  # noqa: S101
    each = count_of(item.items, wanted)
    if each == 0:
        got.passed += item.stitches * item.times
        got.passed_spaces += item.spaces * item.times
        got.rest = got.rest.next
        return count
    whole = min((count - 1) // each, item.times)
    if whole < 1:
        got.rest = opened(got.rest)
        return count
    stitches = whole * count_of(item.items, lambda cell: cell.is_stitch and wanted(cell))
    got.passed += item.stitches * whole - stitches
    got.passed_spaces += item.spaces * whole - (whole * each - stitches)
    got.found += whole * each
    left = item.times - whole
    got.rest = Rest(replace(item, times=left), got.rest.next) if left else got.rest.next
    return count - whole * each


def _pass_run(got: Taken, item: Run) -> None:
    assert got.rest is not None  # noqa: S101
    if item.cell.is_stitch:
        got.passed += item.count
    else:
        got.passed_spaces += item.count
    got.rest = got.rest.next


def count_of(items: Iterable[Item], wanted: Callable[[Cell], bool]) -> int:
    """Return how many cells of *items* are *wanted*, those of every pass."""
    total = 0
    for item in items:
        if isinstance(item, Section):
            total += count_of(item.items, wanted) * item.times
        elif wanted(item.cell):
            total += item.count
    return total


def drift(earlier: Rest | None, later: Rest | None) -> tuple[int, int] | None:
    """Return (depth, step) when two rests differ only in one count, else None.

    The item at *depth* has *step* fewer cells or passes in the later one; all before it is
    equal, all after it is the same. Then what was worked between them will be worked again.
    """
    depth = 0
    while earlier is not None and later is not None and depth < 64:
        if earlier is later:
            return None
        one, two = earlier.item, later.item
        if one == two:
            earlier, later, depth = earlier.next, later.next, depth + 1
            continue
        if earlier.next is not later.next:
            return None
        if isinstance(one, Run) and isinstance(two, Run) and one.cell == two.cell:
            return (depth, one.count - two.count) if one.count > two.count else None
        if isinstance(one, Section) and isinstance(two, Section) and one.items == two.items:
            return (depth, one.times - two.times) if one.times > two.times else None
        return None
    return None


def count_at(rest: Rest, depth: int) -> int:
    """Return the count of the item at *depth*: cells of a run, passes of a section."""
    for _ in range(depth):
        assert rest.next is not None  # noqa: S101
        rest = rest.next
    return rest.item.count if isinstance(rest.item, Run) else rest.item.times


def lowered(rest: Rest, depth: int, by: int) -> Rest:
    """Return *rest* with the item at *depth* lowered by so many cells or passes."""
    if depth:
        assert rest.next is not None  # noqa: S101
        return Rest(rest.item, lowered(rest.next, depth - 1, by))
    item = rest.item
    if isinstance(item, Run):
        return Rest(Run(item.cell, item.count - by), rest.next)
    return Rest(replace(item, times=item.times - by), rest.next)
