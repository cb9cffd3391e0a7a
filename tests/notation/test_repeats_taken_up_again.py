"""A repeat that is told again after other work, and stitches beside the stitch just made.

The texts are ours and the sums by hand; the customs are common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.notation.rows import came_to

# Seven gaps with the centre in the middle: 3 + centre + 3, and pairs of dc between them.
SHAWL = "dc, ch1, dc 2, ch1, dc 2, ch1, dc 2, ch2, dc 2, ch1, dc 2, ch1, dc 2, ch1, dc"


@pytest.mark.parametrize(
    "again", ["rep from * to end", "rep between * to end", "repeat from * across to last dc"]
)
def test_what_stands_after_a_star_comes_again_after_the_centre(again: str) -> None:
    text = (
        "Row 4: Ch 1, sc in first dc, *2 dc in next ch-1 sp, ch 1; rep from * to center ch-2 sp, "
        f"(2 dc, ch 2, 2 dc) in ch-2 sp, ch 1, {again}, sc in last dc. "
        "(2 sc, 16 dc, 7 ch-1 sps, 1 ch-2 sp)"
    )
    # 6 gaps with 2 dc each, 4 dc in the centre, 2 sc: 18; 3 + 1 + 3 chains and the centre's.
    assert came_to(SHAWL, text) == "ok 14/7 -> 18/8"
    assert came_to(SHAWL, text.replace("16 dc", "14 dc")) == "count-mismatch"


def test_stars_round_a_piece_bring_it_again_after_other_work() -> None:
    text = (
        "Row 4: Ch 1, sc in first dc, *2 dc in next ch-1 sp, ch 1*; rep between *s to center ch-2 "
        "sp, (2 dc, ch 2, 2 dc) in ch-2 sp, ch 1, rep between *s to end, sc in last dc. (18 sts)"
    )
    assert came_to(SHAWL, text) == "ok 14/7 -> 18/8"


def test_a_star_that_was_never_set_is_still_told() -> None:
    text = "Row 4: Ch 1, sc in first 2 sts, dc in next 2 sts, rep from * to end."
    assert came_to("sc 12", text) == "broken-notation"


def test_stitches_over_the_side_of_the_last_stitch_use_no_place() -> None:
    text = (
        "Row 3: Ch 1, sc in first st, *dc in next st, 3 dc around post of dc just made, sk 2 sts, "
        "sc in next st; rep from * across. (4 sc, 12 dc)"
    )
    assert came_to("sc 13", text) == "ok 13 -> 16"


@pytest.mark.parametrize(
    ("words", "text", "right"),
    [
        # 2 + 5 x (1 + 3) + 1 = 23: 2 + 15 + 1 made, 5 spaces.
        ("sc 23", "Ch 1, sc in first 2 sts; repeat the following 5 times: ch 1, skip 1 st, sc in next 3 sts; sc in last st.", "ok 23 -> 18/5"),
        ("sc 23", "Ch 1, sc in first 2 sts, repeat the following five times: ch 1, skip 1 st, sc in next 3 sts. Sc in last st.", "ok 23 -> 18/5"),
        ("sc 23", "Ch 1, sc in first 2 sts, work the following across to last st: ch 1, skip 1 st, sc in next 3 sts; sc in last st.", "ok 23 -> 18/5"),
        ("sc 23", "Ch 1, sc in first 2 sts; repeat the following 6 times: ch 1, skip 1 st, sc in next 3 sts; sc in last st.", "too-many-stitches"),
        ("round sc 24", "Repeat the following around: sc in next 3 sts, 2 sc in next st. (30 sc)", "ok 24 -> 30"),
        # Twelve passes over two: 24, and each has passed what its chain spans.
        ("round sc 24", "Ch 1, *sc in next st, ch 2, sk 1 st; rep from * around, join.", "ok 24 -> 12/12"),
        ("round sc 25", "Ch 1, *sc in next st, ch 2, sk 1 st; rep from * around, join.", "repeat-does-not-fit"),
    ],
)  # fmt: skip
def test_what_is_repeated_may_be_announced(words: str, text: str, right: str) -> None:
    assert came_to(words, f"Row 6: {text}") == right
