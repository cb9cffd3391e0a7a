"""Giant letters keep their shapes apart, stay crisp and never show an empty box."""

import itertools
import string
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coach.tui.cells import SIGNS
from coach.tui.letters import Grain, columns, legible, letters_a_line, picture

EVERYDAY = string.ascii_letters + string.digits + string.punctuation
TRADE_SIGNS = "×½¼¾°–—’‘“”…éüñß"
SIZES = [3.0, 4.0, 5.0, 6.0, 9.0]


@pytest.mark.parametrize("grain", list(Grain))
@pytest.mark.parametrize("capital", SIZES)
def test_every_letter_has_ink_and_its_own_shape(capital: float, grain: Grain) -> None:
    shapes = {sign: picture((f"n{sign}n",), capital, grain).rows for sign in EVERYDAY}
    blank = picture(("n n",), capital, grain).rows
    assert all(rows != blank for rows in shapes.values())
    alike = [(a, b) for a, b in itertools.combinations(EVERYDAY, 2) if shapes[a] == shapes[b]]
    assert alike == []


@pytest.mark.parametrize("pair", ["0O", "1l", "1I", "lI", "5S", "6b", "8B", "2Z", "rn|m", "38"])
def test_figures_and_letters_that_look_alike_differ_by_more_than_two_pixels(pair: str) -> None:
    # The pairs that large-print rules name: I, 1 and l must differ (American Printing House,
    # Guidelines for Print Document Design); the rest common practice, no source.
    first, second = pair.split("|") if "|" in pair else (pair[0], pair[1])
    for capital in SIZES:
        one = "".join(picture((first,), capital, Grain.HALF).rows)
        other = "".join(picture((second,), capital, Grain.HALF).rows)
        different = sum(a != b for a, b in itertools.zip_longest(one, other))
        assert different > 2, (pair, capital)


@pytest.mark.parametrize("grain", list(Grain))
def test_only_block_characters_are_painted_never_braille_dots(grain: Grain) -> None:
    painted = set("".join(picture((EVERYDAY,), 5.0, grain).rows))
    assert painted <= set(SIGNS[grain])
    assert not any(0x2800 <= ord(sign) <= 0x28FF for sign in painted)


def test_capitals_cover_the_rows_they_promise() -> None:
    for capital in (3.0, 4.0, 5.0, 8.0):
        assert picture(("HEH",), capital, Grain.HALF).height == capital
        assert all(row.strip() for row in picture(("HEH",), capital, Grain.HALF).rows)


def test_capitals_start_and_end_sharp_on_cell_edges() -> None:
    for capital in (3.0, 4.0, 5.0, 6.0):
        rows = picture(("HHH",), capital, Grain.HALF).rows
        assert set("".join(rows[0])) <= {" ", "█"}
        assert set("".join(rows[-1])) <= {" ", "█"}


def test_a_quadrant_letter_is_as_wide_as_a_half_block_letter() -> None:
    for text in ("front post", "62", "double crochet"):
        half = columns(text, 5.0, Grain.HALF)
        assert abs(columns(text, 5.0, Grain.QUADRANT) - half) <= half * 0.1
        assert columns(text, 5.0, Grain.OCTANT) <= half * 1.1


def test_smaller_capitals_leave_more_letters_a_line() -> None:
    counts = [letters_a_line(80, capital, Grain.HALF) for capital in (6.0, 5.0, 4.0, 3.0)]
    assert counts == sorted(counts)
    assert counts[0] >= 8


@pytest.mark.parametrize(
    ("text", "seen"),
    [("⅓ of", "1/3 of"), ("a\tb\n c", "a b c"), ("→", ">"), ("\u2603", "?")],
)
def test_signs_without_a_shape_are_put_in_others(text: str, seen: str) -> None:
    assert legible(text) == seen


@pytest.mark.parametrize("sign", TRADE_SIGNS)
def test_the_trade_s_signs_have_shapes(sign: str) -> None:
    assert "?" not in legible(sign)


@given(st.text(max_size=12))
@settings(max_examples=60, deadline=None)
def test_any_text_can_be_drawn(text: str) -> None:
    drawn = picture((text,), 3.0, Grain.HALF)
    assert all(len(row) == drawn.width for row in drawn.rows)
    assert drawn.width == columns(text, 3.0, Grain.HALF)


def test_octant_characters_are_those_of_the_standard() -> None:
    # Unicode 16.0 code chart U+1CC00 (names list): BLOCK OCTANT-3 is U+1CD00, BLOCK OCTANT-23 is
    # U+1CD01, BLOCK OCTANT-2345678 is U+1CDE5, the last; U+1FB00 has the quarter blocks.
    signs = SIGNS[Grain.OCTANT]

    def octant(*pixels: int) -> str:
        return signs[sum(1 << (8 - pixel) for pixel in pixels)]

    assert octant(3) == "\U0001cd00"
    assert octant(2, 3) == "\U0001cd01"
    assert octant(2, 3, 4, 5, 6, 7, 8) == "\U0001cde5"
    assert octant(1, 2, 3, 4) == "▀"
    assert octant(1, 2) == "\U0001fb82"
    assert len(set(signs)) == 256
    known = [sign for sign in signs if unicodedata.name(sign, "")]
    assert all(
        "BLOCK" in unicodedata.name(s) or "QUADRANT" in unicodedata.name(s) or s == " "
        for s in known
    )
