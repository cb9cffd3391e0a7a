"""How many ends a piece will have, from its plan of colours, and the yarn that they take.

Counts each length of yarn once for every stretch of rows that it is worked in; a yarn that is
carried up to its next rows is not cut between them. It says nothing of balls that run out, which
no pattern tells.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from coach.craft.proof import Proof
from coach.craft.row_colors import colors_of
from coach.craft.waiting_yarn import waiting_yarn

TAIL_CM = 15  # 6 inches: shorter tails came apart in the first wash (a guild's report)


@dataclass(frozen=True, slots=True)
class Ends:
    """lengths: of yarn, each cut free at both its ends. changes: of colour within rows.

    carried: how often a yarn is carried up to its next rows, which would be a further length each.
    """

    lengths: int
    changes: int = 0
    carried: int = 0

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
    lengths = changes = carried = 0
    waits: set[str] = set()
    held: frozenset[str] = frozenset()
    if proof.foundation is not None and proof.foundation.color:
        held, lengths = frozenset({proof.foundation.color}), 1
    for at, row in enumerate(proof.rows):
        told = colors_of(row)
        if not told:
            continue
        now = frozenset(told)
        carried += len((now - held) & waits)
        lengths += len(now - held - waits)
        waits -= now
        waiting = waiting_yarn(proof.rows, at)
        if waiting is not None and waiting.carried:
            waits.add(waiting.color)
        changes += len(told) - 1
        held = now
    return Ends(max(lengths, 1), changes, carried)
