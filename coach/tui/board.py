"""The board of a group: each maker's name and row in giant letters, to be read from three metres.

Capital letters cover 0.7 degrees at three metres (EN 301 549, 5.1.4: 36.7 mm) from six rows of a
window of 24 rows on a screen 174 mm high. More makers than fit stand on further boards, which the
leader turns by a key; nothing rolls by itself.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from coach.tui import letters
from coach.tui.fitting import capital_on
from coach.tui.letters import Grain
from coach.tui.window import Ink, Line, Look, Page

DEGREES_OF_A_CAPITAL = 0.7  # EN 301 549 V3.2.1, 5.1.4
SCREEN_MM, DISTANCE_MM = 174.0, 3000.0  # a laptop's screen, across a large table


@dataclass(frozen=True, slots=True)
class Seat:
    """One maker: a nickname or a seat, and the row or a state in a word ("3", "done")."""

    name: str
    row: str


@dataclass(frozen=True, slots=True)
class Board:
    """A group. named: the seat that the last words were for; it is marked by more than colour."""

    title: str
    seats: tuple[Seat, ...]
    named: int = -1
    sentence: str = ""


def rows_for_distance(
    rows: int, screen_mm: float, distance_mm: float, degrees: float = DEGREES_OF_A_CAPITAL
) -> float:
    """Return how many rows a capital must cover to be seen under *degrees* at *distance_mm*."""
    height = distance_mm * math.tan(math.radians(degrees))
    return height / (screen_mm / rows)


def boards_needed(group: Board, width: int, height: int, look: Look | None = None) -> int:
    """Return over how many boards the seats are spread in this window."""
    return -(-len(group.seats) // _fit(group, width, height, look or Look())[1])


def board(group: Board, width: int, height: int, look: Look | None = None, number: int = 0) -> Page:
    """Return board *number* (from 0): a giant line for each seat, its row at the right edge."""
    look = look or Look()
    capital, seats_on_one = _fit(group, width, height, look)
    first = number * seats_on_one
    seats = group.seats[first : first + seats_on_one]
    lines = [Line(_padded(f" {group.title}", width), Ink.BAND)]
    for place, seat in enumerate(seats, first):
        ink = Ink.BAND if place == group.named else Ink.STRONG
        rows = _drawn(seat, width, capital, look.grain)
        lines += [Line(_padded(row, width), ink) for row in rows]
    lines += [Line(" " * width)] * max(0, height - len(lines) - 1)
    told = Line(_padded(f" {_sentence(group, seats)}", width))
    lines = [*lines[: height - 1], told]
    return Page(tuple(lines), (1, len(lines) - 1), capital)


def _fit(group: Board, width: int, height: int, look: Look) -> tuple[float, int]:
    """The largest capital for all seats on one board, or one for three metres on several."""
    room = height - 2
    most = capital_on(width, height, look.size, look.grain)
    far = min(rows_for_distance(height, SCREEN_MM, DISTANCE_MM), most)
    steps = range(int(most * 2), int(letters.SMALLEST_CAPITAL * 2) - 1, -1)
    for capital in (step / 2 for step in steps):
        if any(_columns(seat, capital, look.grain) > width - 1 for seat in group.seats):
            continue
        on_one = room // _tall(capital, look.grain)
        if on_one >= len(group.seats) or (on_one >= 1 and capital - 0.5 < far):
            return capital, max(1, min(on_one, len(group.seats)))
    return 1.0, max(1, room)


def _tall(capital: float, grain: Grain) -> int:
    """Rows for a seat: the letters and their descenders, and no more."""
    return letters.block_rows(["Hg"], capital, grain) if capital > 1 else 1


def _columns(seat: Seat, capital: float, grain: Grain) -> int:
    gap = 2  # the rows stand at the right edge, most often far off
    return sum(letters.columns(text, capital, grain) for text in (seat.name, seat.row)) + gap


def _drawn(seat: Seat, width: int, capital: float, grain: Grain) -> list[str]:
    if capital <= 1:
        return [f" {seat.name[: width - len(seat.row) - 3]:<{width - len(seat.row) - 2}}{seat.row}"]
    tall = _tall(capital, grain)
    name = letters.picture((seat.name,), capital, grain)
    row = letters.picture((seat.row,), capital, grain)
    left = _seated(name.rows, seat.name, capital, grain, tall)
    right = _seated(row.rows, seat.row, capital, grain, tall)
    return [
        f" {one:<{width - row.width - 1}}{other}" for one, other in zip(left, right, strict=True)
    ]


def _seated(rows: Sequence[str], text: str, capital: float, grain: Grain, tall: int) -> list[str]:
    """Cut or fill a picture to *tall* rows with its capitals at the top."""
    head = letters.block_rows([text], capital, grain) - letters.block_rows(
        [text.translate(_NO_DOTS)], capital, grain
    )
    return ([*rows[head:], *[""] * tall])[:tall]


_NO_DOTS = str.maketrans("fij", "nny")  # letters of the same foot that reach less high


def _sentence(group: Board, seats: Sequence[Seat]) -> str:
    told = (f"{seat.name}: {_row_told(seat)}." for seat in seats)
    return group.sentence or " ".join(told)


def _row_told(seat: Seat) -> str:
    return f"row {seat.row}" if seat.row.isdecimal() else seat.row


def _padded(text: str, width: int) -> str:
    return text[:width].ljust(width)
