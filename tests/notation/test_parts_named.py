"""Parts under their headings, and the words around them that are no rows.

The pieces and the sums are ours, counted by hand: a cloth of 10 stitches and 5 rows wherever
nothing else is said. The forms are common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

ROWS = (
    "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
    "Rows 2-5: Ch 1, sc in each st across, turn. (10 sc)\n"
)
CLOTH = f"Ch 11.\n{ROWS}"


@pytest.mark.parametrize(
    ("parts", "rows"),
    [
        (f"EAR (make 2)\n{CLOTH}Fasten off.\n\nBODY\n{CLOTH}", 10),
        (f"Ears – Make 2\n{CLOTH}\nArms (Make Two)\n{CLOTH}", 10),
        (f"Ears x2\n{CLOTH}\nLeg (x 4)\n{CLOTH}", 10),
        (f"EARS\nMake 2.\n{CLOTH}\nBODY\n{CLOTH}", 10),
        (f"First Ear\n{CLOTH}\nSecond Ear\nWork as First Ear.", 10),
        (f"PART ONE – SOLE\n{CLOTH}\nPART TWO – TOP\n{CLOTH}", 10),
        (f"Ear: With brown, ch 11.\n{ROWS}\nBody: Ch 11.\n{ROWS}", 10),
        (f"BODY\n{CLOTH}\nLeft ear: Ch 6. Sc in 2nd ch from hook and in each ch across. (5)", 6),
        (f"BODY\n{CLOTH}\nNose: With black, 6 sc in magic ring. Join. (6) Fasten off.", 6),
        (f"BODY\n{CLOTH}\nEYE (make 2)\nWith black, work 6 sc into a magic ring. (6)", 6),
        ("HEAD\nWith white, 6 sc in magic ring. (6)\nRnd 2: Inc in each st around. (12)", 2),
        ("Rnd 1:\n6 sc in magic ring (6)\nRnd 2:\ninc x6 (12)", 2),
        ("HEAD\n6 sc in magic ring (6)\nRnd 1: inc x6 (12)\nRnd 2: sc around (12)", 3),
        ("Strap: Ch 5. Row 1: Sc in 2nd ch from hook and in each ch across. (4)", 1),
    ],
)
def test_parts_begin_under_their_headings(parts: str, rows: int) -> None:
    proof = prove_text(f"Little Fox Set (US terms)\n\n{parts}\n")

    assert proof.problems == ()
    assert len(proof.rows) == rows


@pytest.mark.parametrize(
    "words",
    [
        "Gauge: Ch 16. Sc in 2nd ch from hook and in each ch across. (15) = 10 cm",
        "Swatch: ch 21, work 10 rows of sc.",
        "Picot: Ch 4, sl st in 4th ch from hook.",
        "Tip: With B, ch 11 loosely.",
        "NOTES\n6 sc in magic ring means that 6 sc are worked into the ring.",
        "NOTES\n1. Read first.\n2. Join each round with sl st in first sc.\n3. Sc in each st.",
        "ABBREVIATIONS\nsc2tog: sc 2 together\n( ): work in same st\nMR - magic ring\ninc: 2 sc in same st",
        "MATERIALS\n4 mm hook\n2 stitch markers\n1. Scissors\n6 sc = 1 inch\n20 sc and 24 rows = 10 cm",
    ],
)
def test_front_matter_adds_no_row(words: str) -> None:
    proof = prove_text(f"Little Fox Set (US terms)\n\n{words}\n\nBODY\n{CLOTH}")

    assert proof.problems == ()
    assert [row.number for row in proof.rows] == [1, 2, 3, 4, 5]


def test_finishing_adds_no_row() -> None:
    words = (
        "FINISHING\nSew 2 ears to Rows 3-4 of the head. With RS together, sc through both layers "
        "along the side, 2 rows from the edge.\nAssembly: Sew arms between Rows 2 and 3."
    )
    proof = prove_text(f"Little Fox Set (US terms)\n\nBODY\n{CLOTH}\n{words}\n")

    assert proof.problems == ()
    assert len(proof.rows) == 5


def test_lines_without_any_name_are_not_glued_to_a_round() -> None:
    proof = prove_text("6 sc in magic ring\ninc x6 (12)\n(sc, inc) x6 (18)\n")

    assert (proof.verdict, proof.rows) == ("unreadable", ())
