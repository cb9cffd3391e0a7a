"""Work with its places and yarns named as a maker meets them, before it is told in steps.

It changes no sums: only what a place is called, and which changes of yarn need no words.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.working import Action, Block, Group, Into, Passes, Work


def with_places_named(work: tuple[Work, ...]) -> tuple[Work, ...]:
    """Name places by what fingers meet: the same space, the chains that are skipped.

    The "same place" is a space where the hook was last in one; what is skipped in a row that
    is worked into the chain is chain.
    """
    settled, _ = _same_spaces(work, False)
    return _chain_skips(settled) if _into_chain(settled) else settled


def _into_chain(work: Sequence[Work]) -> bool:
    for item in work:
        if isinstance(item, Passes):
            if _into_chain(item.parts):
                return True
        elif not isinstance(item, Action) and item.where.into is Into.CHAIN:
            return True
    return False


def _chain_skips(work: Sequence[Work]) -> tuple[Work, ...]:
    settled: list[Work] = []
    for item in work:
        if isinstance(item, Passes):
            last = None if item.last is None else _chain_skips(item.last)
            settled.append(replace(item, parts=_chain_skips(item.parts), last=last))
        elif isinstance(item, Block) and is_skip(item) and item.where.into is Into.NEXT:
            settled.append(replace(item, where=replace(item.where, into=Into.CHAIN)))
        elif isinstance(item, Block) and item.where.into is Into.TOGETHER:
            settled.append(replace(item, where=replace(item.where, named="ch")))
        else:
            settled.append(item)
    return tuple(settled)


SPACE_NAMED = "sp"  # what the same place is called when it is a space


def _same_spaces(work: tuple[Work, ...], in_space: bool) -> tuple[tuple[Work, ...], bool]:
    settled: list[Work] = []
    for item in work:
        if isinstance(item, Passes):
            parts, after = _same_spaces(item.parts, in_space)
            last = item.last
            if last is not None:
                last, after = _same_spaces(last, after)
            settled.append(replace(item, parts=parts, last=last))
            in_space = after
            continue
        if isinstance(item, Action):
            settled.append(item)
            continue
        where = item.where
        if where.into is Into.SAME and in_space and where.named is None:
            settled.append(replace(item, where=replace(where, named=SPACE_NAMED)))
            continue
        if where.into not in {Into.NOTHING, Into.SAME}:
            in_space = where.into is Into.SPACE
        settled.append(item)
    return tuple(settled), in_space


def without_told_colors(work: tuple[Work, ...], color_after: str | None) -> tuple[Work, ...]:
    """Leave out the changes of yarn that the blocks after them tell anyway."""
    kept: list[Work] = []
    for at, item in enumerate(work):
        if isinstance(item, Passes):
            parts = without_told_colors(item.parts, color_after)
            last = None if item.last is None else without_told_colors(item.last, color_after)
            kept.append(replace(item, parts=parts, last=last))
        elif (
            not isinstance(item, Action)
            or item.kind != "colour"
            or item.text != (_first_color(work[at + 1 :]) or color_after)
        ):
            kept.append(item)
    return tuple(kept)


def _first_color(work: Sequence[Work]) -> str | None:
    for item in work:
        if isinstance(item, Passes):
            color = _first_color(item.parts)
        else:
            color = None if isinstance(item, Action) else item.color
        if color is not None:
            return color
    return None


def is_skip(item: Block | Group) -> bool:
    """Return whether *item* passes over places on purpose."""
    return isinstance(item, Block) and item.stitch == "sk" and item.role is None
