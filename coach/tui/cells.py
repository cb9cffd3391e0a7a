"""Pixels to block characters: which parts of a cell are painted, and which character paints them.

Braille dots are not among them, on purpose: a braille display would read them as letters.
"""

from __future__ import annotations

from enum import StrEnum


class Grain(StrEnum):
    """Which block characters the letters are built of, from the coarsest to the finest."""

    HALF = "half"  # in every font: the default
    QUADRANT = "quadrant"
    OCTANT = "octant"  # Unicode 16: only where the maker has seen that the terminal draws them

    @property
    def across(self) -> int:
        """Pixels side by side in one cell."""
        return 1 if self is Grain.HALF else 2

    @property
    def down(self) -> int:
        """Pixels above one another in one cell."""
        return 4 if self is Grain.OCTANT else 2


def folded(canvas: list[int], width: int, grain: Grain) -> tuple[str, ...]:
    """Return pixel lines, each a whole number, as rows of *width* block characters."""
    signs, across, down = _BY_PIXELS[grain], grain.across, grain.down
    dots = [f"{line:0{width * across}b}" for line in canvas]
    rows = []
    for top in range(0, len(dots), down):
        columns_of_pixels = [
            line[at::across] for line in dots[top : top + down] for at in range(across)
        ]
        rows.append("".join(map(signs.__getitem__, zip(*columns_of_pixels, strict=True))))
    return tuple(rows)


def _octants() -> str:
    """The 256 octant patterns, first pixel as the highest bit.

    Unicode 16.0, blocks U+1CC00, U+1FB00 and U+2580: the range from U+1CD00 holds, in the order of
    the pixels 1 to 8 read as bits from the lowest, every pattern that had no character before.
    """
    older = {
        0b00000000: " ", 0b11111111: "█", 0b00001111: "▀", 0b11110000: "▄",
        0b01010101: "▌", 0b10101010: "▐", 0b00000101: "▘", 0b00001010: "▝",
        0b01010000: "▖", 0b10100000: "▗", 0b10100101: "▚", 0b01011010: "▞",
        0b01011111: "▛", 0b10101111: "▜", 0b11110101: "▙", 0b11111010: "▟",
        0b00000011: "\U0001fb82", 0b11000000: "▂", 0b00111111: "\U0001fb85", 0b11111100: "▆",
        0b00000001: "\U0001cea8", 0b00000010: "\U0001ceab",
        0b01000000: "\U0001cea3", 0b10000000: "\U0001cea0",
        0b00010100: "\U0001fbe6", 0b00101000: "\U0001fbe7",
    }  # fmt: skip
    code, by_bits = 0x1CD00, []
    for bits in range(256):
        if bits in older:
            by_bits.append(older[bits])
        else:
            by_bits.append(chr(code))
            code += 1
    return "".join(by_bits[int(f"{pattern:08b}"[::-1], 2)] for pattern in range(256))


SIGNS = {
    Grain.HALF: " ▄▀█",
    Grain.QUADRANT: " ▗▖▄▝▐▞▟▘▚▌▙▀▜▛█",
    Grain.OCTANT: _octants(),
}
_BY_PIXELS = {
    grain: {
        tuple(f"{pattern:0{grain.across * grain.down}b}"): sign
        for pattern, sign in enumerate(signs)
    }
    for grain, signs in SIGNS.items()
}
