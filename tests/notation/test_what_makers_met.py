"""Patterns as makers and designers met them: the examples of the user needs, with their answers.

Each test names the need (R01 to R53) it comes from; the texts are ours, the sums by hand.
"""

from __future__ import annotations

from coach.app.proving import prove_text
from coach.craft.problem import Verdict
from coach.craft.proof import Proof
from tests.notation.rows import came_to


def made(proof: Proof) -> list[int]:
    return [row.made for row in proof.rows]


def codes(proof: Proof) -> list[Verdict]:
    return [problem.code for problem in proof.problems]


def test_r01_ten_rows_on_one_line_hold_at_26() -> None:
    proof = prove_text(
        "Ch 27. Row 1: Sc in 2nd ch from hook and in each ch across. (26 sc) "
        "Rows 2-10: Ch 1, turn, sc in each sc across. (26 sc)"
    )
    assert proof.verdict == "proved"
    assert made(proof) == [26] * 10


def test_r02_a_row_without_a_count_is_worked_out() -> None:
    proof = prove_text("Ch 43. Row 1: Sc in 2nd ch from hook and in each ch across.")
    assert (proof.rows[0].made, proof.rows[0].stated) == (42, None)


def test_r03_a_silent_chain_of_two_is_one_question_with_both_answers() -> None:
    proof = prove_text(
        "Ch 20. Row 1: Hdc in 3rd ch from hook and in each ch across. "
        "Row 2: Ch 2, turn, hdc in each st across."
    )
    assert len(proof.questions) == 1
    assert "18" in proof.questions[0].choices[0]
    assert "19" in proof.questions[0].choices[1]
    assert not proof.problems


def test_r07_sixteen_spokes_and_sixteen_spaces() -> None:
    proof = prove_text(
        "Ch 6, join with sl st to form a ring. Rnd 1: Ch 3 (counts as dc), 15 dc in ring, join with "
        "sl st to top of ch-3. (16 dc) Rnd 2: Ch 4 (counts as dc and ch 1), *dc in next dc, ch 1; "
        "rep from * around, join to 3rd ch of ch-4. (16 dc, 16 ch-1 sps)"
    )
    assert proof.verdict == "proved"
    assert [(row.made, row.spaces) for row in proof.rows] == [(16, 0), (16, 16)]


def test_r10_a_long_chain_is_of_its_multiple() -> None:
    proof = prove_text("Ch 198 (multiple of 3).")
    assert proof.foundation is not None
    assert proof.foundation.chains == 198
    assert not proof.problems


def test_r11_thirteen_a_side_make_52() -> None:
    words = "round 4 x (dc 9, ch2)"
    text = (
        "Rnd 4: Ch 3 (counts as dc), *dc in each dc to corner, (2 dc, ch 2, 2 dc) in corner sp; "
        "rep from * around, join. (52 dc)"
    )
    assert came_to(words, text) == "ok 36/4 -> 52/4"


def test_r12_two_sc_is_read_as_the_sums_allow() -> None:
    assert came_to("round sc 12", "Rnd 3: [2 sc, sc] 6 times. (18)") == "ok 12 -> 18"
    assert came_to("round sc 18", "Rnd 4: [2 sc, sc] 6 times. (18)") == "ok 18 -> 18"
    assert came_to("round sc 15", "Rnd 5: [2 sc, sc] 6 times.") == "too-many-stitches"


def test_r13_five_times_after_a_star_are_six_in_all() -> None:
    assert came_to("round sc 30", "Rnd 6: *Inc, sc in next 4 sts; rep from * 5 times. (36)") == (
        "ok 30 -> 36"
    )


