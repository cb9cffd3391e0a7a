"""Chains at a row's beginning, and those skipped at the hook: whether they count, and as what.

Where the pattern is silent the usual custom is taken and noted as looked at; the sums decide.
"""

from __future__ import annotations

from dataclasses import replace

from coach.craft.fabric import CHAIN, Item, Run, space_cell, stitch_cell
from coach.craft.fabric_ahead import Rest
from coach.craft.fabric_taken import take
from coach.craft.hand import Hand, stitches
from coach.craft.instruction import Chain, Skip
from coach.craft.places_wanted import moved_on
from coach.craft.row_bench import Bench, any_stitch
from coach.craft.stitch import LEG, family, height
from coach.craft.working import Block, Into, Where


def chain(bench: Bench, item: Chain, hand: Hand) -> Hand:
    """Chains: a beginning chain, the foundation itself, or a space in the air."""
    if (
        not hand.begun
        and hand.rest is None
        and bench.ground.kind == "none"
        and not hand.ring
        and not bench.ring_ahead
    ):
        block = Block("ch", item.count, Where(Into.NOTHING), role="foundation", color=hand.color)
        return replace(
            hand.making((), block),
            rest=Rest(Run(CHAIN, item.count), None),
            chains_here=item.count,
        )
    if item.worked:
        return along_chains(hand, item.count)
    if not hand.begun and not hand.standing and (hand.moved or not hand.chained):
        return stand(bench, item.count, stands_for(bench, item), hand)
    if hand.work is not None and isinstance(hand.work[0], Block) and hand.work[0].counts_as:
        bench.begun_with = None  # "ch 3 (counts as dc), ch 1" may be called ch-3 or ch-4 later
    block = Block("ch", item.count, Where(Into.NOTHING), makes_spaces=1, color=hand.color)
    return hand.making((Run(space_cell(item.count), 1),), block)


def along_chains(hand: Hand, count: int, *, already: bool = False) -> Hand:
    """Chains that are worked into next: new places, before those that are left of the row below."""
    block = Block("ch", count, Where(Into.NOTHING), color=hand.color, already_made=already)
    return replace(
        hand.making((), block),
        rest=Rest(Run(CHAIN, count), hand.rest),
        used=hand.used - count,
        moved=True,
    )


def stands_for(bench: Bench, item: Chain) -> str:
    """Return what a beginning chain counts as: a stitch, a stitch and a space, or nothing."""
    return counted_as(bench, item.count, item.counts_as)


def counted_as(bench: Bench, count: int, said: str | None) -> str:
    """Settle what so many beginning chains are: as said, by the notes, or by custom."""
    if said == LEG:
        return said  # of this stitch alone: no rule for other chains of the length
    answer = _counted_as(bench, count, said)
    bench.taken[count] = answer
    return answer


def _counted_as(bench: Bench, count: int, said: str | None) -> str:
    usual = usual_count(count, bench.first_height)
    if said is not None:
        return usual if said == "st" else said
    if count in bench.counts_as:
        noted = bench.counts_as[count]
        return usual if noted == "st" else noted
    if count < 2:
        return ""
    if 0 in bench.counts_as:
        return "" if not bench.counts_as[0] else usual
    bench.looked.add(("chain", count))
    for number, counts in bench.switches.chains:
        if number == count:
            return usual if counts else ""
    return "" if count == 2 else usual


