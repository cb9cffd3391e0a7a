"""Where a maker is: the piece as stages and steps, and the state of one guided maker.

Everything here is a value. A place is claimed only as far as it was confirmed: the present
step is the one that is being worked, and all before it has been said to be done.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from coach.craft import stage_steps
from coach.craft.proof import ProvedRow
from coach.craft.stage import Stage
from coach.craft.steps import Pace, StageKind, Step
from coach.craft.width import Width
from coach.guide.commands import Command
from coach.guide.manner import Manner


class Mode(StrEnum):
    """What a command means depends on the mode."""

    WORKING = "working"
    PAUSED = "paused"
    ASKING = "asking"  # something was asked; "yes", "no" or the number of an answer settles it
    FINISHED = "finished"


class Ask(StrEnum):
    """What may be asked, always once, always before something that can't be seen to be meant."""

    RIP = "rip"  # number: the stage to begin again at
    JUMP = "jump"  # number: the stage to go to
    QUIT = "quit"
    KEEP = "keep"  # number: the count to keep although the pattern has another
    NUMBER = "number"  # command: the command whose number is missing
    PATTERN = "pattern"  # number: which of the pattern's open questions
    MENU = "menu"  # for one finger and four keys: what else can be done
    COLOURS = "colours"  # number: the page of colours that is offered
    MICROPHONE = "microphone"  # asked of a spoken word only: no word puts it on again
    EDITED = "edited"  # number: the stage that fits the place in the pattern as it was


@dataclass(frozen=True, slots=True)
class Question:
    """What is being asked. pointer: the answer that "next" has walked to, from 1; 0 for none.

    about: the pattern's open question in its own words, by which its answer is remembered.
    listed: the colours that were chosen so far.
    """

    kind: Ask
    number: int = 0
    command: Command | None = None
    pointer: int = 0
    answers: int = 2
    about: str = ""
    listed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Counted:
    """A count that a maker has told for a stage. kept: it differs, and the maker goes on with it."""

    stage: int
    number: int
    kept: bool = False


@dataclass(frozen=True, slots=True)
class Guide:
    """The state of one guided maker: stage and step from 0, and all that commands have changed.

    counts: what the maker has counted, by stage. began: the stage where this maker began; the
    stages before it were made by someone else or elsewhere. explained: how far the present
    step has been explained. answers: settled questions of the pattern, (question, answer). past:
    the states to which "undo" goes back.
    """

    stage: int = 0
    step: int = 0
    mode: Mode = Mode.WORKING
    resting: bool = False  # quiet time: no spoken word is taken but "hello coach"; keys go on
    manner: Manner = field(default_factory=Manner)
    counts: tuple[Counted, ...] = ()
    began: int = 0
    answers: tuple[tuple[str, int], ...] = ()
    colors: tuple[str, ...] = ()  # the maker's own list, where the pattern leaves them open
    width: Width | None = None  # the first that was told, for comparing later ones
    longer: tuple[tuple[int, int], ...] = ()  # (stage, rows more or fewer) where a length is asked
    question: Question | None = field(default=None, compare=False)
    explained: int = field(default=0, compare=False)
    asked: Command | None = field(default=None, compare=False)  # what was asked for last, and
    times: int = field(default=0, compare=False)  # how often without anything in between
    past: Past | None = field(default=None, compare=False, repr=False)

    @property
    def now(self) -> Mode:
        """The mode that decides what a command means: ASKING as long as something is asked."""
        return Mode.ASKING if self.question is not None else self.mode

    def count_of(self, stage: int) -> Counted | None:
        """Return what the maker has counted for *stage*, if anything."""
        return next((each for each in reversed(self.counts) if each.stage == stage), None)


@dataclass(frozen=True, slots=True)
class Past:
    """A state that can be gone back to, and all before it in its own past."""

    guide: Guide


class Piece:
    """A pattern as it is worked: its stages, and the steps of each as they are asked for."""

    __slots__ = ("_rows", "_steps", "_steps_of", "stages")

    def __init__(
        self,
        stages: Sequence[Stage],
        steps_of: Callable[[Stage, Pace], Sequence[Step]] = stage_steps.steps,
    ) -> None:
        if not stages:
            raise ValueError("a piece without a stage can't be guided")
        self.stages = stages
        self._steps_of = steps_of
        self._steps: dict[tuple[int, Pace], Sequence[Step]] = {}
        self._rows: Mapping[tuple[str | None, int], int] | None = None

    def steps(self, stage: int, pace: Pace) -> Sequence[Step]:
        """Return the steps of *stage* (from 0); there is always one at least."""
        found = self._steps.get((stage, pace))
        if found is None:
            if len(self._steps) > _KEPT:
                self._steps.clear()
            found = self._steps[stage, pace] = self._steps_of(self.stages[stage], pace)
        return found

    def step(self, guide: Guide) -> Step:
        """Return the step before the maker."""
        return self.steps(guide.stage, guide.manner.pace)[guide.step]

    def stage(self, guide: Guide) -> Stage:
        """Return the stage before the maker."""
        return self.stages[guide.stage]

    def row(self, number: int, near: int) -> int | None:
        """Return the stage (from 0) of row *number*, of the part that stage *near* belongs to.

        Where that part has no such row, the first part that has one is taken.
        """
        rows = self._by_number()
        own = rows.get((self.stages[near].part, number))
        if own is not None:
            return own
        return min((at for (_, each), at in rows.items() if each == number), default=None)

    def _by_number(self) -> Mapping[tuple[str | None, int], int]:
        if self._rows is None:
            rows: dict[tuple[str | None, int], int] = {}
            for at, stage in enumerate(self.stages):
                number = stage.row.number if stage.row is not None else None
                if number is not None:
                    rows.setdefault((stage.part, number), at)
            self._rows = rows
        return self._rows


_KEPT = 8  # stages whose steps are kept at hand


def is_row(stage: Stage) -> bool:
    """Return whether *stage* is a row or a round."""
    return stage.kind in {StageKind.ROW, StageKind.ROUND}


def stretch(piece: Piece, at: int) -> range | None:
    """Return the stages that are worked for the same length as stage *at*, or None."""
    stages, row = piece.stages, piece.stages[at].row
    if row is None or row.until_cm is None:
        return None
    first = last = at
    while first > 0 and _same_length(stages[first - 1].row, row):
        first -= 1
    while last + 1 < len(stages) and _same_length(stages[last + 1].row, row):
        last += 1
    return range(first, last + 1)


def _same_length(row: ProvedRow | None, other: ProvedRow) -> bool:
    return row is not None and (row.until_cm, row.line, row.part) == (
        other.until_cm,
        other.line,
        other.part,
    )


def at_pace(piece: Piece, guide: Guide, pace: Pace) -> int:
    """Return the step (from 0) at *pace* where the present step's work begins."""
    present = piece.step(guide)
    others = piece.steps(guide.stage, pace)
    if guide.step == 0:
        return 0
    low, high = 0, len(others) - 1
    while low < high:  # the last step that begins no later than the present one
        middle = (low + high + 1) // 2
        begins = others[middle]
        if (begins.made_before, begins.done_before) <= (present.made_before, present.done_before):
            low = middle
        else:
            high = middle - 1
    return low
