"""The steps of a pattern as data: the shape that editors and scripts rely on."""

from __future__ import annotations

import json

from coach.app.telling_steps import steps_json, told_steps
from coach.craft.steps import Pace
from coach.craft.working import Into
from tests.craft.rows_by_hand import (
    TURN,
    chain,
    each,
    in_space,
    increase,
    piece,
    repeat,
    row,
    skip,
    skipped_chains,
    top_of_chain,
    turning,
)

RIB = piece(
    row(1, skipped_chains(3, "dc"), each("dc", 76, into=Into.CHAIN), TURN, side="WS"),
    row(
        2,
        turning(3, "dc"),
        TURN,
        repeat(9, each("FPdc", 3), each("dc", 1), each("BPdc", 3), each("dc", 1)),
        each("FPdc", 3),
        top_of_chain(),
        side="RS",
    ),
    chains=79,
)


def test_a_step_has_every_field_of_the_contract() -> None:
    step = next(step for step in steps_json(RIB) if step["row"] == 2 and step["block"] == 8)

    # Group 2 of 9: before it the chain (1) and a group of 8, then FPdc 10-12 and dc 13.
    assert step["repeat"] == [2, 9]
    assert (step["count"], step["stitch"], step["into"]) == (3, "BPdc", "next 3 sts")
    assert (step["from"], step["to"]) == (14, 16)
    assert step["full"] == "Then back post double crochet around each of the next 3 stitches."
    assert step["brief"] == "Row 2, block 8 of 39, group 2 of 9: 3 back post double"


def test_only_the_rows_that_are_asked_for_are_told() -> None:
    assert {step["row"] for step in steps_json(RIB, rows=(2, 5))} == {2}
    assert steps_json(RIB, rows=(3, 5)) == []


def test_the_whole_piece_has_its_foundation_and_its_finishing() -> None:
    told = steps_json(RIB)

    assert told[0]["kind"] == "foundation"
    assert told[0]["row"] == 0
    assert told[-1]["kind"] == "finishing"
    assert told[-1]["row"] is None


def test_it_can_be_written_as_json() -> None:
    assert json.loads(json.dumps(steps_json(RIB))) == steps_json(RIB)


def test_the_pace_and_the_terms_are_the_makers_choice() -> None:
    by_stitch = steps_json(RIB, rows=(2, 2), pace=Pace.STITCH)
    by_row = steps_json(RIB, rows=(2, 2), pace=Pace.ROW, terms="UK")

    assert len(by_stitch) == 77
    assert len(by_row) == 1
    assert "Front post treble crochet" in by_row[0]["full"]


def test_places_are_noted_as_the_contract_notes_them() -> None:
    shell = in_space(each("dc", 3), chain(2), each("dc", 3))
    proof = piece(row(1, shell, skip(2), increase("dc", 5), each("sc", 1), top_of_chain("sc")))
    told = steps_json(proof, rows=(1, 1))

    assert [step["into"] for step in told] == [
        "next ch-2 sp",
        "next st",
        "next st",
        "top of tch",
    ]
    assert [part["stitch"] for part in told[0]["parts"][0]["parts"]] == ["dc", "ch", "dc"]
    assert [part["into"] for part in told[1]["parts"]] == ["next 2 sts", "next st"]


def test_a_very_wide_row_is_told_one_step_at_a_time() -> None:
    wide = piece(row(1, repeat(100_000, each("sc", 2), each("dc", 3))))

    assert next(told_steps(wide))["repeat"] == [1, 100_000]


def test_an_alternation_names_its_stitches_and_all_its_places() -> None:
    (told,) = steps_json(piece(row(1, repeat(4, each("FPdc", 1), each("BPdc", 1)))), rows=(1, 1))

    assert (told["count"], told["stitch"], told["into"]) == (8, "FPdc, BPdc", "next 8 sts")
