"""Lay out what stands before the maker: a band of facts, one block in giant letters, the sentence.

A page is worked out from a View and the size of the window, and from nothing else: no terminal, no
Textual. Whole words only; a smaller giant size before a broken word, ordinary letters at the last.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from coach.ports import View
from coach.tui import letters
from coach.tui.band import flowed, flowed_giant, giant_band, mixed_band
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
from coach.tui.letters import Grain

LARGEST = 8  # sizes run from 1 (ordinary letters) to 8 (as large as the window takes)
SHORT = 12  # rows; a shorter window has no row to spare for the way to help
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
    sentence = [window.line(row) for row in wrapped(view.sentence, window.measure)]
    foot = _foot(view, window)
    band = _band(view, _facts(view), window)
    note, note_start = _note(view, told, window, height - len(sentence) - len(foot) - len(band))
    note, sentence = _shared(note, sentence, window, newest_first=bool(told))
    below = len(sentence) + len(note)
    band, foot = _cut_down(band, foot, height - below, _least(view, window))
    spare = max(0, height - len(band) - below - len(foot))
    block = _block(view, window, spare, look)
    if block.capital < LEGIBLE_AT_A_METRE and len(band) > 1:  # the block goes before the band
        plain = _plain_band(view, _facts(view), window)
        larger = _block(view, window, spare + len(band) - len(plain), look)
        if larger.capital > block.capital:
            spare, band, block = spare + len(band) - len(plain), plain, larger
    if not block.giant and len(foot) == 1 and not view.signs and height < 2 * SHORT:
        larger = _block(view, window, spare + 1, look)
        if larger.giant:
            spare, foot, block = spare + 1, [], larger
    facts, told_large = _facts_under(view, block, window, spare, look)
    if told_large and len(band) > 1:
        smaller = _band(view, [fact for fact in _facts(view) if fact not in told_large], window)
        if len(smaller) <= len(band):
            band = [*smaller, *[window.line("", Ink.BAND)] * (len(band) - len(smaller))]
    lines = [*band, *_middle([*block.rows, *facts], window, spare)]
    cursor = len(lines) + (note_start if told else len(note))
    lines += [*note, *sentence, *foot]
    return Page(
        tuple(lines[:height]),
        (window.margin, min(cursor, height - 1)),
        block.capital,
    )


def _shared(
    note: list[Line], sentence: list[Line], window: _Window, *, newest_first: bool
) -> tuple[list[Line], list[Line]]:
    """In a window too small for both, keep two rows for row and block, and one for each text."""
    room = max(2, window.height - 2)
    if len(note) + len(sentence) <= room:
        return note, sentence
    if newest_first:
        note = _cut(note, room - 1, window)
        return note, _cut(sentence, room - len(note), window)
    sentence = _cut(sentence, room, window)
    return _cut(note, room - len(sentence), window), sentence


def _cut(lines: list[Line], most: int, window: _Window) -> list[Line]:
    """Keep *most* lines; dots at the end tell that there is more (to be heard by "repeat")."""
    if len(lines) <= most:
        return lines
    if most <= 0:
        return []
    last = lines[most - 1].text.strip()
    if len(last) > window.measure - 3:
        last = last.rpartition(" ")[0]
    return [*lines[: most - 1], window.line(f"{last.rstrip('.,')}...", lines[0].ink)]


def _facts(view: View) -> list[str]:
    return [fact for fact in (view.side, view.group, view.count) if fact]


def _band(view: View, facts: Sequence[str], window: _Window) -> list[Line]:
    """The row, the side, the group and the count: giant if that leaves room, else ordinary."""
    width = window.width - 2 * window.margin
    rows = None
    if not view.choices:
        rows = giant_band(view.headline, facts, width, window.height)
        rows = rows or mixed_band(view.headline, facts, width, window.height)
    if rows is None:
        return _plain_band(view, facts, window)
    return [window.line(row, Ink.BAND) for row in rows]


def _plain_band(view: View, facts: Sequence[str], window: _Window) -> list[Line]:
    rows = flowed([view.headline, *facts], window.measure)
    return [window.line(row, Ink.BAND) for row in rows]


def _foot(view: View, window: _Window) -> list[Line]:
    """States told in words, in the last rows; the way to help always in the same place."""
    signs = [sign.upper() for sign in view.signs]
    help_sign = "? = help"
    rows = list(flowed(signs, window.measure)) if signs else []
    if window.height < SHORT and not rows:
        return []
    if not rows:
        rows = [""]
    free = window.width - 2 * window.margin - len(rows[-1]) - len(help_sign)
    if free >= (3 if rows[-1] else 0):
        rows[-1] += " " * free + help_sign
    return [window.line(row, Ink.BAND) for row in rows]


def _note(view: View, told: Sequence[Told], window: _Window, room: int) -> tuple[list[Line], int]:
    """What was told: the newest large in brief where there is room, all in full. Where it starts."""
    messages = [message.full for message in told[-2:] if message.full]
    if view.notice:
        messages.insert(0, view.notice)
    paragraphs = [wrapped(message, window.measure) for message in messages]
    plain = [window.line(row, Ink.STRONG) for rows in paragraphs for row in rows]
    start = len(plain) - len(paragraphs[-1]) if paragraphs else 0
    if not told:
        return plain, start
    height = min(room * 3 // 5, window.height // 2)
    width = window.width - 2 * window.margin
    brief = fit_lines(
        [told[-1].brief or told[-1].full], Room(width, height, max(3, window.height / 7))
    )
    if brief is None:
        return plain, start
    free = height - len(brief.rows)
    rows = [*[""] * (free > 0), *brief.rows, *[""] * (free > 1)]
    drawn = [window.line(row, Ink.BAND) for row in rows]
    return [*drawn, *plain], start + len(drawn)


def _least(view: View, window: _Window) -> int:
    """Rows that the block can't do without: two, or all answers of a question."""
    if not view.choices:
        return 2
    return sum(len(wrapped(f"1. {choice}", window.measure)) for choice in view.choices)


def _cut_down(
    band: list[Line], foot: list[Line], room: int, least: int
) -> tuple[list[Line], list[Line]]:
    """In the smallest windows the foot and then the band give way to the block."""
    if len(band) + len(foot) + least <= room:
        return band, foot
    band = band[: max(room - least - len(foot), 1 if least == 2 else 0)]
    foot = foot[: max(0, room - least - len(band))]
    return band[: max(0, room)], foot


def _block(view: View, window: _Window, height: int, look: Look) -> Fitted:
    """What dominates: the number and the stitch, or the choices of a question."""
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
    return Fitted(tuple(rows[:height]))


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
    if count > room.height:
        answers = [rows[:1] for rows in answers]
    return Fitted(tuple(row for rows in answers for row in rows)[: room.height])


def _facts_under(
    view: View, block: Fitted, window: _Window, height: int, look: Look
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


def _middle(rows: Sequence[str], window: _Window, height: int) -> list[Line]:
    """Stand the block in the middle of the free height."""
    above = (height - len(rows) + 1) // 2  # never touching the band, which is of its colour
    lines = [window.line("")] * above + [window.line(row, Ink.STRONG) for row in rows]
    return (lines + [window.line("")] * height)[:height]
