"""The words of a step: spoken in full, shown in brief, and as the few big lines of a screen.

The one door to the words of a step; the sentences are made in `step_sentences`, the big
lines in `showing`.
"""

from __future__ import annotations

from coach.craft.stage import Stage
from coach.craft.steps import Step
from coach.wording.hands import mirror
from coach.wording.row_facts import opening
from coach.wording.showing import Shown, address, view_parts
from coach.wording.step_sentences import step_told
from coach.wording.words import Words

__all__ = ["Shown", "step_told", "view_parts", "words_for_step"]


# Met at a remark of the designer that has no words: a maker never meets silence.
NOTHING_TO_DO = "Nothing to do here. Go on."


def words_for_step(
    stage: Stage, step: Step, terms: str = "US", hand: str = "right", *, opens: bool = True
) -> Words:
    """Return the words of *step*; with *opens*, the row's facts stand before its first step."""
    body = step_told(stage, step, terms)
    before = opening(stage) if opens and step.number == 1 else ""
    full = " ".join(part for part in (before, body) if part) or NOTHING_TO_DO
    shown = view_parts(stage, step, terms, hand)
    number, *rest = shown.big or ("",)
    big = f"{number} {', '.join(rest)}" if number.isdigit() else ", ".join(shown.big)
    brief = f"{address(stage, step, shown.group)}: {big}"
    return Words(mirror(full, hand), mirror(brief, hand))
