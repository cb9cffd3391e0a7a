"""The proof of one row by places: each instruction uses places of the row below and makes new ones.

The row's instructions are worked on the fabric exactly as a maker would, with repeated
sections passed over as soon as they are seen to come round. Open repeats ("across", "to last
4 sts") are tried with every number of passes that may fit; the first that uses the row up is
taken. Nothing is guessed here: what the trade reads in two ways comes in as ``Switches``.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from coach.craft.beginning_chains import chain, stand, stands_for
from coach.craft.each_place import each_of
from coach.craft.even_spread import evenly
from coach.craft.fabric_ahead import stitches_left
from coach.craft.groups_in_place import group
from coach.craft.hand import Hand
from coach.craft.instruction import (
    Act,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Join,
    Leave,
    Make,
    Of,
    Picot,
    Repeated,
    Sides,
    Skip,
    Spread,
    Which,
)
from coach.craft.open_ends import is_open
from coach.craft.places_wanted import begun_at, sought
from coach.craft.problem import Place, Verdict
from coach.craft.row_bench import Bench, Misfit
from coach.craft.row_closings import act, join, leave, picot, sides
from coach.craft.row_repeats import counted, open_outcomes
from coach.craft.row_stitches import make, meets_the_first_chain, short_of_the_first_chain
from coach.craft.skipping import skip

MOST_OUTCOMES = 600  # ways of cutting one row's open repeats that are looked at


def outcomes(bench: Bench, items: Sequence[Instruction], hand: Hand) -> Iterator[Hand]:
    """Yield the hands that *items* may end with: one, or more where a repeat is open."""
    for index, item in enumerate(items):
        if isinstance(item, Chain) and hand.moved and not hand.begun and hand.last == "stitch":
            counts_as = stands_for(bench, item)
            if counts_as:
                for travelled in (False, True):
                    stood = replace(hand, moved=travelled)
                    yield from outcomes(
                        bench, items[index + 1 :], stand(bench, item.count, counts_as, stood)
                    )
                return
        if isinstance(item, Skip) and item.target.which is Which.ANY and _at_its_start(bench, hand):
            for joined in _joined_anywhere(bench, item, hand):
                yield from outcomes(bench, items[index + 1 :], joined)
            return
        if _may_only_join(bench, item, items[index + 1 :], hand):
            yield from outcomes(bench, (Join(item.place), *items[index + 1 :]), hand)
        if short_of_the_first_chain(bench, item, hand):
            return
        if is_open(item) and not meets_the_first_chain(bench, item, hand):
            tail = tuple(items[index + 1 :])
            for after in open_outcomes(bench, item, hand, tail):
                yield from outcomes(bench, tail, after)
            return
        hand = bench.step(item, hand)
    yield hand


def _may_only_join(
    bench: Bench, item: Instruction, tail: Sequence[Instruction], hand: Hand
) -> bool:
    """Tell whether a bare slip stitch ends a round: ", ss" is the join, or one stitch more."""
    return (
        isinstance(item, Make)
        and item.stitch == "sl st"
        and item.target is None
        and item.each * item.times == 1
        and bench.ground.round
        and hand.begun
        and all(isinstance(after, Act | Chain) for after in tail)
    )


def _at_its_start(bench: Bench, hand: Hand) -> bool:
    return bench.ground.round and not hand.begun and not hand.moved


def _joined_anywhere(bench: Bench, item: Skip, hand: Hand) -> list[Hand]:
    """Yarn joined in any such place: the round begins there, at the place or just after it.

    "Join in any ch-2 sp, ch 3, 2 dc in same sp" has it behind; "*3 dc in ch-2 sp" works into it.
    """
    begun = replace(hand, rest=begun_at(hand.rest, sought(bench, item.target, hand)))
    after = bench.step(replace(item, target=replace(item.target, which=Which.NEXT)), begun)
    return [after, begun] if item.target.noun.of is Of.SPACE else [begun, after]


def work_all(bench: Bench, items: Sequence[Instruction], hand: Hand) -> Hand:
    """Return the first hand that *items* end with."""
    for after in outcomes(bench, items, hand):
        return after
    raise Misfit(Verdict.REPEAT_DOES_NOT_FIT, _place_of(items), "the repeat does not come out")


def step(bench: Bench, item: Instruction, hand: Hand) -> Hand:  # noqa: PLR0911, PLR0912
    """Return the hand after one instruction that has one outcome."""
    bench.budget -= 1
    if bench.budget < 0:
        raise Misfit(
            Verdict.BROKEN_NOTATION,
            getattr(item, "place", Place(1, 1)),
            "this row takes too many steps to work out",
        )
    match item:
        case Make():
            return make(bench, item, hand)
        case Chain():
            return chain(bench, item, hand)
        case Skip():
            return skip(bench, item, hand)
        case GroupIn():
            return group(bench, item, hand)
        case EachOf():
            return each_of(bench, item, hand, None)
        case Repeated():
            return counted(bench, item, hand)
        case Join():
            return join(bench, item, hand)
        case Leave():
            return leave(bench, item, hand)
        case Picot():
            return picot(bench, item, hand)
        case Sides():
            return sides(bench, item, hand)
        case Spread():
            return work_all(bench, evenly(item, stitches_left(hand.rest)), hand)
        case Act():
            return act(bench, item, hand)


def _place_of(items: Sequence[Instruction]) -> Place:
    for item in items:
        return item.place
    return Place(1, 1)
