"""The yarn of each stitch in a row of two colours, however it is said.

Five of one and one of the other, six times round 36 stitches: tapestry crochet as it is written
(common practice, no source).
"""

from __future__ import annotations

import json

import pytest

from coach.app.line_proving import answer
from tests.notation.rows import below, came_to


def yarns(words: str, text: str) -> str:
    """Return "5 A, 1 B …" of *text* worked on *words*: the stitches of each yarn, in order."""
    got = answer(json.dumps({"id": "row", "terms": "US", "before": below(words), "text": text}), 1)
    assert got["verdict"] == "ok", got
    out: list[tuple[str, int]] = []
    for step in got["steps"]:
        if step["stitch"] == "ch":
            continue
        color = step.get("color") or "-"
        if out and out[-1][0] == color:
            out[-1] = (color, out[-1][1] + step["n"])
        else:
            out.append((color, step["n"]))
    return ", ".join(f"{count} {color}" for color, count in out)


@pytest.mark.parametrize(
    "work",
    [
        "(MC 5 sc, CC 1 sc) 6 times.",
        "*MC: 5 sc, CC: 1 sc; rep from * around.",
        "*5 sc in MC, 1 sc in CC; rep from * around.",
        "*sc 5 in MC, sc 1 in CC; rep from * around.",
        "*5 MC, 1 CC; rep from * around.",
        "[MC x 5, CC x 1] 6 times.",
        "*sc in next 5 sts with MC, sc in next st with CC; rep from * around.",
    ],
)
@pytest.mark.parametrize(("main", "other"), [("MC", "CC"), ("A", "B"), ("CC1", "CC2")])
def test_the_yarn_may_stand_before_or_behind_its_stitches(work: str, main: str, other: str) -> None:
    text = work.replace("MC", "main").replace("CC", other).replace("main", main)
    assert yarns("round sc 36", f"Rnd 9: {text} (36)") == ", ".join([f"5 {main}, 1 {other}"] * 6)


def test_a_yarn_may_have_a_name_of_its_own() -> None:
    for text in (
        "With Storm, sc in next 3 sts, with Old Rose, sc in next 3 sts.",
        "3 sc in Storm, 3 sc in Old Rose.",
        "Sc in next 3 sts with Storm, sc in next 3 sts with Old Rose.",
    ):
        assert yarns("round sc 6", f"Rnd 4: {text}") == "3 Storm, 3 Old Rose"
    assert yarns("sc 10", "Row 4: cream 4 sc, brown 2 sc, cream 4 sc.") == (
        "4 cream, 2 brown, 4 cream"
    )


def test_a_lone_mc_after_in_is_a_magic_circle() -> None:
    assert came_to("nothing", "Rnd 1: 6 sc in MC. (6)") == "ok - -> 6"


def test_the_article_is_no_yarn() -> None:
    assert yarns("sc 4", "Row 2: A sc in first st, sc in next 3 sts.") == "4 -"
