"""The proof by places: gaps, named chains, pairs, what is asked for after everything is used.

Every number was counted by hand, place by place; the reckonings stand beside the cases.
Common practice, no source, unless a source is named.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from coach.craft.working import Block
from tests.notation.rows import came_to

GAPS = """Gap Cloth
US terms
Ch 26.
Row 1: Sc in 2nd ch from hook and in each ch across. (25)
Row 2: Ch 1, turn, sc across. (25)
Row 3: Ch 3 (counts as dc), turn, dc in same st, *sk 2 sts, 3 dc in next st; rep from * to last 3 sts, sk 2 sts, 2 dc in last st. (25 dc)
Row 4: Ch 3 (counts as dc), turn, 3 dc in each sp between groups across, dc in top of turning ch.
"""


def test_gaps_between_groups_are_worked_one_by_one() -> None:
    """Row 3: 2 + 7 groups of 3 + 2 = 25, with 8 gaps; Row 4: 1 + 8 x 3 + 1 = 26."""
    proof = prove_text(GAPS)
    assert proof.problems == ()
    assert [row.made for row in proof.rows] == [25, 25, 25, 26]
    assert [row.worked for row in proof.rows] == [26, 25, 25, 25]


def test_a_wrong_count_over_gaps_is_found() -> None:
    proof = prove_text(GAPS.rstrip() + " (27 dc)\n")
    assert [(each.row, str(each.code)) for each in proof.problems] == [(4, "count-mismatch")]


@pytest.mark.parametrize(
    ("below", "text", "expected"),
    [
        # after "across" nothing is left: 24 and 3 more ask for 27
        ("sc 24", "Row 5: Ch 1, sc in each st across, sc in next 3 sts.", "too-many-stitches"),
        ("sc 24", "Row 5: Ch 1, sc in each st across, sc in last 3 sts.", "ok 24 -> 24"),
        ("sc 24", "Row 5: Ch 1, sc in each st to last 3 sts, sc in next 3 sts.", "ok 24 -> 24"),
        ("sc 24", "Row 5: Ch 1, sc in each st across, 2 sc in last st.", "ok 24 -> 25"),
        # a decrease over a stretch draws pairs together; an odd one is left
        ("sc 24", "Row 5: Ch 1, sc2tog across.", "ok 24 -> 12"),
        ("round sc 12", "Rnd 5: Ch 1, sc2tog around, join. (6)", "ok 12 -> 6"),
        ("round sc 12", "Rnd 5: dec around. (6)", "ok 12 -> 6"),
        ("sc 24", "Row 5: Ch 1, sc3tog across.", "ok 24 -> 8"),
        # ch 3 has no 5th chain and is no ch-4
        ("dc 20, counted 3", "Row 5: Ch 3, dc in next 18 dc, dc in 3rd ch of tch.", "ok 20 -> 20"),
        ("dc 20, counted 3", "Row 5: Ch 3, dc in next 18 dc, dc in 5th ch of tch.", "no-such-place"),
        ("dc 20, counted 3", "Row 5: Ch 1, sc in next 19 dc, sc in top of beg ch-3.", "ok 20 -> 20"),
        ("dc 20, counted 3", "Row 5: Ch 1, sc in next 19 dc, sc in top of beg ch-4.", "no-such-place"),
    ],
)  # fmt: skip
def test_places_are_those_that_are_there(below: str, text: str, expected: str) -> None:
    assert came_to(below, text) == expected


@pytest.mark.parametrize(
    ("join", "verdict"),
    [
        ("3rd ch of beg ch-3", "proved"),
        ("top of beg ch-3", "proved"),
        ("top of beg ch", "proved"),
        ("4th ch of beg ch-3", "faults"),
        ("3rd ch of beg ch-5", "faults"),
    ],
)
def test_a_join_names_a_chain_that_is_there(join: str, verdict: str) -> None:
    text = (
        "Coaster\nUS terms\nRnd 1: Make a magic ring, ch 1, 12 sc in ring, join. (12 sc)\n"
        f"Rnd 2: Ch 3 (counts as dc), dc in same st, 2 dc in each st around, join with sl st in {join}. (24 dc)\n"
    )
    assert prove_text(text).verdict == verdict


@pytest.mark.parametrize("join", ["3rd ch of beg ch-4", "3rd ch of ch-4", "top of beg ch-3"])
def test_a_chain_that_stands_for_a_stitch_and_a_space_may_be_called_by_either(join: str) -> None:
    text = (
        "Coaster\nUS terms\nRnd 1: Make a magic ring, ch 1, 12 sc in ring, join. (12 sc)\n"
        f"Rnd 2: Ch 4 (counts as dc and ch 1), *dc in next st, ch 1; rep from * around, join with sl st in {join}. "
        "(12 dc, 12 ch-1 sps)\n"
    )
    assert prove_text(text).problems == ()


@pytest.mark.parametrize(
    ("words", "verdict"),
    [
        ("Weave in ends and admire.", "no-words"),
        ("???", "no-words"),
        ("Turn.", "stitches-left-over"),
        ("Ch 1, turn.", "stitches-left-over"),
    ],
)
def test_a_row_that_works_nothing_is_never_right(words: str, verdict: str) -> None:
    assert came_to("sc 24", f"Row 5: {words}") == verdict


def test_a_wrong_count_names_the_number_that_would_mend_it() -> None:
    """5 + 4 x 2 + 5 = 18 is made where 20 is stated; 5 + 6 x 2 + 3 = 20 would be."""
    proof = prove_text(
        "Strip\nUS terms\nCh 15.\nRow 1: Sc in 2nd ch from hook and in each ch across. (14 sc)\n"
        "Row 2: Ch 1, turn, sc in next 5 sts, [2 sc in next st] 4 times, sc in each st across. (20 sc)\n"
    )
    (problem,) = proof.problems
    assert str(problem.code) == "count-mismatch"
    assert "18" in problem.message
    assert "6 times instead of 4" in problem.hint


@pytest.mark.parametrize(
    ("below", "text", "terms", "expected"),
    [
        # a round has no beginning: yarn joined in any corner begins there (44 tr, 4 sps; 4 x (3 + 11))
        (
            "round dc 5, ch2, dc 11, ch2, dc 11, ch2, dc 11, ch2, dc 6",
            "Round 4: Join B with ss in any 2ch-sp, 1ch (does not count as st), *3dc in 2ch-sp, "
            "1dc in each of next 11tr, rep from * 3 more times, ss to first dc. 56dc.",
            "UK",
            "ok 44/4 -> 56",
        ),
        (
            "round dc 5, ch2, dc 11, ch2, dc 11, ch2, dc 11, ch2, dc 6",
            "Rnd 4: Join B in any ch-2 sp, ch 3 (counts as dc), (dc, ch 2, 2 dc) in same sp, *dc in next 11 dc, "
            "(2 dc, ch 2, 2 dc) in next ch-2 sp; rep from * 2 more times, dc in next 11 dc, join.",
            "US",
            "ok 44/4 -> 60/4",
        ),
        (
            "round sc 24",
            "Rnd 5: Join C in any st, ch 1, sc in each st around, join. (24)",
            "US",
            "ok 24 -> 24",
        ),
        (
            "round sc 24",
            "Rnd 5: Join C in any st, ch 1, sc in same st, sc in each st around, join. (24)",
            "US",
            "ok 24 -> 24",
        ),
        # the last chain spans what each chain spans, up to the join: 1 + 11 x 3 + 2 = 36
        (
            "round sc 36",
            "Rnd 3: Ch 1, sc in same st, ch 3, *skip 2 sts, sc in next st, ch 3; rep from * around, join.",
            "US",
            "ok 36 -> 12/12",
        ),
        (
            "round sc 35",
            "Rnd 3: Ch 1, sc in same st, ch 3, *skip 2 sts, sc in next st, ch 3; rep from * around, join.",
            "US",
            "repeat-does-not-fit",
        ),
        # slip stitches in the middle of a row are stitches where the count says so: 4 + 3 + 8
        (
            "sc 15",
            "Row 3: Ch 1, sc in next 4 sts, sl st in next 3 sts, sc to end. (15 sts)",
            "US",
            "ok 15 -> 15",
        ),
        (
            "sc 15",
            "Row 3: Ch 1, sc in next 4 sts, sl st in next 3 sts, sc to end. (12 sts)",
            "US",
            "ok 15 -> 12",
        ),
    ],
)
def test_rounds_begin_and_end_as_they_are_worked(
    below: str, text: str, terms: str, expected: str
) -> None:
    assert came_to(below, text, terms) == expected


FANS = "Row 4: Ch 1, sc in first st, *sk 2 sts, Fan in next st, sk 2 sts, sc in next st; rep from * across."
PICOTS = "Row 4: Ch 1, *sc in next 3 sts, ch-3 picot; rep from * across."


@pytest.mark.parametrize(
    ("stated", "expected"),
    [
        ("7 Fans, 8 sc", "ok 43 -> 43"),
        ("7 fans", "ok 43 -> 43"),
        ("8 Fans, 8 sc", "count-mismatch"),
        ("8 fans, 8 sc", "count-mismatch"),
        ("7 Fans, 7 sc", "count-mismatch"),
    ],
)
def test_stated_groups_are_counted(stated: str, expected: str) -> None:
    """1 + 7 x 6 = 43 places; 7 fans of 5 and 8 sc are 43 stitches."""
    special = {"Fan": "5 dc in same st"}
    assert came_to("sc 43", f"{FANS} ({stated})", special_stitches=special) == expected


@pytest.mark.parametrize(
    ("stated", "expected"), [("8 picots", "ok 24 -> 24"), ("7 picots", "count-mismatch")]
)
def test_stated_picots_are_counted(stated: str, expected: str) -> None:
    """A picot after every 3 of 24: 8 of them, which are neither stitches nor spaces."""
    assert came_to("sc 24", f"{PICOTS} (24 sc, {stated})") == expected


def test_stitches_within_groups_are_not_those_stated_beside_them() -> None:
    """Over 25: 8 groups with an sc in each, and 1 sc at the end."""
    row = (
        "Row 8: Ch 1, (sc, hdc, dc) in first st, sk next 2 sts, *(sc, hdc, dc) in next st, sk next 2 sts; "
        "rep from * across to last st, sc in last st."
    )
    assert came_to("sc 25", f"{row} (8 shells, 1 sc)") == "ok 25 -> 25"
    assert came_to("sc 25", f"{row} (8 shells, 2 sc)") == "count-mismatch"


LACE = """Lace Strip
US terms
V (dc, ch 3, dc) in same st
Ch 18.
Row 1: Sc in 2nd ch from hook and in each ch to end; turn. (17 sc)
Row 2: Ch 3 (counts as dc), sk 3 sc, V in next sc, *sk 3 sc, dc in next sc, sk 3 sc, V in next sc; rep from * to last 4 sc, sk 3 sc, dc in last sc; turn. (2 Vs, 3 dc)
Row 3: Ch 1, sc in first dc, *7 dc in ch-3 sp of next V, sc in next dc; rep from * to end, turn. (3 sc, 14 dc)
Row 4: Ch 6 (counts as dc and ch 3), sk 3 dc, sc in next dc, ch 3, *dc in next sc, ch 3, sk 3 dc, sc in next dc, ch 3; rep from * to last sc, dc in last sc; turn. (3 dc, 2 sc, 4 ch-3 sps)
"""


def test_work_in_the_space_of_a_group_may_use_the_whole_group_up() -> None:
    """Row 2: 1 + 2 x 2 + 1 + 1 = 7 dc, 2 spaces; Row 3 uses all of it, 3 + 2 x 7 = 17;

    Row 4: "to last sc" stops with 3 dc before that sc, which are passed over.
    """
    proof = prove_text(LACE)
    assert [(each.label, each.message) for each in proof.problems] == []
    sums = [(row.worked, row.spaces_worked, row.made, row.spaces) for row in proof.rows]
    assert sums == [(18, 0, 17, 0), (17, 0, 7, 2), (7, 2, 17, 0), (17, 0, 5, 4)]
    assert any(reading.taken == "uses the whole group up" for reading in proof.readings)


def test_free_loops_of_the_foundation_are_told_as_such() -> None:
    text = (
        "Mat\nUS terms\nCh 11.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (10 sc)\n"
        "Row 2: Ch 1, sc in each sc across. (10 sc)\n"
        "BORDER\nRnd 1: Ch 1, sc in next 10 sts, work 2 sc evenly along row ends; working in free loops of "
        "foundation ch, 3 sc in first ch, sc in next 8 ch, 3 sc in last ch; work 2 sc evenly along row ends, join. (28 sc)\n"
    )
    into = [
        str(work.where.into) for work in prove_text(text).rows[-1].work if isinstance(work, Block)
    ]
    assert into == [
        "nothing",
        "next",
        "row end",
        "free loop",
        "free loop",
        "free loop",
        "row end",
        "next",
    ]
