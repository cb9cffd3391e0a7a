"""A proved pattern as stages (foundation, rows, finishing) and steps: what can be held in the head at once."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from coach.craft.working import Block, Group


class Pace(StrEnum):
    """How coarse a step is."""

    ROW = "row"
    BLOCK = "block"
    STITCH = "stitch"


class StageKind(StrEnum):
    """What a stage of the work is."""

    FOUNDATION = "foundation"
    ROW = "row"
    ROUND = "round"
    FINISHING = "finishing"


@dataclass(frozen=True, slots=True)
class Pass:
    """Which pass of a repeat a step belongs to: "group 2 of 6"."""

    number: int
    of: int


@dataclass(frozen=True, slots=True)
class Step:
    """One stitch block, alternation or group in one place, with its address within the stage.

    number / of: which step of the stage, both from 1 (repeats written out).
    passes: the repeats it stands in, outermost first. parts: what is worked; more than one
    Block where an alternation is told as one step ("front post, back post, in turn").
    turns: for an alternation, how many places it goes over in all; else 0.
    first / last: stitch numbers made in this row by the step (1-based); 0, 0 if none.
    uses / uses_spaces: of the row below. done_before / left_after: stitches of the row
    below used up before this step, and left after it.
    """

    number: int
    of: int
    parts: tuple[Block | Group, ...]
    passes: tuple[Pass, ...] = ()
    turns: int = 0
    first: int = 0
    last: int = 0
    uses: int = 0
    uses_spaces: int = 0
    done_before: int = 0
    left_after: int = 0
    opens_repeat: bool = False
    closes_repeat: bool = False
    closes_stage: bool = False
    text: str = ""  # finishing steps and remarks: the sentence itself
