"""The likely slip: which one number, changed by a little, would make a row fit and its count hold."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from coach.craft.instruction import GroupIn, Instruction, Make, Repeated, Skip
from coach.craft.stitch import called, full_name

STEPS = (1, -1, 2, -2)
MOST_TRIED = 60
MOST_TOLD = 3


def likely_slip(
    items: Sequence[Instruction],
    holds: Callable[[tuple[Instruction, ...]], bool],
    *,
    uk: bool = False,
) -> str | None:
    """Return up to three changes that would mend the row, or None where no single number does.

    uk: the stitches are named as the UK names them, as in the pattern.
    Which of them is meant only the designer knows.
    """
    found: dict[str, None] = {}
    for tried, (changed, words) in enumerate(_changes(tuple(items), uk=uk)):
        if tried >= MOST_TRIED or len(found) == MOST_TOLD:
            break
        if words not in found and holds(changed):
            found[words] = None
    return ", or with ".join(found) or None


def _changes(
    items: tuple[Instruction, ...], *, uk: bool
) -> Iterator[tuple[tuple[Instruction, ...], str]]:
    """Yield the row with one number changed, and the change in words; small changes first."""
    for step in STEPS:
        for index, item in enumerate(items):
            for other, words in _changed(item, step, uk=uk):
                yield (*items[:index], other, *items[index + 1 :]), words


def _changed(  # noqa: PLR0912 - one case for each kind of instruction
    item: Instruction, step: int, *, uk: bool
) -> Iterator[tuple[Instruction, str]]:
    match item:
        case Make(target=None) if not item.increase and item.each + step > 0:
            yield replace(item, each=item.each + step), _words(item.stitch, item.each, step, uk=uk)
        case Make() if item.target is not None:
            count = item.target.count
            if count + step > 0 and count > 1:
                target = replace(item.target, count=count + step)
                yield replace(item, target=target), _words(item.stitch, count, step, uk=uk)
            if item.each + step > 0:
                more = replace(item, each=item.each + step)
                yield (
                    more,
                    f"{item.each + step} {called(item.stitch, uk=uk)} in one place instead of {item.each}",
                )
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
                for other, words in _changed(part, step, uk=uk):
                    body = (*item.body[:index], other, *item.body[index + 1 :])
                    yield replace(item, body=body), f"in the repeat, {words}"
        case GroupIn():
            for index, part in enumerate(item.parts):
                for other, words in _changed(part, step, uk=uk):
                    parts = (*item.parts[:index], other, *item.parts[index + 1 :])
                    yield replace(item, parts=parts), f"in the group, {words}"
        case _:
            return


def _words(stitch: str, count: int, step: int, *, uk: bool) -> str:
    return f"{count + step} {full_name(stitch, uk=uk)} instead of {count}"
