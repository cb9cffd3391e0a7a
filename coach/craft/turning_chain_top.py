"""The top of the turning chain, and whether the chain named is the one that was made."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.fabric import Cell, Kind, Run
from coach.craft.fabric_taken import take
from coach.craft.hand import Hand
from coach.craft.instruction import Make, Target
from coach.craft.last_places import to_the_last
from coach.craft.made_in_places import made_in
from coach.craft.problem import Place, Verdict
from coach.craft.row_bench import Bench, Misfit, any_stitch
from coach.craft.stitch import height
from coach.craft.working import Into


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
