"""Rounds worked into an earlier round by its number, over the petals made between: counted by hand."""

from __future__ import annotations

from typing import Any

import pytest

from coach.app.proving import proof_json, prove_text
from coach.notation.reading import read
from coach.notation.writing import write

ROSE = """Hedge Rose
US terms.

Ch 5, join with sl st in first ch to form ring.
Rnd 1: Ch 1, 10 sc in ring, join with sl st in first sc. (10 sc)
Rnd 2: Ch 1, *sc in next sc, ch 3, sk next sc; rep from * around, join. (5 sc, 5 ch-3 sps)
Rnd 3: Ch 1, (sc, hdc, 3 dc, hdc, sc) in each ch-3 sp around, join. (5 petals)
Rnd 4: {behind}
Rnd 5: Ch 1, (sc, hdc, 5 dc, hdc, sc) in each ch-5 sp around, join. (45 sts)
"""


def rose(behind: str) -> dict[str, Any]:
    return proof_json(prove_text(ROSE.format(behind=behind)))


@pytest.mark.parametrize(
    "behind",
    [
        "Working behind petals, ch 1, *BPsc around next sc of Rnd 2, ch 5; rep from * around, join.",
        "Ch 1, working behind petals, BPsc around first sc of Rnd 2, *ch 5, BPsc around next sc; rep from * 3 more times, ch 5, join.",
        "Ch 1, *sc around post of next sc from Rnd 2, ch 5; rep from * around, join.",
        "Ch 1, [sc in back of next sc of the 2nd rnd, ch 5] 5 times, join.",
        "Ch 1, [sc around next sc made in round 2, ch 5] 5 times, join.",
        "Ch 1, [sc around next sc 2 rnds below, ch 5] 5 times, join.",
    ],
)
def test_five_stitches_go_into_the_five_of_round_2_behind_35_of_petals(behind: str) -> None:
    proof = rose(behind)
    assert proof["faults"] == []
    row = proof["rows"][3]
    assert (row["worked"], row["made"], row["spaces"]) == (5, 5, 5)
    assert proof["rows"][4]["made"] == 45


def test_a_sixth_stitch_is_one_more_than_round_2_has() -> None:
    proof = rose("Ch 1, [BPsc around next sc of Rnd 2, ch 5] 6 times, join. (6 sc)")
    (fault,) = proof["faults"]
    assert fault["code"] == "too-many-stitches"
    assert "asks for 6 stitches; Rnd 2 has 5: one too many." in fault["message"]


STOREYS = """Storeys
US terms.

Ch 7.
Row 1: Sc in 2nd ch from hook and in next 2 ch, 2 sc in next ch, sc in last 2 ch, turn. (7 sc)
Row 2: Ch 1, working in front loops only, 2 sc in each sc across, turn. (14 sc)
Row 3: Ch 1, sc in back loop of each sc of Row 1 across, turn. (7 sc)
Row 4: Ch 1, sc in each sc across. (7 sc)
"""


def test_a_row_in_the_other_loops_of_the_row_before_the_frill() -> None:
    proof = proof_json(prove_text(STOREYS))
    assert proof["faults"] == []
    assert [row["worked"] for row in proof["rows"]] == [7, 7, 7, 7]


TEXTURED = """Two storey cloth
US terms.

Ch 13.
Row 1: Dc in 4th ch from hook and in each ch across, turn. (11 dc)
Row 2: Ch 1, sc in each dc across, turn. (11 sc)
Row 3: Ch 1, sc in first st, *FPdc around next dc of Row 1, sk st behind it, sc in next st; rep from * across, turn. (11 sts)
Row 4: Ch 1, sc in each st across, turn. (11 sc)
Row 5: Ch 1, sc in first st, *FPdc around next FPdc of Row 3, sc in next st; rep from * across. (11 sts)
"""


def test_posts_of_a_named_row_among_stitches_of_the_row_below() -> None:
    """1 and 5 pairs: each post stands in the place of the stitch behind it."""
    proof = proof_json(prove_text(TEXTURED))
    assert proof["faults"] == []
    assert [row["worked"] for row in proof["rows"][2:]] == [11, 11, 11]


def test_it_is_written_as_so_many_rows_below() -> None:
    text = write(
        read(
            ROSE.format(
                behind="Ch 1, *BPsc around next sc of Rnd 2, ch 5; rep from * around, join."
            )
        ),
        terms="us",
    )
    assert "2 rows below" in text
    assert proof_json(prove_text(text))["faults"] == []
