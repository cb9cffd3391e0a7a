"""How the fabric stands before the hook, from the side that faces.

Facts: "How to crochet post stitches" (front post is worked from the face toward the worker);
"Basketweave stitch with UK translation" (a front post on a wrong-side row is a back post on
the right side); "Front-post and back-post double crochet stitches" (to keep a ridge on the
right side of turned rows: front post on right-side rows, back post on wrong-side rows).
"""

from __future__ import annotations

import pytest

from coach.craft.appearance import Appearance, Following, Look, appearance, look_of
from coach.craft.proof import ProvedRow
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from tests.craft.rows_by_hand import (
    TURN,
    chain,
    each,
    in_space,
    increase,
    join,
    piece,
    repeat,
    row,
    skip,
    top_of_chain,
    turning,
)

GROUND = row(1, each("dc", 9), TURN, side="WS")


def seen(number: int, *rows: ProvedRow) -> Appearance:
    """What is met at step *number* (from 1) of the last of *rows*."""
    stage = next(stage for stage in reversed(stages(piece(*rows))) if stage.row)
    return appearance(stage, steps(stage)[number - 1])


@pytest.mark.parametrize(
    ("stitch", "turned", "look"),
    [
        ("FPdc", False, Look.TOWARDS),
        ("FPdc", True, Look.AWAY),
        ("BPdc", False, Look.AWAY),
        ("BPdc", True, Look.TOWARDS),
        ("dc", False, Look.FLAT),
        ("dc", True, Look.FLAT),
        ("bobble", False, Look.BUMP_AWAY),
        ("bobble", True, Look.BUMP_TOWARDS),
        ("5-dc cl", False, Look.BUMP_AWAY),
        ("pc", False, Look.BUMP_TOWARDS),
        ("puff", True, Look.SOFT),
    ],
)
def test_a_stitch_stands_to_the_side_it_was_worked_from(
    stitch: str, turned: bool, look: Look
) -> None:
    assert look_of(stitch, turned=turned) is look


def test_in_turned_rows_a_front_post_follows_the_back_post_below() -> None:
    # To keep a ridge on the right side: FP on right-side rows, BP on wrong-side rows.
    ribs = row(3, turning(3, "dc"), each("BPdc", 3), each("dc", 4), top_of_chain(), TURN, side="WS")
    now = row(4, turning(3, "dc"), each("dc", 4), each("FPdc", 3), top_of_chain(), side="RS")
    told = seen(3, ribs, now)

    assert [(each_.look, each_.count) for each_ in told.meets] == [(Look.TOWARDS, 3)]
    assert told.following is Following.FOLLOW


def test_a_back_post_on_a_ridge_reverses_it() -> None:
    ribs = row(3, turning(3, "dc"), each("BPdc", 3), each("dc", 4), top_of_chain(), TURN, side="WS")
    now = row(4, turning(3, "dc"), each("dc", 4), each("BPdc", 3), top_of_chain(), side="RS")

    assert seen(3, ribs, now).following is Following.REVERSE


def test_in_rounds_that_are_not_turned_a_front_post_follows_a_front_post() -> None:
    # In joined rounds without turning: front post every round (common practice, no source).
    ring = row(2, each("FPdc", 3), each("dc", 3), join(), kind="round", side="RS")
    now = row(3, each("FPdc", 3), each("dc", 3), join(), kind="round", side="RS")
    told = seen(1, ring, now)

    assert told.following is Following.FOLLOW
    assert told.meets[0].look is Look.TOWARDS


def test_the_row_below_is_met_from_its_other_end_after_turning() -> None:
    # Below: 2 front posts, then 7 dc. After turning, the 7 flat stitches come first.
    below = row(2, each("FPdc", 2), each("dc", 7), TURN, side="RS")
    now = row(3, each("sc", 8), each("dc", 1), side="WS")

    assert [(each_.look, each_.count) for each_ in seen(1, below, now).meets] == [
        (Look.FLAT, 7),
        (Look.AWAY, 1),
    ]
    assert [(each_.look, each_.count) for each_ in seen(2, below, now).meets] == [(Look.AWAY, 1)]


