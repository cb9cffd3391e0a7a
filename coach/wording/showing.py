"""What a screen shows of a step: few words, and the number and the stitch dominate.

The same facts as the spoken sentence, never more: a maker who can't see loses nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from coach.craft.equal_runs import equal_runs
from coach.craft.merging import alternation
from coach.craft.stage import Stage
from coach.craft.steps import StageKind, Step
from coach.craft.working import Block, Group, Into, Passes, Work
from coach.wording.blocks_told import drawn_together, group_name, skip_word, thing_told
from coach.wording.finishing_words import finishing_brief
from coach.wording.hands import mirror
from coach.wording.places import next_places, place
from coach.wording.plain_text import sentence
from coach.wording.row_facts import SIDES, begins_uncounted, count_told, label
from coach.wording.step_sentences import action_told, group_brief, step_told
from coach.wording.stitch_names import family_name, is_post, plural, short_name, stitch_name
from coach.wording.yarns_told import yarn


@dataclass(frozen=True, slots=True)
class Shown:
    """What a screen shows of a step: *big* dominates, in lines of few words.

    worked: how many lines of *big* say what is worked; those after it say where, and what else.
    """

    headline: str
    big: tuple[str, ...]
    group: str = ""
    count: str = ""
    side: str = ""
    worked: int = 0


def view_parts(stage: Stage, step: Step, terms: str = "US", hand: str = "right") -> Shown:
    """Return what a screen shows of *step*: number and stitch dominate, few words a line."""
    worked, besides = (
        [mirror(line, hand) for line in lines if line] for lines in _big(stage, step, terms)
    )
    uncounted = stage.kind is StageKind.FINISHING or begins_uncounted(stage)
    count = "" if uncounted else count_told(stage)
    return Shown(
        label(stage),
        (*worked, *besides),
        group_brief(step.passes),
        count,
        SIDES.get(stage.side or "", ""),
        len(worked),
    )


def address(stage: Stage, step: Step, group: str) -> str:
    """Return "Row 6, block 3 of 20, group 2 of 9"."""
    told = label(stage)
    if step.of > 1:
        unit = "step" if stage.kind is StageKind.FINISHING else "block"
        told += f", {unit} {step.number} of {step.of}"
    return f"{told}, {group}" if group else told


Lines = tuple[list[str], list[str]]  # what is worked; where, and what else


def _big(stage: Stage, step: Step, terms: str) -> Lines:
    if step.work:
        return _row_big(stage, step.work, terms), []
    if stage.kind is StageKind.FOUNDATION:
        return _foundation_big(stage, step)
    if step.parts:
        return _worked_big(step, terms)
    if stage.kind is StageKind.FINISHING:
        told = list(finishing_brief(stage, step))
        return told[:1], told[1:]
    if step.task == "no words":
        return ["no words here"], []
    actions = [sentence(action_told(action, terms)) for action in step.before + step.after]
    return actions[:1] or [step_told(stage, step, terms)], actions[1:]


def _foundation_big(stage: Stage, step: Step) -> Lines:
    if step.task == "chain":
        return [f"chain {step.last - step.first + 1}"], [f"{step.last} of {stage.stitches}"]
    return [FOUNDATION_BRIEF.get(step.task, "begin")], []


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
            lines.append(_one_of_several(item, terms))
    return lines if len(lines) <= ROW_LINES else ["whole row", count_told(stage)]


def _worked_big(step: Step, terms: str) -> Lines:
    worked, besides = _parts_big(step, terms)
    before = [action_told(action, terms) for action in step.before]
    if step.color_next:
        besides.append(f"last pull in {yarn(step.color_next)}")
    turns = [action_told(action, terms) for action in step.after if action.kind == "turn"]
    return worked, [*before, *besides, *turns]


def _parts_big(step: Step, terms: str) -> Lines:
    blocks = [part for part in step.parts if isinstance(part, Block)]
    if step.turns:
        return [str(step.turns), *_in_turn([block.stitch for block in blocks], terms)], ["in turn"]
    if len(step.parts) == 1:
        part = step.parts[0]
        return _alone_big(part, terms) if isinstance(part, Block) else _group_big(part, terms)
    worked: list[str] = []
    besides: list[str] = []
    for part in step.parts:
        if isinstance(part, Group):
            contents, where = _group_big(part, terms)
            worked += contents
            besides += where
        else:
            worked.append(_one_of_several(part, terms))
            besides.append(_telling_place(part, terms))
    return worked, besides


def _one_of_several(block: Block, terms: str) -> str:
    """One thing of several, in the fewest true words: "1 double", "chain 2", "skip 1"."""
    if block.role == "skipped chains" or block.stitch == "sk":
        return f"{skip_word(terms)} {block.count}"
    return _without_crochet(_block_big(block, terms)[0])


def _telling_place(block: Block, terms: str) -> str:
    """A place that the next stitch alone doesn't tell; the sentence has every place in full."""
    if block.stitch in {"ch", "sk"} or block.role:
        return ""
    usual = block.where.into is Into.NEXT and block.where.position is None
    return "" if usual and not block.where.loop else _short_place(block, terms)


def _without_crochet(name: str) -> str:
    """All of it is crochet: "3 double" stands larger, and the sentence has the name in full."""
    return name.removesuffix(" crochet")


def _in_turn(stitches: Sequence[str], terms: str) -> list[str]:
    """Two stitches in turn, short: "single" and "double", or "front post" and "back post"."""
    names = [_without_crochet(stitch_name(stitch, terms)) for stitch in stitches]
    bases = {name.partition(" post ")[2] for name in names}
    if all(map(is_post, stitches)) and len(bases) == 1 and len(set(names)) == len(names):
        base = bases.pop()
        return [name.removesuffix(f" {base}") for name in names]
    return names


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
        return [f"{skip_word(terms)} {block.count}", plural("chain", block.count)]
    if block.stitch == "sk":
        noun = next_places(block.where, terms, block.count).removeprefix("the next ")
        return [f"{skip_word(terms)} {block.count}", noun.removeprefix(f"{block.count} ")]
    if block.role == "join":
        return ["join", "slip stitch"]
    return [_number_and_name(block, terms), _short_place(block, terms)]


def _alone_big(block: Block, terms: str) -> Lines:
    """A block with nothing beside it: its number has a line of its own."""
    if block.stitch.endswith("tog") and block.where.into is Into.TOGETHER:
        base, over = family_name(block.stitch, terms), drawn_together(block)
        times = [f"{block.count} times"] if block.count > 1 else []
        return ["decrease"], [base, f"{over} together", *times]
    first, *besides = _block_big(block, terms)
    number, _, name = first.partition(" ")
    return ([number, name] if number.isdigit() else [first]), besides


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


def _group_big(group: Group, terms: str) -> Lines:
    name = group_name(group, terms)
    where = place(group.where, terms, places=group.times)
    if name:
        return [name], [where]
    told = (thing_told(part, terms)[0] for part in group.parts)
    contents = [_without_crochet(each) for each in told]
    return (contents if len(contents) <= LINES_APART else [", ".join(contents)]), [where]


LINES_APART = 3  # things in one place that have a line each
