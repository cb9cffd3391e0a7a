"""Where a maker is, in a breath: the row and what it is worked as, the side, block and group.

A breath is at most 25 words. What finds no room in it comes at "tell me more" right after;
asked again, the place is told in the same words.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from coach.craft.stage import Stage
from coach.craft.steps import Pass, StageKind, Step
from coach.wording.numbers_told import counted, ordinal
from coach.wording.plain_text import say
from coach.wording.row_facts import SIDES, label, row_word, worked_as
from coach.wording.short_sentences import in_short_sentences
from coach.wording.step_sentences import group_brief
from coach.wording.words import Words

MOST_WORDS = 25


@dataclass(frozen=True, slots=True)
class Phrasing:
    """One way to tell a fact. worth: how much a maker loses without it, against the others."""

    told: str
    worth: int


LEFT_OUT = Phrasing("", 0)

Phrasings = Sequence[Phrasing]


@dataclass(frozen=True, slots=True)
class Place:
    """The facts of a place as they are told, in the order in which they are told."""

    row: str
    to_go: str
    block: str
    worked: str
    side: str
    within: str

    @property
    def words(self) -> int:
        """How many words it takes to tell."""
        return len(str(self).split())

    def __str__(self) -> str:
        head = in_short_sentences(", ".join(filter(None, (self.row, self.to_go, self.block))) + ".")
        return " ".join(filter(None, (head, self.worked, self.side, self.within)))


def where_words(stage: Stage, step: Step) -> Words:
    """Return the place: row of how many, block, what it is worked as, side, what is confirmed."""
    brief = f"{label(stage)}, block {step.number} of {step.of}"
    group = group_brief(step.passes)
    told = _elsewhere(stage, step) or str(_place(stage, step))
    return Words(told, f"{brief}, {group}" if group else brief)


def more_where_words(stage: Stage, step: Step) -> Words | None:
    """Return what `where_words` had no room for; None where it has told everything."""
    if _elsewhere(stage, step):
        return None
    told = _place(stage, step)
    head = [_rows_to_go(stage)] if _rows_to_go(stage) and not told.to_go else []
    repeat_told = any(told.worked == each.told for each in _worked(stage)[:2])
    within = _within(stage, step)[0].told
    rest = [
        *(f"{each[:1].upper()}{each[1:]}." for each in head),
        "" if repeat_told else worked_as(stage),
        *(_inside(step.passes[1:]) if told.within != within else ()),
        within if told.within != within else "",
    ]
    said = " ".join(filter(None, rest))
    return Words(said, told.row) if said else None


def _elsewhere(stage: Stage, step: Step) -> str:
    """Return the place before the first row or after the last one, "" within them."""
    if stage.kind is StageKind.FOUNDATION:
        block = f"block {step.number} of {step.of}"
        return f"Foundation, {step.made_before} of {stage.stitches} chains, {block}."
    if stage.kind is StageKind.FINISHING:
        return f"Finishing: {label(stage)}, step {step.number} of {step.of}."
    return ""


def _place(stage: Stage, step: Step) -> Place:
    """Return the most telling way to tell the place that a breath has room for."""
    ways = product(
        _row(stage),
        _to_go(stage),
        _block(step),
        _worked(stage),
        _side(stage),
        _within(stage, step),
    )
    place = Place(label(stage), "", "", "", "", "")
    for way in sorted(ways, key=lambda way: -sum(each.worth for each in way)):
        place = Place(*(each.told for each in way))
        if place.words <= MOST_WORDS:
            break
    return place


def _row(stage: Stage) -> Phrasings:
    row, name = stage.row, label(stage)
    if row is not None and row.number == stage.place:
        return (Phrasing(f"{name} of {stage.places}", 0),)
    return (Phrasing(f"{name}, {stage.place} of {stage.places}", 0),)


def _rows_to_go(stage: Stage) -> str:
    to_go = stage.places - stage.place
    return f"{to_go} to go after this one" if to_go else ""


def _to_go(stage: Stage) -> Phrasings:
    """User need R50: "23 to go after this one"."""
    told = _rows_to_go(stage)
    if not told:
        return (Phrasing(f"the last {row_word(stage)}", 4), LEFT_OUT)
    short = told.removesuffix(" after this one")
    return (Phrasing(told, 8), Phrasing(short, 4), LEFT_OUT)


def _block(step: Step) -> Phrasings:
    if step.of == 1:
        return (LEFT_OUT,)
    return (Phrasing(f"block {step.number} of {step.of}", 20), LEFT_OUT)


def _worked(stage: Stage) -> Phrasings:
    """User need R24: which row it is worked as, and which repeat of how many."""
    told = worked_as(stage)
    if not told:
        return (LEFT_OUT,)
    which, of = stage.repeat or (1, 1)
    short = told.replace(f"the {ordinal(which)} repeat of {of}", f"repeat {which} of {of}")
    alone = f"Worked as {say(stage.worked_as or '')}."
    return (Phrasing(told, 40), Phrasing(short, 38), Phrasing(alone, 20), LEFT_OUT)


def _side(stage: Stage) -> Phrasings:
    side = SIDES.get(stage.side or "", "").capitalize()
    if not side:
        return (LEFT_OUT,)
    return (Phrasing(f"{side} facing.", 31), Phrasing(f"{side}.", 30), LEFT_OUT)


def _within(stage: Stage, step: Step) -> Phrasings:
    """How much of the row was confirmed, and how far back a recount has to go (user need R27)."""
    if step.passes:
        return _within_repeat(step)
    if step.number == 1:
        told = f"Nothing of this {row_word(stage)} is confirmed yet."
        return (Phrasing(told, 5), Phrasing("Nothing confirmed yet.", 3), LEFT_OUT)
    if step.made_before == 0:
        return (Phrasing("No stitches confirmed yet.", 3), LEFT_OUT)
    told = f"{counted(step.made_before, 'stitch')} confirmed."
    full = f"{told} Count back only to the start of this block."
    return (Phrasing(full, 5), Phrasing(told, 3), LEFT_OUT)


def _within_repeat(step: Step) -> Phrasings:
    at = step.passes[0]
    done = at.number - 1
    begins = step.opens == len(step.passes)
    stitches = counted(step.made_before, "stitch") + ("" if begins else " in all")
    repeats = f"{done} of {at.of} repeats confirmed" if done else "No repeat confirmed yet"
    start = f"repeat {at.number}" if begins else "this block"
    group = f"Group {at.number} of {at.of}"
    short = f"{group}: {done or 'none'} confirmed, {stitches}."
    from_its_start = [Phrasing(f"{short} Count back only to its start.", 24)] if begins else []
    return (
        Phrasing(f"{repeats}, {stitches}. Count back only to the start of {start}.", 29),
        *from_its_start,
        Phrasing(short, 18),
        Phrasing(f"{group}.", 14),
    )


def _inside(passes: Sequence[Pass]) -> list[str]:
    return [f"Inside it, {each.number} of {each.of}." for each in passes]