def test_a_first_post_row_begins_its_ridges_on_flat_stitches() -> None:
    now = row(2, each("FPdc", 3), each("dc", 6), side="RS")

    assert seen(1, GROUND, now).following is Following.BEGIN


def test_an_alternation_is_followed_stitch_by_stitch() -> None:
    rib = row(2, repeat(4, each("FPdc", 1), each("BPdc", 1)), TURN, side="RS")
    follows = row(3, repeat(4, each("FPdc", 1), each("BPdc", 1)), side="WS")
    reverses = row(3, repeat(4, each("BPdc", 1), each("FPdc", 1)), side="WS")

    # Turned: the last back post below comes first and stands towards the maker now.
    assert seen(1, rib, follows).following is Following.FOLLOW
    assert seen(1, rib, reverses).following is Following.REVERSE


def test_fans_and_gaps_below_are_told() -> None:
    below = row(
        2, increase("dc", 5), each("dc", 2), chain(2), skip(2), each("dc", 2), TURN, side="RS"
    )
    now = row(3, each("sc", 2), each("hdc", 7), side="WS")

    meets = seen(2, GROUND, below, now).meets
    assert [(each_.look, each_.count) for each_ in meets] == [(Look.FLAT, 2), (Look.FAN, 5)]
    assert meets[1].of == 5


def test_a_gap_between_stitches_is_met_on_the_way() -> None:
    mesh = row(2, repeat(4, each("dc", 1), chain(1), skip(1)), each("dc", 1), TURN, side="RS")
    now = row(3, each("sc", 3), each("hdc", 2), side="WS")

    assert [each_.look for each_ in seen(1, GROUND, mesh, now).meets] == [
        Look.FLAT,
        Look.GAP,
        Look.FLAT,
        Look.GAP,
        Look.FLAT,
    ]


def test_the_bulge_of_a_bobble_row_shows_after_turning() -> None:
    bobbles = row(2, each("sc", 3), each("bobble", 1), each("sc", 5), TURN, side="WS")
    now = row(3, each("sc", 6), each("hdc", 3), side="RS")

    assert [(each_.look, each_.count) for each_ in seen(1, GROUND, bobbles, now).meets] == [
        (Look.FLAT, 5),
        (Look.BUMP_TOWARDS, 1),
    ]


def test_a_very_long_row_below_is_looked_up_where_the_hook_is() -> None:
    below = row(2, repeat(100_000, each("FPdc", 3), each("dc", 2)), TURN, side="RS")
    now = row(3, repeat(100_000, each("dc", 2), each("BPdc", 3)), side="WS")
    told = seen(150_000, below, now)

    assert [(each_.look, each_.count) for each_ in told.meets] == [(Look.AWAY, 3)]
    assert told.following is Following.FOLLOW


def test_in_the_first_row_there_is_nothing_below_but_chain() -> None:
    first = row(1, each("sc", 9), side="RS")

    assert seen(1, first).meets == ()


def test_where_no_side_is_told_a_row_is_turned_and_a_round_is_not() -> None:
    ridges = row(2, repeat(2, each("FPdc", 3), last=(each("FPdc", 3),)), each("dc", 2), TURN)
    above = row(3, each("dc", 2), each("FPdc", 9), turned=True)
    ring = row(2, each("FPdc", 3), kind="round")
    over = row(3, each("FPdc", 3), kind="round")

    assert [(each_.look, each_.count) for each_ in seen(2, ridges, above).meets] == [(Look.AWAY, 9)]
    assert seen(1, ring, over).meets[0].look is Look.TOWARDS


def test_a_space_worked_into_is_met_as_a_gap() -> None:
    mesh = row(2, each("dc", 1), chain(2), each("dc", 1), TURN, side="RS")
    into = in_space(each("dc", 3))
    now = row(3, each("sc", 1), into, each("sc", 1), side="WS")

    assert Look.GAP in [each_.look for each_ in seen(2, GROUND, mesh, now).meets]
