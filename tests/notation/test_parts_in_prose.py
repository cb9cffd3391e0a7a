"""Parts of a toy that begin in a sentence, in small letters, or with a bare number.

A head of 6, 12 and 12 stands before each; an ear is 5 and 10, counted by hand. The forms are common
practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from coach.notation.parts_in_prose import part_in_prose

HEAD = (
    "Pip Bear (US terms)\nHEAD\nRnd 1: 6 sc in magic ring. (6)\nRnd 2: Inc x 6. (12)\n"
    "Rnd 3: Sc in each st around. (12)\nFasten off.\n\n"
)
EAR = "Rnd 1: 5 sc in magic ring. (5)\nRnd 2: Inc x5. (10)\n"


@pytest.mark.parametrize(
    ("words", "part", "copies"),
    [
        (f"The ears are made in grey. Make two.\n{EAR}", "Ears", 2),
        (f"Next, make two ears in pink.\n{EAR}", "Ears", 2),
        (f"*** ears ***\n{EAR}", "Ears", 1),
        (f"ears\n{EAR}", "Ears", 1),
        (f"Ears – work two\n{EAR}", "Ears", 2),
        (f"Two ears\n{EAR}", "Ears", 2),
        ("Ears: work two\nMagic ring, 5 sc. (5)\nRnd 2: Inc x5. (10)\n", "Ears", 2),
        ("ARM (make 2)\n1. 5 sc in magic ring (5)\n2. inc x5 (10)\n", "Arm", 2),
        ("For the ears, with grey make a magic ring, 5 sc in ring (5). Rnd 2: inc in each st. (10)\n", "Ears", 1),
        ("Now make the tail.\nStart with a magic ring.\nRnd 1: 5 sc. (5)\nRnd 2: Inc x5. (10)\n", "Tail", 1),
        ("With grey, make a magic ring and work 5 sc into it. (5)\nRnd 2: Inc x5. (10)\n", "Head", 1),
        ("With grey, make a magic ring.\nRnd 1: 5 sc in ring. (5)\nRnd 2: Inc x5. (10)\n", "Piece 2", 1),
    ],
)  # fmt: skip
def test_a_part_begins_in_a_sentence(words: str, part: str, copies: int) -> None:
    proof = prove_text(f"{HEAD}{words}")
    rows = proof.rows[3:]

    assert proof.problems == ()
    assert [(row.part, row.worked, row.made) for row in rows] == [(part, None, 5), (part, 5, 10)]
    assert rows[0].copies == copies


def test_a_part_in_a_sentence_may_begin_with_a_chain() -> None:
    proof = prove_text(
        f"{HEAD}Now make the tail. Ch 6. Sc in 2nd ch from hook and in each ch across. (5)\n"
    )

    assert proof.problems == ()
    assert (proof.rows[-1].label, proof.rows[-1].worked, proof.rows[-1].made) == (
        "Tail Row 1",
        6,
        5,
    )


@pytest.mark.parametrize(
    "words",
    [
        "Sew the ears to the head.",
        "Make sure the head is firm.",
        "The ears are sewn on.",
        "Stuff the body lightly.",
        "For the photo, I used grey.",
        "Turn the head over.",
        "Petal: 5 dc in same st.",
    ],
)
def test_what_is_done_with_a_part_begins_none(words: str) -> None:
    told = part_in_prose(words)

    assert told is None or words[told[1] :].strip()


def test_a_sentence_on_a_part_before_a_later_round_begins_none() -> None:
    proof = prove_text(
        f"{HEAD.replace('Fasten off.', 'The head is worked firmly.')}Rnd 4: Sc in each st around. (12)\n"
    )

    assert (proof.problems, len(proof.rows)) == ((), 4)
    assert {row.part for row in proof.rows} <= {"Head", None}


PIECES = """Fox set
US terms.

HEAD
Rnd 1: 6 sc in magic ring. (6)
Fasten off.

{words}
Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)
"""


@pytest.mark.parametrize(
    ("words", "label"),
    [
        ("Make two ears as follows. Ch 11.", "Ears Row 1"),
        ("You also need a small bow tie. Ch 11.", "Bow Tie Row 1"),
        ("We'll need one tail, in orange: ch 11.", "Tail Row 1"),
        # no thing that the coach knows: a piece of its own all the same, and not the head's
        ("The lead for him begins with ch 11.", "Piece 2 Row 1"),
        ("With brown, ch 11.", "Piece 2 Row 1"),
    ],
)
def test_a_piece_with_a_foundation_of_its_own_is_not_of_the_heading_before(
    words: str, label: str
) -> None:
    proof = prove_text(PIECES.format(words=words))
    assert proof.problems == ()
    assert [row.label for row in proof.rows] == ["Rnd 1", label]
