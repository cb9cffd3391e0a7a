"""The first and the last places of a row, in the ways that designers write them.

The texts are ours and the sums by hand; where the trade itself is the rule it is common
practice, no source.
"""

from __future__ import annotations

import json

import pytest

from coach.app.line_proving import answer
from coach.app.proving import prove_text
from tests.notation.test_what_makers_met import codes, made

BEGUN = "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\n"
UK_BEGUN = "UK terms.\nCh 22.\nRow 1: 1 tr in 4th ch from hook, 1 tr in each ch to end. (20 tr)\n"


@pytest.mark.parametrize(
    "words",
    [
        "1 sc, inc, sc until 2 sts remain, inc, 1 sc (22)",
        "1 sc, inc, sc in each st until 2 sts remain, inc, 1 sc (22)",
        "1 sc, inc, sc till there are 2 sts left, inc, 1 sc (22)",
        "1 sc, inc, sc in each st until you have 2 sts left, inc, 1 sc (22)",
        "1 sc, inc, sc until 2 stitches are left, inc, 1 sc (22)",
    ],
)
def test_stitches_go_on_until_so_many_remain(words: str) -> None:
    proof = prove_text(f"{BEGUN}Row 2: Ch 1, turn, {words}")
    assert (proof.verdict, made(proof)) == ("proved", [20, 22])


def test_until_so_many_remain_still_needs_its_edge() -> None:
    proof = prove_text(f"{BEGUN}Row 2: Ch 1, turn, sc until 2 sts remain, inc. (20)")
    assert [str(code) for code in codes(proof)] == ["stitches-left-over"]


@pytest.mark.parametrize(
    "base",
    ["st at base of 3 ch", "base of 3 ch", "st at the base of the ch-3", "base of turning ch"],
)
def test_the_base_of_the_chain_is_the_place_it_stands_on(base: str) -> None:
    proof = prove_text(
        f"{UK_BEGUN}Row 2: 3 ch (counts as 1 tr), turn, 1 tr in {base}, 1 tr in each st to turning "
        "ch, 2 tr in top of turning ch. (22 tr)"
    )
    assert (proof.verdict, made(proof)) == ("proved", [20, 22])
    assert proof.rows[-1].spaces == 0


RING = "US terms.\nCh 24, join with sl st in first ch to form a ring.\nRnd 1: "


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("Ch 3 (counts as dc), sk first ch, dc in each ch around; join. (24 dc)", (24, 0)),
        (
            "Ch 3 (counts as dc), sk next ch, *dc in next ch, sk next ch; rep from * around.",
            (12, 0),
        ),
        (
            "Ch 4 (counts as dc, ch 1), sk next ch, *dc in next ch, ch 1, sk next ch; rep from * "
            "around; join with sl st to 3rd ch of beg ch-4. (12 dc, 12 ch-1 sps)",
            (12, 12),
        ),
    ],
)
def test_chains_of_a_ring_are_skipped_like_stitches(words: str, wanted: tuple[int, int]) -> None:
    proof = prove_text(RING + words)
    assert proof.verdict == "proved"
    assert (proof.rows[0].made, proof.rows[0].spaces) == wanted


def test_a_skip_too_many_in_a_ring_is_a_fault() -> None:
    # 24 less the first: 23 are left, which skips of one between stitches don't use up
    words = "Ch 3 (counts as dc), *sk next ch, dc in next ch; rep from * around. (12 dc)"
    assert [str(code) for code in codes(prove_text(RING + words))] == ["repeat-does-not-fit"]


def test_a_chain_stands_in_the_space_that_a_round_begins_with() -> None:
    # 12 spaces, each with 3 dc: the chain and 2 dc are the first group
    record = {
        "id": "a",
        "terms": "US",
        "before": {
            "kind": "round",
            "sts": 36,
            "spaces": 12,
            "places": [{"k": "ch-1 sp", "n": 1}, {"k": "dc", "n": 3}] * 12,
        },
        "text": "Rnd 5: Ch 3 (counts as dc), 2 dc in same sp, ch 1, *3 dc in next ch-1 sp, ch 1; "
        "repeat from * around; join with sl st to top of ch-3.",
        "stated": None,
    }
    got = answer(json.dumps(record), 1)
    assert (got["verdict"], got["worked"], got["spaces_worked"]) == ("ok", 36, 12)
    assert (got["produces"], got["chains_spaces"]) == (36, 12)
