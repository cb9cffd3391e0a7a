"""Left-handed makers: only directions in space are mirrored."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coach.wording.hands import mirror, tail_side, tail_test
from coach.wording.plain_text import say


def test_a_direction_in_space_is_mirrored_and_a_face_of_the_fabric_is_not() -> None:
    # R43, word for word
    told = say(
        "With the right side facing, join yarn in the top right corner; "
        "working from right to left, single crochet in each stitch across."
    )

    assert mirror(told, "left") == (
        "With the right side facing, join yarn in the top left corner; "
        "working from left to right, single crochet in each stitch across."
    )
    assert mirror(told, "right") == told


@pytest.mark.parametrize(
    ("right", "left"),
    [
        ("Start at the right edge.", "Start at the left edge."),
        ("Turn to the left.", "Turn to the right."),
        ("the bottom left-hand corner", "the bottom right-hand corner"),
        ("Work round clockwise.", "Work round counter-clockwise."),
        ("Work round anticlockwise.", "Work round clockwise."),
        ("on the left side", "on the right-hand side"),
        ("the lower right of the piece", "the lower left of the piece"),
        ("Right to left.", "Left to right."),
    ],
)
def test_directions(right: str, left: str) -> None:
    assert mirror(right, "left") == left


@pytest.mark.parametrize(
    "told",
    [
        "Right side facing.",
        "on the right side of the work",
        "With right sides together, sew.",
        "9 stitches left.",
        "Leave the last 2 stitches; 4 are left.",
        "Right, that makes 20.",
        "Sew the left front to the back.",
        "the right sleeve",
        "Join the pocket to the left front.",
        "Wrong side facing.",
        "That is right.",
    ],
)
def test_what_is_no_direction_stays(told: str) -> None:
    assert mirror(told, "left") == told


@given(st.sampled_from(["from right to left", "at the left edge", "clockwise", "top left corner"]))
def test_mirroring_twice_gives_back_the_words(told: str) -> None:
    assert mirror(mirror(told, "left"), "left") == told


def test_the_starting_tail_tells_the_side() -> None:
    # R29: after Row 18, before turning: at the right (left-hander: left); after an odd row at
    # the left for a right-hander.
    assert tail_side(18) == "right"
    assert tail_side(18, "left") == "left"
    assert tail_side(17) == "left"
    assert tail_test(18) == (
        "Feel for the starting tail before you turn. After Row 18 it hangs at the right."
    )
