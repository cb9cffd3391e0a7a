"""Giant letters: a typeface made for low vision, drawn into block characters of the terminal.

A letter is rasterised large, its height zones (descender, small letters, capitals, dots) are each
fitted to whole pixels, and every pixel is then either on or off: no grey, no blur, no colour but
the text's own. Braille dots are never used as pixels: a braille display would read them as letters.
This module knows shapes only; where they stand on the screen is the business of page.py.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from PIL import Image

from coach.tui.cells import Grain, folded
from coach.tui.face import (
    BASE,
    CAPITAL,
    DESCENDER,
    MASTER,
    OVERSHOOT,
    SMALL,
    TOP,
    as_drawn,
    drawn_large,
    line_at,
    reaches,
)

__all__ = [
    "Grain",
    "Picture",
    "block_rows",
    "capitals",
    "columns",
    "legible",
    "letters_a_line",
    "line_rows",
    "picture",
]

_TRIMS = (0.0, 0.12, 0.25)  # of a pixel, cut off at both sides of a letter: the crispest is kept
_MIRRORED = frozenset("oOvVwWxXAHIMTUY8")
_ON, _THIN_ON = 112, 86  # of 255: a pixel this much covered is painted
_THIN_BELOW = 8  # pixels of a capital: under this the regular face keeps 6, 8 and 0 open

SMALLEST_CAPITAL = 3.0  # rows; below this the shapes no longer tell letters apart


@dataclass(frozen=True, slots=True)
class Picture:
    """Giant text: rows of block characters, all *width* columns wide."""

    rows: tuple[str, ...]
    width: int

    @property
    def height(self) -> int:
        """Rows of the terminal it takes."""
        return len(self.rows)


@dataclass(frozen=True, slots=True)
class _Zones:
    """Whole pixels for each height zone of a letter."""

    above: int  # dots and the hook of the f, over the capitals
    capital: int
    small: int
    below: int


@dataclass(frozen=True, slots=True)
class _Glyph:
    """A letter's pixels: one whole number a line, highest bit leftmost, top line first."""

    lines: tuple[int, ...]
    width: int


def capitals(grain: Grain, most: float) -> tuple[float, ...]:
    """Return the capital heights that can be drawn, in rows, largest first, none over *most*.

    Capitals begin and end on the edge of a cell where the height allows, so they look sharpest.
    """
    step = 0.5 if grain is Grain.OCTANT else 1.0
    count = int((most - SMALLEST_CAPITAL) / step) + 1
    return tuple(SMALLEST_CAPITAL + step * index for index in reversed(range(count)))


def legible(text: str) -> str:
    """Return *text* with every character that the typeface lacks put in others that it has."""
    return "".join(as_drawn(character) for character in " ".join(text.split()))


