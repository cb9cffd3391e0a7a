"""The sentences of a step, built from the step's own objects.

Each says one thing at a time and ends with a full stop, or the voice swallows the end; a
count never stands as the last word alone.
"""

from __future__ import annotations

import re
from itertools import pairwise
from typing import TypeGuard

from coach.craft.places_named import SPACE_NAMED
from coach.craft.row_ends import CLOSING_CHAIN, is_chain_of_row
from coach.craft.stage import Stage
from coach.craft.steps import Pass, StageKind, Step
from coach.craft.working import Action, Block, Group, Into
from coach.wording.blocks_told import (
    alternation_told,
    block_told,
    counted_as,
    skip_word,
)
from coach.wording.finishing_words import LEAVE_TAIL, finishing_told
from coach.wording.foundations_told import foundation_told
from coach.wording.joins_told import join_told
from coach.wording.plain_text import say, sentence
from coach.wording.row_facts import SIDES, closing_count, label
from coach.wording.rows_told import row_told
from coach.wording.short_sentences import in_short_sentences
from coach.wording.yarns_told import color_change, colored, waiting_told, yarn


def step_told(stage: Stage, step: Step, terms: str = "US") -> str:
    """Return the step itself as sentences, without the facts of its row."""
    if stage.kind is StageKind.FOUNDATION:
        return foundation_told(stage, step)
    if stage.kind is StageKind.FINISHING:
        return finishing_told(stage, step, terms)
    if step.task == "no words":
        return no_words(stage)
    said = [sentence(action_told(action, terms)) for action in step.before]
    if step.work:
        said.append(in_short_sentences(row_told(step.work, terms)))
    elif step.parts:
        said.append(group_number(step))
        said.append(in_short_sentences(_parts_sentence(stage, step, terms)))
        if not step.closes_stage:
            said.extend(_after(step, terms))
        said.append(in_short_sentences(_chain_note(stage, step, terms)))
    if step.closes_stage:
        said.extend(_remarks(step, terms))
        said.append(_last_stitch_note(stage, step))
        if step.color_next:
            said.append(waiting_told(stage))
            said.append(LEAVE_TAIL)
        said.append(closing_count(stage))
        said.extend(_after(step, terms))
    return " ".join(part for part in said if part)


def _after(step: Step, terms: str) -> list[str]:
    """What is done after the step; of the last step its remarks are told before the count."""
    actions = [action for action in step.after if not (step.closes_stage and _is_remark(action))]
    return [sentence(action_told(action, terms)) for action in actions]


def _remarks(step: Step, terms: str) -> list[str]:
    remarks = [action for action in step.after if _is_remark(action)]
    return [
        sentence(action_told(action, terms))
        for action in remarks
        if not _LAST_STITCH.search(action.text)
    ]


def _is_remark(action: Action) -> bool:
    return action.kind == "remark"


# A remark on where the last stitch goes is told in the coach's own words.
_LAST_STITCH = re.compile(r"\blast\b.*\b(turning|t-?ch|beg|top)", re.I)


def no_words(stage: Stage) -> str:
    """Return what is told of a row that the pattern only shows (a chart, a photograph)."""
    return f"{label(stage)} has no words. It cannot be guided. Ask for its words, or go to the next row."


def group_number(step: Step) -> str:
    """Return "Group 2 of 4." where a pass begins; "Inside it, 1 of 3." for a repeat within."""
    if not step.opens:
        return ""
    opened = step.passes[len(step.passes) - step.opens :]
    outer = len(opened) == len(step.passes)
    said: list[str] = []
    for depth, each in enumerate(opened):
        told = f"{each.number} of {each.of}."
        if outer and depth == 0:
            said.append(f"Group {told}")
        else:
            said.append(f"Inside it, {told}")
    return " ".join(said)


def group_brief(passes: tuple[Pass, ...]) -> str:
    """Return "group 2 of 4" or "group 2 of 4, 1 of 3 inside"."""
    if not passes:
        return ""
    told = f"group {passes[0].number} of {passes[0].of}"
    return told + "".join(f", {each.number} of {each.of} inside" for each in passes[1:])


def action_told(action: Action, terms: str) -> str:
    """Return what is done that uses no place: "turn", "move the marker up"."""
    text = say(action.text, terms)
    if action.kind in {"turn", "do not turn"}:
        return action.kind
    if action.kind == "facing":
        return f"{SIDES.get(action.text, text)} facing"
    if action.kind == "join yarn":
        return f"join {text}"
    if action.kind == CLOSING_CHAIN:
        return f"chain {action.text} for the next row"
    if action.kind == "colour":
        return text if " to " in text or "change" in text else f"bring in {yarn(action.text)}"
    return text or _USUAL_ACTIONS.get(action.kind, "")


_USUAL_ACTIONS = {
    "join": "join",
    "marker": "place a marker",
    "fasten off": "fasten off",
    "rotate": "turn the work on its side, to work along the edge",
}


def _parts_sentence(stage: Stage, step: Step, terms: str) -> str:
    return sentence(_then(step, parts_phrase(stage, step, terms)))


