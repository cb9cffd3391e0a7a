"""What one block says: the stitch, how many, where the hook goes. Built from the block alone."""

from __future__ import annotations

from typing import Any

import pytest

from coach.craft.problem import Verdict
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.craft.steps import Pace
from coach.craft.working import Action, Block, Group, Into, Where
from coach.wording.blocks_told import block_told
from coach.wording.explaining import explain
from coach.wording.replies import (
    as_far_as_it_goes,
    began,
    confirm_jump,
    faster,
    louder,
    missing,
    no_such_row,
    resumed,
    slower,
    softer,
    undone,
)
from coach.wording.row_facts import color_gap, fault_told, row_facts
from coach.wording.telling import words_for_step
from tests.craft.rows_by_hand import chain, colored, each, piece, repeat, row, turning


def block(stitch: str, into: Into, places: int = 1, count: int = 1, **facts: Any) -> Block:
    where = {
        name: facts.pop(name)
        for name in ("named", "chain_length", "position", "loop", "rows_below", "remark")
        if name in facts
    }
    return Block(stitch, count, Where(into, places, **where), **facts)


@pytest.mark.parametrize(
    ("told", "words"),
    [
        (block("sc", Into.RING, count=6), "6 single crochet into the ring"),
        (block("dc", Into.SAME), "double crochet in the same stitch"),
        (block("dc", Into.SAME, count=2, each=2), "2 double crochet in the same stitch"),
        (block("dc", Into.SAME, named="sp"), "double crochet in the same space"),
        (block("sc", Into.SKIPPED, 2, 2), "single crochet in each of the next 2 skipped stitches"),
        (block("FPtr", Into.SKIPPED), "front post treble crochet around the next skipped stitch"),
        (
            block("FPdc", Into.BELOW, rows_below=2),
            "front post double crochet around the next stitch, 2 rows below",
        ),
        (block("sc", Into.BELOW), "single crochet in the next stitch, one row below"),
        (block("dc", Into.BETWEEN), "double crochet into the next gap between the groups"),
        (
            block("sc", Into.ROW_END, 9, 9),
            "single crochet in each of the next 9 row ends",
        ),
        (
            block("sc", Into.ROW_END, 1, 93, each=93),
            "93 single crochet, evenly along the row ends",
        ),
        (
            block("sc", Into.FREE_LOOP, 75, 75),
            "single crochet in each of the next 75 free loops, "
            "on the other side of the foundation chain",
        ),
        (
            block("sc", Into.STITCH_OR_SPACE, 5, 5),
            "single crochet in each of the next 5 stitches and spaces, as they come",
        ),
        (
            block("sc", Into.STITCH_OR_SPACE),
            "single crochet in the next stitch or space, whichever comes first",
        ),
        (
            block("dc", Into.TURNING_CHAIN, remark="3rd ch of turning ch"),
            "double crochet in the 3rd chain of turning chain",
        ),
        (
            block("sc", Into.NEXT, named="shell", position="center"),
            "single crochet in the middle stitch of the next shell",
        ),
        (
            block("sc", Into.NEXT, 3, 3, loop="third"),
            "single crochet in each of the next 3 stitches, in the third loop",
        ),
        (block("sk", Into.TURNING_CHAIN), "skip the turning chain"),
        (block("sk", Into.SPACE, chain_length=2), "skip the next chain-2 space"),
        (block("sk", Into.NEXT, 3, 3, named="dc"), "skip the next 3 double crochet"),
        (
            block("bobble", Into.NEXT, 4, 4),
            "bobble in each of the next 4 stitches",
        ),
        (
            block("dc", Into.NEXT, 1, 5, each=5, pattern_stitch="shell"),
            "shell, all in the next stitch. That is: 5 double crochet",
        ),
        (
            block("cl", Into.TOGETHER, 3, 2, uses=6),
            "2 clusters, each over the next 3 stitches",
        ),
        (
            block("FPdc2tog", Into.TOGETHER, 2, 1, uses=2),
            "decrease: front post double crochet around the next 2 stitches together",
        ),
        (
            block("sc2tog", Into.TOGETHER, 2, 1, uses=2, pattern_stitch="inv dec"),
            "decrease: single crochet the next 2 stitches together, in their front loops only",
        ),
        (
            block("sl st", Into.SPACE, chain_length=2, role="travel"),
            "slip stitch into the next chain-2 space, to move along. It does not count",
        ),
        (block("picot", Into.NOTHING, role="picot"), "a picot"),
        (
            block("dc", Into.NEXT, named="dc", uses=1, uses_spaces=1, passing=1),
            "double crochet in the next double crochet, past the space",
        ),
        (
            block("sc", Into.NEXT, named="dc", uses=3, passing=2),
            "single crochet in the next double crochet, past the stitches between",
        ),
        (
            block("sk", Into.CHAIN, 7, 7, counts_as="dc+ch-2", role="skipped chains"),
            "start in the eighth chain from the hook. "
            "The 7 skipped chains count as a double crochet and chain 2",
        ),
    ],
)
def test_a_block_says_what_and_where(told: Block, words: str) -> None:
    assert block_told(told, "US") == words


def test_a_named_group_is_called_by_its_name() -> None:
    v = (each("dc", 1), chain(1), each("dc", 1))
    one = Group(v, Where(Into.NEXT, named="sc"), name="V-st")
    shells = Group((each("dc", 5),), Where(Into.NEXT), times=3, name="shell")

    assert block_told(one, "US") == (
        "V stitch, all in the next single crochet. That is: double crochet, chain 1, double crochet"
    )
    assert block_told(shells, "UK") == (
        "3 shells, one in each of the next 3 stitches. Each is: 5 treble crochet"
    )


