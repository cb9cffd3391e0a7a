"""Gaps between stitches or groups, where nothing was made: how far ahead one is, and work into it."""

from __future__ import annotations

from dataclasses import replace

from coach.craft import fabric
from coach.craft.fabric import Run
from coach.craft.fabric_ahead import Rest, opened, without
from coach.craft.fabric_taken import take
from coach.craft.hand import Hand
from coach.craft.instruction import Make, Noun, Of, Target, Which
from coach.craft.made_in_places import made_in
from coach.craft.row_bench import Bench, any_stitch
from coach.craft.working import Into


def gap_ahead(rest: Rest | None, *, grouped: bool) -> tuple[bool, int]:
    """Tell whether a gap lies ahead, and after how many stitches.

    A gap is between two groups, each worked in one place; where the row below has no groups it
    is between any two stitches.
    """
    passed = 0
    while rest is not None:
        rest = opened(rest)
        run = rest.item
        assert isinstance(run, Run)  # noqa: S101
        if not run.cell.is_stitch:
            return False, passed
        unit = run.cell.unit
        if not grouped:
            rest = without(rest, 1)
            return rest is not None, passed + 1
        if unit is None:
            passed += run.count
            rest = rest.next
        else:
            passed += 1
            rest = without(rest, 1)
        if rest is None:
            return False, passed
        following = opened(rest).item
        begins = (
            isinstance(following, Run)
            and following.cell.unit is not None
            and following.cell.unit.index == 0
        )
        if begins or (unit is not None and unit.index == unit.size - 1):
            return True, passed
    return False, passed


def _begins_group(rest: Rest | None) -> bool:
    ahead = opened(rest).item if rest is not None else None
    return isinstance(ahead, Run) and ahead.cell.unit is not None and ahead.cell.unit.index == 0


def without_spaces(bench: Bench, target: Target) -> Target:
    """Return "each sp" as the gaps between groups, where the row below has no chain space at all."""
    noun = target.noun
    if (
        noun.of is not Of.SPACE
        or noun.length is not None
        or noun.name
        or target.which is Which.SAME
    ):
        return target
    if any(not cell.is_stitch for cell in fabric.cells(bench.ground.below)):
        return target
    return replace(target, noun=Noun(Of.BETWEEN)) if has_groups(bench) else target


def has_groups(bench: Bench) -> bool:
    """Tell whether the row below has groups that were each worked in one place."""
    return any(cell.unit is not None for cell in fabric.cells(bench.ground.below))


def between(bench: Bench, item: Make, target: Target, hand: Hand) -> Hand:
    """The gap after the next group of stitches, or the one before it where that is named."""
    _, passed = gap_ahead(hand.rest, grouped=has_groups(bench))
    if target.noun.name == "before" and _begins_group(hand.rest):
        passed = 0
    got = take(hand.rest, passed, any_stitch)
    uses = got.passed + got.found
    hand = replace(
        hand,
        rest=got.rest,
        used=hand.used + uses,
        used_spaces=hand.used_spaces + got.passed_spaces,
    )
    return made_in(
        bench, item, target, hand, Into.BETWEEN, uses, 0, places=1, last="space", passing=uses
    )
