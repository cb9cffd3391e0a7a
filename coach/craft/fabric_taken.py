"""Places taken from what lies ahead, in order, passing over whole repeats at once where that is safe."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from coach.craft.fabric import Cell, Run, Section, count_of
from coach.craft.fabric_ahead import Rest, opened, without


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
