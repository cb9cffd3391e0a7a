"""Reads giant letters back off a page: whether given words stand on it, giant or ordinary."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from coach.tui.letters import Grain, legible, picture
from coach.tui.page import Page

CAPITALS = [step / 2 for step in range(6, 60)]


def stands_on(page: Page, fact: str) -> bool:
    """Whether every word of *fact* stands on the page, in ordinary letters or in giant ones."""
    ordinary = " ".join(" ".join(line.text for line in page.lines).split()).casefold()
    if fact.casefold() in ordinary:
        return True
    rows = [line.text for line in page.lines]
    return all(_giant_word(rows, word) for word in legible(fact).split())


def _giant_word(rows: list[str], word: str) -> bool:
    return any(_found(rows, shape) for shape in _shapes(word, max(map(len, rows)), len(rows)))


@lru_cache(1024)
def _shapes(word: str, width: int, height: int) -> tuple[tuple[str, ...], ...]:
    shapes = []
    for capital in CAPITALS:
        for drop in (0, 1):
            drawn = picture((word,), capital, Grain.HALF, drop)
            if drawn.width <= width and drawn.height <= height:
                shapes.append(tuple(row.rstrip() for row in drawn.rows))
    return tuple(shapes)


def _found(rows: list[str], shape: Iterable[str]) -> bool:
    """Whether the shape stands somewhere, nothing else painted within its own columns."""
    wanted = list(shape)
    wide = max(len(row) for row in wanted)
    wanted = [row.ljust(wide) for row in wanted]
    core = [number for number, row in enumerate(wanted) if row.strip()]
    if not core:
        return False
    first = core[0]
    for top, row in enumerate(rows):
        at = row.find(wanted[first])
        while at >= 0:
            above = top - first
            if (
                above >= 0
                and above + core[-1] < len(rows)
                and all(
                    rows[above + number][at : at + wide].ljust(wide) == wanted[number]
                    for number in core
                )
            ):
                return True
            at = row.find(wanted[first], at + 1)
    return False
