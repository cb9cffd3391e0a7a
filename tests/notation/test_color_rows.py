"""Yarn told by rows and not in their words: stripes, ranges, changes, repeats in another yarn."""

from __future__ import annotations

import pytest

from coach.app.proving import proof_json, prove_text
from coach.craft.proof import Proof
from coach.craft.stage import Stage
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.notation.reading import read
from coach.notation.writing import alike, write
from coach.wording.step_sentences import step_told

MAT = """\
Harbour Mat (US terms)
{before}
With A, ch 11.
Row 1: Sc in 2nd ch from hook and in each ch across. (10)
Rows 2-{last}: Ch 1, turn, sc in each st across. (10)
{after}"""


def mat(before: str = "", after: str = "", last: int = 8) -> str:
    return MAT.format(before=before, after=after, last=last)


def yarns(text: str) -> str:
    """The yarn of every row: "AABB", rows of two yarns in brackets."""
    rows = proof_json(prove_text(text))["rows"]
    told = ["".join(row["colors"]) or "?" for row in rows]
    return "".join(each if len(each) == 1 else f"({each})" for each in told)


def rows_of(proof: Proof) -> list[Stage]:
    return [stage for stage in stages(proof) if stage.row is not None]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("Rows 1–4 in A, Rows 5–8 in B.", "AAAABBBB"),
        ("Rows 1-2 in A, 3-6 in B, 7-8 in A", "AABBBBAA"),
        ("Notes: Work Rows 1-3 in A, Rows 4-8 in B.", "AAABBBBB"),
        ("Rows 1, 3, 5 and 7 in A; Rows 2, 4, 6 and 8 in B.", "ABABABAB"),
        ("A: Rows 1-2, 5-6\nB: Rows 3-4, 7-8", "AABBAABB"),
        ("Use A for Rows 1-6 and B for Rows 7-8.", "AAAAAABB"),
        ("Rows 1-2: A\nRows 3-8: B", "AABBBBBB"),
        ("Stripe sequence: 2 rows A, 2 rows B; rep.", "AABBAABB"),
        ("*2 rows A, 1 row B; rep from * throughout.", "AABAABAA"),
        ("Stripe Pattern\n3 rows A\n1 row B\n1 row C\nRepeat throughout.", "AAABCAAA"),
        ("Work in stripes of 1 row A and 2 rows B.", "ABBABBAB"),
        ("2 rows each of A, B and C, repeated.", "AABBCCAA"),
        ("Alternate A and B every 2 rows.", "AABBAABB"),
        ("Change to B at the end of Row 5.", "AAAAABBB"),
        ("Change to the next colour in every 2nd row, working in sequence A, B, C.", "AABBCCAA"),
        ("Work 3 rows in each colour in the order A, B.", "AAABBBAA"),
        ("Rows 1-2 in A, Rows 3-6 in B, and Rows 7-8 in A.", "AABBBBAA"),
        ("1 row each of A, B, C, B, and 4 rows of A", "ABCBAAAA"),
        ("At the end of Row 2, change to B. Change to C in last yo of Row 6.", "AABBBBCC"),
        ("From Row 7 on use C.", "AAAAAACC"),
        ("Use B from Row 6.", "AAAAABBB"),
        ("Join C at beginning of Row 7.", "AAAAAACC"),
        ("Join B at the beg of Row 3, fasten off A. Join C at start of Row 6.", "AABBBCCC"),
        ("Work with B from Row 3 to Row 8.", "AABBBBBB"),
        ("Rows 5 and 6 are in B; all others in A.", "AAAABBAA"),
        ("Work 1 row A, 1 row B, then 3 rows of each colour in the same order.", "ABAAABBB"),
        ("At the same time, work in stripes of 2 rows A and 2 rows B.", "AABBAABB"),
        ("Rows 1-4 are worked in A and Rows 5-8 in\nB, carrying the yarn up.", "AAAABBBB"),
        ("Rows 1-4 are worked in A and Rows 5-8 in\nB.", "AAAABBBB"),
    ],
)
def test_the_yarn_of_each_row_is_told_before_the_rows(words: str, expected: str) -> None:
    assert yarns(mat(words)) == expected