def stand(bench: Bench, count: int, counts_as: str, hand: Hand, *, already: bool = False) -> Hand:
    """A chain at the beginning of a row: where it counts it uses the first place."""
    if not counts_as:
        if already:
            return hand
        role = "beginning" if bench.ground.round else "turning"
        block = Block("ch", count, Where(Into.NOTHING), role=role, color=hand.color)
        return hand.making((), block, chained=True)
    stitch, length = ("", 0) if counts_as == LEG else split_counts_as(counts_as)
    bench.begun_with = stitch_cell(stitch, turning=True, chains=count) if stitch else None
    uses = 0
    rest = hand.rest
    if not hand.moved and not hand.ring and rest is not None:
        got = take(rest, 1, any_stitch)
        if not got.missing and not (got.passed_spaces and bench.ground.kind == "round"):
            uses, rest = 1, got.rest
            hand = replace(hand, used_spaces=hand.used_spaces + got.passed_spaces)
    made: tuple[Item, ...] = stitches(stitch, 1, turning=True, chains=count) if stitch else ()
    if length:
        made += (Run(space_cell(length), 1),)
    block = Block(
        "ch",
        count,
        Where(Into.NOTHING),
        uses=uses,
        makes=1 if stitch else 0,
        makes_spaces=1 if length else 0,
        counts_as=None if counts_as == LEG else counts_as,
        role="beginning" if bench.ground.round else "turning",
        color=hand.color,
        already_made=already,
    )
    return replace(
        hand.making(made, block),
        rest=rest,
        used=hand.used + uses,
        standing=True,
        begun=True,
        moved=True,
        last=hand.last or "stitch",
    )


def skip_at_hook(bench: Bench, item: Skip, hand: Hand) -> Hand:
    """Foundation chains left at the hook, and what they stand for."""
    count = item.target.count
    counts_as = skipped_as(bench, count, item.counts_as)
    got = take(hand.rest, count, any_stitch)
    stitch, length = split_counts_as(counts_as)
    made: tuple[Item, ...] = stitches(stitch, 1, turning=True) if stitch else ()
    if length:
        made += (Run(space_cell(length), 1),)
    block = Block(
        "sk",
        count,
        Where(Into.CHAIN, places=count),
        uses=count,
        makes=1 if stitch else 0,
        makes_spaces=1 if length else 0,
        counts_as=counts_as or None,
        role="skipped chains",
        color=hand.color,
    )
    hand = moved_on(hand.making(made, block), got, count, 0)
    return replace(hand, standing=bool(counts_as), begun=True, chains_here=count)


def skipped_as(bench: Bench, count: int, said: str | None) -> str:
    """Settle what skipped foundation chains stand for."""
    usual = usual_skipped(count, bench.first_height)
    if said is None and bench.counts_as.get(count, "").startswith("+"):
        said = bench.counts_as[count]  # a block that the next row hangs in
    if said is not None:
        return usual if said == "st" else said
    if count < 2 or not usual:
        return ""
    bench.looked.add(("skipped", count))
    for number, counts in bench.switches.skipped:
        if number == count:
            return usual if counts else ""
    if count in bench.counts_as:
        return bench.counts_as[count] and usual
    if 0 in bench.counts_as and not bench.counts_as[0]:
        return ""
    return "" if count == 2 else usual


def usual_count(count: int, first: str | None) -> str:
    """Return what the trade takes a beginning chain of *count* for, before stitch *first*."""
    tall = height(first) if first else None
    names = {2: "hdc", 3: "dc", 4: "tr", 5: "dtr", 6: "trtr"}
    if tall is None or tall == 0:
        return names.get(count, "dc" if count < 2 else f"dc+ch-{count - 3}")
    if tall >= 2 and count <= tall:
        return family(first or "dc")
    if tall >= 2:
        return f"{family(first or 'dc')}+ch-{count - tall}"
    return names.get(count, "") if count <= 3 else f"dc+ch-{count - 3}"


def usual_skipped(count: int, first: str | None) -> str:
    """Return what *count* chains skipped at the hook stand for, before stitch *first*.

    More chains than the stitch is tall make an open corner: half of what is over lies above
    the chain, half is passed over below it.
    """
    tall = height(first) if first else None
    if tall is None:
        tall = 3
    if tall <= 1:
        return f"+ch-{count - count // 2}" if count >= 5 else ""
    if count <= tall:
        return family(first or "dc") if count >= tall - 1 else ""
    over = count - tall
    return f"{family(first or 'dc')}+ch-{over // 2}" if over >= 2 else family(first or "dc")


def split_counts_as(counts_as: str) -> tuple[str, int]:
    """Return (stitch, chain length) of "dc+ch-1", "dc" or "+ch-4"."""
    stitch, _, chain = counts_as.partition("+ch-")
    return stitch, int(chain) if chain.isdigit() else 0