def parts_phrase(stage: Stage, step: Step, terms: str) -> str:
    """Return what is worked in *step*, as a phrase within a sentence."""
    if not step.parts:
        return ""
    first = step.parts[0]
    if step.turns:
        kinds = [part for part in step.parts if isinstance(part, Block)]
        changes = first.color is not None and first.color != step.color_before
        color = yarn(first.color or "") if changes else ""
        return alternation_told(kinds, step.turns, terms, color)
    if step.closes_stage and is_plain_skip(first) and len(step.parts) == 1:
        return _left_unworked(first)
    if isinstance(first, Block) and first.role == "join":
        return join_told(stage, first, terms)
    if len(step.parts) == 1 and step.color_next and isinstance(first, Block):
        return color_change(step, first, terms)
    told = colored(first, terms, step.color_before)
    if step.number == SECOND and _stands_on_chain(stage, first):
        place, stop, rest = told.partition(". ")
        told = f"{place}, where the chain stands{stop}{rest}"
    for before, part in pairwise(step.parts):
        if step.closes_stage and part is step.parts[-1] and is_plain_skip(part):
            told += f", and {_left_unworked(part)}"
        elif is_plain_skip(part) and is_plain_chain(before):
            told += f", {skip_word(terms)} {part.count}"  # "chain 1, skip 1"
        elif _in_one_place(before) or _of_sentences(before, terms) or _of_sentences(part, terms):
            # or the chain would sound like one thing more in the group
            told += f". Then {colored(part, terms, before.color)}"
        else:
            joint = ", " if _follows_closely(part) else ", then "
            told += f"{joint}{colored(part, terms, before.color)}"
    if step.color_next:
        told += f". On the very last pull, bring in {yarn(step.color_next)}"
    return told


def _left_unworked(skip: Block) -> str:
    """A skip at the end of a row is not a step over: the stitches stay."""
    left = "stitch" if skip.count == 1 else f"{skip.count} stitches"
    return f"leave the last {left} unworked"


SECOND = 2  # the step after the turning chain


def _stands_on_chain(stage: Stage, first: Block | Group) -> bool:
    """Whether the same stitch is the one below a chain that counts."""
    chain = stage.turning_chain
    stands = chain is not None and chain.stitch == "ch" and chain.counts_as is not None
    return stands and first.where.into is Into.SAME and first.where.named != SPACE_NAMED


def _then(step: Step, told: str) -> str:
    """Within a group, a step that goes on begins with "then": it is not a new group."""
    if not step.passes or step.opens:
        return told
    first, stop, rest = told.partition(". ")
    return f"then {first.replace(', then ', ', and ', 1)}{stop}{rest}"


def is_plain_skip(part: Block | Group) -> TypeGuard[Block]:
    """Return whether *part* passes over stitches that have no name."""
    return (
        isinstance(part, Block)
        and part.stitch == "sk"
        and part.where.into is Into.NEXT
        and part.where.named is None
    )


def is_plain_chain(part: Block | Group) -> bool:
    """Return whether *part* is a chain in the air."""
    return isinstance(part, Block) and part.stitch == "ch"


def _of_sentences(part: Block | Group, terms: str) -> bool:
    told = block_told(part, terms)
    return ". " in told or ", all " in told


def _in_one_place(part: Block | Group) -> bool:
    return isinstance(part, Group) or part.each > 1


def _follows_closely(part: Block | Group) -> bool:
    return isinstance(part, Block) and part.stitch in {"ch", "sk"}


def _chain_note(stage: Stage, step: Step, terms: str) -> str:
    """Say of a turning chain what it counts as and where the first stitch goes."""
    chain = step.parts[-1]
    if not isinstance(chain, Block) or chain.stitch != "ch" or not is_chain_of_row(chain):
        return ""
    if chain.counts_as is None:
        first = _first_place(stage, terms)
        turned = bool(step.after) and not step.closes_stage  # "it" would be the turn
        chain_word = "The chain" if turned else "It"
        return f"{chain_word} does not count as a stitch.{first}"
    counts = "They count" if chain.already_made else "It counts"
    first_of = "" if "+" in chain.counts_as else f", the first of the {_kind(stage)}"
    counts = f"{counts} as {counted_as(chain.counts_as, terms)}{first_of}."
    if stage.kind is StageKind.ROW and chain.uses and not _names_first(stage):
        skip = skip_word(terms).capitalize()
        return f"{counts} {skip} the first stitch: the chain stands on it."
    return counts


def _kind(stage: Stage) -> str:
    return "round" if stage.kind is StageKind.ROUND else "row"


def _names_first(stage: Stage) -> bool:
    first = stage.first
    return first is not None and first.where.into in {Into.SAME, Into.SPACE}


def _first_place(stage: Stage, terms: str) -> str:
    """Without a counted chain the first stitch goes into the very first one: say so."""
    first = stage.first
    if first is None or (isinstance(first, Block) and first.stitch == "sk"):
        return ""
    if first.where.into is not Into.NEXT:
        return ""
    return " The first stitch goes in the very first stitch."


def _last_stitch_note(stage: Stage, step: Step) -> str:
    """Say where a row's last stitch goes, where its own words leave that out."""
    last = stage.last
    if stage.kind is not StageKind.ROW or last is None or step.work:
        return _last_of_row(stage) if step.work else ""
    if last.where.into in {Into.TURNING_CHAIN, Into.SPACE} or last.where.position == "last":
        return ""
    return _last_of_row(stage)


def _last_of_row(stage: Stage) -> str:
    last = stage.last
    if stage.counted_below is None or last is None or last.where.into is not Into.NEXT:
        return ""
    return "The last stitch goes in the top of the turning chain."
