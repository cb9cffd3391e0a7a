"""How many ends a piece will have, from its plan of colours, and the yarn that they take.

Counts each length of yarn once for every stretch of rows that it is worked in, as if it were
cut at each change; it says nothing of balls that run out, which no pattern tells.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from coach.craft.proof import Proof, ProvedRow
from coach.craft.working import Action, Passes, Work

TAIL_CM = 15  # 6 inches: shorter tails came apart in the first wash (a guild's report)


@dataclass(frozen=True, slots=True)
class Ends:
    """lengths: of yarn, each cut free at both its ends. changes: of colour within rows."""

    lengths: int
    changes: int = 0

    @property
    def count(self) -> int:
        """How many ends there will be to weave in."""
        return 2 * self.lengths

    @property
    def metres(self) -> Fraction:
        """How much yarn the tails take, exactly."""
        return Fraction(self.count * TAIL_CM, 100)


def ends_of(proof: Proof) -> Ends:
    """Return the ends of *proof*: two for each yarn, each time that it is taken up anew."""
    lengths = changes = 0
    held: frozenset[str] = frozenset()
    if proof.foundation is not None and proof.foundation.color:
        held, lengths = frozenset({proof.foundation.color}), 1
    for row in proof.rows:
        told = colors_of(row)
        if not told:
            continue
        now = frozenset(told)
        lengths += len(now - held)
        changes += len(told) - 1
        held = now
    return Ends(max(lengths, 1), changes)


def colors_of(row: ProvedRow) -> list[str]:
    """Return the yarns of a row in the order in which they are taken up, repeats counted."""
    told: list[str] = []
    _follow(row.work, told)
    return told


def _follow(work: Sequence[Work], told: list[str]) -> None:
    for item in work:
        if isinstance(item, Passes):
            _follow_passes(item, told)
        elif not isinstance(item, Action) and item.color and told[-1:] != [item.color]:
            told.append(item.color)


def _follow_passes(passes: Passes, told: list[str]) -> None:
    """A repeat in one yarn is followed once; one that changes, as often as it is worked."""
    once: list[str] = []
    _follow(passes.parts, once)
    for color in once * (passes.times if len(once) > 1 else 1):
        if told[-1:] != [color]:
            told.append(color)
    if passes.last is not None:
        _follow(passes.last, told)
