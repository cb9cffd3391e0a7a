"""What of the fabric is still to be met: an unchanging chain of items, so that it can be kept and compared."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from coach.craft.fabric import Cell, Item, Run, Section, cells, holds, size


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
