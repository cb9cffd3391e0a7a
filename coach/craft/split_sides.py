"""The sides of a neck or an opening: the second is joined to what the first left unworked.

"Row 29: Ch 2, hdc in next 12 sts, turn, leaving remaining sts unworked." splits a piece; "skip
next 10 sts of Row 28, join yarn in next st" begins the other side on what is left of that row.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from coach.craft import fabric
from coach.craft.fabric import Item
from coach.craft.fabric_ahead import items_of, rest_of
from coach.craft.fabric_taken import take
from coach.craft.instruction import Act, Instruction, Leave, Of, Skip, Target, Which
from coach.craft.pattern import Line
from coach.craft.row_bench import Ground, any_stitch
from coach.craft.working import Action, Block, Into, Where, Work

MOST_SPLITS = 8  # the latest, which a side can go back to


@dataclass(frozen=True, slots=True)
class Split:
    """What a row left unworked: its number, that of the row it lies on, the places as it met them."""

    number: int | None
    below: int | None
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Side:
    """A side begun on what a split left: its words, its ground, how many are passed before it.

    sure: its words name the row, or its number is that of the first side.
    """

    items: tuple[Instruction, ...]
    ground: Ground
    passed: int
    sure: bool


def sides_begun(line: Line, splits: Sequence[Split]) -> Iterator[Side]:
    """Yield how *line* is begun on what is left, where it joins yarn to begin; the latest split first.

    What is left is met from the first side on, then from its far end.
    """
    joined = _joined(line.items)
    if joined is None:
        return
    items, passed = joined
    named = _NAMED_ROW.search(line.text)
    for split in reversed(splits):
        if named is not None and split.below != int(named["number"]):
            continue
        sure = named is not None or split.number == line.number
        if not sure and not _LEFT.search(line.text):
            continue
        for places in (split.items, fabric.from_other_side(split.items)):
            got = take(rest_of(places), passed, any_stitch)
            yield Side(items, Ground(items_of(got.rest), "row"), passed, sure)


def names_its_row(line: Line) -> bool:
    """Tell whether the row is named that the side is joined to."""
    return _NAMED_ROW.search(line.text) is not None


_NAMED_ROW = re.compile(
    r"\b(?:of|on|from|in|to)\s+(?:the\s+)?(?:last\s+)?(?:long\s+)?(?:row|rnd|round)\s+(?P<number>\d+)",
    re.IGNORECASE,
)
_LEFT = re.compile(
    r"\b(?:unworked|skip(?:ped)?|sk|miss(?:ed)?|leav(?:e|ing)|left|other\s+side|first\s+side)\b",
    re.IGNORECASE,
)


def _joined(items: Sequence[Instruction]) -> tuple[tuple[Instruction, ...], int] | None:
    """Return *items* from where yarn is joined, and how many are passed before; None where none is."""
    before: list[Instruction] = []
    passed = 0
    for index, item in enumerate(items):
        if isinstance(item, Skip) and item.target.noun.of in (Of.STITCH, Of.NAMED):
            passed += item.target.count
        elif isinstance(item, Leave) and item.count is not None:
            passed += item.count
        elif isinstance(item, Act):
            before.append(item)
        else:
            return None
        if isinstance(item, Act) and item.kind == "join yarn":
            after = list(items[index + 1 :])
            while after and isinstance(after[0], Skip) and after[0].target.which is Which.ANY:
                passed += _before_the(after[0].target)  # it is joined in the first to be worked
                del after[0]
            return (*before, *after), passed
    return None


def _before_the(where: Target) -> int:
    """Return how many places lie before "the 11th st"."""
    return max(where.nth - 1, 0)


def with_passed(work: tuple[Work, ...], passed: int) -> tuple[Work, ...]:
    """Return *work* with the places told that are passed before yarn is joined."""
    if not passed:
        return work
    at = next(
        index
        for index, item in enumerate(work)
        if isinstance(item, Action) and item.kind == "join yarn"
    )
    skip = Block("sk", passed, Where(Into.NEXT, places=passed), uses=passed)
    return (*work[:at], skip, *work[at:])
