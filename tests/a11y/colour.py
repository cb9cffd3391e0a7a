"""Contrast by the formula of WCAG 2.2, and how other eyes see a colour."""

from __future__ import annotations

RGB = tuple[float, float, float]

# Usual palette of a terminal with sixteen colours: XTerm-col.ad of xterm, from memory.
SIXTEEN = {
    "black": "000000",
    "white": "e5e5e5",
    "brown": "cdcd00",
    "brightblack": "7f7f7f",
    "brightwhite": "ffffff",
    "brightbrown": "ffff00",
    "brightyellow": "ffff00",
    "red": "cd0000",
    "green": "00cd00",
    "blue": "0000ee",
    "magenta": "cd00cd",
    "cyan": "00cdcd",
}

# Full loss of one kind of cone: Machado, Oliveira and Fernandes 2009, severity 1.0; from memory.
EYES: dict[str, tuple[RGB, RGB, RGB]] = {
    "long cones missing": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "middle cones missing": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "short cones missing": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


def linear(colour: str) -> RGB:
    """Return the linear red, green and blue of "rrggbb", by the WCAG 2.2 definition."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return red, green, blue


def luminance(colour: RGB) -> float:
    """Return the relative luminance, by the WCAG 2.2 definition."""
    red, green, blue = colour
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: RGB, other: RGB) -> float:
    """Return the contrast ratio, 1 to 21."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def seen_by(eyes: str, colour: RGB) -> RGB:
    """Return a linear colour as *eyes* see it."""
    rows = EYES[eyes]
    red, green, blue = (
        min(max(sum(a * b for a, b in zip(row, colour, strict=True)), 0), 1) for row in rows
    )
    return red, green, blue
