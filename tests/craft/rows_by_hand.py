"""Rows put together by hand, for tests that need to know every block of a row."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from coach.craft.merging import sums_of
from coach.craft.problem import Verdict
from coach.craft.proof import Foundation, Proof, ProvedRow
from coach.craft.working import Action, Block, Group, Into, Passes, Where, Work

TURN = Action("turn")


def each(stitch: str, count: int, **where: Any) -> Block:
    """One *stitch* in each of the next *count* stitches."""
    place = Where(where.pop("into", Into.NEXT), count, **where)
    return Block(stitch, count, place, uses=count, makes=count)


def colored(stitch: str, count: int, color: str, **where: Any) -> Block:
    place = Where(Into.NEXT, count, **where)
    return Block(stitch, count, place, uses=count, makes=count, color=color)


def chain(count: int) -> Block:
    """Chains between stitches: a space."""
    return Block("ch", count, Where(Into.NOTHING), makes_spaces=1)


def skip(count: int) -> Block:
    return Block("sk", count, Where(Into.NEXT, count), uses=count)


def turning(count: int, counts_as: str | None = None) -> Block:
    stands = counts_as is not None
    return Block(
        "ch",
        count,
        Where(Into.NOTHING),
        uses=int(stands),
        makes=int(stands),
        counts_as=counts_as,
        role="turning",
    )


def skipped_chains(count: int, counts_as: str | None = None) -> Block:
    return Block(
        "sk",
        count,
        Where(Into.CHAIN, count),
        uses=count,
        makes=int(counts_as is not None),
        counts_as=counts_as,
        role="skipped chains",
    )


def top_of_chain(stitch: str = "dc") -> Block:
    return Block(stitch, 1, Where(Into.TURNING_CHAIN), uses=1, makes=1)


def increase(stitch: str, number: int = 2, places: int = 1) -> Block:
    place = Where(Into.NEXT, places)
    return Block(stitch, number * places, place, each=number, uses=places, makes=number * places)


def decrease(stitch: str, times: int = 1) -> Block:
    return Block(stitch, times, Where(Into.TOGETHER, 2), uses=2 * times, makes=times)


def join(named: str = "sc") -> Block:
    return Block("sl st", 1, Where(Into.NEXT, named=named, position="first"), role="join")


def in_space(*parts: Block, length: int = 2) -> Group:
    return Group(parts, Where(Into.SPACE, chain_length=length), uses_spaces=1)


def repeat(times: int, *parts: Work, last: Sequence[Work] | None = None) -> Passes:
    return Passes(parts, times, None if last is None else tuple(last))


def row(number: int, *work: Work, **facts: Any) -> ProvedRow:
    """A proved row of *work*; its sums are those of the work unless *facts* say otherwise."""
    sums = sums_of(work)
    told: dict[str, Any] = {
        "kind": "row",
        "label": f"Row {number}",
        "number": number,
        "part": None,
        "side": None,
        "line": number,
        "worked": sums.uses,
        "spaces_worked": sums.uses_spaces,
        "made": sums.made,
        "spaces": sums.made_spaces,
        "by_stitch": {},
        "stated": sums.made,
        "verdict": Verdict.OK,
        "work": work,
        "before": sums.uses,
    }
    return ProvedRow(**(told | facts))


def piece(*rows: ProvedRow, chains: int | None = None, **facts: Any) -> Proof:
    foundation = Foundation(chains) if chains else None
    return Proof("Try-out", "US", foundation, rows, **facts)
