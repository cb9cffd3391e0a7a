"""A yoke divided for sleeves, whose sleeves are worked round what was skipped: counted by hand."""

from __future__ import annotations

import pytest

from coach.app.proving import proof_json, prove_text

YOKE = """Mill Race Yoke
US terms.
Worked top down in one piece. Ch 64, join.
Rnd 1: Ch 1, sc in each ch around, join. (64 sc)
Divide for sleeves
Rnd 2: Ch 1, {divide}, join. (40 sc, 2 ch-4 sps)
BODY
Rnd 3: Ch 1, sc in each sc and ch around, join. (48 sc)
Fasten off.
SLEEVES
Join yarn at underarm.
Rnd 1: Ch 1, {sleeve}, join. ({count})
Rnd 2: Ch 1, sc in each sc around, join.
"""
# 64 = 20 + 12 + 20 + 12; the body is 40 and two chains of 4
DIVIDE = "sc in next 20 sts, ch 4, sk 12 sts (sleeve), sc in next 20 sts, ch 4, sk 12 sts (sleeve)"


def rows(divide: str, sleeve: str, count: int) -> tuple[list[str], list[tuple[int, int]]]:
    proof = proof_json(prove_text(YOKE.format(divide=divide, sleeve=sleeve, count=count)))
    codes = [fault["code"] for fault in proof["faults"]]
    return codes, [(row["worked"], row["made"]) for row in proof["rows"][3:]]


@pytest.mark.parametrize("divide", [DIVIDE, "[sc in next 20 sts, ch 4, sk next 12 sts] twice"])
@pytest.mark.parametrize(
    ("sleeve", "made"),
    [
        ("sc in each of 4 underarm chs, sc in next 12 sts", 16),
        ("sc in next 2 ch, sc in each of next 12 sts, sc in next 2 ch", 16),
        ("sc in next 12 sts, sc in next 4 ch", 16),
        ("sc in each of next 12 sts", 12),
    ],
)
def test_the_sleeve_goes_round_the_skipped_stitches(divide: str, sleeve: str, made: int) -> None:
    assert rows(divide, sleeve, made) == ([], [(made, made), (made, made)])


def test_a_sleeve_that_does_not_come_to_its_count_is_a_fault() -> None:
    """4 chains and 12 stitches are 16."""
    codes, _ = rows(DIVIDE, "sc in each of 4 underarm chs, sc in next 12 sts", 18)
    assert len(codes) == 1


@pytest.mark.parametrize(
    "words",
    [
        "Worked top down in one piece. Ch 64, join.",
        "This is worked from the top. With A, ch 64, join with sl st to first ch.",
        "Worked from the neck down: ch 64, join.",
    ],
)
def test_the_foundation_may_stand_after_a_sentence(words: str) -> None:
    text = f"Yoke\nUS terms.\n{words}\nRnd 1: Ch 1, sc in each ch around, join. (64 sc)\n"
    proof = prove_text(text)
    assert proof.problems == ()
    assert proof.foundation is not None
    assert proof.foundation.chains == 64


def test_what_follows_a_count_has_no_number_of_the_work_before_it() -> None:
    text = "Jug\nUS terms.\nR1: MR, 6sc [6]\nR2: inc x6 [12]\nR3: in FLO, inc x 12 [24]\nsl st, FO, leave a tail.\n"
    assert proof_json(prove_text(text))["faults"] == []
