"""No window from 20 by 8 to 300 by 100 loses a word: what does not fit is on a further leaf."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.ports import View
from coach.tui.leaves import MORE
from coach.tui.window import Ink, Page, Told
from tests.a11y.works import ROOT, views_of
from tests.tui.giant import leaves_of, stands_in
from tests.tui.views import ALL, FAULT, RIB, SHELF, WELCOME

BUILT_IN = sorted((ROOT / "coach" / "patterns").glob("*.txt"))
STEPS = [view for path in BUILT_IN for view in views_of(path)]
ANSWER = Told(
    "Slip stitch into the third of the chains that you began with. Put the hook in under both "
    "of its loops, draw the yarn through them, and then through the loop on the hook at once.",
    "Slip stitch",
)


def lost(view: View, window: tuple[int, int], told: tuple[Told, ...] = ()) -> list[str]:
    pages = leaves_of(view, *window, told)
    must = [view.sentence, view.notice, view.headline, view.side, view.group, view.count]
    must += [*view.signs, *view.choices, *(each.full for each in told)]
    return [fact for fact in must if fact and not stands_in(pages, fact)]


def reading(pages: list[Page]) -> str:
    rows = [line.text for page in pages for line in page.lines[page.cursor[1] : -1]]
    return " ".join(" ".join(rows).split())


@given(st.sampled_from(STEPS), st.integers(20, 300), st.integers(8, 100))
@settings(max_examples=150, deadline=None)
def test_every_word_of_every_step_can_be_read_in_every_window(
    view: View, width: int, height: int
) -> None:
    assert lost(view, (width, height)) == []


@given(st.sampled_from(STEPS), st.integers(20, 60), st.integers(8, 14), st.booleans())
@settings(max_examples=150, deadline=None)
def test_small_windows_lose_no_word_of_a_step_nor_of_an_answer(
    view: View, width: int, height: int, asked: bool
) -> None:
    assert lost(view, (width, height), (ANSWER,) if asked else ()) == []


@pytest.mark.parametrize("window", [(20, 8), (24, 9), (40, 12), (20, 60), (80, 8), (300, 8)])
@pytest.mark.parametrize("name", ALL)
def test_hand_made_states_lose_nothing_in_the_smallest_windows(
    name: str, window: tuple[int, int]
) -> None:
    assert lost(ALL[name], window) == []
    assert lost(ALL[name], window, (ANSWER,)) == []


def test_every_leaf_but_the_last_says_that_there_is_more_in_words() -> None:
    pages = leaves_of(WELCOME, 20, 8, (ANSWER,))
    assert len(pages) == 4
    signs = [page.lines[-1] for page in pages]
    assert [MORE in sign.text for sign in signs] == [True, True, True, False]
    assert [re.split("[ /]", sign.text.strip())[0] for sign in signs] == ["1", "2", "3", "4"]
    assert {sign.ink for sign in signs} == {Ink.BAND}


def test_what_was_said_last_is_read_first() -> None:
    assert reading(leaves_of(FAULT, 20, 7)).startswith(FAULT.sentence)
    assert reading(leaves_of(FAULT, 20, 8, (ANSWER,))).startswith(ANSWER.full)


def test_no_sign_stands_where_all_is_shown() -> None:
    for window in ((20, 60), (40, 16), (80, 24), (300, 100)):
        pages = leaves_of(RIB, *window)
        assert len(pages) == 1
        assert MORE not in " ".join(line.text for line in pages[0].lines)


def test_the_answers_of_a_question_stand_together_or_on_further_leaves() -> None:
    pages = leaves_of(SHELF, 20, 8)
    assert reading(pages).startswith(SHELF.sentence)
    assert all(stands_in(pages, f"{at}. {each}") for at, each in enumerate(SHELF.choices, 1))