def test_yarn_by_its_name_goes_where_the_pattern_says() -> None:
    rows = proof_json(prove_text(mat("Rows 1-5 in Heather, Rows 6-8 in Moss.")))["rows"]

    assert [row["colors"] for row in rows] == [["Heather"]] * 5 + [["Moss"]] * 3


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("Rows 3-8: Rep Row 2 (2 rows B, 2 rows C, 2 rows A). (10)", "AABBCCAA"),
        ("Rows 3-8: Rep Row 2 [B, B, C, C, A, A]. (10)", "AABBCCAA"),
        ("Rep Row 2 six more times (B, C, A, B, C, A).", "AABCABCA"),
        ("Rows 3-8: Rep Row 2. (10)", "AAAAAAAA"),
    ],
)
def test_the_yarns_of_a_repeat_may_stand_in_a_bracket(words: str, expected: str) -> None:
    assert yarns(mat(after=f"{words}\n", last=2)) == expected


def test_stripes_told_at_the_same_time_go_over_the_rows_of_their_range() -> None:
    words = (
        "Harbour Mat (US terms)\nWith A, ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\n"
        "Rows 2-9: Ch 1, turn, sc in each st across, AT THE SAME TIME working stripes: 2 rows A, 2 rows B. (10)\n"
    )

    assert yarns(words) == "AAABBAABB"


def test_a_heading_that_joins_is_no_yarn() -> None:
    after = "Join Squares\nSew the squares together."

    assert yarns(mat(after=after)) == "AAAAAAAA"


def test_what_names_no_yarn_is_no_plan_of_colours() -> None:
    for words in (
        "Rows 1 and 2 in the round.",
        "Gauge: 14 sts and 8 rows in sc.",
        "12 rows in all",
    ):
        assert read(mat(words)).color_plan.stretches == ()


@pytest.mark.parametrize(
    ("after", "expected"),
    [
        ("Change to B.\nRow 5: Ch 1, turn, sc in each st across. (10)", "AAAAB"),
        ("Fasten off A. Join B.\nRow 5: Ch 1, turn, sc in each st across. (10)", "AAAAB"),
        ("Row 5 (B): Ch 1, turn, sc in each st across. (10)", "AAAAB"),
        ("Rows 5-8: With B, rep Row 2.", "AAAABBBB"),
        ("Rep Rows 3-4 in B, C, A.", "AAAABBCCAA"),
        ("Rows 5-8: Rep Row 2, alternating 1 row B and 1 row A.", "AAAABABA"),
        ("Rows 5-8: Ch 1, turn, sc in each st across, alternating 1 row B and 1 row C. (10)", "AAAABCBC"),
        ("Work Rows 3-4 in B.", "AAAABB"),
        ("Row 5: Ch 1, turn, sc in each st across. (10) Fasten off A. Join B.\n"
         "Row 6: Ch 1, turn, sc in each st across. (10)", "AAAAAB"),
    ],
)  # fmt: skip
def test_yarn_told_between_the_rows_holds_from_there(after: str, expected: str) -> None:
    text = mat(after=after, last=4)

    assert yarns(text) == expected
    assert prove_text(text).holds


def test_what_a_row_says_of_its_yarn_goes_before_the_plan() -> None:
    text = mat("Rows 1-9 in A.", "Row 9: With C, ch 1, turn, sc in each st across. (10)")

    assert yarns(text) == "AAAAAAAAC"


def test_a_plan_of_a_border_leaves_the_rows_before_it_alone() -> None:
    after = (
        "BORDER\nRnds 1-2 in B, Rnd 3 in C.\nRnd 1: Ch 1, sc in each st around. (10)\n"
        "Rnds 2-3: Ch 1, sc in each st around. (10)"
    )

    assert yarns(mat(after=after, last=4)) == "AAAABBC"


def test_the_next_yarn_is_told_in_the_last_stitch_of_the_row_before() -> None:
    # R45: 10 sc in A, the tenth drawn through with B.
    proof = prove_text(mat("Rows 1-4 in A, Rows 5-8 in B."))
    fourth, fifth = rows_of(proof)[3:5]
    last = steps(fourth)[-1]

    assert last.color_next == "B"
    assert "9 in A; the tenth: bring in B on its last pull" in step_told(fourth, last)
    assert steps(fifth)[-1].color_next is None


def test_yarn_that_is_cut_and_joined_anew_comes_in_with_the_new_row() -> None:
    text = mat(
        after="Row 5: Ch 1, turn, sc in each st across. (10) Fasten off A.\n"
        "Row 6: Join B in first st, ch 1, sc in each st across. (10)",
        last=4,
    )
    fifth = rows_of(prove_text(text))[4]

    assert steps(fifth)[-1].color_next is None


