"""What has stopped is noticed in time; a machine that is late itself accuses nobody."""

from __future__ import annotations

import pytest

from coach.adapters.heartbeat import Heartbeat


class Clock:
    def __init__(self) -> None:
        self.time = 100.0

    def __call__(self) -> float:
        return self.time


def looks(heart: Heartbeat, clock: Clock, *at: float) -> list[float]:
    """Return those of the times at which something was missing for more than 0.8 seconds."""
    missing = []
    for each in at:
        clock.time = 100 + each
        if heart.is_missing(0.8):
            missing.append(each)
    return missing


TENTHS = tuple(tenth / 10 for tenth in range(1, 13))


def test_what_beats_is_never_missing() -> None:
    clock = Clock()
    heart = Heartbeat(0.1, clock)
    for tenth in range(50):
        clock.time = 100 + tenth / 10
        heart.beat()
        assert not heart.is_missing(0.8)


def test_what_stops_is_missing_as_soon_as_patience_is_over() -> None:
    clock = Clock()
    heart = Heartbeat(0.1, clock)

    assert looks(heart, clock, *TENTHS) == [0.9, 1.0, 1.1, 1.2]


def test_a_late_look_proves_nothing_and_neither_do_those_just_after_it() -> None:
    """The machine stood still for 2 s: blocks and looks alike. The block comes a little after."""
    clock = Clock()
    heart = Heartbeat(0.1, clock)

    assert looks(heart, clock, 0.1, 2.1, 2.2, 2.3) == []
    heart.beat()
    assert looks(heart, clock, 2.4, 2.5) == []


def test_after_a_late_look_what_has_stopped_is_missing_all_the_same() -> None:
    clock = Clock()
    heart = Heartbeat(0.1, clock)

    # The look at 2.15 is late, so patience lasts until 2.95.
    assert looks(heart, clock, *(2.05 + each for each in TENTHS)) == pytest.approx(
        [3.05, 3.15, 3.25]
    )


def test_the_first_sign_may_come_later() -> None:
    clock = Clock()
    heart = Heartbeat(0.1, clock)
    heart.begin(grace=0.3)

    assert looks(heart, clock, *TENTHS) == [1.2]