@lru_cache(4096)
def columns(text: str, capital: float, grain: Grain) -> int:
    """Return how many columns one line of *text* takes with capitals *capital* rows high."""
    known = legible(text)
    pixels = sum(_width(character, capital, grain) for character in known)
    pixels += _gap(capital, grain) * max(0, len(known) - 1)
    return -(-pixels // grain.across)


@lru_cache(512)
def letters_a_line(width: int, capital: float, grain: Grain) -> float:
    """Return how many letters of running words fit on a line of *width* columns.

    Eight are needed for four fifths of the top reading speed with low vision (PNAS 117(48),
    as its abstract tells).
    """
    sample = "treble crochet in next chain space"
    return width * len(sample) / columns(sample, capital, grain)


def line_rows(capital: float, grain: Grain) -> int:
    """Return the rows from one line of giant text to the next."""
    zones = _zones(capital, grain)
    return -(-(zones.capital + zones.below + _lead(capital, grain)) // grain.down)


def block_rows(lines: Sequence[str], capital: float, grain: Grain) -> int:
    """Return the rows that *lines* take in giant letters, one below the other."""
    return _head(lines, capital, grain) + _body(lines, capital, grain)


@lru_cache(256)
def picture(lines: tuple[str, ...], capital: float, grain: Grain, drop: int = 0) -> Picture:
    """Draw *lines* below one another with capitals *capital* rows high, *drop* pixels lower."""
    down, zones = grain.down, _zones(capital, grain)
    width = max((columns(line, capital, grain) for line in lines), default=0)
    if not width:
        return Picture(("",) * block_rows(lines, capital, grain), 0)
    head = _head(lines, capital, grain)
    height = head + _body(lines, capital, grain) + -(-drop // down)
    canvas = [0] * (height * down)
    for number, line in enumerate(lines):
        top = head * down + number * line_rows(capital, grain) * down - zones.above + drop
        for offset, bits in enumerate(_bits(line, capital, grain, width * grain.across)):
            if 0 <= top + offset < len(canvas):
                canvas[top + offset] |= bits
    return Picture(folded(canvas, width, grain), width)


def _head(lines: Sequence[str], capital: float, grain: Grain) -> int:
    """Rows over the first capitals, only where a letter of the first line reaches there."""
    above = _zones(capital, grain).above
    if not lines or not any(reaches(letter, "above") for letter in legible(lines[0])):
        return 0
    return -(-above // grain.down)


def _body(lines: Sequence[str], capital: float, grain: Grain) -> int:
    """Rows from the first capitals' top to the last line's foot, descenders where there are any."""
    if not lines:
        return 0
    zones = _zones(capital, grain)
    last = zones.capital
    if any(reaches(letter, "below") for letter in legible(lines[-1])):
        last += zones.below
    return (len(lines) - 1) * line_rows(capital, grain) + -(-last // grain.down)


@lru_cache(512)
def _zones(capital: float, grain: Grain) -> _Zones:
    pixels = round(capital * grain.down)
    scale = pixels / CAPITAL
    return _Zones(
        above=round((TOP - CAPITAL) * scale),
        capital=pixels,
        small=round((SMALL + 4) * scale),
        below=max(1, round(-DESCENDER * scale)),
    )


def _gap(capital: float, grain: Grain) -> int:
    """Pixels between two letters: wide, since wide spacing is what helps low vision most."""
    return max(1, round(capital * grain.down * 0.17)) * _stretch(grain)


def _lead(capital: float, grain: Grain) -> int:
    return max(1, round(capital * grain.down * 0.2))


def _stretch(grain: Grain) -> int:
    """How much wider than high the drawing must be: quadrant pixels are half as wide as high."""
    return 2 if grain is Grain.QUADRANT else 1


def _glyphs(text: str, capital: float, grain: Grain) -> list[_Glyph]:
    return [_glyph(character, capital, grain) for character in legible(text)]


def _bits(text: str, capital: float, grain: Grain, width: int) -> list[int]:
    """The line's pixel lines, from the top of the dots to the foot of the descenders."""
    zones, gap = _zones(capital, grain), _gap(capital, grain)
    canvas = [0] * (zones.above + zones.capital + zones.below)
    left = 0
    for glyph in _glyphs(text, capital, grain):
        shift = width - left - glyph.width
        for line, bits in enumerate(glyph.lines):
            canvas[line] |= bits << shift
        left += glyph.width + gap
    return canvas


@lru_cache(8192)
def _glyph(character: str, capital: float, grain: Grain) -> _Glyph:
    """Draw one letter, first and last column both on its very edges, so that these are sharp."""
    zones, width = _zones(capital, grain), _width(character, capital, grain)
    height = zones.above + zones.capital + zones.below
    if character == " ":
        return _Glyph((0,) * height, width)
    thin = zones.capital < _THIN_BELOW
    trimmed = (_scaled(drawn_large(character, thin), width, zones, trim) for trim in _TRIMS)
    sheet = max(trimmed, key=_sharp)
    if character in _MIRRORED:  # both halves the same, however the pixels fall
        mirror = sheet.transpose(Image.Transpose.FLIP_LEFT_RIGHT)
        sheet = Image.blend(sheet, mirror, 0.5)
    threshold = _THIN_ON if thin and character.isalnum() else _ON
    while not (lines := _lit(sheet, threshold)) and threshold > 1:
        threshold //= 2  # a hair of a sign, lost between two pixel lines
    return _Glyph(lines or (0,) * height, width)


def _scaled(master: Image.Image, width: int, zones: _Zones, trim: float) -> Image.Image:
    """Fit each height zone to its pixels, *trim* of a pixel cut off at both sides."""
    sheet = Image.new("L", (width, zones.above + zones.capital + zones.below))
    cut = master.width / width * trim
    top = 0
    for upper, lower, pixels in (
        (TOP, CAPITAL + OVERSHOOT, zones.above),
        (CAPITAL, SMALL + OVERSHOOT, zones.capital - zones.small),
        (SMALL, BASE, zones.small),
        (BASE - OVERSHOOT, DESCENDER, zones.below),
    ):
        if pixels:
            box = (cut, line_at(upper), master.width - cut, line_at(lower))
            sheet.paste(master.resize((width, pixels), Image.Resampling.BOX, box), (0, top))
        top += pixels
    return sheet


def _sharp(sheet: Image.Image) -> int:
    """How far the pixels are from half covered, summed: the higher, the crisper."""
    counts = sheet.histogram()
    return sum(count * abs(2 * level - 255) for level, count in enumerate(counts) if count)


@lru_cache(8192)
def _width(character: str, capital: float, grain: Grain) -> int:
    """Return the whole pixels across that a letter takes."""
    pixels = _zones(capital, grain).capital
    if character == " ":
        return max(2, round(pixels * 0.3)) * _stretch(grain)
    across = pixels / (CAPITAL * MASTER / 1000) * _stretch(grain)
    return max(1, round(drawn_large(character, pixels < _THIN_BELOW).width * across))


def _lit(sheet: Image.Image, threshold: int) -> tuple[int, ...]:
    """The painted pixels as whole numbers, a line each; nothing if none is painted."""
    ink = sheet.point([255 if level >= threshold else 0 for level in range(256)])
    if ink.getbbox() is None:
        return ()
    packed = ink.convert("1").tobytes()
    step = (sheet.width + 7) // 8
    return tuple(
        int.from_bytes(packed[start : start + step]) >> (8 * step - sheet.width)
        for start in range(0, len(packed), step)
    )
