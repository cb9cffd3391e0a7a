"""What a screen shows of a step: few words, and the number and the stitch dominate.

The same facts as the spoken sentence, never more: a maker who can't see loses nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from coach.craft.equal_runs import equal_runs
from coach.craft.merging import alternation
from coach.craft.stages import Stage
from coach.craft.steps import StageKind, Step
from coach.craft.working import Block, Group, Into, Passes, Work
from coach.wording.blocks_told import drawn_together, group_name, part_told, skip_word
from coach.wording.finishing_words import finishing_brief
from coach.wording.hands import mirror
from coach.wording.numbers_told import counted
from coach.wording.places import next_places, place
from coach.wording.plain_text import sentence
from coach.wording.row_facts import SIDES, count_told, label
from coach.wording.step_sentences import action_told, group_brief, step_told, yarn
from coach.wording.stitch_names import family_name, is_post, plural, short_name, stitch_name


@dataclass(frozen=True, slots=True)
class Shown:
    """What a screen shows of a step: *big* dominates, in lines of few words."""

    headline: str
    big: tuple[str, ...]
    group: str = ""
    count: str = ""
    side: str = ""


def view_parts(stage: Stage, step: Step, terms: str = "US", hand: str = "right") -> Shown:
    """Return what a screen shows of *step*: number and stitch dominate, few words a line."""
    big = tuple(mirror(line, hand) for line in _big(stage, step, terms) if line)
    count = "" if stage.kind is StageKind.FINISHING else count_told(stage)
    return Shown(
        label(stage), big, group_brief(step.passes), count, SIDES.get(stage.side or "", "")
    )


def address(stage: Stage, step: Step, group: str) -> str:
    """Return "Row 6, block 3 of 20, group 2 of 9"."""
    told = label(stage)
    if step.of > 1:
        unit = "step" if stage.kind is StageKind.FINISHING else "block"
        told += f", {unit} {step.number} of {step.of}"
    return f"{told}, {group}" if group else told


def _big(stage: Stage, step: Step, terms: str) -> list[str]:
    if step.work:
        return _row_big(stage, step.work, terms)
    if stage.kind is StageKind.FOUNDATION:
        return _foundation_big(stage, step)
    if step.parts:
        return _worked_big(step, terms)
    if stage.kind is StageKind.FINISHING:
        return list(finishing_brief(stage, step))
    if step.task == "no words":
        return ["no words here"]
    actions = [sentence(action_told(action, terms)) for action in step.before + step.after]
    return actions or [step_told(stage, step, terms)]


def _foundation_big(stage: Stage, step: Step) -> list[str]:
    if step.task == "chain":
        return [f"chain {step.last - step.first + 1}", f"{step.last} of {stage.stitches}"]
    return [FOUNDATION_BRIEF.get(step.task, "begin")]


ROW_LINES = 5  # a row of more pieces than this is shown by its count


def _row_big(stage: Stage, work: Sequence[Work], terms: str) -> list[str]:
    """A whole row in a few lines: its runs and its groups, or its count where it has too many."""
    lines: list[str] = []
    for item in equal_runs(work):
        if isinstance(item, Passes):
            in_turn = alternation(item)
            lines.append(f"{item.total} groups" if in_turn is None else f"{in_turn.turns} in turn")
        elif isinstance(item, Group):
            lines.append(group_name(item, terms) or "group in one place")
        elif isinstance(item, Block):
            lines.append(_block_big(item, terms)[0])
    return lines if len(lines) <= ROW_LINES else ["whole row", count_told(stage)]


def _worked_big(step: Step, terms: str) -> list[str]:
    lines = [action_told(action, terms) for action in step.before]
    if step.turns:
        lines.append(f"{step.turns} in turn")
        lines.extend(
            short_name(part.stitch, terms) for part in step.parts if isinstance(part, Block)
        )
        return lines
    for part in step.parts:
        if isinstance(part, Group):
            lines.extend(_group_big(part, terms))
        elif len(step.parts) == 1:
            lines.extend(_alone_big(part, terms))
        else:
            lines.extend(_block_big(part, terms))
    if step.color_next:
        lines.append(f"last pull in {yarn(step.color_next)}")
    lines.extend(action_told(action, terms) for action in step.after if action.kind == "turn")
    return lines


FOUNDATION_BRIEF = {
    "ring": "join into a ring",
    "joined chain": "join, don't twist",
    "magic ring": "make a ring",
    "foundation stitches": "foundation stitches",
}


def _block_big(block: Block, terms: str) -> list[str]:
    if block.stitch == "ch":
        counts = (
            f"counts as {stitch_name(block.counts_as.partition('+')[0], terms)}"
            if (block.counts_as)
            else ""
        )
        return [f"chain {block.count}", counts]
    if block.role == "skipped chains":
        return [f"{skip_word(terms)} {counted(block.count, 'chain')}"]
    if block.stitch == "sk":
        noun = next_places(block.where, terms, block.count).removeprefix("the next ")
        return [f"{skip_word(terms)} {block.count} {noun.removeprefix(f'{block.count} ')}"]
    if block.role == "join":
        return ["join", "slip stitch"]
    return [_number_and_name(block, terms), _short_place(block, terms)]


def _alone_big(block: Block, terms: str) -> list[str]:
    """A block with nothing beside it: its number has a line of its own."""
    if block.stitch.endswith("tog") and block.where.into is Into.TOGETHER:
        base, over = family_name(block.stitch, terms), drawn_together(block)
        times = [f"{block.count} times"] if block.count > 1 else []
        return ["decrease", base, f"{over} together", *times]
    lines = _block_big(block, terms)
    number, _, name = lines[0].partition(" ")
    return [number, name, *lines[1:]] if number.isdigit() else lines


def _number_and_name(block: Block, terms: str) -> str:
    named = group_name(block, terms) if block.each > 1 else None
    if named:
        return named
    count = block.each if block.each > 1 else block.count
    return f"{count} {plural(short_name(block.stitch, terms), count)}"


def _short_place(block: Block, terms: str) -> str:
    """Return where the hook goes in few words; a loop that is left free is never left out."""
    where = block.where
    loop = f"{where.loop} loop only" if where.loop in {"back", "front"} else where.loop or ""
    told = _shortest(block, terms)
    if told is None:
        bare = replace(where, loop=None)
        told = place(bare, terms, around=is_post(block.stitch), places=_places(block))
    return ", ".join(part for part in (told, loop) if part)


def _shortest(block: Block, terms: str) -> str | None:
    """Return the few words for the commonest places, or None where the full ones are needed."""
    where = block.where
    plain = where.into is Into.NEXT and where.position is None and not where.named
    if where.into is Into.NEXT and block.each == 1 and where.position in {None, "first", "last"}:
        number = f" {block.count}" if block.count > 1 else " stitch"
        named = f"in {stitch_name(where.named, terms)}" if where.named else ""
        return f"in the {where.position}{number}" if where.position else named
    if plain:
        return "in one stitch" if _places(block) == 1 else f"in each of the next {_places(block)}"
    if where.into is Into.BELOW:
        return f"{where.rows_below} rows below" if where.rows_below > 1 else "one row below"
    return _SHORT_PLACES.get(where.into) if not where.remark else None


_SHORT_PLACES = {
    Into.TURNING_CHAIN: "top of turning chain",
    Into.STITCH_OR_SPACE: "stitches and spaces",
    Into.TOGETHER: "",
    Into.FREE_LOOP: "in the free loops",
}


def _places(block: Block) -> int:
    return max(1, block.count // block.each) if block.each > 1 else block.where.places


def _group_big(group: Group, terms: str) -> list[str]:
    name = group_name(group, terms)
    where = place(group.where, terms, places=group.times)
    if name:
        return [name, where]
    contents = [part_told(replace(part, counts_as=None), terms) for part in group.parts]
    return [*contents, where]
