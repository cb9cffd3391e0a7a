"""What may be behind a count that is off, and what the trade does about it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

FOUNDATION = -1  # the foundation's number among the rows, for counts and places


class Cause(StrEnum):
    """What a maker's hands may have done."""

    EDGE_EXTRA = "a stitch too many at an edge"
    EDGE_MISSED = "a stitch missed at an edge"
    JOIN_WORKED = "the join worked as a stitch"
    JOIN_MISSED = "the first or the last stitch beside the join missed"
    SPACES_WORKED = "a stitch worked into each space"
    SPACE_MISSED = "a space passed over"
    SIDE_MISSED = "one missed on each side"
    SIDE_EXTRA = "one more on each side"
    REPEAT_SHORT = "a whole repeat left out"
    REPEAT_LONG = "a whole repeat too many"
    EACH_REPEAT_SHORT = "one missed in each repeat"
    EACH_REPEAT_LONG = "one more in each repeat"
    INCREASE_MISSED = "an increase missed"
    INCREASE_EXTRA = "an increase too many"
    DECREASE_MISSED = "a decrease missed"
    DECREASE_EXTRA = "a decrease too many"
    CHAIN_MISSED = "a foundation chain missed"
    CHAIN_TWICE = "a foundation chain worked twice"
    FOUNDATION_SHORT = "too few chained"
    FOUNDATION_LONG = "too many chained"
    RING_EXTRA = "too many worked into the ring"
    RING_SHORT = "too few worked into the ring"
    WITHIN_A_BLOCK = "a miscount within a block"


class Mend(StrEnum):
    """What can be done about it."""

    TAKE_OUT = "take the last stitches out"  # they are still at the hook
    ADD = "add what is missing"  # the row is still at the hook
    REDO_ROW = "work this row again"
    EVEN_OUT = "even it out in the next row"
    RIP = "rip back to the row known right"
    KNOT_END = "take spare chains out at the knot"


@dataclass(frozen=True, slots=True)
class Suspect:
    """One cause that fits the numbers. row: where it happened; times: how often in a row."""

    cause: Cause
    row: int
    times: int = 1


@dataclass(frozen=True, slots=True)
class Steady:
    """A drift of so many a row: after row *after*, on each of *rows* rows up to the counted one."""

    after: int
    rows: int
    a_row: int


@dataclass(frozen=True, slots=True)
class Carried:
    """What the next row would come to on the wrong count, and whether its words would notice."""

    row: int
    stitches: int
    spaces: int


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """What a count comes to against what the row should have, and why.

    row: from 0, in the proof's rows. steady: the drift, if it is a steady one. suspects: the
    likeliest first. known_right: the last row known right, from 0; -1 is the foundation; None
    where no row is. unchanged_since: a row counted before that was off by just as many.
    mends: what can be done, the gentlest first. carried: what the next row would hide.
    chain_counts: the row's turning chain counts as a stitch.
    """

    row: int
    label: str
    round: bool
    expected: int
    count: int
    suspects: tuple[Suspect, ...] = ()
    steady: Steady | None = None
    known_right: int | None = None
    unchanged_since: int | None = None
    mends: tuple[Mend, ...] = ()
    carried: Carried | None = None
    chain_counts: bool = False
    labels: Mapping[int, str] | None = None
    spaces: int = 0
    sides: int = 0
    repeat_makes: int = 0
    chained: int = 0

    @property
    def off(self) -> int:
        """How many too many; below zero, too few."""
        return self.count - self.expected

    def label_of(self, row: int) -> str:
        """Return the label of a row that the diagnosis speaks of."""
        return (self.labels or {}).get(row, self.label)