def test_r15_one_size_of_three_and_never_another_sizes_number() -> None:
    text = (
        "Sizes: S (M, L)\nCh 10 (12, 14).\nRow 1: Sc in 2nd ch from hook and in each ch across. "
        "9 (11, 13) sc\nRow 2: Ch 1, turn, sc in next 7 (8, 9) sts, (sc, ch 1, sc) in next st, "
        "sc in last 1 (2, 3) sts. 10 (12, 14) sc\n"
    )
    proof = prove_text(text, size="M")
    assert proof.verdict == "proved"
    assert [(row.made, row.spaces) for row in proof.rows] == [(11, 0), (12, 1)]


def test_r17_brackets_within_a_star() -> None:
    text = (
        "Row 4: Ch 1, turn, *sc in next 2 sts, [dc in next st, ch 1] 3 times; rep from * 3 times "
        "more, sc in last 2 sts. (22 sts, 12 ch-1 sps)"
    )
    assert came_to("sc 22", text) == "ok 22 -> 22/12"


def test_r18_eleven_wanted_and_ten_there() -> None:
    proof = prove_text(
        "Row 1: Ch 17, dc in 4th ch from hook and in each ch across. (first 3 chs count; 15 dc) "
        "Row 2: Ch 3 (counts as dc), turn, dc in next 4 sts, ch 3, sk next 3 sts, dc in each of "
        "last 8 sts."
    )
    assert proof.rows[0].made == 15
    assert codes(proof) == [Verdict.TOO_MANY_STITCHES]
    assert proof.rows[1].worked == 16
    assert "one too many" in proof.problems[0].message


def test_r19_a_stitch_left_after_the_repeats() -> None:
    text = "Row 2: Ch 3 (counts as dc), turn, [sk next 2 sts, (dc, ch 1, dc) in next st] 4 times."
    assert came_to("dc 15, counted 3", text) == "stitches-left-over"


def test_r23_a_marker_is_no_stitch_and_a_strange_word_is_told() -> None:
    assert came_to("sc 12", "Row 8: Ch 1, turn, sc in next 6 sts, pm, sc in next 6 sts. (12)") == (
        "ok 12 -> 12"
    )
    assert came_to("sc 12", "Row 9: Ch 1, turn, sc in next 6 sts, twc, sc in next 6 sts. (12)") == (
        "unknown-word"
    )


def test_r36_foundation_stitches_are_the_first_row() -> None:
    proof = prove_text(
        "Row 1: 61 fsc, turn. (61 sc)\nRow 2: Ch 1, sc in each st across, turn. (61 sc)\n"
    )
    assert proof.verdict == "proved"
    assert made(proof) == [61, 61]


def test_r41_the_chains_skipped_tell_uk_terms_and_are_asked() -> None:
    proof = prove_text(
        "Ch 29. Row 1: 1 tr in 4th ch from hook, 1 tr in each ch to end, turn. (27 tr)"
    )
    assert proof.terms == "UK"
    assert not proof.problems
    assert any("US or UK" in question.what for question in proof.questions)
    assert proof.rows[0].by_stitch == {"dc": 27}


def test_r47_rows_without_words_are_told_at_once_and_the_others_proved() -> None:
    proof = prove_text(
        "Ch 31. Row 1: Sc in 2nd ch from hook and in each ch across. (30) Rows 2-6: Ch 1, sc across. (30) "
        "Rows 7-12: Follow chart. Rows 13-18: Ch 1, sc across. (30)"
    )
    assert codes(proof) == [Verdict.NO_WORDS]
    assert "Rows 7 to 12 have no words" in proof.problems[0].message
    assert [row.made for row in proof.rows if row.verdict is Verdict.OK] == [30] * 12


def test_r53_as_shown_and_colour_alone_are_both_told() -> None:
    proof = prove_text(
        "Ch 21. Row 1: Sc in 2nd ch from hook and in each ch across. (20) "
        "Row 9: Work as shown in photo 3. Row 10: Sc in each of the darker sts."
    )
    assert codes(proof) == [Verdict.NO_WORDS, Verdict.NO_WORDS]
    assert [problem.row for problem in proof.problems] == [9, 10]
