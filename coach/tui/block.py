"""What dominates a page: the number and the stitch, or the choices of a question."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.ports import View
from coach.tui import letters
from coach.tui.band import flowed_giant
from coach.tui.fitting import (
    LEGIBLE_AT_A_METRE,
    Fitted,
    Room,
    capital_on,
    fit_block,
    fit_first,
    fit_lines,
    fit_number,
    parted,
    wrapped,
)
from coach.tui.window import Ink, Line, Look, Window


def block_of(view: View, window: Window, height: int, look: Look) -> Fitted:
    """What dominates: the number and the stitch, or the choices of a question.

    In ordinary letters it is whole, and so it may come out higher than *height*.
    """
    width = window.width - window.margin  # giant letters end in white space of their own
    most = capital_on(width, window.height, look.size, look.grain)
    free = height - (2 if height > 9 else 1 if height > 3 else 0)  # so that nothing touches
    room = Room(width, free, most, look.grain)
    if view.choices:
        choices = [f"{number}. {choice}" for number, choice in enumerate(view.choices, 1)]
        return _choices(view.big, choices, room)
    best: Fitted | None = None
    if most < letters.SMALLEST_CAPITAL:
        return _in_ordinary_letters(view, width, height)
    for tall in (free, height - (height > 9)):
        fitted = _fitted(view, replace(room, height=tall))
        if fitted is not None and fitted.capital >= LEGIBLE_AT_A_METRE:
            return fitted
        best = fitted if best is None or (fitted and fitted.capital > best.capital) else best
    return best or _in_ordinary_letters(view, width, height)


def _fitted(view: View, room: Room) -> Fitted | None:
    for fit in (fit_block, fit_number, fit_first):
        fitted = fit(view.big, room, view.worked)
        if fitted is not None:
            return fitted
    return None


def _in_ordinary_letters(view: View, width: int, height: int) -> Fitted:
    number, names, besides = parted(view.big, view.worked)
    texts = [" ".join(part for part in (number, *names[:1]) if part), *names[1:], *besides]
    rows = [row for text in texts if text for row in wrapped(text, width)]
    if len(rows) > height:
        rows = list(wrapped(", ".join(text for text in texts if text), width))
    return Fitted(tuple(rows))


def _choices(big: Sequence[str], choices: Sequence[str], room: Room) -> Fitted:
    """The question's brief words and the numbered answers, as large as all of them go."""
    for texts in ([*big, *choices], choices):
        fitted = fit_lines(texts, room)
        if fitted is not None:
            return fitted
    answers = [wrapped(choice, room.width) for choice in choices]
    count = sum(len(rows) for rows in answers)
    if count + 3 <= room.height:
        gaps = count + len(choices) <= room.height - 7
        listed = [row for rows in answers for row in (*rows, *([""] if gaps else []))]
        over = fit_lines(big, replace(room, height=room.height - len(listed) - 1))
        head = over.rows if over else wrapped(" ".join(big), room.width)
        return Fitted((*head, "", *listed), over.capital if over else 1.0)
    return Fitted(tuple(row for rows in answers for row in rows))


def facts_under(
    view: View, block: Fitted, window: Window, height: int, look: Look
) -> tuple[list[str], list[str]]:
    """The group and the count in giant letters under the block, if it leaves rows for them."""
    facts = [fact for fact in (view.group, view.count) if fact]
    free = height - len(block.rows) - 2
    if view.choices or not block.giant or block.capital < letters.SMALLEST_CAPITAL:
        return [], []
    most = min(free, max(block.capital * 0.75, letters.SMALLEST_CAPITAL))
    width = window.width - 2 * window.margin
    for shown in (facts, facts[:1]):
        for capital in letters.capitals(look.grain, most) if shown else ():
            rows = flowed_giant(shown, width, capital, look.grain)
            if rows and letters.block_rows(rows, capital, look.grain) <= free:
                return ["", *letters.picture(tuple(rows), capital, look.grain).rows], shown
    return [], []


def in_the_middle(rows: Sequence[str], window: Window, height: int) -> list[Line]:
    """Stand the block in the middle of the free height."""
    above = (height - len(rows) + 1) // 2  # never touching the band, which is of its colour
    lines = [window.line("")] * above + [window.line(row, Ink.STRONG) for row in rows]
    return (lines + [window.line("")] * height)[:height]
