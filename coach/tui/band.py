"""The band at the top: the row, the side, the group and the count, as large as they leave room for.

Facts are never broken: a line ends between two facts, or between two words of one.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from coach.tui import letters
from coach.tui.fitting import giant_lines, wrapped
from coach.tui.letters import Grain


def giant_band(headline: str, facts: Sequence[str], width: int, height: int) -> list[str] | None:
    """All facts in giant letters, in a quarter of the window's height at most."""
    rows = _giant_band(headline, tuple(facts), width, height)
    return None if rows is None else list(rows)


@lru_cache(64)
def _giant_band(headline: str, facts: tuple[str, ...], width: int, height: int) -> list[str] | None:
    for capital in letters.capitals(Grain.HALF, height / 11):
        lines = flowed_giant([headline, *facts], width, capital)
        if lines and letters.block_rows(lines, capital, Grain.HALF) + 1 <= height // 4:
            return _inset(letters.picture(tuple(lines), capital, Grain.HALF, drop=1).rows)
    return None


def mixed_band(headline: str, facts: Sequence[str], width: int, height: int) -> list[str] | None:
    """The row in giant letters with the other facts in ordinary ones beside it."""
    capital = letters.SMALLEST_CAPITAL
    lines = giant_lines(headline, width, capital, Grain.HALF)
    if not lines or len(lines) > (1 if height < 36 else 2) or height < 18:
        return None
    figure = letters.picture(lines, capital, Grain.HALF, drop=1)
    room = width - figure.width - 3
    beside = flowed(facts, room) if room >= max(map(len, facts), default=0) else ()
    if len(beside) > figure.height or (facts and not beside):
        under = flowed(facts, min(width, 80))
        return [*figure.rows, *under] if height >= 24 else None
    above = (figure.height - len(beside)) // 2
    rows = [*[""] * above, *beside, *[""] * figure.height]
    return [f"{left}   {right}" for left, right in zip(figure.rows, rows, strict=False)]


def _inset(rows: Sequence[str]) -> list[str]:
    """A giant band ends with a free row unless its last row is only half painted."""
    return [*rows, ""] if set(rows[-1]) & set("█▄") else list(rows)


def flowed(facts: Sequence[str], width: int) -> tuple[str, ...]:
    """Set facts one after another with three spaces between, breaking only between facts."""
    rows: list[str] = []
    for fact in facts:
        longer = f"{rows[-1]}   {fact}" if rows else fact
        if rows and len(longer) <= width:
            rows[-1] = longer
        else:
            rows += wrapped(fact, width)
    return tuple(rows)


def flowed_giant(
    facts: Sequence[str], width: int, capital: float, grain: Grain = Grain.HALF
) -> list[str] | None:
    """The same in giant letters; None where one fact is wider than the line."""
    rows: list[str] = []
    for fact in facts:
        longer = f"{rows[-1]} · {fact}" if rows else fact
        if rows and letters.columns(longer, capital, grain) <= width:
            rows[-1] = longer
        elif letters.columns(fact, capital, grain) <= width:
            rows.append(fact)
        else:
            return None
    return rows
