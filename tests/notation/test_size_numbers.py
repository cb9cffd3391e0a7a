"""Sizes that the pattern does not name, and numbers that are nothing in one of them.

The texts are ours and the sums by hand; the dresses are common practice, no source.
"""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text
from tests.notation.test_what_makers_met import made

HAT = """US terms.
Rnd 1: Magic ring, ch 2 (not counted as st here and throughout), 8 (9, 10) hdc in ring. Join with sl st in first hdc. (8, 9, 10 hdc)
Rnd 2: Ch 2, 2 hdc in each st around. Join. (16, 18, 20 hdc)
Rnd 3: Ch 2, *hdc in next st, 2 hdc in next st. Rep from * around. Join. (24, 27, 30 hdc)
Rnds 4-5 (4-6, 4-7): Ch 2, hdc in each st around. Join. (24, 27, 30 hdc)
Next rnd: Ch 1, *FPsc around next st, sc in next st; rep from * around to last 0 (1, 0) st, sc in last 0 (1, 0) st. Join.
"""


@pytest.mark.parametrize(
    "title", ["Baby Hat - sizes 0-3 months (3-6 months, 6-12 months)", "Baby Hat"]
)
@pytest.mark.parametrize(
    ("size", "wanted"),
    [
        (0, [8, 16, 24, 24, 24, 24]),
        (1, [9, 18, 27, 27, 27, 27, 27]),
        (2, [10, 20, 30, 30, 30, 30, 30, 30]),
    ],
)
def test_a_hat_in_three_sizes_named_in_its_title_or_nowhere(
    title: str, size: int, wanted: list[int]
) -> None:
    names = prove_text(f"{title}\n\n{HAT}").sizes
    assert len(names) == 3
    proof = prove_text(f"{title}\n\n{HAT}", size=names[size])
    assert (proof.verdict, made(proof)) == ("proved", wanted)


def test_one_list_of_numbers_is_no_size() -> None:
    text = "US terms.\nRnd 1: 6 sc in magic ring. (6)\nRnds 2-4: Sc in each st, inc 6 times evenly. (12, 18, 24)\n"
    assert not prove_text(text).sizes


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("sc in next 0 sts, sc2tog, sc in next 16 sts, sc2tog. (18)", 18),
        ("*sc in next 2 sts; rep from * to last 0 sts, sc in last 0 sts. (20)", 20),
        ("[sc in next 2 sts, sc2tog] 0 times, sc in each st across. (20)", 20),
        ("sc in first 10 sts, skip 0 sts, sc in last 10 sts. (20)", 20),
        ("sc in first 10 sts, 2 sc in each of next 0 sts, sc in last 10 sts. (20)", 20),
        ("sc in next 20 sts, sc in next 0 sts. (20)", 20),
    ],
)
def test_a_number_that_is_nothing_in_this_size_is_left_out(words: str, wanted: int) -> None:
    text = f"US terms.\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20)\nRow 2: Ch 1, turn, {words}\n"
    proof = prove_text(text)
    assert (proof.verdict, made(proof)) == ("proved", [20, wanted])


@pytest.mark.parametrize("nothing", ["-", "–"])
@pytest.mark.parametrize(("size", "wanted"), [("S", [12, 12]), ("M", [12, 18, 18]), ("L", [12, 18, 24, 24])])  # fmt: skip
def test_a_list_may_begin_with_nothing_for_the_first_size(
    nothing: str, size: str, wanted: list[int]
) -> None:
    # S stops at 12, M increases once more by six, L twice.
    proof = prove_text(
        "Cap\nSizes: S (M, L)\nUS terms\nRnd 1: 6 sc in magic ring.\n"
        "Rnd 2: 2 sc in each st around. 12 (12, 12) sc\n"
        f"Rnd 3 (M and L only): *sc in next st, 2 sc in next st; rep from * around, sl st. {nothing} (18, 18) sc\n"
        f"Rnd 4 (L only): *sc in next 2 sts, 2 sc in next st; rep from * around, sl st. {nothing} ({nothing}, 24) sc\n"
        "Next rnd: sc in each st around. 12 (18, 24) sc\n",
        size=size,
    )
    assert (proof.verdict, made(proof)[1:]) == ("proved", wanted)
