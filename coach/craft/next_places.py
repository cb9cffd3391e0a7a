"""Stitches into the next places of a kind: taken in order, told as one block."""

from __future__ import annotations

from dataclasses import replace

from coach.craft import fabric
from coach.craft.fabric import Cell, Kind, Run
from coach.craft.fabric_ahead import Rest, opened, spaces_left, stitches_left, without
from coach.craft.fabric_taken import Taken, take
from coach.craft.hand import Hand, stitches, tagged
from coach.craft.instruction import Make, Noun, Of, Skip, Target, Which
from coach.craft.last_places import to_the_last
from coach.craft.places_wanted import (
    corner_stitch,
    left_of,
    moved_on,
    name_of,
    none_found,
    position_of,
    sought,
)
from coach.craft.problem import Place, Verdict
from coach.craft.row_bench import Bench, Misfit, any_stitch
from coach.craft.skipping import skip
from coach.craft.stitch import height, legs
from coach.craft.working import Block, Into, Where

BEHIND = "the stitch behind it is skipped"


def in_next(bench: Bench, item: Make, target: Target, hand: Hand) -> Hand:  # noqa: PLR0912
    """The next so many places of the kind named, or the same drawn together."""
    together = legs(item.stitch)
    count = max(target.count, 1)
    target = _come_to(bench, target, hand)
    if target.remark == BEHIND:
        return made_in(bench, item, target, hand, Into.BELOW, 0, 0, places=count)
    if (hand.ends and hand.rest is None) or (hand.ends and target.noun.of is Of.SPACE):
        return made_in(bench, item, target, hand, _along(target, hand), 0, 0, places=count)
    wanted = sought(bench, target, hand)
    if target.which is Which.LAST and target.noun.of is Of.SPACE:
        ahead = left_of(hand.rest, wanted) - count
        if ahead > 0:
            passed = take(hand.rest, ahead, wanted)
            hand = replace(
                hand,
                rest=passed.rest,
                used=hand.used + passed.passed,
                used_spaces=hand.used_spaces + passed.passed_spaces + ahead,
            )
    if target.which is Which.LAST and target.noun.of in (Of.STITCH, Of.NAMED):
        hand = to_the_last(count, hand)
    if target.which is Which.NTH and not hand.begun:
        count = 1
        ahead = target.nth - 1 - (1 if hand.standing else 0)
        if ahead > 0:
            hand = skip(bench, Skip(Target(Which.NEXT, target.noun, count=ahead), item.place), hand)
    elif target.which is Which.NTH and hand.standing and target.nth == 2:
        count = 1
    drawn = 1
    if together > 1 and not (target.which is Which.SAME or target.noun.of is Of.SPACE):
        if target.together or (target.count % together == 0 and target.which is not Which.EACH):
            number = item.each * item.times
            count, drawn = max(target.count, together) * number, together
            item = replace(item, each=1, times=1)
        elif (
            target.count == 1
            and item.target is not None
            and target.which in (Which.NEXT, Which.CENTER, Which.CORNER)
        ):
            drawn = 1  # all its legs in one place: a cluster
        else:
            count, drawn = target.count * together * item.each * item.times, together
            item = replace(item, each=1, times=1)
    got = take(hand.rest, count, wanted)
    if not got.found and target.noun.of in (Of.NAMED, Of.SPACE, Of.UNIT):
        got = none_found(bench, got, target, hand, item.place)
    if target.within is not None:
        _pass_figure(bench, got)
    spaces = target.noun.of is Of.SPACE or bool(got.last and not got.last.is_stitch)
    if target.noun.of is Of.STITCH_OR_SPACE:
        return _either(bench, item, target, hand, got)
    uses = got.passed + (0 if spaces else got.found + got.missing)
    uses_spaces = got.passed_spaces + (got.found + got.missing if spaces else 0)
    into = Into.SPACE if spaces else Into.NEXT
    if drawn > 1:
        into = Into.TOGETHER
    elif got.last and got.last.kind is Kind.CHAIN:
        into = Into.CHAIN
    if target.rows_below:
        into = Into.BELOW
    over = 0 if spaces else got.missing
    hand = replace(
        hand,
        rest=got.rest,
        used=hand.used + uses,
        used_spaces=hand.used_spaces + uses_spaces,
        over=hand.over + over,
        over_spaces=hand.over_spaces + (got.missing if spaces else 0),
    )
    return made_in(
        bench,
        item,
        target,
        hand,
        into,
        uses,
        uses_spaces,
        places=count // drawn if drawn > 1 else count,
        last="space" if spaces else "stitch",
        cell=got.last,
        passing=got.passed + got.passed_spaces,
        drawn=drawn if drawn > 1 else 0,
    )


def _come_to(bench: Bench, target: Target, hand: Hand) -> Target:
    """Return the next stitch for "3 sc in corner" where nothing below marks a corner."""
    noun = target.noun
    if hand.ends or target.which is not Which.CORNER or noun != Noun(Of.SPACE, "corner"):
        return target
    if any(cell.kind is Kind.SPACE for cell in fabric.cells(bench.ground.below)):
        return target
    if corner_stitch(bench) is not None:
        return target
    return replace(target, which=Which.NEXT, noun=Noun(Of.STITCH))


def _along(target: Target, hand: Hand) -> Into:
    free = hand.loops_free or target.noun.of is Of.CHAIN
    return Into.FREE_LOOP if free else Into.NEXT


