"""Which yarn is worked with: where it comes in, inside which stitch, and what the other one does."""

from __future__ import annotations

from coach.craft.stage import Stage
from coach.craft.steps import Step
from coach.craft.working import Block, Group
from coach.wording.blocks_told import block_told
from coach.wording.numbers_told import WORDS_END, ordinal
from coach.wording.plain_text import say
from coach.wording.short_sentences import is_short


def yarn(color: str) -> str:
    """Return a yarn's name aloud: "A", "the main colour"."""
    return {"MC": "the main colour", "CC": "the contrast colour"}.get(color, say(color))


def waiting_told(stage: Stage) -> str:
    """Return what becomes of the yarn that is put down: carried up, or cut."""
    waiting = stage.waiting
    if waiting is None:
        return ""
    name = yarn(waiting.color)
    name = f"{name[0].upper()}{name[1:]}"
    if waiting.again is None:
        return f"{name} is not wanted again: cut it."
    wanted = f"{name} is wanted again in {say(waiting.again)}"
    if waiting.carried:
        return f"{wanted}. Let it wait at this edge, and carry it up loosely."
    why = "That is a long way up" if waiting.here else "That begins at the other edge"
    return f"{wanted}. {why}: cut it."


def colored(part: Block | Group, terms: str, before: str | None) -> str:
    """Return what is worked; the yarn is named only where it is another than *before*."""
    told = block_told(part, terms)
    idle = isinstance(part, Block) and part.stitch == "sk"
    if idle or not part.color or part.color == before:
        return told
    if ". " in told:
        return f"{told}. All of it is in {yarn(part.color)}"
    return f"{told}, in {yarn(part.color)}"


def color_change(step: Step, block: Block, terms: str) -> str:
    """Return a change of colour inside the stitch before it, told before that stitch is made."""
    told = block_told(block, terms)
    coming = yarn(step.color_next or "")
    mine = yarn(block.color) if block.color else ""
    count = step.last - step.first + 1 if step.last else 0
    if count < 2:
        return f"{told}, in {mine}. Bring in {coming} on its last pull"
    last = "last" if step.last >= WORDS_END else ordinal(step.last)
    change = f"{count - 1} in {mine}; the {last}: bring in {coming} on its last pull"
    return f"{told}. {change if is_short(change) else change.replace('; the', '. The')}"
