"""Further pieces of one pattern: each is begun anew, and how many to make of it is told.

Chains and counts by hand: a chain of 6 with the first skipped makes 5 single crochet.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from coach.app.telling import Telling
from coach.craft.stage import Stage
from coach.craft.stages import stages
from coach.craft.steps import StageKind
from coach.guide.place import Guide, Piece
from coach.notation.headings import copies_of
from coach.wording.row_facts import opening

FOX = """\
Little Fox (US terms)

EAR (make 2)
Ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)
Row 2: Ch 1, sc in each st across. Fasten off. (10 sc)

BODY
With B, ch 6.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (5 sc)

HEAD
Rnd 1: 6 sc in magic ring. (6 sc)
"""


def laid_out() -> tuple[Stage, ...]:
    return stages(prove_text(FOX))


def test_each_piece_has_its_own_beginning() -> None:
    begun = [stage.label for stage in laid_out() if stage.kind is not StageKind.FINISHING]

    assert begun == [
        "Foundation", "Row 1", "Row 2",
        "Body foundation", "Body Row 1",
        "Head foundation", "Head Rnd 1",
    ]  # fmt: skip


def test_a_further_chain_is_told_with_its_length_and_its_yarn() -> None:
    body = next(stage for stage in laid_out() if stage.label == "Body foundation")

    assert body.stitches == 6
    assert opening(body).startswith("Body foundation: 6 chains in B.")


def test_the_yarn_of_a_further_piece_does_not_come_in_at_the_end_of_the_one_before() -> None:
    body = "BODY\nWith white, ch 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. (5 sc)\n"
    wing = body.replace("BODY", "WING").replace("white", "grey")
    rows = [stage for stage in stages(prove_text(f"Gull\n{body}{wing}")) if stage.row is not None]

    assert [(row.color, row.color_before, row.color_after) for row in rows] == [
        ("white", "white", None),
        ("grey", "grey", None),
    ]


def test_a_new_piece_is_not_turned_to() -> None:
    first_rows = [stage for stage in laid_out() if stage.label in {"Body Row 1", "Head Rnd 1"}]

    assert [stage.turns_first for stage in first_rows] == [False, False]


def test_how_many_to_make_is_told_once_where_the_piece_begins() -> None:
    told = [stage.label for stage in laid_out() if "Make 2 of this part." in opening(stage)]

    assert told == ["Foundation"]


def test_a_count_is_set_beside_its_row_though_foundations_lie_between() -> None:
    proof = prove_text(FOX)
    telling = Telling(proof, Piece(stages(proof)))
    rows = [telling.row_index(at) for at in range(7)]

    assert rows == [None, 0, 1, None, 2, None, 3]
    assert [proof.rows[at].label for at in rows if at is not None] == [
        "Row 1", "Row 2", "Body Row 1", "Head Rnd 1",
    ]  # fmt: skip
    assert telling.counts(Guide()) == {}


@pytest.mark.parametrize(
    ("heading", "copies"),
    [
        ("EAR (make 2)", 2),
        ("Ears – work two", 2),
        ("Arms: make a pair", 2),
        ("Leg x 4", 4),
        ("WING (2x)", 2),
        ("Eyes (2):", 2),
        ("BODY", 1),
        ("PART 2", 1),
        ("Rows 3 and 4", 1),
        ("MOTIFS THREE TO SEVEN", 5),
    ],
)
def test_a_heading_says_how_many(heading: str, copies: int) -> None:
    assert copies_of(heading) == copies
