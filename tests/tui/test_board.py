"""The board of a group: every seat's row, large enough for the far side of the table."""

from __future__ import annotations

import pytest

from coach.tui.board import Board, Seat, board, boards_needed, rows_for_distance
from coach.tui.window import Ink

TUESDAY = Board(
    "Tuesday table",
    (Seat("Blue", "3"), Seat("Moss", "3"), Seat("Rose", "5")),
    named=0,
    sentence="Blue: Row 3, double crochet in the next six stitches.",
)


def test_a_capital_covers_the_angle_that_the_standard_asks_for() -> None:
    # EN 301 549 V3.2.1, 5.1.4: 0.7 degrees; at 3 m that is 36.7 mm (worked by hand), so on 24
    # rows over 174 mm (7.25 mm a row) 5.06 rows.
    assert round(rows_for_distance(24, 174, 3000), 2) == 5.06
    assert round(rows_for_distance(24, 174, 1000, degrees=2), 2) == 4.82


def test_three_seats_are_read_from_three_metres_on_80_by_24() -> None:
    page = board(TUESDAY, 80, 24)
    assert page.capital >= rows_for_distance(24, 174, 3000)
    assert boards_needed(TUESDAY, 80, 24) == 1


def test_twelve_seats_are_spread_over_boards_that_are_still_read() -> None:
    twelve = Board("Hall", tuple(Seat(f"Seat {n}", str(n)) for n in range(1, 13)))
    needed = boards_needed(twelve, 80, 24)
    assert needed > 1
    assert all(
        board(twelve, 80, 24, number=n).capital >= rows_for_distance(24, 174, 3000)
        for n in range(needed)
    )


def test_the_named_seat_is_marked_by_more_than_colour() -> None:
    page = board(TUESDAY, 80, 24)
    marked = [line for line in page.lines[1:] if line.ink is Ink.BAND]
    others = [line for line in page.lines[1:] if line.ink is Ink.STRONG]
    assert marked
    assert others


@pytest.mark.parametrize("window", [(80, 24), (40, 12), (20, 8), (120, 40), (300, 100)])
def test_every_window_is_filled_and_has_the_sentence_under_the_cursor(
    window: tuple[int, int],
) -> None:
    width, height = window
    page = board(TUESDAY, width, height)
    assert len(page.lines) == height
    assert {len(line.text) for line in page.lines} == {width}
    column, row = page.cursor
    assert page.lines[row].text[column:].startswith("Blue: Row 3"[: width - 1])
