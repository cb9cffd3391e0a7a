"""A picture of the screen that looks the same in every viewer: blocks as shapes, not as letters."""

from __future__ import annotations

from html import escape
from itertools import groupby

from textual.strip import Strip

WIDE, TALL = 10, 20  # of one cell, in units of the picture

# Which of the eight parts (two across, four down) of a cell a block character paints.
_PARTS = {
    "█": "11111111", "▀": "11110000", "▄": "00001111",
    "▘": "10100000", "▝": "01010000", "▖": "00001010", "▗": "00000101",
    "▌": "10101010", "▐": "01010101", "▚": "10100101", "▞": "01011010",
    "▛": "11111010", "▜": "11110101", "▙": "10101111", "▟": "01011111",
}  # fmt: skip


def svg(strips: list[Strip], cursor: tuple[int, int]) -> str:
    """Return the picture of *strips*, the lines of a screen, with a frame where the cursor is."""
    width = max(strip.cell_length for strip in strips) * WIDE
    height = len(strips) * TALL
    shapes: list[str] = []
    for row, strip in enumerate(strips):
        column = 0
        for segment in strip:
            shapes += _segment(segment.text, segment.style, column, row)
            column += len(segment.text)
    left, top = cursor[0] * WIDE, cursor[1] * TALL
    frame = f'<rect x="{left}" y="{top}" width="{WIDE}" height="{TALL}" fill="none" stroke="red"/>'
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" '
            f'shape-rendering="crispEdges" font-family="monospace" font-size="16">',
            *shapes,
            frame,
            "</svg>",
            "",
        ]
    )


def _segment(text: str, style: object, column: int, row: int) -> list[str]:
    ink, ground, weight = _paints(style)
    x, y = column * WIDE, row * TALL
    shapes = [f'<rect x="{x}" y="{y}" width="{len(text) * WIDE}" height="{TALL}" fill="{ground}"/>']
    for is_block, group in groupby(enumerate(text), lambda pair: pair[1] in _PARTS):
        cells = list(group)
        if is_block:
            shapes.append(f'<path fill="{ink}" d="{"".join(_blocks(cells, x, y))}"/>')
            continue
        for is_space, word in groupby(cells, lambda pair: pair[1] == " "):
            letters = list(word)
            if not is_space:
                shapes.append(
                    f'<text x="{x + letters[0][0] * WIDE}" y="{y + 15}" fill="{ink}" '
                    f'font-weight="{weight}" textLength="{len(letters) * WIDE}">'
                    f"{escape(''.join(sign for _, sign in letters))}</text>"
                )
    return shapes


def _blocks(cells: list[tuple[int, str]], x: int, y: int) -> list[str]:
    paths = []
    for at, sign in cells:
        for part, on in enumerate(_PARTS[sign]):
            if on == "1":
                left, top = x + at * WIDE + part % 2 * WIDE // 2, y + part // 2 * TALL // 4
                paths.append(f"M{left} {top}h{WIDE // 2}v{TALL // 4}h-{WIDE // 2}z")
    return paths


def _paints(style: object) -> tuple[str, str, str]:
    color, ground = getattr(style, "color", None), getattr(style, "bgcolor", None)
    weight = "bold" if getattr(style, "bold", False) else "normal"
    if color is None or ground is None:
        ink, paper = "#ccc", "#222"
        return (paper, ink, weight) if getattr(style, "reverse", False) else (ink, paper, weight)
    return color.get_truecolor().hex, ground.get_truecolor().hex, weight
