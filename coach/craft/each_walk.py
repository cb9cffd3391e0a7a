"""A walk over a stretch of places, with one instruction for each kind of place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from coach.craft import fabric
from coach.craft.fabric import Cell, Item, Kind, Run, Section
from coach.craft.fabric_ahead import Rest, opened, stitches_left, without
from coach.craft.groups_in_place import group_once
from coach.craft.hand import Hand, items_made, passes, stitches, tagged, work_done
from coach.craft.instruction import EachOf, GroupIn, Make, Of, Which
from coach.craft.places_wanted import corner_stitch, name_of, sought, target_of, what_is_there
from coach.craft.problem import Verdict
from coach.craft.row_bench import Bench, Misfit
from coach.craft.row_pieces import parts_in_place
from coach.craft.stitch import legs
from coach.craft.working import Block, Into, Where, Work
from coach.craft.works_told import many_times, told_on

STITCHES = (Of.STITCH, Of.NAMED)


class EachWalk:
    """Going over a stretch of places with one instruction for each kind of place."""

    def __init__(self, bench: Bench, item: EachOf, hand: Hand) -> None:
        self.bench = bench
        self.item = item
        self.hand = hand
        self.tests = [(_place_of_kind(bench, part, hand), part) for part in item.parts]
        self.found = 0
        below = hand.rest
        named = [part for part in item.parts if target_of(part).noun.of in (Of.NAMED, Of.UNIT)]
        if below is not None and named and not self._any(below):
            fault = named[0]
            raise Misfit(
                Verdict.NO_SUCH_PLACE,
                fault.place,
                what_is_there(bench, target_of(fault).noun),
            )
        spaces = [part for part in item.parts if target_of(part).noun.of is Of.SPACE]
        if below is not None and spaces and not self._any(below) and len(spaces) == len(item.parts):
            raise Misfit(
                Verdict.NO_SUCH_PLACE,
                spaces[0].place,
                what_is_there(bench, target_of(spaces[0]).noun),
            )
        for part in spaces:
            wanted = sought(bench, target_of(part), hand)
            there = [cell for cell in fabric.cells(bench.ground.below) if not cell.is_stitch]
            if there and not any(wanted(cell) for cell in there):
                raise Misfit(
                    Verdict.NO_SUCH_PLACE,
                    part.place,
                    what_is_there(bench, target_of(part).noun),
                )
        self.only_spaces = len(spaces) == len(item.parts)

    def _any(self, rest: Rest | None) -> bool:
        while rest is not None:
            if any(fabric.holds(rest.item, test) for test, _ in self.tests):
                return True
            rest = rest.next
        return False

    def over(self, limit: int | Callable[[Cell], bool]) -> Hand:  # noqa: PLR0912
        """Return the hand after the stretch: *limit* stitches, or up to the cell that stops it."""
        hand = self.hand
        rest = hand.rest
        allowed = limit if isinstance(limit, int) else None
        stop = None if isinstance(limit, int) else limit
        if allowed is not None and allowed < 0:
            return replace(hand, over=hand.over - allowed, used=hand.used)
        out: list[Item] = []
        works: list[Work] = []
        used = used_spaces = 0
        everything = allowed is not None and allowed >= stitches_left(rest)
        while rest is not None:
            if allowed is not None and allowed <= 0 and not everything:
                rest = opened(rest)
                if not self._space_to_work(rest.item):
                    break
            item = rest.item
            if isinstance(item, Section):
                times = item.times
                if stop is not None and fabric.holds(item, stop):
                    times = 0
                elif allowed is not None and not everything:
                    times = min(times, (allowed - 1) // item.stitches if item.stitches else times)
                if times < 1:
                    rest = opened(rest)
                    continue
                made, done = self.all_of(item.items)
                out += fabric.section(made, times)
                told_on(
                    works, passes([(done, times)]) if len(done) > 1 else many_times(done, times)
                )
                used += item.stitches * times
                used_spaces += item.spaces * times
                if allowed is not None:
                    allowed -= item.stitches * times
                left = item.times - times
                rest = Rest(replace(item, times=left), rest.next) if left else rest.next
                continue
            if stop is not None and stop(item.cell):
                break
            number = item.count
            if allowed is not None and item.cell.is_stitch and not everything:
                number = min(number, allowed)
                allowed -= number
            made, done = self.one(Run(item.cell, number))
            out += made
            told_on(works, done)
            if item.cell.is_stitch:
                used += number
            else:
                used_spaces += number
            rest = without(rest, number)
        spaces = bool(self.found) and self.only_spaces
        return replace(
            hand.making(fabric.joined(out), *works),
            rest=rest,
            used=hand.used + used,
            used_spaces=hand.used_spaces + used_spaces,
            begun=hand.begun or bool(works),
            moved=True,
            last="space" if spaces else "stitch",
        )

    def _space_to_work(self, item: Item) -> bool:
        """A space that lies before the places left aside still belongs to the stretch."""
        return (
            isinstance(item, Run)
            and item.cell.kind is Kind.SPACE
            and any(test(item.cell) for test, _ in self.tests)
        )

    def all_of(self, items: tuple[Item, ...]) -> tuple[tuple[Item, ...], tuple[Work, ...]]:
        """Return what is made over all of *items*."""
        out: list[Item] = []
        works: list[Work] = []
        for item in items:
            if isinstance(item, Section):
                made, done = self.all_of(item.items)
                out += fabric.section(made, item.times)
                told_on(
                    works,
                    passes([(done, item.times)]) if len(done) > 1 else many_times(done, item.times),
                )
            else:
                made, done = self.one(item)
                out += made
                told_on(works, done)
        return fabric.joined(out), tuple(works)

    def one(self, run: Run) -> tuple[tuple[Item, ...], tuple[Work, ...]]:
        """Return what is made over a run of equal places."""
        for test, part in self.tests:
            if test(run.cell):
                self.found += run.count
                return self.worked(part, run)
        return (), ()

    def worked(self, part: Make | GroupIn, run: Run) -> tuple[tuple[Item, ...], tuple[Work, ...]]:
        """Return what one instruction makes over a run: decreases take several places."""
        bench, hand = self.bench, self.hand
        target = replace(
            target_of(part), which=Which.NEXT, count=1, until=None, also=(), open=False
        )
        if isinstance(part, Make) and not (
            bench.specials.get(part.named or "") and bench.specials[part.named or ""].parts
        ):
            drawn = legs(part.stitch)
            groups = drawn if drawn > 1 and not target.together and part.target is None else 1
            number = run.count // groups
            count = number * part.each * part.times
            space = not run.cell.is_stitch
            kind = (
                Into.SPACE if space else (Into.CHAIN if run.cell.kind is Kind.CHAIN else Into.NEXT)
            )
            mixed = (
                len(self.tests) > 1
                and len(
                    {(p.stitch, p.each) if isinstance(p, Make) else ("", 0) for _, p in self.tests}
                )
                == 1
            )
            if mixed or target.noun.of is Of.STITCH_OR_SPACE:
                kind = Into.STITCH_OR_SPACE
            where = Where(
                kind,
                places=run.count,
                named=None if mixed else name_of(target),
                chain_length=run.cell.length if space and not mixed else None,
                loop=target.loop or part.loop or hand.loop,
                rows_below=target.rows_below,
            )
            slip = part.stitch == "sl st" and not bench.slips_count
            block = Block(
                part.stitch,
                count,
                where,
                each=part.each,
                uses=0 if space else run.count,
                uses_spaces=run.count if space else 0,
                makes=0 if slip else count,
                color=hand.color,
                pattern_stitch=part.named,
                role="travel" if slip else None,
            )
            cells = () if slip else stitches(part.stitch, count)
            if part.each > 2 and not slip:
                cells = fabric.section(tagged(stitches(part.stitch, part.each), ""), number)
            return cells, (block,)
        group = (
            part
            if isinstance(part, GroupIn)
            else GroupIn(
                parts_in_place(bench.specials[part.named or ""]),
                target,
                part.place,
                name=part.named,
            )
        )
        single = Rest(Run(run.cell, 1), None)
        after = group_once(
            bench, group, target, Hand(single, begun=True, moved=True, color=hand.color)
        )
        made, works = items_made(after), work_done(after)
        return fabric.section(made, run.count), many_times(works, run.count)


def _place_of_kind(bench: Bench, part: Make | GroupIn, hand: Hand) -> Callable[[Cell], bool]:
    """Return the test of the places that get *part*: a corner is none where nothing marks it."""
    target = target_of(part)
    if target.which is Which.CORNER and target.noun.of in STITCHES and corner_stitch(bench) is None:
        return lambda _: False
    return sought(bench, target, hand)
