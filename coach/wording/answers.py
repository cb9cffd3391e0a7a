"""Answers to a maker's questions about the work: how many, what is left, and on return.

Only what was confirmed is claimed: the step before the maker is not called done.
"""

from __future__ import annotations

from coach.craft.stage import Stage
from coach.craft.steps import StageKind, Step
from coach.wording.numbers_told import counted
from coach.wording.plain_text import sentence, title
from coach.wording.row_facts import (
    SIDES,
    begins_uncounted,
    count_told,
    label,
    named_within,
    row_word,
    worked_as,
)
from coach.wording.short_sentences import in_short_sentences, is_short
from coach.wording.step_sentences import group_brief, parts_phrase, step_told
from coach.wording.stitch_names import plural, stitch_name
from coach.wording.words import Words


def how_many_words(stage: Stage, step: Step, terms: str = "US") -> Words:
    """Return the count that the row must come to, by stitch, and what is made so far."""
    if stage.kind is StageKind.FINISHING:
        return Words(
            f"Step {step.number} of {step.of} of this.", f"step {step.number} of {step.of}"
        )
    if begins_uncounted(stage):
        return Words("There is nothing to count yet.", "nothing to count yet")
    told = count_told(stage)
    if stage.kind is StageKind.FOUNDATION:
        return Words(
            f"{told} in all. {step.made_before} made so far.", f"{step.made_before} of {told}"
        )
    by_stitch = dict(stage.row.by_stitch) if stage.row is not None else {}
    kinds = [
        f"{count} {'is' if count == 1 else 'are'} {plural(stitch_name(stitch, terms), count)}."
        for stitch, count in by_stitch.items()
        if count
    ]
    contents = f" {' '.join(kinds)}" if len(kinds) > 1 else ""
    source = "" if stage.stated else " The pattern does not say; the coach worked it out."
    full = f"{label(stage)} comes to {told}.{contents}{source} {step.made_before} made so far."
    return Words(full, f"{step.made_before} of {told}")


def left_words(stage: Stage, step: Step, following: Stage | None = None) -> Words:
    """Return what is left after what was confirmed: in the row, and rows after it.

    following: the stage after this one, told where it is worked as another row (user need R24).
    """
    if stage.kind is StageKind.FINISHING:
        left = step.of - step.number
        tasks = stage.of - stage.number
        told = f"{counted(left, 'step')} after this one. {counted(tasks, 'task')} after that."
        return Words(told, f"{left} left")
    if stage.kind is StageKind.FOUNDATION:
        left = stage.stitches - step.made_before
        return Words(f"{counted(left, 'chain')} left.", f"{left} left")
    remain = step.uses + step.left_after
    said: list[str] = []
    if remain:
        verb = "remains" if remain == 1 else "remain"
        said.append(
            f"{counted(remain, 'stitch')} {verb} after the confirmed ones, in the {row_word(stage)} below."
        )
    blocks = step.of - step.number
    said.append(
        f"{counted(blocks, 'block')} after this one." if blocks else "This is the last block."
    )
    if step.passes:
        groups = step.passes[0].of - step.passes[0].number
        said.append(f"{counted(groups, 'group')} after this one." if groups else "Last group.")
    rows = stage.places - stage.place
    said.append(
        f"Then {counted(rows, row_word(stage))} to go."
        if rows
        else f"This is the last {row_word(stage)}."
    )
    if following is not None and (next_as := worked_as(following)):
        said.append(f"Next: {label(following)}. {next_as}")
    return Words(" ".join(said), f"{remain} stitches, {rows} {row_word(stage)}s left")


def resume_words(piece: str, stage: Stage, step: Step, terms: str = "US") -> Words:
    """Return the message on return: piece, row, side, what is done, what is left, what comes next."""
    side = SIDES.get(stage.side or "")
    head = f"{label(stage)}, {side} facing." if side else f"{label(stage)}."
    said = [sentence(title(piece)), head, _done(stage, step), _next(stage, step, terms)]
    return Words(" ".join(filter(None, said)), f"{label(stage)}, block {step.number} of {step.of}")


def _done(stage: Stage, step: Step) -> str:
    if stage.kind is StageKind.FINISHING:
        return f"{step.number - 1} of {step.of} steps done." if step.of > 1 else ""
    if stage.kind is StageKind.FOUNDATION:
        left = stage.stitches - step.made_before
        return f"{step.made_before} of {counted(stage.stitches, 'chain')} done, {left} left."
    left = step.uses + step.left_after
    if step.number == 1:
        return f"Nothing of this {row_word(stage)} is done yet."
    below = (
        f"{counted(step.done_before, 'stitch')} of the {row_word(stage)} below used, {left} left"
    )
    if stage.row is None or not stage.row.before:
        below = f"{counted(step.made_before, 'stitch')} made"
    if step.passes:
        at = step.passes[0]
        return f"{at.number - 1} of {at.of} groups done. {below}."
    return f"{step.number - 1} of {step.of} blocks done. {below}."


def _next(stage: Stage, step: Step, terms: str) -> str:
    if not step.parts or stage.kind in {StageKind.FOUNDATION, StageKind.FINISHING}:
        told = step_told(stage, step, terms)
        next_told = f"Next: {_lowered(told)}"
        return next_told if is_short(next_told) else f"This comes next. {told}"
    phrase = parts_phrase(stage, step, terms)
    group = group_brief(step.passes)
    told = f"Next: {group}. {_raised(phrase)}" if group else f"Next: {phrase}"
    return in_short_sentences(sentence(told))


def _raised(told: str) -> str:
    return told[:1].upper() + told[1:]


def _lowered(told: str) -> str:
    return told[:1].lower() + told[1:]


def check_words(stitches: int) -> Words:
    """Return what a maker counts before going on from a row that was not made just now."""
    return Words(f"Check {stitches} first.", f"check {stitches}")


def ripped_words(stage: Stage) -> Words:
    """Return what is told after ripping back to the end of *stage*: the count to check now."""
    told = f"Ripped back to the end of {named_within(stage)}. Check {stage.stitches} now."
    return Words(told, f"end of {label(stage)}, check {stage.stitches}")
