"""What in a row can go wrong: its repeats, increases, sides, edges, and the spaces below it.

Cost follows what is written: a repeat of any number of passes is looked at once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from coach.craft.merging import sums_of
from coach.craft.proof import ProvedRow
from coach.craft.stages import turning_chain
from coach.craft.working import Block, Group, Into, Passes, Work

_GAPS = frozenset({Into.SPACE, Into.BETWEEN})


@dataclass(frozen=True, slots=True)
class Repeat:
    """One repeat of a row: how many passes in all, and what a full pass uses and makes."""

    passes: int
    uses: int
    makes: int
    makes_spaces: int


@dataclass(frozen=True, slots=True)
class Shape:
    """What a row is made of, as far as a count can go wrong by it.

    increases / decreases: how many in the row. sides: corners of a round. spaces_below: chain
    spaces and gaps between groups below that this row passes over. stitches_a_space: how many
    go into each space, where the row is worked into spaces only; else 0.
    """

    repeats: tuple[Repeat, ...]
    increases: int
    decreases: int
    sides: int
    spaces_below: int
    stitches_a_space: int
    chain_counts: bool
    into_ring: bool
    into_chain: bool


def shape_of(row: ProvedRow, below: ProvedRow | None) -> Shape:
    """Return the shape of *row*, worked into *below* (None for a first row)."""
    pieces = tuple(_pieces(row.work, 1))
    chain = turning_chain(row.work)
    into = {piece.where.into for piece, _ in pieces}
    return Shape(
        repeats=tuple(_repeats(row.work)),
        increases=sum(times * _increases(piece) for piece, times in pieces),
        decreases=sum(times * _decreases(piece) for piece, times in pieces),
        sides=_sides(row, pieces),
        spaces_below=_spaces_passed_over(row, below, into),
        stitches_a_space=_stitches_a_space(pieces),
        chain_counts=chain is not None and chain.counts_as is not None,
        into_ring=Into.RING in into,
        into_chain=Into.CHAIN in into,
    )


def _pieces(work: Sequence[Work], times: int) -> Iterator[tuple[Block | Group, int]]:
    """Yield each block and group with how often it is worked in the whole row."""
    for item in work:
        if isinstance(item, Passes):
            yield from _pieces(item.parts, times * item.times)
            if item.last is not None:
                yield from _pieces(item.last, times)
        elif isinstance(item, Block | Group):
            yield item, times


def _repeats(work: Sequence[Work]) -> Iterator[Repeat]:
    for item in work:
        if isinstance(item, Passes):
            sums = sums_of(item.parts)
            yield Repeat(item.total, sums.uses, sums.made, sums.made_spaces)
        elif isinstance(item, Block) and _is_evenly_worked(item):
            places = item.count // item.each
            yield Repeat(places, 1, item.each, 0)


def _is_evenly_worked(block: Block) -> bool:
    """Several in every place: each place is a small repeat of its own."""
    return block.each > 1 and block.stitch not in {"ch", "sk"} and block.count > block.each


def _increases(piece: Block | Group) -> int:
    """How many stitches more than places, where one place takes two or three of them."""
    if isinstance(piece, Group):
        made = sum(part.makes for part in piece.parts)
        spaces = sum(part.makes_spaces for part in piece.parts)
        plain = piece.uses == piece.times and not spaces and 2 <= made <= 3
        return piece.times * (made - 1) if plain else 0
    if piece.where.into in _GAPS or piece.where.into is Into.RING or not 2 <= piece.each <= 3:
        return 0
    return piece.count - piece.count // piece.each


def _decreases(piece: Block | Group) -> int:
    """How many stitches fewer than places, where one stitch draws several together."""
    if isinstance(piece, Group) or piece.where.into is not Into.TOGETHER:
        return 0
    return max(0, piece.uses - piece.makes)


def _sides(row: ProvedRow, pieces: Sequence[tuple[Block | Group, int]]) -> int:
    """How many corners a round has: groups with a chain between their stitches."""
    if row.kind != "round":
        return 0
    return sum(
        times * piece.times
        for piece, times in pieces
        if isinstance(piece, Group)
        and any(part.makes_spaces for part in piece.parts)
        and any(part.makes for part in piece.parts)
        and (piece.where.into is Into.SPACE or piece.where.position == "corner")
    )


def _spaces_passed_over(row: ProvedRow, below: ProvedRow | None, into: set[Into]) -> int:
    """How many spaces lie below that are no places of this row."""
    if below is None or into & _GAPS:
        return 0
    return below.spaces + _gaps_between_groups(below)


def _gaps_between_groups(row: ProvedRow) -> int:
    """Gaps that can be felt between groups of stitches worked into one place each."""
    groups = 0
    for piece, times in _pieces(row.work, 1):
        if piece.where.into not in _GAPS:
            continue
        if isinstance(piece, Group):
            groups += times * piece.times
        elif piece.each > 1 and piece.stitch not in {"ch", "sk"}:
            groups += times * (piece.count // piece.each)
    if groups < 2 or row.spaces:
        return 0
    return groups if row.kind == "round" else groups - 1


def _stitches_a_space(pieces: Sequence[tuple[Block | Group, int]]) -> int:
    worked = [piece for piece, _ in pieces if piece.where.into in _GAPS]
    sizes = {
        sum(part.makes for part in piece.parts) if isinstance(piece, Group) else piece.each
        for piece in worked
    }
    return sizes.pop() if len(sizes) == 1 else 0
