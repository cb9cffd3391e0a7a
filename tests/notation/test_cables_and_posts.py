"""Cables that name the stitches they skipped one by one, and posts told in full.

The texts are ours and the sums by hand: a cable uses as many stitches as it makes (common practice).
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

PANEL = """US terms
Special stitch
Cable: {cable}
Ch 16.
Row 1 (RS): Dc in 4th ch from hook (3 skipped ch count as dc) and in each ch across, turn. (14 dc)
Row 2: Ch 1, sc in each st across, turn. (14 sc)
Row 3: Ch 1, sc in first 3 sts, cable, sc in next {plain} sts, cable, sc in last 3 sts, turn. (14 sts)
"""


@pytest.mark.parametrize(
    ("cable", "plain"),
    [
        (
            "Skip next st, FPtr around next st; working in front of st just made, FPtr around skipped st.",
            4,
        ),
        (
            "Sk next 2 sts, FPtr around each of next 2 sts; working behind them, FPtr around first skipped st, FPtr around second skipped st.",
            0,
        ),
        (
            "Sk 2 sts, fptr around the post of each of the next 2 sts, working in front, fptr around 1st and 2nd skipped sts.",
            0,
        ),
    ],
)
def test_a_cable_uses_what_it_makes(cable: str, plain: int) -> None:
    text = PANEL.format(cable=cable, plain=plain)
    if not plain:
        text = text.replace("sc in next 0 sts, ", "")
    proof = prove_text(text)
    assert not proof.problems
    assert (proof.rows[-1].worked, proof.rows[-1].made) == (14, 14)


@pytest.mark.parametrize(
    "row",
    [
        "*FPdc around the post of the next st, BPdc around the post of the next st; rep from * across",
        "*FPdc around the post of each of the next 2 sts, dc in each of the next 2 sts; rep from * across",
        "FPdc around the post of the first 2 sts, dc in next 6 sts, FPdc around the last 4 sts",
    ],
)
def test_round_a_post_is_no_way_around(row: str) -> None:
    proof = prove_text(
        f"US terms\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (12 sc)\n"
        f"Row 2: Ch 2 (does not count as a st), {row}, turn. (12 sts)\n"
    )
    assert not proof.problems
    assert (proof.rows[-1].worked, proof.rows[-1].made) == (12, 12)


def test_one_post_too_many_is_told() -> None:
    proof = prove_text(
        "US terms\nCh 13.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (12 sc)\n"
        "Row 2: Ch 1, sc in next 6 sts, FPdc around the post of each of the next 7 sts, turn. (13 sts)\n"
    )
    assert [str(problem.code) for problem in proof.problems] == ["too-many-stitches"]


SQUARE = """US terms
{notes}Ch 13.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (12 sc)
Rows 2-12: Ch 1, sc in each st across, turn. (12 sc)
Border
{border}
"""


def test_a_corner_group_follows_an_edge_and_goes_into_the_foundation() -> None:
    border = (
        "Rnd 1: Ch 1, (sc, ch 2, sc) in first st, sc in each of next 10 sts, (sc, ch 2, sc) in last st, "
        "sc in each of 12 row ends, (sc, ch 2, sc) in first foundation ch, sc in each of next 10 foundation chs, "
        "(sc, ch 2, sc) in last foundation ch, sc in each of 12 row ends, join. (52 sc, 4 ch-2 sps)"
    )
    proof = prove_text(SQUARE.format(notes="", border=border))
    assert not proof.problems
    assert (proof.rows[-1].made, proof.rows[-1].spaces) == (52, 4)  # 8, twice 10, twice 12


@pytest.mark.parametrize(
    ("notes", "first"),
    [
        ("Ch 3 at the beginning of a round counts as a dc.\n", "Ch 3"),
        ("", "Ch 3 (counts as dc)"),
        ("Ch 2 at the beginning of a round does not count as a stitch.\n", "Ch 2"),
    ],
)
def test_an_even_number_holds_the_chain_that_counts(notes: str, first: str) -> None:
    border = f"Rnd 1: {first}, dc evenly around, join. (50 dc)\nRnd 2: Ch 1, sc in each dc around, join. (50 sc)"
    proof = prove_text(SQUARE.format(notes=notes, border=border))
    assert not proof.problems
    assert [row.made for row in proof.rows[-2:]] == [50, 50]


@pytest.mark.parametrize(
    ("named", "worked"),
    [
        ("rftr", "FPdc"),
        ("rbtr", "BPdc"),
        ("RF tr", "FPdc"),
        ("trRB", "BPdc"),
        ("rtrf", "FPdc"),
        ("rbdtr", "BPtr"),
        ("rfhtr", "FPhdc"),
        ("raised tr back", "BPdc"),
    ],
)
def test_raised_stitches_are_named_before_or_behind(named: str, worked: str) -> None:
    proof = prove_text(
        "UK terms\nMake 21ch.\nRow 1: 1dc in 2nd ch from hook, 1dc in each ch to end, turn. (20dc)\n"
        f"Row 2: 1ch, {named} around each of next 2 sts, {named} around next st, 1dc in each of last 17 sts. (20)\n"
    )
    assert proof.problems == ()
    assert proof.rows[-1].by_stitch == {worked: 3, "sc": 17}


@pytest.mark.parametrize(
    ("terms", "front", "back"),
    [
        ("UK", "tr/rf around next tr", "tr/rb around next tr"),
        ("UK", "tr/f around next tr", "tr/b around next tr"),
        ("UK", "relief tr front around next tr", "relief tr back around next tr"),
        ("US", "dc/fp around next dc", "dc/bp around next dc"),
        ("US", "dc around front post of next dc", "dc around the back post of next dc"),
        ("US", "1 dc in front post of next st", "1 dc in back post of next st"),
        ("US", "dc around next dc from the front", "dc around next dc from behind"),
        ("US", "dc around post of next st from front to back", "dc around post of next st from back to front"),
    ],
)  # fmt: skip
def test_posts_are_told_by_a_slash_or_by_the_side_the_hook_comes_from(
    terms: str, front: str, back: str
) -> None:
    # 12 below: the chain stands on the first, ten posts, one in the last.
    tall, over = (
        ("1tr", "2ch (counts as 1htr)") if terms == "UK" else ("dc", "Ch 2 (counts as hdc)")
    )
    skipped, start = ("miss 3 ch", "13ch.") if terms == "UK" else ("sk 3 ch", "Ch 13.")
    proof = prove_text(
        f"{terms} terms\n{start}\nRow 1: {skipped} (does not count), {tall} in each of next 10 ch, turn. (10)\n"
        f"Row 2: {over}, *{front}, {back}; rep from * to last st, {tall} in last st. (10)\n"
    )
    assert proof.problems == ()
    assert proof.rows[-1].by_stitch == {"hdc": 1, "FPdc": 4, "BPdc": 4, "dc": 1}
