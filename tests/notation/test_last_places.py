"""A named last stitch, reached over the others of its group without a word."""

from __future__ import annotations

import pytest

from coach.app.proving import prove_text

# Row 1 is sc, 5 tr, sc, 5 tr, sc = 13; Row 2 is a half shell of 3, sc, 5, sc, 3 = 13.
FRILL = """\
Frill (US terms)
Special: Fan = 5 tr in same st.
Ch 14.
Row 1: Sc in 2nd ch from hook, [sk 2 ch, fan in next ch, sk 2 ch, sc in next ch] twice, turn. (2 fans, 3 sc)
Row 2: Ch 4 (counts as tr), 2 tr in first sc, sc in center tr of next fan, fan in next sc, sc in center tr of \
next fan, 3 tr in last sc, turn. (13 sts)
{row}
"""


@pytest.mark.parametrize(
    ("row", "worked", "made"),
    [
        # sc, fan, sc, fan, sc: 13 made; the 2 tr at each end are passed, so all 13 are used.
        ("Row 3: Ch 1, sc in first tr, fan in next sc, sc in center tr of next fan, fan in next sc, sc in last tr. (13 sts)", 13, 13),
        ("Row 3: Ch 1, sc in first tr, fan in next sc, sc in center tr of next fan, fan in next sc, sc in top of ch-4. (13 sts)", 13, 13),
        # The last is said to be skipped to: the same.
        ("Row 3: Ch 1, sc in first tr, fan in next sc, sc in center tr of next fan, fan in next sc, sk 2 tr, sc in top of ch-4. (13 sts)", 13, 13),
        ("Row 3: Ch 1, sc in first tr, fan in next sc, sc in center tr of next fan, fan in next sc, ch 2, sc in last tr. (13 sts)", 13, 13),
    ],
)  # fmt: skip
def test_the_others_of_a_half_shell_are_passed(row: str, worked: int, made: int) -> None:
    proof = prove_text(FRILL.format(row=row))

    assert proof.problems == ()
    assert (proof.rows[-1].worked, proof.rows[-1].made) == (worked, made)


@pytest.mark.parametrize(
    "row",
    [
        # Plain stitches are not passed over: 2 + 1 of 13 are worked.
        "Row 3: Ch 1, sc in each of first 10 sts, sc in last tr.",
        # A whole fan lies between: it is left out.
        "Row 3: Ch 1, sc in first tr, fan in next sc, sc in top of ch-4.",
    ],
)
def test_stitches_left_out_are_told(row: str) -> None:
    assert prove_text(FRILL.format(row=row)).problems != ()
