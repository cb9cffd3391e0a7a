"""Pages: one block large, the facts, the sentence whole, in every window."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.ports import View
from coach.tui.board import rows_for_distance
from coach.tui.fitting import LEAST_LETTERS, LEGIBLE_AT_A_METRE
from coach.tui.letters import Grain, letters_a_line
from coach.tui.page import lay_out
from coach.tui.window import Ink, Look, Page, Told
from tests.tui.views import (
    ALL,
    ALTERNATION,
    CHAIN,
    COUNTS,
    MESH,
    PLAIN_ROW,
    POST_STITCHES,
    RIB,
    SHELF,
)

WINDOWS = [(80, 24), (40, 12), (20, 8), (24, 40), (60, 40), (120, 40), (200, 60), (300, 100)]


def text_of(page: Page) -> str:
    return " ".join(" ".join(line.text for line in page.lines).split())


def sentence_at_cursor(page: Page) -> str:
    column, row = page.cursor
    first = page.lines[row].text[column:]
    return " ".join([first, *(line.text for line in page.lines[row + 1 :])])


@pytest.mark.parametrize("window", WINDOWS)
@pytest.mark.parametrize("name", ALL)
def test_every_window_is_filled_exactly(name: str, window: tuple[int, int]) -> None:
    width, height = window
    page = lay_out(ALL[name], width, height)
    assert len(page.lines) == height
    assert {len(line.text) for line in page.lines} == {width}


@pytest.mark.parametrize("window", WINDOWS)
@pytest.mark.parametrize("name", ALL)
def test_the_sentence_stands_whole_with_the_cursor_on_its_first_letter(
    name: str, window: tuple[int, int]
) -> None:
    page = lay_out(ALL[name], *window)
    shown = " ".join(sentence_at_cursor(page).split())
    assert shown.startswith(ALL[name].sentence)


@pytest.mark.parametrize("window", [w for w in WINDOWS if w[0] >= 40 and w[1] >= 12])
def test_no_fact_is_lost_from_forty_by_twelve_up(window: tuple[int, int]) -> None:
    # Facts in giant letters are shown by the picture of those letters, so a window is also laid
    # out in ordinary letters (size 1) to read them.
    page = text_of(lay_out(RIB, *window, Look(size=1)))
    for fact in ("3 front post double", "MICROPHONE OFF", RIB.sentence):
        assert fact in page


def test_at_80_by_24_the_number_and_the_stitch_are_giant() -> None:
    assert lay_out(PLAIN_ROW, 80, 24).capital >= 5
    for view in (RIB, POST_STITCHES, ALTERNATION, COUNTS):
        assert lay_out(view, 80, 24).capital >= LEGIBLE_AT_A_METRE, view.big
    assert rows_for_distance(24, 174, 1000, degrees=2) - 0.2 <= LEGIBLE_AT_A_METRE


def test_the_words_in_turn_stand_with_two_stitches() -> None:
    assert "in turn" in " ".join(line.text for line in lay_out(ALTERNATION, 80, 24).lines[5:21])


def test_something_giant_stands_at_forty_by_twelve() -> None:
    for view in (RIB, POST_STITCHES, MESH, COUNTS, CHAIN, PLAIN_ROW):
        assert lay_out(view, 40, 12).capital >= 3, view.big


def test_the_smallest_window_keeps_row_block_and_sentence() -> None:
    page = text_of(lay_out(RIB, 20, 8))
    assert "Row 6 wrong side" in page
    assert "3 front post double" in page
    assert RIB.sentence in page


def test_size_makes_letters_smaller_step_by_step() -> None:
    capitals = [lay_out(PLAIN_ROW, 120, 48, Look(size)).capital for size in range(8, 0, -1)]
    assert capitals == sorted(capitals, reverse=True)
    assert capitals[-1] == 1
    assert len(set(capitals)) >= 5


@given(
    st.lists(st.text("abdefghilmnoprstu ", min_size=1, max_size=18), min_size=1, max_size=3),
    st.integers(1, 999),
    st.integers(20, 200),
    st.integers(8, 60),
    st.integers(1, 8),
)
@settings(max_examples=60, deadline=None)
def test_giant_words_always_leave_eight_letters_a_line(
    words: list[str], number: int, width: int, height: int, size: int
) -> None:
    view = View(sentence="Go on.", headline="Row 1", big=(str(number), *words))
    page = lay_out(view, width, height, Look(size))
    assert len(page.lines) == height
    if page.capital > 1 and any(word.strip() for word in words):
        # fit_number draws the figure alone in giant letters: figures are no running text
        in_ordinary = " ".join(words).split()[0] in text_of(page)
        assert in_ordinary or letters_a_line(width, page.capital, Grain.HALF) >= LEAST_LETTERS


def test_a_message_stands_over_the_sentence_and_has_the_cursor() -> None:
    told = Told("You are in row 6, block 2 of 5.", "Row 6, block 2 of 5")
    page = lay_out(RIB, 80, 24, told=[told])
    assert sentence_at_cursor(page).startswith(told.full)
    assert RIB.sentence in text_of(page)
    assert any(line.ink is Ink.BAND and "█" in line.text for line in page.lines[5:])


def test_choices_are_numbered() -> None:
    page = text_of(lay_out(SHELF, 60, 20))
    for number, choice in enumerate(SHELF.choices, 1):
        assert f"{number}. {choice}" in page
