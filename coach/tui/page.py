"""Lay out what stands before the maker: a band of facts, one block in giant letters, the sentence.

A page is worked out from a View and the size of the window, and from nothing else: no terminal, no
Textual. Whole words only; a smaller giant size before a broken word, ordinary letters at the last.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from coach.ports import View
from coach.tui import letters
from coach.tui.fitting import (
    Fitted,
    Room,
    capital_on,
    fit_block,
    fit_lines,
    fit_number,
    wrapped,
)
from coach.tui.letters import Grain

LARGEST = 8  # sizes run from 1 (ordinary letters) to 8 (as large as the window takes)
WIDEST_TEXT = 80  # characters a line of ordinary letters, WCAG 2.2, 1.4.8


class Ink(StrEnum):
    """How a run of cells is painted; every kind differs by more than colour."""

    TEXT = "text"
    STRONG = "strong"
    BAND = "band"  # the text's two colours changed over


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the window in one ink, over its whole width."""

    text: str
    ink: Ink = Ink.TEXT


@dataclass(frozen=True, slots=True)
class Page:
    """A window full of lines, and the cell of the current sentence's first letter.

    capital: rows that a capital of the block covers; 1 where ordinary letters had to do.
    """

    lines: tuple[Line, ...]
    cursor: tuple[int, int]
    capital: float = 1.0


@dataclass(frozen=True, slots=True)
class Look:
    """How the maker wants it drawn: size 1 to 8, and the block characters letters are built of."""

    size: int = LARGEST
    grain: Grain = Grain.HALF


@dataclass(frozen=True, slots=True)
class Told:
    """A message that is not the present step: full as a sentence, brief as large as it goes."""

    full: str
    brief: str = ""


@dataclass(frozen=True, slots=True)
class _Window:
    """The window's measures, with the margin that ordinary letters keep."""

    width: int
    height: int
    margin: int

    @property
    def measure(self) -> int:
        return max(1, min(self.width - 2 * self.margin, WIDEST_TEXT))

    def line(self, text: str, ink: Ink = Ink.TEXT) -> Line:
        return Line((" " * self.margin + text)[: self.width].ljust(self.width), ink)


def lay_out(
    view: View,
    width: int,
    height: int,
    look: Look | None = None,
    told: Sequence[Told] = (),
) -> Page:
    """Return the page for *view* in a window of *width* x *height* cells.

    told: messages since the last order, oldest first; the newest stands over the sentence and
    gets the cursor, since it is what was said last.
    """
    look = look or Look()
    width, height = max(width, 1), max(height, 1)
    window = _Window(width, height, 0 if width < 40 else 1 if width < 100 else 2)
    sentence = [window.line(text) for text in wrapped(view.sentence, window.measure)]
    foot = _foot(view, window)
    band = _band(view, window)
    messages = [message for message in (*told, Told(view.notice)) if message.full]
    note, note_start = _note(messages, window, height - len(sentence) - len(foot) - len(band))
    band, foot = _cut_down(band, foot, height - len(sentence) - len(note))
    spare = max(0, height - len(band) - len(note) - len(sentence) - len(foot))
    block = _block(view, window, spare, look)
    lines = [*band, *_middle(block, window, spare)]
    cursor = len(lines) + (note_start if told else len(note))
    lines += [*note, *sentence, *foot]
    return Page(
        tuple(lines[:height]),
        (window.margin, min(cursor, height - 1)),
        block.capital,
    )


def _band(view: View, window: _Window) -> list[Line]:
    """The row, the side, the group and the count: giant if that leaves room, else ordinary."""
    facts = [fact for fact in (view.side, view.group, view.count) if fact]
    giant = _giant_band(view.headline, facts, window)
    if giant is None:
        giant = _mixed_band(view.headline, facts, window)
    if giant is None:
        giant = list(_flowed([view.headline, *facts], window.measure))
    return [window.line(row, Ink.BAND) for row in giant]


def _giant_band(headline: str, facts: Sequence[str], window: _Window) -> list[str] | None:
    """All facts in giant letters, in a quarter of the window's height at most."""
    width = window.width - 2 * window.margin
    for capital in letters.capitals(Grain.HALF, window.height / 11):
        lines = _flowed_giant([headline, *facts], width, capital)
        if lines and letters.block_rows(lines, capital, Grain.HALF) + 1 <= window.height // 4:
            return _inset(letters.picture(tuple(lines), capital, Grain.HALF, drop=1).rows)
    return None


def _mixed_band(headline: str, facts: Sequence[str], window: _Window) -> list[str] | None:
    """The row in giant letters with the other facts in ordinary ones beside it."""
    if window.height < 18:
        return None
    capital = letters.SMALLEST_CAPITAL
    figure = letters.picture((headline,), capital, Grain.HALF, drop=1)
    room = window.measure - figure.width - 3
    beside = _flowed(facts, room) if room > 0 else ()
    if any(len(row) > room for row in beside) or len(beside) > figure.height:
        return None
    above = (figure.height - len(beside)) // 2
    rows = [*[""] * above, *beside, *[""] * figure.height]
    return [f"{left}   {right}" for left, right in zip(figure.rows, rows, strict=False)]


