"""Stitches of a row: which kind of place each goes into, and where one without a place goes."""

from __future__ import annotations

import re
from dataclasses import replace

from coach.craft import fabric
from coach.craft.fabric import Item, Run
from coach.craft.fabric_ahead import rest_of, stitches_left
from coach.craft.fabric_taken import take
from coach.craft.gaps import between, without_spaces
from coach.craft.hand import Hand, items_made, tagged
from coach.craft.instruction import (
    AS_FIRST,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Join,
    Make,
    Noun,
    Of,
    Target,
    Which,
)
from coach.craft.made_in_places import made_in
from coach.craft.next_places import in_next
from coach.craft.pattern import SpecialStitch
from coach.craft.places_wanted import begun_at, moved_on, over_several_kinds, sought
from coach.craft.row_bench import Bench, any_stitch
from coach.craft.row_closings import join
from coach.craft.row_pieces import goes_along, hung_in, parts_in_place, squares
from coach.craft.spaces_as_chains import chains_opened
from coach.craft.stitch import legs
from coach.craft.travelling import passed_to_the_end, stands_where_travelled
from coach.craft.turning_chain_top import in_turning_chain
from coach.craft.working import Into

MOST_TURNED = 2  # a longer chain made in the row itself has places of its own
FOUNDATION_STITCHES = ("fsc", "fhdc", "fdc", "ftr")


def make(bench: Bench, item: Make, hand: Hand) -> Hand:
    """Stitches into places: the heart of a row."""
    target = item.target
    if target is None and (group := _beginning_group(bench, item)) is not None:
        return _begun_with_group(bench, item, group, hand)
    if target is None:
        target, item = bare(bench, item, hand)
    target = without_spaces(bench, target)
    for each in (target, *target.also):
        hand = chains_opened(bench, each, hand)
    if target.also and _all_each(target):
        return bench.step(over_several_kinds(item, target), hand)
    if item.stitch == "sl st" and not hand.begun and bench.ground.kind == "round":
        return _travelled(bench, item, target, hand)
    hand = make_in(bench, item, target, hand)
    for further in target.also:
        hand = make_in(bench, item, further, hand)
    return hand


def _beginning_group(bench: Bench, item: Make) -> SpecialStitch | None:
    """Return the group that a round begins with: "beg shell", of a chain and what stands beside it."""
    special = bench.specials.get(item.named or "")
    if special is None or not special.name.lower().startswith("beg"):
        return None
    lead, parts = _led_to(special)
    if not lead and goes_along(special):
        return None
    return special if len(parts) > 1 and isinstance(parts[0], Chain) else None


def _led_to(special: SpecialStitch) -> tuple[tuple[Instruction, ...], tuple[Instruction, ...]]:
    """Part "sl st in next dc and in ch-2 sp, ch 3, ..." into the way there and the group itself."""
    way = 0
    for part in special.parts:
        if not isinstance(part, Make) or part.stitch != "sl st":
            break
        way += 1
    return special.parts[:way], special.parts[way:]


def _begun_with_group(bench: Bench, item: Make, special: SpecialStitch, hand: Hand) -> Hand:
    """Work a beginning group where the hook stands; it is one of the groups that it begins."""
    beside = Target(Which.SAME, Noun(Of.STITCH))  # where the chain stands, all of the group goes
    lead, group = _led_to(special)
    parts = tuple(
        replace(part, target=beside) if isinstance(part, Make) and part.target is None else part
        for part in group
    )
    hand = bench.work_all(lead, hand)
    after = bench.work_all(parts, replace(hand, out=None))
    name = _begun(special.name)
    made = tuple(_alone(each) for each in items_made(after))
    return replace(after, out=(tagged(made, name), hand.out))


def _begun(name: str) -> str:
    """Return what a beginning group is one of: "shell" for "beg shell"."""
    return re.sub(r"^beg\w*\s+", "", name, flags=re.IGNORECASE)


def _alone(item: Item) -> Item:
    """Return a run of cells without the group that they were part of."""
    return replace(item, cell=replace(item.cell, unit=None)) if isinstance(item, Run) else item


