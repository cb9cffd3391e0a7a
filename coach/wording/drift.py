"""The words of a count check: right, kept, within a row, or off and why.

A count that is off is told as a fact about the row, with what can be done; never as the
maker's fault, and never with the advice to carry on.
"""

from __future__ import annotations

from fractions import Fraction

from coach.craft.drift import Diagnosis
from coach.craft.stages import Stage
from coach.craft.steps import Step
from coach.wording.row_facts import label
from coach.wording.words import Words


def right(stage: Stage, number: int) -> Words:
    """Return what is said of a count that is right."""
    return Words(f"{number}, right.", f"{number}: right")


def kept(stage: Stage, number: int) -> Words:
    """Return what is said of a count that differs as the maker chose to keep it."""
    off = number - stage.stitches
    how = f"{abs(off)} {'more' if off > 0 else 'fewer'} than the pattern"
    return Words(f"{number}: {how}, as before.", f"{number}: as before")


def within(stage: Stage, step: Step, number: int) -> Words:
    """Return what is said of a count in the middle of a row."""
    told = (
        f"{label(stage)} should have {step.made_before} before this block, and "
        f"{step.last or step.made_before} after it."
    )
    return Words(told, f"{step.made_before} before this block")


def diagnosis(found: Diagnosis, terms: str = "US") -> Words:
    """Return the count against what it should be, the likely cause and what to do."""
    how = "too many" if found.off > 0 else "too few"
    told = f"{found.label} comes to {found.expected}. {found.count} is {abs(found.off)} {how}."
    return Words(told, f"{abs(found.off)} {how}")


def width(gauge: str | None, stage: Stage, measure: Fraction | int | None, unit: str) -> Words:
    """Return what a measured width comes to in stitches, by the gauge."""
    return Words("The pattern gives no gauge, so a width can't be told as stitches.", "No gauge")
