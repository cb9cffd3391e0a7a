"""A whole row in one breath, for the maker who wants it so: the row pace.

Repeats are told with their number first, and with an end, so that the ear knows where the
repeated part begins and stops.
"""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.equal_runs import equal_runs
from coach.craft.merging import alternation
from coach.craft.row_ends import is_chain_of_row
from coach.craft.working import Action, Block, Group, Passes, Work
from coach.wording.blocks_told import alternation_told, block_told, counted_as
from coach.wording.plain_text import say, sentence


def row_told(work: Sequence[Work], terms: str) -> str:
    """Return all of a row's work as sentences."""
    said: list[str] = []
    for item in equal_runs(work):
        if isinstance(item, Passes):
            said.append(repeat_told(item, terms))
        elif isinstance(item, Action):
            said.append(sentence(say(item.text, terms) or item.kind))
        else:
            said.append(sentence(_one(item, terms)))
    return " ".join(part for part in said if part)


def repeat_told(passes: Passes, terms: str) -> str:
    """Return a repeat: "Work this group 6 times. ... That is the group."."""
    in_turn = alternation(passes)
    if in_turn is not None:
        blocks = [part for part in in_turn.parts if isinstance(part, Block)]
        return sentence(alternation_told(blocks, in_turn.turns, terms))
    inside = within(passes.parts, terms)
    told = f"Work this group {passes.times} times. {inside} That is the group."
    if passes.times == 1:
        told = inside
    if not passes.last:
        return told
    last = within(passes.last, terms)
    return f"{told} Group {passes.total}, the last, is shorter. {last} That was the last group."


def within(work: Sequence[Work], terms: str) -> str:
    """Return the parts of one pass, each a sentence: "Double crochet ... Chain 1. Skip 1."."""
    told: list[str] = []
    for item in equal_runs(work):
        if isinstance(item, Passes):
            in_turn = alternation(item)
            if in_turn is not None:
                blocks = [part for part in in_turn.parts if isinstance(part, Block)]
                told.append(sentence(alternation_told(blocks, in_turn.turns, terms)))
            else:
                inside = within(item.parts, terms)
                told.append(f"Inside it, {item.total} times. {inside} That is the inside.")
        elif isinstance(item, Action):
            told.append(sentence(say(item.text, terms) or item.kind))
        else:
            told.append(sentence(_one(item, terms)))
    return " ".join(told)


def _one(item: Block | Group, terms: str) -> str:
    told = block_told(item, terms)
    if isinstance(item, Block) and item.stitch == "ch" and is_chain_of_row(item):
        told += (
            f". It counts as {counted_as(item.counts_as, terms)}"
            if item.counts_as
            else ". It does not count"
        )
    if not item.color:
        return told
    return (
        f"{told}. All of it is in {say(item.color)}"
        if ". " in told
        else f"{told}, in {say(item.color)}"
    )
