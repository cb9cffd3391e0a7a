"""Whole patterns told: the pattern's text in, the coach's words out, after makers' own reports."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coach.craft.proof import Proof
from coach.craft.readings import prove
from coach.craft.stage import Stage
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.notation.reading import read
from coach.wording.answers import resume_words
from coach.wording.telling import words_for_step

PATTERNS = Path(__file__).parents[2] / "coach" / "patterns"


def proof_of(text: str, *, size: str | None = None) -> Proof:
    return prove(read(text, size=size))


def told(proof: Proof, label: str) -> list[str]:
    """What is said of the steps of one row, its facts left out."""
    stage = stage_of(proof, label)
    terms = proof.terms or "US"
    return [words_for_step(stage, step, terms, opens=False).full for step in steps(stage)]


def stage_of(proof: Proof, label: str) -> Stage:
    return next(stage for stage in stages(proof) if stage.label == label)


def test_one_size_only_is_ever_heard() -> None:
    # R15: the words 7, 9, 3, 11 as counts of other sizes are never heard.
    proof = proof_of(
        "Sizes S (M, L)\n"
        "Ch 11 (12, 14).\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (10 (11, 13) sc)\n"
        "Row 2: Ch 1, turn, sc in next 7 (8, 9) sts, (sc, ch 1, sc) in next st, "
        "sc in last 2 (2, 3) sts. 11 (12, 14) sc\n",
        size="M",
    )

    assert told(proof, "Row 2")[1:] == [
        "Single crochet in each of the next 8 stitches.",
        "Work in the next stitch. Make all of these: single crochet, chain 1, single crochet.",
        "Single crochet in each of the last 2 stitches. That makes: 12 stitches, and 1 space.",
    ]


def test_a_star_without_more_is_told_with_its_total() -> None:
    # R13: on 30 sts, *Inc, sc in next 4 sts; rep from * 5 times. (36): "group 1 of 6".
    proof = proof_of(
        "Ch 30, join with sl st in first ch.\n"
        "Rnd 1: Ch 1, sc in each ch around, join with sl st in first sc. (30)\n"
        "Rnd 2: Ch 1, *inc, sc in next 4 sts; rep from * 5 times, join with sl st in first sc. (36)\n"
    )
    said = told(proof, "Rnd 2")

    assert said[1] == "Group 1 of 6. Increase: 2 single crochet in the next stitch."
    assert said[11].startswith("Group 6 of 6.")
    assert said[-1].endswith("That makes: 36 stitches.")


def test_a_repeat_within_a_repeat() -> None:
    # R17
    proof = proof_of(
        "Ch 23.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (22 sc)\n"
        "Row 2: Ch 1, turn, *sc in next 2 sts, [dc in next st, ch 1] 3 times; "
        "rep from * 3 times more, sc in last 2 sts. (22 sts, 12 ch-1 sps)\n"
    )
    said = told(proof, "Row 2")

    assert said[5] == "Group 2 of 4. Single crochet in each of the next 2 stitches."
    assert said[6] == "Inside it, 1 of 3. Double crochet in the next stitch, chain 1."
    assert said[-1].endswith("That makes: 22 stitches, and 12 spaces.")


def test_a_stop_in_the_middle_of_a_row() -> None:
    # R26
    proof = proof_of(
        "Ch 19.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (18)\n"
        "Row 2 (WS): Ch 1, turn, sc in next 5 sts, [dc in next st, ch 1, sk next st] 4 times, "
        "sc in last 5 sts.\n"
    )
    stage = stage_of(proof, "Row 2")

    assert resume_words("Quay Cloth", stage, steps(stage)[4]).full == (
        "Quay Cloth. Row 2, wrong side facing. "
        "2 of 4 groups done. 9 stitches of the row below used, 9 left. "
        "Next: group 3 of 4. Double crochet in the next stitch, chain 1, skip 1."
    )


def test_a_change_of_colour() -> None:
    # R45
    proof = proof_of(
        "With A, ch 24.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (23)\n"
        "Row 2: Ch 1, turn. With A sc in next 9 sts, with B sc in next 5 sts, "
        "with A sc in last 9 sts. (23)\n"
    )

    assert told(proof, "Row 2")[1:] == [
        "Single crochet in each of the next 9 stitches. "
        "8 in A; the ninth: bring in B on its last pull.",
        "Single crochet in each of the next 5 stitches. "
        "4 in B; the fourteenth: bring in A on its last pull.",
        "Single crochet in each of the last 9 stitches, in A. That makes: 23 stitches.",
    ]


def test_a_row_only_shown_is_not_coached_as_if_complete() -> None:
    # R53
    proof = proof_of(
        "Ch 41.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (40)\n"
        "Row 2: Work as shown in photo 3.\n"
    )

    assert told(proof, "Row 2") == [
        "Row 2 has no words. It cannot be guided. Ask for its words, or go to the next row."
    ]


def test_uk_terms_are_spoken_as_the_uk_says() -> None:
    proof = proof_of(
        "UK terms\n"
        "29ch.\n"
        "Row 1: 1tr in 4th ch from hook, 1tr in each ch to end, turn. (27tr)\n"
        "Row 2: 1ch, 1dc in each tr to end. (27dc)\n"
    )

    assert told(proof, "Row 1") == [
        "Start in the fourth chain from the hook. "
        "The 3 missed chains count as the first treble crochet.",
        "Treble crochet in each of the next 26 chains. That makes: 27 stitches. Turn.",
    ]


def test_the_cushion_is_told_rib_by_rib() -> None:
    # Counted by hand: Row 2 is the chain, 7 groups of (2 front posts, 6 in turn), 2 front
    # posts, the top of the chain: 1 + 7 x 8 + 2 + 1 = 60.
    proof = proof_of((PATTERNS / "orchard-gate-cushion.txt").read_text(encoding="utf-8"))
    said = told(proof, "Row 2")

    assert len(said) == 1 + 7 * 2 + 2
    assert said[1] == "Group 1 of 7. Front post double crochet around each of the next 2 stitches."
    assert said[2] == (
        "Then the next 6 stitches go in turn. First single crochet, then double crochet, and so on."
    )
    assert (
        said[-1] == "Double crochet in the top of the turning chain. That makes: 60 stitches. Turn."
    )
    row_24 = stage_of(proof, "Row 24")
    # Rows 6-33 are Rows 2-5 seven times: Row 24 is the third row of the fifth time.
    assert words_for_step(row_24, steps(row_24)[0]).full.startswith(
        "Row 24, worked as Row 4. It is the third row of the fifth repeat of 7. Right side facing."
    )


@pytest.mark.parametrize("name", ["orchard-gate-cushion.txt", "pebble-cloth.txt"])
def test_the_built_in_patterns_are_told_in_short_sentences(name: str) -> None:
    # One point a sentence ("Making content usable", COGA): our mark is 25 words at most, and
    # 10 on average.
    proof = proof_of((PATTERNS / name).read_text(encoding="utf-8"))
    lengths = [
        len(sentence.split())
        for stage in stages(proof)
        for step in steps(stage)
        for sentence in re.split(r"(?<=[.?:;])\s+", words_for_step(stage, step).full)
    ]

    assert max(lengths) <= 25
    assert sum(lengths) / len(lengths) <= 10