def _travelled(bench: Bench, item: Make, target: Target, hand: Hand) -> Hand:
    """Slip stitches at the beginning of a round: they move its beginning on, and make nothing."""
    before = hand
    if not hand.moved:
        hand = leave_join_place(bench, target, hand)
    for each in (target, *target.also):
        reached = replace(each, which=Which.NEXT) if each.which is Which.ANY else each
        hand = make_in(bench, item, reached, hand)
        if not hand.begun:
            hand = before = passed_to_the_end(before, hand)
    return hand


def bare(bench: Bench, item: Make, hand: Hand) -> tuple[Target, Make]:
    """Give a stitch without a place its place: the next ones, or all in one by the reading."""
    if hand.ring and hand.rest is None:
        return Target(Which.SAME, Noun(Of.RING)), item
    any_next = Noun(Of.STITCH)
    if item.increase or legs(item.stitch) > 1:
        drawn = legs(item.stitch)
        places = Target(Which.NEXT, any_next, count=item.times * drawn, together=drawn > 1)
        return places, replace(item, times=1)
    if item.each in (2, 3) and item.named is None:
        bench.looked.add(("bare", 0))
        if bench.switches.bare_in_one:
            return Target(Which.NEXT, any_next, count=1), item
    return Target(Which.NEXT, any_next, count=item.each), replace(item, each=1)


def leave_join_place(bench: Bench, target: Target, hand: Hand) -> Hand:
    """In a joined round the join stands on the first stitch: travelling starts after it."""
    if target.which is not Which.NEXT or target.noun.of in (Of.SPACE, Of.UNIT):
        return hand
    if bench.ground.below and not _starts_with_stitch(bench.ground.below):
        return hand
    got = take(hand.rest, 1, any_stitch)
    if got.missing:
        return hand
    return moved_on(hand, got, 1 + got.passed, got.passed_spaces)


def make_in(bench: Bench, item: Make, target: Target, hand: Hand) -> Hand:  # noqa: PLR0911, PLR0912
    """Work one kind of stitch into one kind of place."""
    special = bench.specials.get(item.named or "")
    if special and goes_along(special) and not hung_in(special, target):
        return squares(bench, item, target.count, special, hand)
    if special and special.parts:
        parts = parts_in_place(special)
        name = _begun(item.named) if item.named else None
        return bench.step(GroupIn(parts, spread(item, target), item.place, name=name), hand)
    if item.stitch in FOUNDATION_STITCHES and bench.ground.kind == "none":
        return made_in(bench, item, target, hand, Into.NOTHING, 0, 0, places=target.count)
    match target.noun.of:
        case Of.RING:
            hand = replace(hand, rest=None, ring=True, used=0, used_spaces=0)
            return made_in(bench, item, target, hand, Into.RING, 0, 0, places=1, last="ring")
        case Of.SKIPPED:
            if hand.used == 0:
                hand = replace(hand, ends=True)  # skipped in an earlier row: an opening
            return made_in(bench, item, target, hand, Into.SKIPPED, 0, 0, places=target.count)
        case Of.CHAIN | Of.FREE_LOOP | Of.STITCH if meets_the_first_chain(bench, item, hand):
            hand = replace(hand, ends=True, rest=None, loops_free=True)
            edge = bench.ground.chain_edge
            return made_in(bench, item, target, hand, Into.FREE_LOOP, 0, 0, places=edge)
        case Of.ROW_END | Of.FREE_LOOP if (
            hand.rest is None or hand.ends or target.noun.of is Of.ROW_END
        ):
            hand = replace(hand, ends=True, loops_free=target.noun.of is Of.FREE_LOOP)
            if target.which is Which.EACH and bench.ground.row_ends:
                target = replace(target, count=bench.ground.row_ends)
            into = Into.ROW_END if target.noun.of is Of.ROW_END else Into.FREE_LOOP
            return made_in(bench, item, target, hand, into, 0, 0, places=target.count)
        case Of.TURNING_CHAIN:
            return in_turning_chain(bench, item, target, hand)
        case Of.BETWEEN:
            return between(bench, item, target, hand)
    if target.which is Which.ANY:
        if bench.ground.round and not hand.begun and not hand.moved:
            hand = replace(hand, rest=begun_at(hand.rest, sought(bench, target, hand)))
        travelled = hand.last == "space" and not hand.begun
        same = travelled or stands_where_travelled(hand)
        target = replace(target, which=Which.SAME if same else Which.NEXT)
    if target.which is Which.CORNER and target.noun.of is Of.SPACE and stands_where_travelled(hand):
        target = replace(target, which=Which.SAME)
    if target.which is Which.SAME and target.noun.of is Of.SPACE and not hand.moved:
        hand = _in_the_space_of_the_join(bench, hand)
    if target.which is Which.SAME and target.noun.of is Of.SPACE and _stands_in_space(bench, hand):
        got = take(hand.rest, 1, lambda cell: not cell.is_stitch)
        hand = replace(hand, rest=got.rest, used_spaces=hand.used_spaces + 1)
    if target.remark == AS_FIRST and stitches_left(hand.rest) == 1:
        return in_next(bench, item, replace(target, which=Which.NEXT, remark=None), hand)
    if target.which is Which.SAME and (hand.moved or hand.ring):
        return made_in(bench, item, target, hand, Into.SAME, 0, 0, places=1)
    if (
        target.which is Which.FIRST
        and bench.ground.round
        and hand.begun
        and (not stitches_left(hand.rest) or hand.last == "space")
        and bench.ground.below
        and item.each == 1
    ):
        return join(bench, Join(item.place, item.stitch, "first stitch"), hand)
    if (
        target.which is Which.FIRST
        and hand.standing
        and target.count == 1
        and (target.noun.of is not Of.SPACE)
    ):
        return made_in(bench, item, target, hand, Into.SAME, 0, 0, places=1)
    if target.which is Which.EACH:
        return bench.step(EachOf((replace(item, target=target),), item.place, target.until), hand)
    return in_next(bench, item, target, hand)


