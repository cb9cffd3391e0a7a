"""Sleeves and legs begun in an opening: on what a row skipped, and on the chain made over it.

"Ch 4, sk 14 sts (sleeve)" leaves fourteen stitches and the other side of four chains; the first
round of the sleeve is worked into both, begun anywhere along the chain (common practice, no source).
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from coach.craft.fabric import CHAIN, Item, Run, stitch_cell
from coach.craft.instruction import Act, Chain, Instruction, Of, Repeated, Skip
from coach.craft.pattern import Line
from coach.craft.row_bench import Ground

_FEWEST = 4  # stitches skipped at once: fewer are a space of lace
MOST_UNDERARMS = 8


@dataclass(frozen=True, slots=True)
class Underarm:
    """How many stitches were skipped, of which kind most are, and how many chains are over them."""

    skipped: int
    stitch: str
    chains: int


def underarms_of(line: Line, stitch: str) -> list[Underarm]:
    """Return the openings that a row makes; *stitch* is the kind that lies below it."""
    return list(_underarms(line.items, stitch))


def _underarms(items: Sequence[Instruction], stitch: str) -> Iterator[Underarm]:
    worked = [item for item in items if not isinstance(item, Act)]
    for item in worked:
        if isinstance(item, Repeated) and item.times is not None:
            yield from _underarms(item.body, stitch)
    for one, two in itertools.pairwise(worked):
        chain, skip = (one, two) if isinstance(one, Chain) else (two, one)
        if (
            isinstance(chain, Chain)
            and isinstance(skip, Skip)
            and skip.target.noun.of in (Of.STITCH, Of.NAMED)
            and skip.target.count >= _FEWEST
        ):
            yield Underarm(skip.target.count, stitch, chain.count)


def grounds_in(underarm: Underarm, kind: str) -> Iterator[Ground]:
    """Yield what the first row in an opening may meet, by where along the chain it begins."""
    stitches = Run(stitch_cell(underarm.stitch), underarm.skipped)
    chains = Run(CHAIN, underarm.chains)
    half = Run(CHAIN, underarm.chains // 2)
    rest = Run(CHAIN, underarm.chains - underarm.chains // 2)
    ways: list[tuple[Item, ...]] = [(chains, stitches), (stitches, chains), (stitches,)]
    if underarm.chains > 1:
        ways += [(half, stitches, rest), (rest, stitches, half)]
    for items in ways:
        yield Ground(items, "round" if kind == "round" else "row", round=kind == "round")
