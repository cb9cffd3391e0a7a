"""The facts of a row: which it is, what it is worked as, which side faces, what it comes to."""

from __future__ import annotations

import re

from coach.craft.ends import Ends
from coach.craft.problem import Verdict
from coach.craft.stage import Stage
from coach.craft.stage_steps import ENDS_TOLD_FROM
from coach.craft.steps import StageKind
from coach.wording.finishing_words import ends_told
from coach.wording.numbers_told import counted, ordinal
from coach.wording.plain_text import say, sentence
from coach.wording.short_sentences import in_short_sentences, is_short

SIDES = {"RS": "right side", "WS": "wrong side"}


def label(stage: Stage) -> str:
    """Return the stage's name aloud: "Row 6", "Border round 1"."""
    return say(stage.label)


def named_within(stage: Stage) -> str:
    """Return the stage's name within a sentence: "Row 6", "the foundation"."""
    return "the foundation" if stage.label == "Foundation" else label(stage)


def row_word(stage: Stage) -> str:
    """Return "row" or "round"."""
    return "round" if stage.kind is StageKind.ROUND else "row"


def row_facts(stage: Stage) -> str:
    """Return the three facts and the side.

    "Row 24, worked as Row 4. It is the third row of the fifth repeat of 8. Wrong side facing."
    """
    head = f"{label(stage)}."
    if _worked_as_another(stage):
        worked = f"{label(stage)}, worked as {say(stage.worked_as or '')}"
        head = _with_repeat(worked, which_repeat(stage))
    side = SIDES.get(stage.side or "")
    return f"{head} {side.capitalize()} facing." if side else head


def _worked_as_another(stage: Stage) -> bool:
    return bool(stage.worked_as) and stage.worked_as != stage.label


def worked_as(stage: Stage) -> str:
    """Return "Worked as Row 4. Third row of the fifth repeat of 8.", or "" for a row of its own."""
    if not _worked_as_another(stage):
        return ""
    return _with_repeat(f"Worked as {say(stage.worked_as or '')}", which_repeat(stage))


def _with_repeat(worked: str, repeat: str) -> str:
    """In one sentence while that is short: "Worked as Row 4: third row of the fifth repeat of 8."."""
    if not repeat:
        return f"{worked}."
    whole = f"{worked}: {repeat}."
    the = "" if repeat.startswith("the ") else "the "
    return whole if is_short(whole) else f"{worked}. It is {the}{repeat}."


def which_repeat(stage: Stage) -> str:
    """Return "third row of the fifth repeat of 8"."""
    which, of = stage.repeat or (1, 1)
    if of == 1:
        return ""  # once is no repeat
    repeat = f"the {ordinal(which)} repeat of {of}"
    if stage.rows_in_repeat > 1:
        return f"{ordinal(stage.row_in_repeat)} {row_word(stage)} of {repeat}"
    return repeat


def count_to_reach(stage: Stage) -> str:
    """Return "It comes to 77 stitches.", and whether the coach worked that out."""
    told = f"It comes to {count_told(stage)}"
    if stage.stated or stage.kind is StageKind.FOUNDATION:
        return f"{told}."
    return in_short_sentences(f"{told}, worked out by the coach.")


def count_told(stage: Stage) -> str:
    """Return the count with its unit: "22 stitches and 12 spaces"."""
    if stage.kind is StageKind.FOUNDATION:
        return counted(stage.stitches, "chain")
    stitches = counted(stage.stitches, "stitch")
    return f"{stitches} and {counted(stage.spaces, 'space')}" if stage.spaces else stitches


def begins_uncounted(stage: Stage) -> bool:
    """Tell whether this is a beginning with nothing to count: an adjustable ring."""
    return stage.kind is StageKind.FOUNDATION and not stage.stitches


def closing_count(stage: Stage) -> str:
    """Return "That makes: 77 stitches.", which closes every row; "" where there is no count.

    The pause and the unit are for the ear: an independent listener took "makes 8" for "make safe"
    and lost 25 of 45 bare counts, 2 of the 17 hardest with both.
    """
    if stage.kind in {StageKind.FINISHING, StageKind.FOUNDATION} or stage.row is None:
        return ""
    if stage.row.work == ():
        return ""
    spaces = f", and {counted(stage.spaces, 'space')}" if stage.spaces else ""
    return f"That makes: {counted(stage.stitches, 'stitch')}{spaces}."


def opening(stage: Stage) -> str:
    """Return what is told once on coming to a row: its facts, its count, its first stitch."""
    if stage.kind is StageKind.FINISHING:
        return ""
    if stage.kind is StageKind.FOUNDATION:
        return foundation_opening(stage)
    if stage.row is None or not stage.row.work:
        return row_facts(stage)
    said = (
        row_facts(stage),
        copies_told(stage),
        count_to_reach(stage),
        fault_told(stage),
        color_gap(stage),
        _chain_below(stage),
        join_told(stage),
    )
    return " ".join(part for part in said if part)


def copies_told(stage: Stage) -> str:
    """Return "Make 2 of this part." where one begins that is wanted more than once."""
    return f"Make {stage.copies} of this part." if stage.copies > 1 else ""


def fault_told(stage: Stage) -> str:
    """Return a warning where the pattern's own row is at fault, or is not wholly in words."""
    verdict = stage.row.verdict if stage.row is not None else Verdict.OK
    if verdict is Verdict.OK:
        return ""
    if verdict is Verdict.NO_WORDS:
        return "Take care: the words of this row are not whole."
    if verdict is Verdict.UNCLEAR:
        return "Take care: this row's words can be read in more than one way."
    return "Take care: the pattern has a fault in this row."


# "in next colour", "change colour": which one, only a photo or the maker knows (user need R46).
_UNNAMED_COLOR = re.compile(r"\b(next|new|another|other|different|change)\s+colou?rs?\b", re.I)


def color_gap(stage: Stage) -> str:
    """Return a warning where a row changes its yarn and the words do not say to which."""
    row = stage.row
    if row is None or stage.colored or not _UNNAMED_COLOR.search(row.text):
        return ""
    return "The words do not say which colour."


def join_told(stage: Stage) -> str:
    """Return what keeps a joined round from growing by one: the join is passed, the first marked.

    User need R08: told at the beginning of every joined round.
    """
    if not stage.joined:
        return ""
    below = stage.below is not None and stage.below.joined
    passed = "The join below is not a stitch. Do not work into it. " if below else ""
    chain = stage.turning_chain
    counted = chain is not None and chain.counts_as
    return f"{passed}Mark the first stitch{', which is the beginning chain' if counted else ''}."


def _chain_below(stage: Stage) -> str:
    """A chain made at the turn that does not count is not told again with the first stitch."""
    if not stage.chain_below or stage.turning_chain is not None:
        return ""
    return "The chain at the turn does not count. The first stitch goes in the very first stitch."


def foundation_opening(stage: Stage) -> str:
    """Return what is told before the first chain."""
    foundation = stage.foundation
    copies = f" {copies_told(stage)}" if stage.copies > 1 else ""
    if foundation is None or not foundation.chains:
        return f"{label(stage)}.{copies}"
    color = f" in {say(foundation.color)}" if foundation.color else ""
    told = f"{label(stage)}: {counted(foundation.chains, 'chain')}{color}.{copies}"
    loop = "Make a slip knot. Neither the knot nor the loop on the hook counts."
    ends = f" {ends_told(Ends(stage.ends // 2))}" if stage.ends > ENDS_TOLD_FROM else ""
    return sentence(f"{told}{ends} {loop}")
