"""A plain run that is shaped at its ends, evenly, or in every so many stitches.

The texts are ours and the sums by hand; where the shaping lies is common practice, no source.
"""

from __future__ import annotations

import pytest

from tests.notation.rows import came_to


@pytest.mark.parametrize(
    ("text", "right"),
    [
        # 20 less one at each end
        ("Dec 1 st at each end of row. (18 sc)", "ok 20 -> 18"),
        ("Ch 1, sc across, dec 1 st each end. (18 sc)", "ok 20 -> 18"),
        ("Sc across, dec 1 st at each side. (18 sc)", "ok 20 -> 18"),
        ("Ch 1, dec 1 sc at beg and end of row, sc in each remaining st. (18 sc)", "ok 20 -> 18"),
        ("Ch 1, sc in each st across, decreasing 1 st at both ends. (18 sc)", "ok 20 -> 18"),
        ("Sc across, dec 1 st at beg of row. (19 sc)", "ok 20 -> 19"),
        ("Sc across, dec 2 sts at end of row. (18 sc)", "ok 20 -> 18"),
        # and more
        ("Ch 1, sc in each st across, inc 1 at each end. (22 sc)", "ok 20 -> 22"),
        ("Ch 1, inc at each end, sc across. (22 sc)", "ok 20 -> 22"),
        ("Sc across, working 2 sc in first and last st. (22 sc)", "ok 20 -> 22"),
        ("Sc across, inc 1 st at end. (21 sc)", "ok 20 -> 21"),
        ("Sc across, increasing 2 sts evenly. (22 sc)", "ok 20 -> 22"),
        ("Ch 1, sc across, evenly increasing 2 sts. (22 sc)", "ok 20 -> 22"),
        ("Ch 1, sc across and decrease 4 sts evenly. (16 sc)", "ok 20 -> 16"),
        ("Ch 1, sc across, dec 1 st each end. (19 sc)", "count-mismatch"),
        ("Ch 1, sc across, increasing 3 sts evenly. (22 sc)", "count-mismatch"),
    ],
)
def test_a_run_shaped_at_its_ends_or_evenly(text: str, right: str) -> None:
    assert came_to("sc 20", f"Row 6: {text}") == right


@pytest.mark.parametrize(
    ("below", "text", "right"),
    [
        # 12 and one more in 6 of them
        (12, "Sc around, inc in every other st. (18 sc)", "ok 12 -> 18"),
        (12, "Work 2 sc in every other st around. (18 sc)", "ok 12 -> 18"),
        (12, "2 sc in every other st around. (12 sc)", "ok 12 -> 12"),
        (12, "2 sc in every other st around.", "ok 12 -> 12"),
        # 18 and one more in 6 of them
        (18, "Inc in every third st around. (24 sc)", "ok 18 -> 24"),
        (18, "Inc every 3rd st. (24 sc)", "ok 18 -> 24"),
        (18, "Sc around, 2 sc in every 3rd st. (24 sc)", "ok 18 -> 24"),
        (18, "Sc around, working 2 sc in every 3rd st. (24 sc)", "ok 18 -> 24"),
        (18, "1 sc in each st, inc in every 3rd st. (24 sc)", "ok 18 -> 24"),
        (18, "Inc in every alternate st. (27 sc)", "ok 18 -> 27"),
        (18, "Inc in every alternate st. (26 sc)", "count-mismatch"),
        (36, "Ch 1, sc around, decreasing 6 sc evenly spaced around, join. (30 sc)", "ok 36 -> 30"),
        (36, "Ch 1, sc around and increase 6 sc evenly. (42 sc)", "ok 36 -> 42"),
    ],
)
def test_an_increase_in_every_so_many_works_what_lies_between(
    below: int, text: str, right: str
) -> None:
    assert came_to(f"round sc {below}", f"Rnd 3: {text}") == right