def _inset(rows: Sequence[str]) -> list[str]:
    """A giant band ends with a free row unless its last row is only half painted."""
    return [*rows, ""] if set(rows[-1]) & set("█▄") else list(rows)


def _flowed(facts: Sequence[str], width: int) -> tuple[str, ...]:
    """Set facts one after another with three spaces between, breaking only between facts."""
    rows: list[str] = []
    for fact in facts:
        longer = f"{rows[-1]}   {fact}" if rows else fact
        if rows and len(longer) <= width:
            rows[-1] = longer
        else:
            rows += wrapped(fact, width)
    return tuple(rows)


def _flowed_giant(facts: Sequence[str], width: int, capital: float) -> list[str] | None:
    """The same in giant letters; None where one fact is wider than the line."""
    rows: list[str] = []
    for fact in facts:
        longer = f"{rows[-1]} · {fact}" if rows else fact
        if rows and letters.columns(longer, capital, Grain.HALF) <= width:
            rows[-1] = longer
        elif letters.columns(fact, capital, Grain.HALF) <= width:
            rows.append(fact)
        else:
            return None
    return rows


def _foot(view: View, window: _Window) -> list[Line]:
    """States told in words, in the last rows; the way to help always in the same place."""
    signs = [sign.upper() for sign in view.signs]
    help_sign = "h = help"
    rows = list(_flowed(signs, window.measure)) if signs else []
    if window.height < 12 and not rows:
        return []
    if not rows:
        rows = [""]
    free = window.width - 2 * window.margin - len(rows[-1]) - len(help_sign)
    if free >= (3 if rows[-1] else 0):
        rows[-1] += " " * free + help_sign
    return [window.line(row, Ink.BAND) for row in rows]


def _note(messages: Sequence[Told], window: _Window, room: int) -> tuple[list[Line], int]:
    """The newest message, large in brief where there is room, and in full; where the full starts."""
    if not messages:
        return [], 0
    plain = [
        window.line(row, Ink.STRONG)
        for message in messages[-2:]
        for row in wrapped(message.full, window.measure)
    ]
    start = len(plain) - len(wrapped(messages[-1].full, window.measure))
    brief = messages[-1].brief or messages[-1].full
    height = min(room * 3 // 5, window.height // 2)
    width = window.width - 2 * window.margin
    giant = fit_lines([brief], Room(width, height - 1, window.height / 5))
    if giant is None:
        return plain, start
    drawn = [window.line(row, Ink.BAND) for row in giant.rows]
    return [*drawn, *plain], start + len(drawn)


def _cut_down(band: list[Line], foot: list[Line], room: int) -> tuple[list[Line], list[Line]]:
    """In the smallest windows keep two rows for the block, then the row's name, then the rest."""
    band_room = max(1, room - 2 - len(foot))
    if len(band) <= band_room:
        return band[:room], foot[: max(0, room - len(band))]
    band = band[: max(1, room - 2)]
    return band[: max(0, room)], foot[: max(0, room - 2 - len(band))]


def _block(view: View, window: _Window, height: int, look: Look) -> Fitted:
    """What dominates: the number and the stitch, or the choices of a question."""
    width = window.width - 2 * window.margin
    most = capital_on(width, window.height, look.size, look.grain)
    free = height - 1 if height > 3 else height  # a free row under the band
    room = Room(width, free, most, look.grain)
    if view.choices:
        choices = [f"{number}. {choice}" for number, choice in enumerate(view.choices, 1)]
        return _choices(view.big, choices, room)
    fitted = fit_block(view.big, room)
    if fitted is None and most >= letters.SMALLEST_CAPITAL:
        fitted = fit_number(view.big, room)
    if fitted is None:
        fitted = Fitted(wrapped(" ".join(view.big), width))
    return fitted if len(fitted.rows) <= height else Fitted(())


def _choices(big: Sequence[str], choices: Sequence[str], room: Room) -> Fitted:
    """The question's brief words and the numbered answers, all in one size."""
    for texts in ([*big, *choices], choices):
        fitted = fit_lines(texts, room)
        if fitted is not None:
            return fitted
    for gap in (1, 0):
        rows: list[str] = []
        for text in [*big, *choices]:
            rows += [*wrapped(text, room.width), *[""] * gap]
        if len(rows) - gap <= room.height:
            return Fitted(tuple(rows[: len(rows) - gap]))
    rows = [row for text in choices for row in wrapped(text, room.width)]
    return Fitted(tuple(rows[: room.height]))


def _middle(block: Fitted, window: _Window, height: int) -> list[Line]:
    """Stand the block in the middle of the free height."""
    above = (height - len(block.rows) + 1) // 2
    ink = Ink.TEXT if block.giant else Ink.STRONG
    rows = [window.line("")] * above + [window.line(row, ink) for row in block.rows]
    return (rows + [window.line("")] * height)[:height]
