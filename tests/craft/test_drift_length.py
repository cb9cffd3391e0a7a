"""Rows for a length are made more or fewer; sides and numbers follow, stitch counts don't change."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from coach.craft.length import stretch, with_changes
from coach.craft.own_colors import colors_left_open, own_color
from coach.craft.proof import Proof
from tests.guide.pieces import chain, plain_cloth, row, sc


def band() -> Proof:
    """Rows 1-2; Rows 3-8 until it measures 6 cm; Rows 9-10 after it."""
    proof = plain_cloth(20, 10)
    rows = tuple(
        replace(each, until_cm=Fraction(6), line=5, worked_as="Row 2") if 2 <= at <= 7 else each
        for at, each in enumerate(proof.rows)
    )
    return replace(proof, rows=rows)


def facts(proof: Proof) -> list[tuple[str, str | None]]:
    return [(each.label, each.side) for each in proof.rows]


def test_a_stretch_is_found_from_any_of_its_rows() -> None:
    rows = band().rows

    assert [stretch(rows, at) for at in (1, 2, 5, 7, 8)] == [
        None,
        range(2, 8),
        range(2, 8),
        range(2, 8),
        None,
    ]


def test_one_row_more_turns_the_sides_of_the_rows_after_it() -> None:
    longer = with_changes(band(), [(2, 1)])

    assert facts(longer)[7:] == [
        ("Row 8", "WS"),
        ("Row 9", "RS"),
        ("Row 10", "WS"),
        ("Row 11", "RS"),
    ]
    assert longer.rows[8].worked_as == "Row 2"
    assert longer.rows[8].until_cm == 6


def test_two_rows_fewer_leave_the_sides_as_they_were() -> None:
    shorter = with_changes(band(), [(2, -2)])

    assert facts(shorter)[5:] == [("Row 6", "WS"), ("Row 7", "RS"), ("Row 8", "WS")]


def test_a_repeat_of_two_rows_goes_on_in_turn() -> None:
    rows = tuple(
        replace(
            row(number, (chain(1), sc(20)), 20),
            until_cm=Fraction(6),
            line=5,
            worked_as="Row 1" if number % 2 else "Row 2",
        )
        for number in range(3, 7)
    )
    proof = Proof("Band", "US", None, rows)

    longer = with_changes(proof, [(0, 3)])

    assert [each.worked_as for each in longer.rows[4:]] == ["Row 1", "Row 2", "Row 1"]


@given(st.integers(-30, 30))
def test_a_length_never_comes_to_nothing_and_counts_stay(more: int) -> None:
    changed = with_changes(band(), [(2, more)])

    assert len(changed.rows) == 4 + max(1, 6 + more)
    assert {each.made for each in changed.rows} == {20}
    numbers = [each.number for each in changed.rows]
    assert numbers == list(range(1, len(numbers) + 1))


def test_a_maker_s_own_colours_come_in_where_the_words_change_colour() -> None:
    texts = {3: "Row 3: In next colour, sc across.", 5: "Row 5: Change color. Sc across."}
    rows = tuple(
        replace(each, text=texts.get(each.number or 0, "Sc across.")) for each in band().rows
    )

    told = [own_color(rows, at, ("blue", "white")) for at in range(6)]

    assert told == ["blue", None, "white", None, None, None], "the list has only two"
    assert colors_left_open(rows)
    assert not colors_left_open(band().rows)
    assert colors_left_open(band().rows, ("Colours: see photo.",))


def test_a_pattern_that_names_its_colours_leaves_nothing_open() -> None:
    colored = replace(sc(20), color="A")
    rows = (row(1, (colored,), 20, text="Row 1: With A; join next colour."),)

    assert not colors_left_open(rows)