def meets_the_first_chain(bench: Bench, item: Instruction, hand: Hand) -> bool:
    """ "Sc in each foundation ch" once the row below is all worked: the edge where the piece began."""
    return _names_the_first_chain(bench, item, hand) and not stitches_left(hand.rest)


def short_of_the_first_chain(bench: Bench, item: Instruction, hand: Hand) -> bool:
    """Tell whether the first edge is named while a stretch before it has left some of the row below.

    To stop short there would only serve a count that leaves out the chain.
    """
    left = stitches_left(hand.rest)
    if not left or not hand.used or not _names_the_first_chain(bench, item, hand):
        return False
    return all(cell.kind is fabric.Kind.STITCH for cell in fabric.cells(bench.ground.below))


def _names_the_first_chain(bench: Bench, item: Instruction, hand: Hand) -> bool:
    target = item.target if isinstance(item, Make) else None
    if target is None or target.which is not Which.EACH or target.until is not None or target.also:
        return False
    of = target.noun.of
    chains = of in {Of.CHAIN, Of.FREE_LOOP} or (of is Of.STITCH and hand.loops_free)
    return chains and bench.ground.chain_edge > 0 and hand.chains_here < MOST_TURNED


def _in_the_space_of_the_join(bench: Bench, hand: Hand) -> Hand:
    """Begin a round in the last space of the round below, which its closing stitch made."""
    below = bench.ground.below
    last = below[-1] if below else None
    if bench.ground.kind != "round" or not isinstance(last, Run) or last.cell.is_stitch:
        return hand
    before = (Run(last.cell, last.count - 1),) if last.count > 1 else ()
    return replace(hand, rest=rest_of((Run(last.cell, 1), *below[:-1], *before)))


def _stands_in_space(bench: Bench, hand: Hand) -> bool:
    """ "Ch 3, 2 dc in same sp" of a round that begins with a space, or beside it: the chain's own."""
    rest = hand.rest
    if bench.ground.kind != "round" or not hand.standing or hand.ring or rest is None:
        return False
    made = 0 if hand.out is None else fabric.size(items_made(hand))[0]
    begun = not hand.used or hand.used == made == 1
    return begun and not hand.used_spaces and not _starts_with_stitch((rest.item,))


def spread(item: Make, target: Target) -> Target:
    """Return the target for *each* of a named group: "2 shells" take two places."""
    if target.which is Which.SAME or item.each == 1:
        return target
    return replace(target, count=target.count * item.each)


def _all_each(target: Target) -> bool:
    return all(each.which is Which.EACH for each in (target, *target.also))


def _starts_with_stitch(items: tuple[Item, ...]) -> bool:
    for cell in fabric.cells(items):
        return cell.is_stitch
    return False