@pytest.mark.parametrize("terms", ["US", "UK"])
@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("Rows 1-4 in A, Rows 5-8 in B.", ""),
        ("Stripe sequence: 2 rows A, 2 rows B, 1 row C; rep.", "Rep Rows 3-4 in B, C, A."),
        ("Change to B at the end of Row 5.", "Rows 9-12: Rep Row 2, alternating 1 row A, 1 row B."),
        ("", "BORDER\nRnds 1-2 in B.\nRnds 1-3: Ch 1, sc in each st around. (10)"),
    ],
)
def test_the_plan_is_read_the_same_after_writing(before: str, after: str, terms: str) -> None:
    draft = read(mat(before, after), terms="US")

    assert alike(read(write(draft, terms=terms), terms=terms)) == alike(draft)


@pytest.mark.parametrize(
    ("words", "row", "told"),
    [
        # Down after Row 2, Rows 3 and 4 in B, up in Row 5: it hangs where Row 5 begins.
        ("Stripe sequence: 2 rows A, 2 rows B; rep.", 2,
         "A is wanted again in Row 5. Let it wait at this edge, and carry it up loosely."),
        ("Stripe sequence: 1 row A, 1 row B; rep.", 1,
         "A is wanted again in Row 3. That begins at the other edge: cut it."),
        # Three yarns, a row of each: down after Row 1, up in Row 4, two rows later.
        ("Stripe sequence: 1 row A, 1 row B, 1 row C; rep.", 1,
         "A is wanted again in Row 4. Let it wait at this edge, and carry it up loosely."),
        ("Rows 1-2 in A, Rows 3-8 in B, Rows 9-10 in A.", 2,
         "A is wanted again in Row 9. That is a long way up: cut it."),
        ("Rows 1-4 in A, Rows 5-8 in B.", 4, "A is not wanted again: cut it."),
    ],
)  # fmt: skip
def test_a_yarn_put_down_is_carried_up_or_cut(words: str, row: int, told: str) -> None:
    stage = rows_of(prove_text(mat(words, last=10)))[row - 1]

    assert told in step_told(stage, steps(stage)[-1])


def test_what_the_pattern_says_of_cutting_is_left_to_it() -> None:
    text = mat(after="Row 5: With B, ch 1, turn, sc in each st across. (10) Fasten off B.\n"
               "Row 6: With A, ch 1, turn, sc in each st across. (10)", last=4)  # fmt: skip
    fifth = rows_of(prove_text(text))[4]

    assert fifth.waiting is None


@pytest.mark.parametrize(
    "mark",
    [
        "three times more: Rows 4-5 in A",
        "three times more; Rows 4-5 in A",
        "three times more. Rows 4-5 in A",
    ],
)
def test_rows_that_repeat_others_may_tell_their_yarn_in_the_same_line(mark: str) -> None:
    text = (
        "US terms\nWith A, ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (10)\n"
        "Rows 2 and 3: Ch 1, turn, sc in each st across. (10)\n"
        f"Rows 4-9: Rep Rows 2 and 3 {mark}, Rows 6-7 in B, Rows 8-9 in C.\n"
    )
    assert yarns(text) == "AAAAABBCC"


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("Work with B from Row 3 to Row 5.", "AABBBAAA"),
        ("From Row 3 to Row 5 use B.", "AABBBAAA"),
        ("Rows 3 and 4 in B.", "AABBAAAA"),
        ("Switch to B for rows 5 and 6.", "AAAABBAA"),
        ("Use B from Row 5.", "AAAABBBB"),
        ("Colour B: Rows 2-3, 6. Colour A: all other rows.", "ABBAABAA"),
        ("Rows 2-3 and 6 in B; A for the rest.", "ABBAABAA"),
        ("Rows 1-2 in B, Rows 3-4 in C.", "BBCCCCCC"),  # told from the first: the last goes on
        ("Alternate A and B every 2 rows.", "AABBAABB"),
        ("2 rows A, 1 row B, then 1 row of each colour in the same order.", "AABABBBB"),
    ],
)
@pytest.mark.parametrize("stands", ["before", "after"])
def test_yarn_may_be_told_before_all_rows_or_after_them(
    stands: str, words: str, expected: str
) -> None:
    text = mat(words) if stands == "before" else mat(after=words)
    assert yarns(text) == expected
