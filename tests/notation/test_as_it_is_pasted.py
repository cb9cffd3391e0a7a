"""What stands around a pattern as it is sent: mails, titles set apart, advice on the size.

The cloths are ours: a chain of 21 makes 20 single crochet. The forms are common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

CLOTH = (
    "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\n"
    "Row 2: Ch 1, turn, sc in each\nst across. (20)\n"
)


def test_a_quoted_mail_is_read_without_its_marks() -> None:
    quoted = "".join(f"> {line}\n" for line in f"Tea Cloth (US terms)\n\n{CLOTH}".splitlines())
    proof = prove_text(
        f"Subject: Fwd: that cloth\nFrom: a friend\n\nHi Nell,\nhere it is.\n\n{quoted}"
    )

    assert (proof.problems, len(proof.rows)) == ((), 2)
    assert proof.title == "Tea Cloth"


def test_a_fault_in_a_quoted_mail_is_told_at_its_own_column() -> None:
    quoted = "".join(f"> {line}\n" for line in f"Tea Cloth (US terms)\n{CLOTH}".splitlines())
    (problem,) = prove_text(quoted.replace("(20)", "(21)", 1)).problems

    assert (problem.place.line, problem.place.column) == (3, 57)


@pytest.mark.parametrize(
    ("first", "title"),
    [
        ("W E A T H E R   C L O T H", "Weather Cloth"),
        ("Subject: Re: Fwd: Tea cloth", "Tea cloth"),
        ("A B", "A B"),
    ],
)
def test_a_title_is_told_as_its_words(first: str, title: str) -> None:
    assert prove_text(f"{first}\n(US terms)\n{CLOTH}").title == title


@pytest.mark.parametrize(
    "note",
    [
        "Chain-3 at beginning of row counts as first double crochet throughout.",
        "Chain 3 at the beg of each row counts as a dc.",
        "Ch 2 at beginning of rounds is not a stitch and never counts.",
        "TO ADJUST THE SIZE\nChain any multiple of 4 + 1.",
        "RESIZING\nCh a multiple of 5 plus 1.\n\nNOTES\nRead it first.\n\nTHE PATTERN",
    ],
)
def test_a_note_on_a_chain_is_no_foundation(note: str) -> None:
    proof = prove_text(f"Tea Cloth (US terms)\n{note}\n\n{CLOTH}")

    assert proof.problems == ()
    assert proof.foundation is not None
    assert proof.foundation.chains == 21


def test_a_slip_in_a_row_that_is_repeated_is_told_once() -> None:
    # Row 2 adds two where its count says one; meant is one a row: 3, 4, 5 and so to 9 in Row 7.
    (problem,) = prove_text(
        "Corner Shawl (US terms)\nCh 4.\nRow 1: 2 dc in 4th ch from hook (skipped chs count as first dc). Turn. [3 dc]\n"
        "Row 2: Ch 3 (counts as dc), 2 dc in same st, dc in each st across. Turn. [4 dc]\n"
        "Row 3: Ch 3, dc in same st, dc in each st across. Turn. [5 dc]\n"
        "Rows 4-7: Rep Rows 2 and 3 twice more. [9 dc at end of Row 7]\n"
    ).problems

    assert (problem.code.value, problem.label) == ("count-mismatch", "Row 2")


@pytest.mark.parametrize("rows", ["Rnd 2", "Rnds 2-3", "Rnds 2 and 3"])
def test_a_slip_stitch_that_closes_each_round_of_a_range_is_no_stitch(rows: str) -> None:
    proof = prove_text(
        "Bootee (UK terms)\nMake 11ch.\nRnd 1: 3dc in 2nd ch from hook, 1dc in next 8ch, 6dc in last ch, working "
        "down other side of ch 1dc in next 8ch, 3dc in last ch, ss to 1st dc (28dc)\n"
        f"{rows}: 1ch, 1dc in each dc, ss to 1st dc (28dc)\n"
    )

    assert proof.problems == ()
    assert {row.made for row in proof.rows} == {28}


LEGS = """\
Little Otter (US terms)
LEGS (make 2)
Rnd 1: 6 sc in MR (6)
Rnd 2: 6 inc (12)
Rnd 3: (3 sc, inc) x 3 (15)

BODY
{body}
Rnd 5: sc in each st ({made})
"""


@pytest.mark.parametrize(
    ("body", "made"),
    [
        ("Rnd 4: ch 3, join to the first leg, 15 sc around the first leg, 3 sc along the ch, 15 sc around the "
         "second leg, 3 sc along the other side of the ch (36)", 36),
        ("Rnd 4: With second leg on hook, ch 3, sc in next 15 sts of first leg, sc in next 3 ch, sc in next "
         "15 sts of second leg, sc in 3 ch (36)", 36),
        ("Rnd 4: Ch 2, sc 15 around leg one, sc 2 across ch, sc 15 around leg two, sc 2 across ch. (34)", 34),
        ("Rnd 4: Sc in each of 15 sts of first leg, then sc in each of 15 sts of second leg. (30)", 30),
        ("Rnd 4: Join legs: sc in each st of first leg, sc in each st of second leg. (30)", 30),
    ],
)  # fmt: skip
def test_two_legs_are_joined_in_one_round(body: str, made: int) -> None:
    proof = prove_text(LEGS.format(body=body, made=made))

    assert proof.problems == ()
    assert [(row.worked, row.made) for row in proof.rows[-2:]] == [(None, made), (made, made)]


def test_legs_and_chain_that_do_not_make_the_stated_body_are_a_fault() -> None:
    body = "Rnd 4: ch 3, 15 sc around the first leg, 3 sc along the ch, 14 sc around the second leg, 3 sc along the ch (36)"
    (problem,) = prove_text(LEGS.format(body=body, made=36)).problems

    assert (problem.code.value, problem.row) == ("count-mismatch", 4)
