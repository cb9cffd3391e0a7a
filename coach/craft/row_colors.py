"""The yarns of a row in the order in which they are taken up."""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.proof import ProvedRow
from coach.craft.working import Action, Passes, Work


def colors_of(row: ProvedRow) -> list[str]:
    """Return the yarns of a row in the order in which they are taken up, repeats counted."""
    told: list[str] = []
    _follow(row.work, told)
    return told


def _follow(work: Sequence[Work], told: list[str]) -> None:
    for item in work:
        if isinstance(item, Passes):
            _follow_passes(item, told)
        elif not isinstance(item, Action) and item.color and told[-1:] != [item.color]:
            told.append(item.color)


def _follow_passes(passes: Passes, told: list[str]) -> None:
    """A repeat in one yarn is followed once; one that changes, as often as it is worked."""
    once: list[str] = []
    _follow(passes.parts, once)
    for color in once * (passes.times if len(once) > 1 else 1):
        if told[-1:] != [color]:
            told.append(color)
    if passes.last is not None:
        _follow(passes.last, told)
