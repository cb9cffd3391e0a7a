"""What a maker must know before the first stitch."""

from __future__ import annotations

from coach.craft.own_colors import colors_left_open
from coach.craft.problem import Verdict
from coach.craft.proof import Proof
from coach.wording import before_the_start, replies
from coach.wording.words import Words


def opening_notices(proof: Proof) -> tuple[Words, ...]:
    """Return what a maker must know before the first stitch: rows that can't be guided."""
    notices: list[Words] = []
    silent = [row.label for row in proof.rows if row.verdict is Verdict.NO_WORDS]
    if silent:
        notices.append(before_the_start.rows_without_words(silent))
    if proof.not_in_words:
        notices.append(before_the_start.not_in_words(proof.not_in_words))
    faulty = [
        row.label
        for row in proof.rows
        if row.verdict not in {Verdict.OK, Verdict.NO_WORDS, Verdict.UNCLEAR}
    ]
    if faulty:
        notices.append(before_the_start.faults_found(faulty))
    if colors_left_open(proof.rows, (*proof.colors, *proof.materials)):
        notices.append(replies.NO_COLOR_WORDS)
    return tuple(notices)
