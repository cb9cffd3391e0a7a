"""The window as lines of cells, each in one ink; what a page is, and how the maker wants it drawn."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

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
    leaf and leaves: which part of the text stands here, from 0, and how many parts there are.
    """

    lines: tuple[Line, ...]
    cursor: tuple[int, int]
    capital: float = 1.0
    leaf: int = 0
    leaves: int = 1


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
class Window:
    """The window's measures, with the margin that ordinary letters keep."""

    width: int
    height: int
    margin: int

    @property
    def measure(self) -> int:
        return max(1, min(self.width - 2 * self.margin, WIDEST_TEXT))

    def line(self, text: str, ink: Ink = Ink.TEXT) -> Line:
        return Line((" " * self.margin + text)[: self.width].ljust(self.width), ink)
