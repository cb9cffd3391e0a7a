"""Fit words into a space as large as they go: whole words, eight letters a line, number foremost.

Where giant letters can't be had without breaking a word, the words come back in ordinary letters.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from coach.tui import letters
from coach.tui.letters import Grain, Picture

# Letters a line below which reading slows with low vision (see letters.letters_a_line).
LEAST_LETTERS = 8.0


@dataclass(frozen=True, slots=True)
class Room:
    """The space for giant text, in columns and rows, its tallest capital, and the grain."""

    width: int
    height: int
    most: float
    grain: Grain = Grain.HALF

    def narrowed(self, width: int) -> Room:
        """Return the same space with another width."""
        return replace(self, width=width)


@dataclass(frozen=True, slots=True)
class Fitted:
    """Rows of text that keep to their space. capital: rows a capital covers, 1 if ordinary."""

    rows: tuple[str, ...]
    capital: float = 1.0

    @property
    def giant(self) -> bool:
        """Whether it came out in giant letters."""
        return self.capital > 1.0


def wrapped(text: str, width: int) -> tuple[str, ...]:
    """Break *text* into lines of ordinary letters; a word is cut only if it is wider than a line."""
    return tuple(textwrap.wrap(text, max(width, 1), break_on_hyphens=False)) or ("",)


@lru_cache(2048)
def giant_lines(text: str, width: int, capital: float, grain: Grain) -> tuple[str, ...] | None:
    """Break *text* into lines of whole words in giant letters; None if a word is too wide."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and letters.columns(longer, capital, grain) <= width:
            lines[-1] = longer
        elif letters.columns(word, capital, grain) <= width:
            lines.append(word)
        else:
            return None
    return tuple(lines)


def fit_lines(texts: Sequence[str], room: Room) -> Fitted | None:
    """Return *texts* one below the other in the largest giant letters that fit, or None."""
    for capital in _readable(room):
        drawn = _drawn(texts, room, capital)
        if drawn is not None:
            return Fitted(drawn.rows, capital)
    return None


LEGIBLE_AT_A_METRE = 5.0  # rows of a window of 24 on a screen 174 mm high: 2 degrees


def fit_block(big: Sequence[str], room: Room, worked: int = 0) -> Fitted | None:
    """Return the number and the stitch of a block as large as they fit, or None.

    The number stands before the words, over them in a tall window, or on one line with them. What
    is said besides ("in each chain", "turn") comes under them, smaller; where it would have to
    stand in ordinary letters and makes the words small, it is left to the sentence.
    """
    return _fit_block(tuple(big), room, worked)


@lru_cache(256)
def _fit_block(big: tuple[str, ...], room: Room, worked: int) -> Fitted | None:
    number, names, besides = parted(big, worked)
    best = _fit_parts(number, names, room, 2 if besides else 0)
    if best is None or best.capital < LEGIBLE_AT_A_METRE:
        for kept in (1, 0) if besides else ():
            larger = _fit_parts(number, names, room, kept)
            if larger and (best is None or larger.capital > best.capital):
                best = larger
    if best is None:
        return None
    free = room.height - len(best.rows) - 1
    under = _under(besides, replace(room, height=free, most=best.capital * 0.75)) if free else ()
    if besides and free < 1 <= room.height - len(best.rows):
        under = wrapped(", ".join(besides), room.width)[:1]
    return Fitted((*best.rows, *under), best.capital)


def _fit_parts(number: str, names: Sequence[str], room: Room, kept: int) -> Fitted | None:
    """Arrange number and names, *kept* rows left free under them."""
    above = replace(room, height=room.height - kept)
    for capital in _readable(above):
        for arranged in (_beside, _over, _on_one_line):
            rows = arranged(number, names, above, capital)
            if rows is not None:
                return Fitted(rows, capital)
    return None


def _under(besides: Sequence[str], room: Room) -> tuple[str, ...]:
    """What is said besides: in smaller giant letters if they fit, else in ordinary ones."""
    if not besides:
        return ()
    fitted = fit_lines(besides, room) or fit_lines([", ".join(besides)], room)
    rows = fitted.rows if fitted else wrapped(", ".join(besides), room.width)[: room.height]
    return ("", *rows)


def fit_number(big: Sequence[str], room: Room, worked: int = 0) -> Fitted | None:
    """Return the number in giant letters with the words in ordinary ones after it, or None."""
    number, names, besides = parted(big, worked)
    if not number:
        return None
    words = (*names, *besides)
    longest = max((len(word) for word in " ".join(words).split()), default=0)
    for capital in letters.capitals(room.grain, room.height):
        wide = letters.columns(number, capital, room.grain)
        if wide + 2 + longest > room.width:
            continue
        figure = letters.picture((number,), capital, room.grain)
        lines = [row for text in words for row in wrapped(text, room.width - wide - 2)]
        if figure.height <= room.height and len(lines) <= figure.height:
            return Fitted(_side_by_side(figure.rows, lines, 2), capital)
    return None


