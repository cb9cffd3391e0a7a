"""A maker's own speed, from the journal, and the time left at it. Told only when asked for."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from itertools import pairwise
from statistics import median

from coach.guide.commands import Command
from coach.guide.place import Guide, Piece, is_row
from coach.ports import Event
from coach.wording.conversation import time_left_words
from coach.wording.words import Words

AT_LEAST = 3  # steps with stitches before a pace can be told
LATELY = 50  # steps: a maker's speed today, not last month's


def time_left(events: Sequence[Event], guide: Guide, piece: Piece) -> Words:
    """Return the maker's pace, and the time that is left on the whole piece at that pace."""
    pace = seconds_a_stitch(events, guide, piece)
    return time_left_words(pace, stitches_left(guide, piece), "on the rows that are left")


def seconds_a_stitch(events: Sequence[Event], guide: Guide, piece: Piece) -> float | None:
    """Return how long one stitch takes, or None when too few steps tell.

    The middle value over the last steps is taken: a telephone call in between changes nothing.
    """
    forward = {Command.NEXT.value, Command.CARRY_ON.value}
    told: list[float] = []
    for before, after in pairwise(events):
        if after.command not in forward or (after.row, after.step) <= (before.row, before.step):
            continue
        stitches = _stitches(before, guide, piece)
        seconds = _time(after) - _time(before)
        if stitches and seconds > 0:
            told.append(seconds / stitches)
    return median(told[-LATELY:]) if len(told) >= AT_LEAST else None


def stitches_left(guide: Guide, piece: Piece) -> int:
    """Return how many stitches are still to be made after what was confirmed."""
    here = piece.stage(guide)
    left = sum(stage.stitches for stage in piece.stages[guide.stage + 1 :] if is_row(stage))
    if is_row(here):
        left += max(0, here.stitches - piece.step(guide).made_before)
    return left


def _stitches(event: Event, guide: Guide, piece: Piece) -> int:
    stage, step = event.row - 1, event.step - 1
    if not 0 <= stage < len(piece.stages):
        return 0
    steps = piece.steps(stage, guide.manner.pace)
    if not 0 <= step < len(steps) or not steps[step].last:
        return 0
    return steps[step].last - steps[step].first + 1


def _time(event: Event) -> float:
    return datetime.fromisoformat(event.at).timestamp()
