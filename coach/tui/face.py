"""The typeface of the giant letters: made for low vision, its heights, and each letter drawn large."""

from __future__ import annotations

import unicodedata
from functools import lru_cache

import fontpkg_atkinson_hyperlegible
from PIL import Image, ImageDraw, ImageFont

# Heights of the face, in thousandths of the em, as its own outlines give them (both weights).
DESCENDER, BASE, SMALL, CAPITAL, TOP = -203, 0, 496, 668, 758
OVERSHOOT = 14  # round letters reach this much past flat ones; cut off, or their edges blur
MASTER = 256  # size of the master drawing that every smaller letter is made from, in pixels
_HARD = [255 if level >= 128 else 0 for level in range(256)]


def line_at(height: int) -> float:
    """The line of the master drawing at *height* thousandths over the base line."""
    return (TOP + 20 - height) * MASTER / 1000


@lru_cache(512)
def drawn_large(character: str, thin: bool) -> Image.Image:
    """The letter drawn large, cut off at its left and right edges."""
    face = _face("Regular" if thin else "Bold")
    left, _top, right, _bottom = face.getbbox(character, anchor="ls")
    height = int((TOP + 40 - DESCENDER) * MASTER / 1000) + 1
    drawing = Image.new("L", (int(right - left) + 2 * MASTER, height))
    place = (MASTER - left, line_at(0))
    ImageDraw.Draw(drawing).text(place, character, font=face, fill=255, anchor="ls")
    edges = drawing.point(_HARD).getbbox() or (MASTER, 0, MASTER + 1, height)
    return drawing.crop((edges[0], 0, edges[2], height))


@lru_cache(2)
def _face(weight: str = "Bold") -> ImageFont.FreeTypeFont:
    path = fontpkg_atkinson_hyperlegible.ROOT / "files" / f"AtkinsonHyperlegible-{weight}.ttf"
    return ImageFont.truetype(str(path), MASTER, layout_engine=ImageFont.Layout.BASIC)


@lru_cache(1024)
def reaches(character: str, zone: str) -> bool:
    """Whether the letter has ink above the capitals or below the base line."""
    top, bottom = _face().getbbox(character, anchor="ls")[1::2]
    limit = OVERSHOOT * MASTER / 1000 + 1
    if character == " ":
        return False
    return -top > CAPITAL * MASTER / 1000 + limit if zone == "above" else bottom > limit


@lru_cache(1024)
def as_drawn(character: str) -> str:
    """Return the character, or others in its place that the typeface has; "?" where none has."""
    if character == " " or _has(character):
        return character
    plain = unicodedata.normalize("NFKD", character).replace("\u2044", "/")
    plain = "".join(_LOOKALIKE.get(part, part) for part in plain)
    return "".join(part for part in plain if _has(part) or part == " ") or "?"


_LOOKALIKE = {
    "\u2010": "-",
    "\u2011": "-",
    "\u2212": "-",
    "\u2032": "'",
    "\u2033": '"',
    "\u2715": "×",
    "\u2192": ">",
    "\u2190": "<",
}


def _has(character: str) -> bool:
    """Whether the typeface has a shape of its own for it, not the empty box."""
    if unicodedata.category(character)[0] in "CZM":
        return False
    mask = bytes(_face().getmask(character))
    return any(mask) and mask != bytes(_face().getmask("\uffff"))