def fit_first(big: Sequence[str], room: Room, worked: int = 0) -> Fitted | None:
    """Return the first thing to do in giant letters, all others in ordinary ones below it."""
    _number, names, besides = parted(big, worked)
    if not names:
        return None
    others = ", ".join((*names[1:], *besides))
    rows = wrapped(others, room.width) if others else ()
    first = fit_lines(names[:1], replace(room, height=room.height - len(rows)))
    return Fitted((*first.rows, *rows), first.capital) if first else None


def parted(big: Sequence[str], worked: int = 0) -> tuple[str, tuple[str, ...], tuple[str, ...]]:
    """Split a block's lines into its number, the stitches, and what is said besides.

    worked: how many of the lines say what is worked; 0: the first does, or the first two where
    the first is a number. "3", "front post", "turn" gives "3", ("front post",), ("turn",); "6",
    "single", "double", "in turn" with 3 worked gives "6", ("single", "double"), ("in turn",).
    """
    lines = [line for line in big if line]
    bare = bool(lines) and re.fullmatch(r"\d{1,4}", lines[0]) is not None
    worked = worked or (2 if bare else 1)
    names, besides = lines[:worked], tuple(lines[worked:])
    if bare:
        return names[0], tuple(names[1:]), besides
    match = re.match(r"(\d{1,4})\s+", names[0]) if len(names) == 1 else None
    if match is not None and "," not in names[0]:
        return match[1], (names[0][match.end() :],), besides
    return "", tuple(names), besides


def capital_on(width: int, height: int, size: int, grain: Grain) -> float:
    """Return the tallest capital, in rows, that *size* (1 to 8) allows in this window.

    Size 1 is ordinary letters; 2 to 8 go in even steps from the smallest giant letters to the
    largest that leave eight letters a line in half the window's height.
    """
    if size <= 1:
        return 1.0
    top = next(_readable(Room(width, height, height / 2, grain)), letters.SMALLEST_CAPITAL)
    share = (min(size, 8) - 2) / 6
    return letters.SMALLEST_CAPITAL * float((top / letters.SMALLEST_CAPITAL) ** share)


def _readable(room: Room) -> Iterator[float]:
    """Capital heights for this space, largest first, that leave eight letters a line."""
    for capital in letters.capitals(room.grain, min(room.most, room.height)):
        if letters.letters_a_line(room.width, capital, room.grain) >= LEAST_LETTERS:
            yield capital


def _drawn(texts: Iterable[str], room: Room, capital: float) -> Picture | None:
    lines: list[str] = []
    for text in texts:
        broken = giant_lines(text, room.width, capital, room.grain)
        if broken is None:
            return None
        lines += broken
    if not lines or letters.block_rows(lines, capital, room.grain) > room.height:
        return None
    return letters.picture(tuple(lines), capital, room.grain)


def _beside(
    number: str, words: Sequence[str], room: Room, capital: float
) -> tuple[str, ...] | None:
    """The number before the words, as much taller as they leave room for; words alone without."""
    if not number or not words:
        drawn = _drawn([number] if number else words, room, capital)
        return drawn.rows if drawn else None
    gap = max(2, round(capital * 0.9))
    parts = " ".join(words).split()
    widest = max((letters.columns(part, capital, room.grain) for part in parts), default=1)
    for tall in letters.capitals(room.grain, min(room.height, capital * 2.6)):
        if tall < capital:
            return None
        left = room.width - letters.columns(number, tall, room.grain) - gap
        if left < max(1, widest):
            continue
        names = _drawn(words, room.narrowed(left), capital)
        if names is not None:
            figure = letters.picture((number,), tall, room.grain)
            return _side_by_side(figure.rows, names.rows, gap)
    return None


def _over(number: str, words: Sequence[str], room: Room, capital: float) -> tuple[str, ...] | None:
    """The number over the words, up to twice as tall."""
    names = _drawn(words, room, capital)
    if names is None or not number:
        return None
    for tall in letters.capitals(room.grain, min(room.height - names.height - 1, capital * 2)):
        if tall < capital:
            return None
        if letters.columns(number, tall, room.grain) <= room.width:
            figure = letters.picture((number,), tall, room.grain)
            return (*figure.rows, "", *names.rows)
    return None


def _on_one_line(
    number: str, words: Sequence[str], room: Room, capital: float
) -> tuple[str, ...] | None:
    """The number as the first word, all of one size: the narrowest way there is."""
    if not number or not words:
        return None
    drawn = _drawn([f"{number} {words[0]}", *words[1:]], room, capital)
    return drawn.rows if drawn else None


def _side_by_side(left: Sequence[str], right: Sequence[str], gap: int) -> tuple[str, ...]:
    """Put two pictures side by side, the lower one in the middle of the taller one's height."""
    height = max(len(left), len(right))
    wide = max(len(row) for row in left)
    return tuple(
        f"{first:<{wide + gap}}{second}"
        for first, second in zip(_centred(left, height), _centred(right, height), strict=True)
    )


def _centred(rows: Sequence[str], height: int) -> list[str]:
    above = (height - len(rows)) // 2
    return [""] * above + list(rows) + [""] * (height - len(rows) - above)
