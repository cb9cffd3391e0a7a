"""Repeats as a teacher says them: "and repeat that", told again in short, "this time".

Fifteen stitches: 1 + 7 x 2. The texts are ours and the sums by hand.
"""

from __future__ import annotations

import json

import pytest

from coach.app.line_proving import answer
from coach.app.proving import prove_text
from tests.notation.rows import below, came_to

ALTERNATING = ["sc", "dc"] * 7 + ["sc"]


@pytest.mark.parametrize(
    "tail",
    [
        "and just repeat that all the way across.",
        "and repeat those last two all the way across.",
        "and repeat that across. So single, double, single, double, and you end with a single. "
        "You should still have fifteen.",
    ],
)
def test_the_first_stitch_is_there_only_once(tail: str) -> None:
    text = (
        "Row two. Chain one and turn. Single crochet in the first stitch, then double crochet in the "
        f"next stitch, single crochet in the next stitch, {tail}"
    )
    record = {"id": "row", "terms": "US", "before": below("sc 15"), "text": text}
    got = answer(json.dumps(record), 1)
    assert (got["verdict"], got["produces"]) == ("ok", 15)
    made = [step["stitch"] for step in got["steps"] if step["stitch"] != "ch"]
    assert made == ALTERNATING


def test_a_first_stitch_that_is_the_only_one_is_repeated() -> None:
    # 12 x (1 + 2) used; 12 stitches and 12 spaces made.
    text = (
        "Round five. Chain one, then single crochet in the first stitch, chain three, skip two "
        "stitches, and you repeat that all the way around."
    )
    assert came_to("round sc 36", text) == "ok 36 -> 12/12"


@pytest.mark.parametrize("words", ["this time put a single crochet", "this time single crochet"])
def test_this_time_is_no_work(words: str) -> None:
    text = f"Row three. Chain one, turn, and {words} in every stitch across. Fifteen again."
    assert came_to("sc 15", text) == "ok 15 -> 15"


def test_the_same_thing_over_again_repeats_the_rows_it_names() -> None:
    proof = prove_text(
        "US terms.\n\nChain sixteen.\n\nRow one. Single crochet in the second chain from the hook and in "
        "every chain across.\n\nRow two. Chain one, turn, single crochet in every stitch across.\n\n"
        "Row three. Chain one, turn, double crochet in every stitch across.\n\n"
        "Rows four to nine are the same thing over again, so repeat rows two and three three more "
        "times.\n"
    )
    assert not proof.problems
    assert len(proof.rows) == 9


LINEN = """Linen stitch, as taught (US terms)
So, chain eighteen.

Row one. Single crochet in the second chain from the hook and in every chain across. That's seventeen.

Row two. Chain one and turn. Single crochet in the first stitch. Now chain one, skip one, single crochet in the next stitch, and repeat that all the way across. You should have nine single crochet and eight chain one spaces.

Row three. Chain one and turn. Single crochet in the first stitch, single crochet in the chain space, then chain one, skip a stitch, single crochet in the next chain space, and repeat that until you get to the last stitch, single crochet in the last stitch. You should have {third} single crochet and seven chain one spaces.

Row four. Chain one and turn. Single crochet in the first stitch, chain one, skip one, then single crochet in the next chain space, chain one, skip one, and repeat that until you get to the last stitch, single crochet in the last stitch. Nine single crochet and eight chain one spaces.

Rows five to eight. Repeat rows three and four two more times.

Row nine. Chain one and turn. Single crochet in each stitch and in each chain space across. Seventeen single crochet, and you can fasten off.
"""


def test_a_repeat_begins_where_its_count_says() -> None:
    # 9 and 8; 1 + 1 + 7 + 1 and 7; 1 + 7 + 1 and 8; so on; 9 + 8.
    proof = prove_text(LINEN.format(third="ten"))
    assert not proof.problems
    sums = [(row.made, row.spaces) for row in proof.rows]
    assert sums == [(17, 0), (9, 8), *[(10, 7), (9, 8)] * 3, (17, 0)]
    assert proof.rows[-1].stated == 17


def test_a_spoken_count_that_is_off_by_one_is_told_once() -> None:
    proof = prove_text(LINEN.format(third="eleven"))
    assert [problem.row for problem in proof.problems] == [3]
