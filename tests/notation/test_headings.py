"""A part's own name, however it is written over its first row."""

import pytest

from coach.craft.pattern import Part
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
    ],
)
def test_what_tells_how_to_work_names_none(words: str) -> None:
    assert heading_over(words, "Row 1: Sc in next 18 sts, turn.") is None


def test_a_plain_phrase_names_none_where_no_piece_begins() -> None:
    assert heading_over("Heel flap", "Row 7: Sc in next 18 sts, turn.") is None
    assert heading_over("Heel flap", "Sew it to the leg.") is None
    assert heading("Heel flap") is None


def test_the_rows_under_a_plain_phrase_belong_to_its_part() -> None:
    draft = read(SOCK.format(heading="Heel flap"))
    parts = [entry.name for entry in draft.entries if isinstance(entry, Part)]
    assert parts == ["Leg", "Heel Flap"]
