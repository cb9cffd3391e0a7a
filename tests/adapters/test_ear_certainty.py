"""How sure a lead is: the measured shares, straight lines between them, never falling."""

from __future__ import annotations

import pytest

from coach.adapters.ear_certainty import KNOTS, certainty


@pytest.mark.parametrize(
    ("lead", "share"),
    [(-30.0, 0.03), (-3.5, 0.145), (0.5, 0.60), (1.0, 0.725), (3.0, 0.865), (5, 0.97), (40, 0.97)],
)
def test_a_lead_gives_the_share_that_was_right(lead: float, share: float) -> None:
    assert certainty(lead) == pytest.approx(share)


def test_a_greater_lead_is_never_less_sure() -> None:
    shares = [certainty(lead / 10) for lead in range(-80, 80)]

    assert shares == sorted(shares)
    assert all(0 <= share <= 1 for _, share in KNOTS)
