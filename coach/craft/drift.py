"""Why a count is off: causes ranked from what is worked in this very pattern.

It blames no one and moves nothing: it says which causes fit the numbers, the likeliest first,
which row is known right, and whether the trade can mend it without ripping.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from coach.craft.proof import Proof


class Cause(StrEnum):
    """What a maker's hands may have done."""

    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Suspect:
    """One cause that fits the numbers."""

    cause: Cause
    times: int = 1


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """What a count comes to against what the row should have."""

    row: int
    label: str
    expected: int
    count: int
    suspects: tuple[Suspect, ...] = ()

    @property
    def off(self) -> int:
        return self.count - self.expected


def diagnose(proof: Proof, row: int, count: int, confirmed: Mapping[int, int]) -> Diagnosis:
    """Return the causes that fit *count* stitches at the end of *row* (from 0; -1: foundation)."""
    if row < 0:
        chains = (proof.foundation.chains if proof.foundation else None) or 0
        return Diagnosis(row, "Foundation", chains, count)
    return Diagnosis(row, proof.rows[row].label, proof.rows[row].made, count)
