"""Lay out what stands before the maker: a band of facts, one block in giant letters, the sentence.

A page is worked out from a View and the size of the window, and from nothing else: no terminal, no
Textual. Whole words only; a smaller giant size before a broken word, ordinary letters at the last.
Where not all of it goes into the window, the text is parted into leaves (coach.tui.leaves).
"""

from __future__ import annotations

from collections.abc import Sequence

from coach.ports import View
from coach.tui.band import flowed, giant_band, mixed_band
from coach.tui.block import block_of, facts_under, in_the_middle
from coach.tui.fitting import LEGIBLE_AT_A_METRE, Room, fit_lines, wrapped
from coach.tui.leaves import in_leaves, messages_of
from coach.tui.window import SHORT, Ink, Line, Look, Page, Told, Window


def lay_out(
    view: View,
    width: int,
    height: int,
    look: Look | None = None,
    told: Sequence[Told] = (),
    *,
    leaf: int = 0,
) -> Page:
    """Return the page for *view* in a window of *width* x *height* cells.

    told: messages since the last order, oldest first; the newest stands over the sentence and
    gets the cursor, since it is what was said last. leaf: which part of the text, from 0, where
    the window is too small for all of it; after the last one the first comes again.
    """
    look = look or Look()
    width, height = max(width, 1), max(height, 1)
    window = Window(width, height, 0 if width < 40 else 1 if width < 100 else 2)
    whole = _whole(view, window, look, told)
    return whole or in_leaves(view, window, look, told, leaf)


def _whole(view: View, window: Window, look: Look, told: Sequence[Told]) -> Page | None:
    """Lay out all there is to read at once; None where something would have to be left out."""
    height = window.height
    sentence = [window.line(row) for row in wrapped(view.sentence, window.measure)]
    foot = _foot(view, window)
    band = _band(view, _facts(view), window)
    room = height - len(sentence) - len(foot) - len(band)
    note, note_start = _note(view, told, window, room)
    below = len(sentence) + len(note)
    kept, foot = _cut_down(band, foot, height - below, _least(view, window))
    if len(kept) < len(band):
        band = _plain_band(view, _facts(view), window)
        kept, foot = _cut_down(band, foot, height - below, _least(view, window))
    if len(kept) < len(band) or (view.signs and not foot):
        return None
    gap = [window.line("")] * (bool(note) and note[0].ink is Ink.BAND)  # both are of one colour
    spare = height - len(band) - below - len(foot) - len(gap)
    if spare < 1:
        return None
    block = block_of(view, window, spare, look)
    if block.capital < LEGIBLE_AT_A_METRE and len(band) > 1:  # the block goes before the band
        plain = _plain_band(view, _facts(view), window)
        larger = block_of(view, window, spare + len(band) - len(plain), look)
        if larger.capital > block.capital:
            spare, band, block = spare + len(band) - len(plain), plain, larger
    if not block.giant and len(foot) == 1 and not view.signs and height < 2 * SHORT:
        larger = block_of(view, window, spare + 1, look)
        if larger.giant:
            spare, foot, block = spare + 1, [], larger
    if len(block.rows) > spare:
        return None
    facts, told_large = facts_under(view, block, window, spare, look)
    if told_large and len(band) > 1:
        smaller = _band(view, [fact for fact in _facts(view) if fact not in told_large], window)
        if len(smaller) <= len(band):
            band = [*smaller, *[window.line("", Ink.BAND)] * (len(band) - len(smaller))]
    lines = [*band, *in_the_middle([*block.rows, *facts], window, spare), *gap]
    cursor = len(lines) + (note_start if told else len(note))
    lines += [*note, *sentence, *foot]
    return Page(tuple(lines), (window.margin, cursor), block.capital)


def _facts(view: View) -> list[str]:
    return [fact for fact in (view.side, view.group, view.count) if fact]


def _band(view: View, facts: Sequence[str], window: Window) -> list[Line]:
    """The row, the side, the group and the count: giant if that leaves room, else ordinary."""
    width = window.width - 2 * window.margin
    rows = None
    if not view.choices:
        rows = giant_band(view.headline, facts, width, window.height)
        rows = rows or mixed_band(view.headline, facts, width, window.height)
    if rows is None:
        return _plain_band(view, facts, window)
    return [window.line(row, Ink.BAND) for row in rows]


def _plain_band(view: View, facts: Sequence[str], window: Window) -> list[Line]:
    rows = flowed([view.headline, *facts], window.measure)
    return [window.line(row, Ink.BAND) for row in rows]


def _foot(view: View, window: Window) -> list[Line]:
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


def _note(view: View, told: Sequence[Told], window: Window, room: int) -> tuple[list[Line], int]:
    """What was told: the newest large in brief where there is room, all in full. Where it starts."""
    messages = messages_of(view, told)
    paragraphs = [wrapped(message, window.measure) for message in messages]
    plain = [window.line(row, Ink.STRONG) for rows in paragraphs for row in rows]
    start = len(plain) - len(paragraphs[-1]) if paragraphs else 0
    if not told:
        return plain, start
    height = min(room * 3 // 5, window.height // 2, room - len(plain) - _least(view, window))
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


def _least(view: View, window: Window) -> int:
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