def whole_row(*work: Any) -> str:
    (stage, *_) = stages(piece(row(2, *work)))
    return words_for_step(stage, steps(stage, Pace.ROW)[0], opens=False).full


def test_a_whole_row_tells_repeats_within_repeats_and_shorter_last_groups() -> None:
    inner = repeat(3, each("dc", 1), chain(1))

    assert whole_row(repeat(4, each("sc", 2), inner, last=(each("sc", 2),))) == (
        "Work this group 4 times. Single crochet in each of the next 2 stitches. "
        "Inside it, 3 times. Double crochet in the next stitch. Chain 1. That is the inside. "
        "That is the group. "
        "Group 5, the last, is shorter. Single crochet in each of the next 2 stitches. "
        "That was the last group. "
        "That makes: 22 stitches, and 12 spaces."
    )


def test_a_whole_row_tells_alternations_actions_and_yarns() -> None:
    told = whole_row(
        turning(1),
        colored("sc", 4, "A"),
        Action("marker", "pm"),
        repeat(1, each("hdc", 2)),
        repeat(3, repeat(2, each("FPdc", 1), each("BPdc", 1)), each("dc", 2)),
        repeat(2, each("sc", 1), each("dc", 1)),
    )

    assert told.startswith(
        "Chain 1. It does not count. Single crochet in each of the next 4 stitches, in A. "
        "Place marker. Half double crochet in each of the next 2 stitches. "
        "Work this group 3 times. The next 4 stitches go in turn. "
        "First front post double, then back post double, and so on. "
    )
    assert (
        "The next 4 stitches go in turn. First single crochet, then double crochet, and so on."
    ) in told


@pytest.mark.parametrize(
    ("verdict", "words"),
    [
        (Verdict.OK, ""),
        (Verdict.NO_WORDS, "Take care: the words of this row are not whole."),
        (Verdict.UNCLEAR, "Take care: this row's words can be read in more than one way."),
        (Verdict.STITCHES_LEFT_OVER, "Take care: the pattern has a fault in this row."),
    ],
)
def test_a_row_at_fault_is_told_so(verdict: Verdict, words: str) -> None:
    (stage, *_) = stages(piece(row(2, each("sc", 9), verdict=verdict)))

    assert fault_told(stage) == words


def test_a_colour_that_no_words_name_is_told_as_a_gap() -> None:
    # R46: "Rows 3-4: As Rows 1-2 in next colour." The words do not say which colour.
    unnamed, named = (
        stages(piece(row(3, work, text="Sc across in next colour. (40)")))[0]
        for work in (each("sc", 40), colored("sc", 40, "B"))
    )

    assert color_gap(unnamed) == "The words do not say which colour."
    assert color_gap(named) == ""


def test_replies_carry_their_figures() -> None:
    assert slower(130).full == "Slower: 130 words a minute."
    assert faster(170).full == "Faster: 170 words a minute."
    assert louder(90).full == "Louder: 90 percent."
    assert softer(70).full == "Softer: 70 percent."
    assert as_far_as_it_goes("slow").full == "That is as slow as I can be."
    assert confirm_jump("Rnd 8").full == "Go to Round 8? Yes or no?"
    assert no_such_row(60, 45).full == "There is no row 60. The last row is 45."
    assert undone("next").full == "Undone: next."
    assert resumed("PEBBLE CLOTH").full == "Welcome back to Pebble Cloth."
    assert began("Pebble Cloth").full.startswith("Pebble Cloth. Say next row")
    assert missing("The model isn't there.", "Run: coach ear get").full == (
        "The model isn't there. Run: coach ear get."
    )


def test_a_row_repeated_once_is_only_worked_as_its_model() -> None:
    (stage, *_) = stages(piece(row(5, each("sc", 9), worked_as="Row 3", repeat=(1, 1))))

    assert row_facts(stage) == "Row 5, worked as Row 3."


def test_what_stands_on_the_chain_is_told_to() -> None:
    same = block("dc", Into.SAME, makes=1)
    (stage, *_) = stages(piece(row(2, turning(3, "dc"), same, each("dc", 9))))

    assert words_for_step(stage, steps(stage)[1]).full == (
        "Double crochet in the same stitch, where the chain stands."
    )


def test_a_side_told_in_the_row_is_told() -> None:
    (stage, *_) = stages(piece(row(2, each("sc", 3), Action("facing", "RS"), each("dc", 3))))

    assert words_for_step(stage, steps(stage)[1], opens=False).full.startswith(
        "Right side facing. Double crochet"
    )


def test_picots_and_skips_within_a_group() -> None:
    group = Group(
        (each("dc", 2), block("picot", Into.NOTHING, role="picot"), each("dc", 2)),
        Where(Into.SPACE, chain_length=3),
        uses_spaces=1,
    )

    assert block_told(group, "US") == (
        "work into the next chain-3 space. "
        "Make all of these: 2 double crochet, a picot, 2 double crochet"
    )


def test_five_stitches_that_spread_are_a_fan_and_a_new_stitch_is_the_designers() -> None:
    assert explain("5-tr fan")[1:] == (
        "Work 5 treble crochet, all in the same place.",
        "They spread like a fan.",
    )
    assert explain("lighthouse") == (
        "Lighthouse.",
        "This is the designer's own stitch. Work it as the pattern's words say.",
    )
    assert "Keep the loops" in explain("puff2tog")[1]
