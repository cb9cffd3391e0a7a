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
