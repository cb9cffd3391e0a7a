"""The likely slip: which one number, changed by a little, would make a row fit and its count hold."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from coach.craft.pattern import GroupIn, Instruction, Make, Repeated, Skip
from coach.craft.stitch import FULL_NAMES

STEPS = (1, -1, 2, -2)
MOST_TRIED = 60
MOST_TOLD = 3


def likely_slip(
    items: Sequence[Instruction], holds: Callable[[tuple[Instruction, ...]], bool]
) -> str | None:
    """Return up to three changes that would mend the row, or None where no single number does.

    Which of them is meant only the designer knows.
    """
    found: dict[str, None] = {}
    for tried, (changed, words) in enumerate(_changes(tuple(items))):
        if tried >= MOST_TRIED or len(found) == MOST_TOLD:
            break
        if words not in found and holds(changed):
            found[words] = None
    return ", or with ".join(found) or None


def _changes(
    items: tuple[Instruction, ...],
) -> Iterator[tuple[tuple[Instruction, ...], str]]:
    """Yield the row with one number changed, and the change in words; small changes first."""
    for step in STEPS:
        for index, item in enumerate(items):
            for other, words in _changed(item, step):
                yield (*items[:index], other, *items[index + 1 :]), words


def _changed(  # noqa: PLR0912 - one case for each kind of instruction
    item: Instruction, step: int
) -> Iterator[tuple[Instruction, str]]:
    match item:
        case Make(target=None) if not item.increase and item.each + step > 0:
            yield replace(item, each=item.each + step), _words(item.stitch, item.each, step)
        case Make() if item.target is not None:
            count = item.target.count
            if count + step > 0 and count > 1:
                target = replace(item.target, count=count + step)
                yield replace(item, target=target), _words(item.stitch, count, step)
            if item.each + step > 0:
                more = replace(item, each=item.each + step)
                yield more, f"{item.each + step} {item.stitch} in one place instead of {item.each}"
        case Skip():
            count = item.target.count
            if count + step > 0:
                target = replace(item.target, count=count + step)
                yield replace(item, target=target), f"skipping {count + step} instead of {count}"
        case Repeated():
            if item.times is not None and item.times + step > 0:
                times = item.times + step
                yield replace(item, times=times), f"{times} times instead of {item.times}"
            for index, part in enumerate(item.body):
                for other, words in _changed(part, step):
                    body = (*item.body[:index], other, *item.body[index + 1 :])
                    yield replace(item, body=body), f"in the repeat, {words}"
        case GroupIn():
            for index, part in enumerate(item.parts):
                for other, words in _changed(part, step):
                    parts = (*item.parts[:index], other, *item.parts[index + 1 :])
                    yield replace(item, parts=parts), f"in the group, {words}"
        case _:
            return


def _words(stitch: str, count: int, step: int) -> str:
    side = {"FP": "front post ", "BP": "back post "}.get(stitch[:2], "")
    plain = stitch[2:] if side else stitch
    name = side + FULL_NAMES.get(plain, plain)
    return f"{count + step} {name} instead of {count}"
