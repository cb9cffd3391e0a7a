"""Stated counts: what they say in all, for which row of a range, and what a row is after a fault."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coach.craft import fabric
from coach.craft.fabric import Item, Run, space_cell, stitch_cell
from coach.craft.instruction import Of
from coach.craft.pattern import Line, Stated
from coach.craft.stitch import answers_to
from coach.craft.tally import Tally
from coach.craft.walk import Walk


def as_stated(
    walk: Walk, line: Line, items: tuple[Item, ...], count: Tally, stated: tuple[Stated, ...]
) -> tuple[tuple[Item, ...], bool]:
    """Return what the next row meets after a fault, and whether it is only a guess."""
    total = total_of(stated)
    spaces = {
        figure.noun.length or 1: figure.number
        for figure in stated
        if figure.noun is not None and figure.noun.of is Of.SPACE
    }
    if total is None:
        if (line.problems or not items) and walk.below.items:
            items = (Run(stitch_cell("st"), fabric.size(walk.below.items)[0]),)
        return items, True
    if total == count.made and not spaces and not line.problems:
        return items, False
    if total > 10**7 or sum(spaces.values()) > 10**5:
        return items, True
    if not spaces and count.spaces:
        return items, True  # where its spaces lie is known, and not how many stitches are between
    if not spaces:
        return ((Run(stitch_cell("st"), total),) if total else ()), False
    return spread_evenly(total, spaces), True


def total_of(stated: Sequence[Stated]) -> int | None:
    """Return the stated number of stitches, where the figures give one."""
    if not stated:
        return None
    stitches = [
        figure.number
        for figure in stated
        if figure.noun is None or figure.noun.of in (Of.STITCH, Of.NAMED)
    ]
    units = any(figure.noun is not None and figure.noun.of is Of.UNIT for figure in stated)
    if units or not stitches:
        return None
    plain = [
        figure.number for figure in stated if figure.noun is None or figure.noun.of is Of.STITCH
    ]
    return plain[0] if plain else sum(stitches)


def stated_in_all(stated: Sequence[Stated], count: Tally) -> int | None:
    """Return the number of stitches that figures come to which were found right.

    "(2 shells, 8 dc)" says as much as "(16 dc)". None where something made is left unsaid.
    """
    total = total_of(stated)
    if total is not None:
        return total
    nouns = [figure.noun for figure in stated if figure.noun is not None]
    if any(noun.of is Of.SQUARE for noun in nouns):
        return count.made
    named = {noun.name for noun in nouns if noun.of in (Of.NAMED, Of.UNIT) and noun.name}
    groups = any(noun.of is Of.UNIT for noun in nouns)
    for stitch, times in count.by_stitch.items():
        outside = times - (count.in_groups.get(stitch, 0) + count.begun if groups else 0)
        if outside > 0 and not any(answers_to(stitch, name) for name in named):
            return None
    return count.made if named else None


def spread_evenly(stitches: int, spaces: Mapping[int, int]) -> tuple[Item, ...]:
    """Return so many stitches with the spaces evenly between them."""
    number = sum(spaces.values())
    each, more = divmod(stitches, number + 1)
    items: list[Item] = []
    lengths = [length for length, times in spaces.items() for _ in range(times)]
    for index in range(number + 1):
        count = each + (1 if index < more else 0)
        if count:
            items.append(Run(stitch_cell("st"), count))
        if index < number:
            items.append(Run(space_cell(lengths[index]), 1))
    return fabric.joined(items)


def stated_for(stated: tuple[tuple[Stated, ...], ...], index: int, rows: int) -> tuple[Stated, ...]:
    """Return what is stated for one row of a range: its own figure, or at the end the last one."""
    if not stated:
        return ()
    if len(stated) == 1:
        return stated[0] if index == rows - 1 else ()
    return stated[index] if index < len(stated) else ()
