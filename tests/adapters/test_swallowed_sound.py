"""Sound that is taken and not heard is told; a busy machine that catches up is not."""

from __future__ import annotations

from coach.adapters.swallowed_sound import SwallowedSound


def device(latency: float = 0.2) -> SwallowedSound:
    made = SwallowedSound()
    made.opened(latency)
    made.started(1, 100.0)
    return made


def test_a_device_that_takes_thirty_seconds_in_three_tenths_is_told_once() -> None:
    sound = device()
    told = [sound.look(1, taken, 100.0 + taken / 100) for taken in (10.0, 20.0, 30.0)]

    assert told == [False, True, False]


def test_a_device_in_step_is_never_told_nor_one_that_is_behind() -> None:
    sound = device()

    assert not any(sound.look(1, tick / 10, 100.0 + tick / 10) for tick in range(100))
    assert not any(sound.look(1, tick / 20, 110.0 + tick / 10) for tick in range(100))


def test_a_device_that_catches_up_after_a_stall_fills_its_buffer_once() -> None:
    """It stood still; the line began in the middle of its catching up, 1.2 seconds at once."""
    sound = device()

    assert not any(sound.look(1, 1.2 + tick / 10, 100.0 + tick / 10) for tick in range(50))


def test_a_line_that_begins_between_two_looks_lends_its_beginning_to_none() -> None:
    """Five seconds of line 1 had sounded when line 2 began, just before this look was over."""
    sound = device()
    for tick in range(50):
        assert not sound.look(1, tick / 10, 100.0 + tick / 10)
    sound.started(2, 105.0)

    assert not sound.look(1, 5.0, 105.0)
    assert not sound.look(1, 5.1, 105.1)
    assert not sound.look(2, 0.2, 105.2)
