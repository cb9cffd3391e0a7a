"""Reads giant letters back off a page: whether given words stand on it, giant or ordinary."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache

from coach.ports import View
from coach.tui.letters import Grain, columns, legible, picture
from coach.tui.page import lay_out
from coach.tui.window import Page, Told

CAPITALS = [float(rows) for rows in range(3, 70)]


def stands_on(page: Page, fact: str) -> bool:
    """Whether every word of *fact* stands on the page, in ordinary letters or in giant ones."""
    ordinary = " ".join(" ".join(line.text for line in page.lines).split()).casefold()
    if fact.casefold() in ordinary:
        return True
    rows = [line.text for line in page.lines]
    painted = {line.text for line in page.lines if "█" in line.text or "▀" in line.text}
    if not painted:
        return False
    likely = sorted(CAPITALS, key=lambda capital: abs(capital - page.capital))
    return all(_giant_word(rows, word, likely) for word in legible(fact).split())


def leaves_of(view: View, width: int, height: int, told: Sequence[Told] = ()) -> list[Page]:
    """All leaves of a page, in their order."""
    first = lay_out(view, width, height, told=told)
    rest = range(1, first.leaves)
    return [first, *(lay_out(view, width, height, told=told, leaf=leaf) for leaf in rest)]


def stands_in(pages: Sequence[Page], fact: str) -> bool:
    """Whether *fact* stands on one of the leaves, or runs on from one to the next."""
    if len(pages) == 1 or any(stands_on(page, fact) for page in pages):
        return stands_on(pages[0], fact) if len(pages) == 1 else True
    rows = [line.text for page in pages for line in page.lines[page.cursor[1] : -1]]
    return fact.casefold() in " ".join(" ".join(rows).split()).casefold()


def _giant_word(rows: list[str], word: str, capitals: Sequence[float]) -> bool:
    width = max(map(len, rows))
    return any(
        columns(word, capital, Grain.HALF) <= width and _found(rows, _shape(word, capital, drop))
        for capital in capitals
        if capital < len(rows)
        for drop in ((0, 1) if capital <= 9 else (0,))
    )


@cache
def _shape(word: str, capital: float, drop: int) -> tuple[str, ...]:
    return tuple(row.rstrip() for row in picture((word,), capital, Grain.HALF, drop).rows)


def _found(rows: list[str], shape: Iterable[str]) -> bool:
    """Whether the shape stands somewhere, nothing else painted within its own columns.

    In its two topmost rows, where dots are, the tail of a letter over it may hang in.
    """
    wanted = list(shape)
    wide = max(len(row) for row in wanted)
    core = [number for number, row in enumerate(wanted) if row.strip()]
    if not core:
        return False
    first = core[0]
    looks = [
        re.compile(re.escape(row.ljust(wide)).replace(r"\ ", "." if at <= first + 1 else " "))
        for at, row in enumerate(wanted)
    ]
    for top, row in enumerate(rows):
        above = top - first
        if above < 0 or above + core[-1] >= len(rows):
            continue
        for start in re.finditer(f"(?={looks[first].pattern})", row.ljust(wide)):
            at = start.start()
            if all(
                looks[line].fullmatch(rows[above + line][at : at + wide].ljust(wide))
                for line in core
            ):
                return True
    return False
