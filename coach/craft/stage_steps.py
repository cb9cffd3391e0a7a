"""The steps of a stage: a foundation by lots of chains, a row by its work, the finishing end by end."""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.finishing import USUAL_STEPS, Finish
from coach.craft.merging import sums_of, tree
from coach.craft.places_named import with_places_named, without_told_colors
from coach.craft.proof import Foundation, ProvedRow
from coach.craft.row_ends import (
    closing_actions,
    opening_actions,
)
from coach.craft.stage import Stage, works_anything
from coach.craft.step_tree import Steps
from coach.craft.steps import Pace, Step, renumbered, sentences
from coach.craft.working import Action, Block, Into, Where

LOT = 20  # a long chain is made and counted in lots of twenty


def steps(stage: Stage, pace: Pace = Pace.BLOCK) -> Sequence[Step]:
    """Return the steps of *stage*, looked up as they are asked for. There is always one at least."""
    if stage.foundation is not None:
        return _foundation_steps(stage.foundation, pace)
    if stage.finish is not None:
        return _finishing_steps(stage.finish)
    row = stage.row
    if row is None or not works_anything(row.work):
        return sentences([("no words", row.text if row else "")])
    told = with_places_named(without_told_colors(row.work, stage.color_after))
    work, closing = closing_actions(told)
    if pace is not Pace.ROW:
        work, opening = opening_actions(work)
    else:
        opening = ()
    if stage.turns_first:
        opening = (Action("turn"), *opening)
    return Steps(
        tree(work, pace),
        available=_available(row),
        opening=opening,
        closing=closing,
        color_after=stage.color_after,
        color_before=stage.color_before,
    )


def _available(row: ProvedRow) -> int:
    """The stitches below that this row's blocks will use, and those that they leave.

    A place that is used without a block (a round's join stands on it) is not waiting for one.
    """
    used = sums_of(row.work).uses
    if row.before is None or row.worked is None:
        return used
    return used + max(0, row.before - row.worked)


def _foundation_steps(foundation: Foundation, pace: Pace) -> Sequence[Step]:
    chains = foundation.chains or 0
    made: list[Step] = []
    if chains and foundation.kind in {"chain", "ring", "joined chain"}:
        lot = chains if pace is Pace.ROW else LOT
        for first in range(1, chains + 1, lot):
            last = min(first + lot - 1, chains)
            chain = Block("ch", last - first + 1, Where(Into.NOTHING), color=foundation.color)
            made.append(
                Step(
                    0,
                    0,
                    (chain,),
                    first=first,
                    last=last,
                    done_before=first - 1,
                    made_before=first - 1,
                    left_after=chains - last,
                    task="chain",
                )
            )
    if foundation.kind != "chain" or not made:
        made.append(Step(0, 0, (), task=foundation.kind))
    return renumbered(made)


def _finishing_steps(finish: Finish) -> Sequence[Step]:
    """The task's own steps, its cautions, and each end to weave in where there are many."""
    if finish.usual:
        told = [(finish.task.value, "")] * (USUAL_STEPS[finish.task] + len(finish.cautions))
    else:
        told = [(finish.task.value, finish.sentence)]
    ends = finish.ends if finish.ends > ENDS_TOLD_FROM else 0
    return sentences([*told, *[(END, "")] * ends])


END = "end"  # the task of a step that is one end to weave in

ENDS_TOLD_FROM = 2  # the first and the last end need no list to tick off
