"""Steps: what can be held in the head at once, with their address in a row.

How the steps of a row are looked up is in `step_tree`, which blocks belong together in
`merging`, what a row is and how it is reached in `stages`; the words are wording's.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from coach.craft.working import Action, Block, Group, Work


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
    passes: the repeats it stands in, outermost first. opens: how many of them, counted from
    the innermost, have a pass that begins with this step; closes: how many end their last pass.
    parts: what is worked, in order: a skip or a short chain is told with the stitch that it
    belongs to, and an alternation ("front post, back post, in turn") has the stitches of one
    turn of it. turns: for an alternation, how many places it goes over in all; else 0.
    first / last: stitch numbers made in this row by the step (1-based); 0, 0 if none. In a
    foundation they number the chains.
    uses / uses_spaces: of the row below. done_before / left_after: stitches of the row
    below used up before this step, and left after it.
    before / after: actions that use no place (turn, marker), in the order of the hands.
    work: at row pace, the whole row. color_next: the yarn to bring in on the last pull of the
    step's last stitch; color_before: the yarn of the step before. task: which finishing task, for words of the coach's own.
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
    made_before: int = 0
    opens: int = 0
    closes: int = 0
    before: tuple[Action, ...] = ()
    after: tuple[Action, ...] = ()
    work: tuple[Work, ...] = ()
    color_next: str | None = None
    color_before: str | None = None
    task: str = ""


def sentences(texts: Sequence[tuple[str, str]]) -> tuple[Step, ...]:
    """Return a step for each (task, sentence): stages that are told, not worked from a row."""
    return tuple(
        Step(number, len(texts), (), text=text, task=task, closes_stage=number == len(texts))
        for number, (task, text) in enumerate(texts, start=1)
    )


def renumbered(steps: Sequence[Step]) -> tuple[Step, ...]:
    """Return *steps* numbered from 1, the last one closing the stage."""
    return tuple(
        replace(step, number=number, of=len(steps), closes_stage=number == len(steps))
        for number, step in enumerate(steps, start=1)
    )
