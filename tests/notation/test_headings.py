"""A part's own name, however it is written over its first row."""

import pytest

from coach.craft.pattern import Line, Part
from coach.notation.headings import heading, heading_over
from coach.notation.reading import read

SOCK = """Larch Sock

Leg
Rnd 1: Ch 36, join, sc in each ch around. (36 sc)
Rnd 2: Sc in each st around. 36 sts

{heading}
Row 1: Ch 1, sc in next 18 sts, leave remaining sts unworked, turn. (18 sc)
Row 2: Ch 1, sc in each st across, turn. (18 sc)
"""


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("Heel flap", "Heel Flap"),
        ("Front of left mitten", "Front Of Left Mitten"),
        ("Back piece (make 2)", "Back Piece"),
        ("Ear flap – make 2", "Ear Flap"),
        ("Leg #2", "Leg #2"),
        ("Turn heel", "Turn Heel"),
        ("Turn the heel:", "Turn The Heel"),
        ("Shape toe", "Shape Toe"),
    ],
)
def test_a_plain_phrase_over_a_first_row_names_the_part(words: str, name: str) -> None:
    assert heading_over(words, "Row 1: Sc in next 18 sts, turn.") == name
    assert heading_over(words, "With grey, ch 12.") == name


@pytest.mark.parametrize(
    "words",
    [
        "Change to smaller hook",
        "Switch to brown",
        "Working in the back loops",
        "Right side facing",
        "With right side facing",
        "Rows are turned",
        "You will need to turn",
        "Sc in each stitch across",
        "Size small only",
        "Turn work",
        "Join new yarn",
    ],
)
def test_what_tells_how_to_work_names_none(words: str) -> None:
    assert heading_over(words, "Row 1: Sc in next 18 sts, turn.") is None


def test_a_plain_phrase_names_none_where_no_piece_begins() -> None:
    assert heading_over("Heel flap", "Row 7: Sc in next 18 sts, turn.") is None
    assert heading_over("Heel flap", "Sew it to the leg.") is None
    assert heading("Heel flap") is None


def test_the_other_side_goes_on_with_the_numbers_of_the_first() -> None:
    assert heading_over("Second side", "Row 51: Join yarn in next st, ch 2.") == "Second Side"
    assert heading_over("Right shoulder", "Rows 12-14: Ch 1, sc in each st.") == "Right Shoulder"
    assert heading_over("Second side", "Sew the seams.") is None


NOTED = """Bothy Mitt
US terms.

CUFF
Ch 21, join with sl st in first ch.
Rnd 1: Ch 1, sc in each ch around, join. (21 sc)

Notes
- The hand is worked in a spiral.

HAND
Rnd 1: Sc in each st around. (21 sc)

PATTERN NOTES
Try it on now.
Rnd 2: Sc in each st around. (21 sc)
"""


def test_notes_among_the_rows_begin_no_part() -> None:
    draft = read(NOTED)
    assert [entry.name for entry in draft.entries if isinstance(entry, Part)] == ["Cuff", "Hand"]
    assert [entry.part for entry in draft.entries if isinstance(entry, Line)] == [
        "Cuff",
        "Hand",
        "Hand",
    ]


def test_a_row_of_foundation_stitches_before_round_1_is_the_foundation_row() -> None:
    draft = read(
        "Cowl\nUS terms.\nFdc 84, join. (84 fdc)\nRnd 1: Ch 3, dc in each st around. (84 dc)\n"
    )
    assert [entry.label for entry in draft.entries if isinstance(entry, Line)] == [
        "Foundation Row",
        "Rnd 1",
    ]


def test_the_rows_under_a_plain_phrase_belong_to_its_part() -> None:
    draft = read(SOCK.format(heading="Heel flap"))
    parts = [entry.name for entry in draft.entries if isinstance(entry, Part)]
    assert parts == ["Leg", "Heel Flap"]
