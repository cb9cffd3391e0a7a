"""Worked patterns of 1918 and of an old encyclopedia, held against their published counts.

The counts are those of a US crochet handbook of 1918 (public domain), whose names are read as
its own tables say: "double" there is US single crochet, "treble" US double crochet, "miss" is
skip. The wording here is ours; only the arithmetic is theirs.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.rows import came_to


def test_mesh_strip_of_54_chains_has_26_doubles() -> None:
    """Chain 54; miss 3, double, then chain 1, miss 1, double across: (54 - 3 - 1) / 2 + 1 = 26."""
    text = (
        "Ch 54.\nRow 1: Skip 3 ch (do not count as a st), sc in next ch, *ch 1, sk 1 ch, sc in next ch; "
        "rep from * across. (26 sc, 25 ch-1 sps)\n"
    )
    proof = prove_text(text)
    assert proof.verdict == "proved"
    assert (proof.rows[0].made, proof.rows[0].spaces) == (26, 25)


def test_strip_of_52_chains_has_12_loops() -> None:
    """Chain 52; double in the 8th; chain 3, miss 3, double, repeat 10 times: 12 loops."""
    text = (
        "Ch 52.\nRow 1: Sc in 8th ch from hook, *ch 3, sk 3 ch, sc in next ch; rep from * 10 times. "
        "(12 loops)\n"
    )
    proof = prove_text(text)
    assert proof.verdict == "proved"
    assert proof.rows[0].spaces == 12


@pytest.mark.parametrize(("chains", "trebles"), [(100, 96)])
def test_jacket_of_100_chains_has_96_trebles(chains: int, trebles: int) -> None:
    """Chain 100, miss 4, 96 trebles."""
    text = f"Row 1: Skip 4 ch (do not count as a st), dc in each ch across. ({trebles} dc)"
    assert came_to(f"chain {chains}", text) == f"ok {chains} -> {trebles}"


@pytest.mark.parametrize("number", range(2, 8))
def test_tam_grows_by_seven_a_round(number: int) -> None:
    """Seven in the ring; round n has 7 n."""
    before, after, plain = 7 * (number - 1), 7 * number, number - 2
    body = f"sc in next {plain} sts, inc" if plain else "inc"
    text = f"Rnd {number}: [{body}] 7 times. ({after})"
    assert came_to(f"round sc {before}", text) == f"ok {before} -> {after}"


@pytest.mark.parametrize(
    ("before", "plain", "after"), [(224, 7, 196), (196, 6, 168), (168, 2, 112)]
)
def test_tam_narrows_by_missing_one(before: int, plain: int, after: int) -> None:
    """224: 7 and miss 1 gives 196; 6 and miss 1 gives 168; 2 and miss 1 gives 112."""
    text = f"Rnd 40: *Sc in next {plain} sts, sk 1 st; rep from * around. ({after} sc)"
    assert came_to(f"round sc {before}", text) == f"ok {before} -> {after}"


def test_oval_sole_of_33_chains_has_68() -> None:
    """Chain 33; miss 1, 31, 3 in the end, 31, 3: 68."""
    text = (
        "Ch 33. Rnd 1: Sc in 2nd ch from hook and in next 30 ch, 3 sc in last ch; on other side of "
        "chain sc in next 30 ch, 4 sc in last ch. (68 sc)"
    )
    assert came_to("nothing", text) == "ok - -> 68"


def test_slipper_toe_of_21_grows_to_23() -> None:
    """9, 3 in the end, 9 makes 21; next row 10, 3, 10 makes 23."""
    text = "Row 2: Ch 1, sc in next 10 sts, 3 sc in next st, sc in next 10 sts. (23 sc)"
    assert came_to("sc 21", text) == "ok 21 -> 23"


def test_bootee_ribs_are_ten_doubles_on_eleven_chains() -> None:
    """Chain 11, miss 1, 10 doubles; then chain 11 more: 10 + 10 = 20."""
    assert came_to("chain 11", "Row 1: Sc in 2nd ch from hook and in each ch across. (10 sc)") == (
        "ok 11 -> 10"
    )
    assert came_to("sc 10", "Row 2: Ch 1, BLO: sc in each st across. (10 sc)") == "ok 10 -> 10"


def test_hood_of_three_chains_and_19_trebles_is_20() -> None:
    """Chain 3 and 19 trebles in a ring: 20."""
    text = "Rnd 1: Ch 4, join to form ring; ch 3 (counts as dc), 19 dc in ring; join. (20 dc)"
    assert came_to("nothing", text) == "ok - -> 20"


def test_star_rows_take_two_doubles_each() -> None:
    """80 doubles take 40 stars, two doubles each."""
    assert came_to("sc 80", "Row 2: Ch 1, [sc2tog] 40 times. (40)") == "ok 80 -> 40"


@pytest.mark.parametrize(("side", "before", "after"), [(3, 12, 20), (5, 20, 28)])
def test_square_grows_by_eight_a_round(side: int, before: int, after: int) -> None:
    """3 sc in each corner: 4, 12, 20, and 8 more each round (encyclopedia and a teaching page)."""
    plain = side - 1
    text = f"Rnd 3: Ch 1, *3 sc in next st, sc in next {plain} sts; rep from * around; join. ({after} sc)"
    assert came_to(f"round sc {before}", text) == f"ok {before} -> {after}"
