"""Two front ends, one truth: the giant screen and the plain lines tell the same facts of each step."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from coach.adapters.plain import PlainDisplay, plain_text
from coach.ports import View
from coach.tui.page import lay_out
from tests.a11y.works import PATTERNS, views_of
from tests.tui.giant import leaves_of, stands_in, stands_on
from tests.tui.views import ALL, CHAIN, RIB

WINDOWS = [(80, 24), (120, 40)]
ORDINARY = [(40, 12), (60, 40), (200, 60)]


def facts(view: View) -> list[str]:
    """What both front ends must tell: the row, the side, the group, the count, the sentence."""
    told = (view.sentence, view.headline, view.side, view.group, view.count, view.notice)
    return [fact for fact in (*told, *view.choices) if fact]


def plain_lines(view: View) -> str:
    stream = io.StringIO()
    PlainDisplay(stream).show(view)
    return " ".join(stream.getvalue().split())


@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_every_fact_stands_in_the_plain_lines(path: Path) -> None:
    views = views_of(path)
    for view in views:
        lines = plain_lines(view).casefold()
        assert [f for f in facts(view) if plain_text(f).casefold() not in lines] == []
    assert len(views) > 10


@pytest.mark.parametrize("window", WINDOWS, ids=str)
@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_every_fact_stands_on_the_giant_screen(path: Path, window: tuple[int, int]) -> None:
    for view in views_of(path)[:40]:
        page = lay_out(view, *window)
        missing = [fact for fact in facts(view) if not stands_on(page, fact)]
        assert missing == [], view
        words = " ".join(view.big).split()
        assert all(stands_on(page, word) for word in words), view


@pytest.mark.parametrize("window", ORDINARY, ids=str)
@pytest.mark.parametrize("path", PATTERNS, ids=lambda path: path.stem)
def test_no_window_from_forty_by_twelve_loses_a_fact(path: Path, window: tuple[int, int]) -> None:
    for view in views_of(path)[:20]:
        pages = leaves_of(view, *window)
        assert [fact for fact in facts(view) if not stands_in(pages, fact)] == [], view


def test_the_reader_of_giant_letters_reads_what_is_there_and_nothing_else() -> None:
    page = lay_out(RIB, 80, 24)
    assert stands_on(page, "front post double")
    assert stands_on(page, "Row 6")
    assert not stands_on(page, "Row 8")
    assert not stands_on(page, "back post treble")
    assert not stands_on(lay_out(CHAIN, 80, 24), "63")


@pytest.mark.parametrize("name", ALL)
def test_hand_made_states_tell_the_same(name: str) -> None:
    view = ALL[name]
    page, lines = lay_out(view, 80, 24), plain_lines(view)
    lowered = lines.casefold()
    assert [f for f in facts(view) if plain_text(f).casefold() not in lowered] == []
    assert [fact for fact in facts(view) if not stands_on(page, fact)] == []
