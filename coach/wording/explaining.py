"""Explanations that a maker asks for: how the stitches of a step are made, what others call them.

Where the designer defines a stitch, the definition comes first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coach.craft.stage import Stage
from coach.craft.steps import StageKind, Step
from coach.craft.working import Block, Group
from coach.wording.by_touch import made
from coach.wording.finishing_words import finishing_explained
from coach.wording.plain_text import say, sentence
from coach.wording.stitch_names import other_name, stitch_name
from coach.wording.words import Words


def explain_step(
    stage: Stage, step: Step, terms: str = "US", special: Mapping[str, str] | None = None
) -> tuple[Words, ...]:
    """Return how the stitches of *step* are made, sentence by sentence, each stitch once."""
    if stage.kind is StageKind.FINISHING:
        finish = stage.finish
        told = finishing_explained(finish.task, finish.fibre) if finish else ()
        return _words(told)
    if stage.kind is StageKind.FOUNDATION:
        key = "ch" if step.task == "chain" else step.task
        return _words(explain(key, terms))
    told_stitches: list[str] = []
    said: list[str] = []
    for block in _blocks(step.parts):
        name = block.pattern_stitch or ("join" if block.role == "join" else block.stitch)
        if name not in told_stitches:
            told_stitches.append(name)
            said.extend(explain(name, terms, special, loop=block.where.loop))
    return _words(said)


def _blocks(parts: Sequence[Block | Group]) -> list[Block]:
    """The blocks to explain: a skip or a chain only where there is nothing more to say."""
    blocks = [
        block for part in parts for block in (part.parts if isinstance(part, Group) else (part,))
    ]
    main = [block for block in blocks if block.stitch not in {"sk", "ch"}]
    return main or blocks


def _words(sentences: Sequence[str]) -> tuple[Words, ...]:
    return tuple(Words(each, each) for each in sentences)


def explain(
    stitch: str,
    terms: str = "US",
    special: Mapping[str, str] | None = None,
    *,
    loop: str | None = None,
) -> tuple[str, ...]:
    """Return how *stitch* is made, by touch: its name, then short sentences in order."""
    name = stitch_name(stitch, terms)
    head = f"{sentence(name)}"
    own = _own_definition(stitch, special or {})
    if own:
        return (head, sentence(f"The pattern says: {say(own, terms)}"), *made(stitch, terms, loop))
    return (head, *made(stitch, terms, loop))


def other_terms(stitch: str, terms: str) -> Words:
    """Return what makers of the other terms call *stitch*, on request."""
    there = "US" if terms.upper() == "UK" else "UK"
    mine, theirs = stitch_name(stitch, terms), other_name(stitch, terms)
    if mine == theirs:
        told = f"{mine.capitalize()} has the same name in {there} terms."
        return Words(told, f"{there}: the same")
    return Words(f"{mine.capitalize()} is {theirs} in {there} terms.", f"{there}: {theirs}")


def _own_definition(stitch: str, special: Mapping[str, str]) -> str | None:
    wanted = stitch.lower()
    return next((told for name, told in special.items() if name.lower() == wanted), None)