def _pass_figure(bench: Bench, got: Taken) -> None:
    """Pass what is left of the group that was worked into, where the reading is so."""
    unit = got.last.unit if got.last is not None else None
    if unit is None:
        return
    bench.looked.add(("figure", 0))
    if not bench.switches.figure:
        return
    for _ in range(unit.size - 1 - unit.index):
        rest = opened(got.rest) if got.rest is not None else None
        if rest is None or not isinstance(rest.item, Run) or rest.item.cell.unit is None:
            return
        if rest.item.cell.is_stitch:
            got.passed += 1
        else:
            got.passed_spaces += 1
        got.rest = without(rest, 1)


def _either(bench: Bench, item: Make, target: Target, hand: Hand, got: Taken) -> Hand:
    before = hand.rest
    uses = stitches_left(before) - stitches_left(got.rest) + got.missing
    uses_spaces = spaces_left(before) - spaces_left(got.rest)
    hand = moved_on(hand, got, uses, uses_spaces)
    return made_in(
        bench,
        item,
        target,
        hand,
        Into.STITCH_OR_SPACE,
        uses,
        uses_spaces,
        places=target.count,
        last="stitch",
    )


def made_in(  # noqa: PLR0917
    bench: Bench,
    item: Make,
    target: Target,
    hand: Hand,
    into: Into,
    uses: int,
    uses_spaces: int,
    *,
    places: int,
    last: str | None = None,
    cell: Cell | None = None,
    passing: int = 0,
    drawn: int = 0,
) -> Hand:
    """Return the hand with the stitches made and the block told."""
    count = item.each * places * item.times
    where = Where(
        into,
        places=drawn or places,
        named=name_of(target),
        chain_length=cell.length if cell and not cell.is_stitch else target.noun.length,
        position=position_of(target),
        loop=target.loop or item.loop or hand.loop,
        rows_below=target.rows_below,
        remark=target.remark,
    )
    slip = item.stitch == "sl st" and not bench.slips_count
    if slip and (hand.begun or bench.slips_in_turn) and into in (Into.NEXT, Into.CHAIN):
        bench.looked.add(("slip", 0))
        slip = not bench.switches.slips
    if slip:
        block = Block(
            "sl st",
            count,
            where,
            each=item.each,
            uses=uses,
            uses_spaces=uses_spaces,
            role="travel",
            color=hand.color,
            passing=passing,
        )
        return replace(hand.making((), block), moved=True, last=last or hand.last)
    name = item.stitch
    block = Block(
        name,
        count,
        where,
        each=item.each,
        uses=uses,
        uses_spaces=uses_spaces,
        makes=count,
        color=hand.color,
        passing=passing,
        pattern_stitch=item.named,
        role="beginning" if item.beginning else None,
    )
    cells = stitches(name, count)
    if item.each > 2 and places == 1 and item.times == 1:
        cells = tagged(cells, "")
    elif item.each > 2 and last == "space":
        cells = fabric.section(tagged(stitches(name, item.each), ""), places * item.times)
    if hand.standing and into is Into.SAME and hand.out and hand.out[1] is None:
        # a counted chain and what is worked beside it are one group, as a half shell is
        whole = (*hand.out[0], *stitches(name, count))
        grouped = count > 1 or len(hand.out[0]) > 1  # "ch 4, dc in same st" is a V-stitch
        hand, cells = replace(hand, out=None), tagged(whole, "") if grouped else whole
    return replace(
        hand.making(cells, block),
        begun=True,
        moved=True,
        last=last or hand.last or "stitch",
    )


def check_chain(cell: Cell, nth: int, named: int | None, place: Place, space: int = 0) -> None:
    """Hold a chain that is named against the one that was made; *cell* is what it left.

    space: the chain space beside it, which some writers take as part of it. A Misfit is raised
    where "5th ch" of 3 chains, or "the ch-4" where 3 were made, is not there.
    """
    chains = cell.length
    if not chains:
        return
    if nth > chains + space:
        raise Misfit(
            Verdict.NO_SUCH_PLACE, place, f"it asks for chain {nth} of a chain that has {chains}"
        )
    if named is not None and named > 1 and named not in (chains, chains + space, height(cell.name)):
        raise Misfit(
            Verdict.NO_SUCH_PLACE,
            place,
            f"it names a ch-{named}, but the chain made there is ch-{chains}",
        )


def _space_beside(bench: Bench) -> int:
    """Return the length of the space before the last place of the row below."""
    last = [item.cell for item in bench.ground.below[-2:] if isinstance(item, Run)]
    return last[0].length if len(last) == 2 and last[0].kind is Kind.SPACE else 0


def in_turning_chain(bench: Bench, item: Make, target: Target, hand: Hand) -> Hand:
    """The top of the turning chain: the last place of the row below."""
    hand = to_the_last(1, hand)
    got = take(hand.rest, 1, any_stitch)
    if got.last is not None and got.last.turning:
        check_chain(got.last, target.nth, target.noun.length, item.place, _space_beside(bench))
    uses = got.passed + got.found + got.missing
    hand = replace(
        hand,
        rest=got.rest,
        used=hand.used + uses,
        used_spaces=hand.used_spaces + got.passed_spaces,
        over=hand.over + got.missing,
    )
    return made_in(
        bench,
        item,
        target,
        hand,
        Into.TURNING_CHAIN,
        uses,
        got.passed_spaces,
        places=1,
        last="stitch",
    )


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
