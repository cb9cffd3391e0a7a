"""The multiple of a pattern, derived from what its repeats use up, and held against the stated one."""

from __future__ import annotations

import math

from coach.craft import fabric
from coach.craft.pattern import Draft
from coach.craft.problem import Problem, Verdict
from coach.craft.proof import Multiple
from coach.craft.walk import Walk, tallied


def derived(draft: Draft, walk: Walk) -> Multiple | None:
    """Return the multiple that every row of the first part allows; None if no row has a repeat."""
    if not walk.rows or walk.foundation is None or not walk.foundation.chains:
        return None
    first = walk.rows[0]
    skipped = walk.foundation.chains - first.made
    base = first.made + _chains_of_spaces(walk)
    if base != first.made:
        skipped = walk.foundation.chains - base
    of = 1
    part = first.part
    steady = first.made
    for row, result in zip(walk.rows, walk.results_by_row, strict=False):
        if row.part != part or row.made != steady:
            break
        if result.fit is not None and result.fit[1] > 0:
            of = math.lcm(of, result.fit[1])
        if of > 10_000:
            return None
    if of <= 1 or base <= 0 or of > base:
        return None
    return Multiple(of, base % of, "stitches", max(skipped, 0))


def _chains_of_spaces(walk: Walk) -> int:
    if not walk.results_by_row:
        return 0
    count = tallied(walk, walk.results_by_row[0].out)
    return sum(length * times for length, times in count.by_length.items())


def stated_fault(draft: Draft, walk: Walk, multiple: Multiple | None) -> Problem | None:
    """Return the fault where the foundation is not of the stated multiple."""
    stated = draft.multiple
    if stated is None or walk.foundation is None or not walk.foundation.chains:
        return None
    chains = walk.foundation.chains
    made = walk.rows[0].made if walk.rows else None
    fits = {(chains - stated.plus - stated.chains) % stated.of == 0}
    if not stated.chains or made is not None:
        fits.add((chains - stated.plus) % stated.of == 0)
    if made is not None:
        fits.add((made - stated.plus) % stated.of == 0)
        fits.add(
            fabric.size(walk.results_by_row[0].out)[0] % stated.of == stated.plus % stated.of
            if walk.results_by_row
            else False
        )
    if True in fits:
        return None
    return Problem(
        Verdict.MULTIPLE_MISMATCH,
        stated.place,
        f"The multiple is stated as {stated.of} plus {stated.plus}, but {chains} less {stated.plus} is "
        f"{chains - stated.plus}, which is not a multiple of {stated.of}.",
        "Correct the foundation chain or the multiple.",
    )
