"""One switch reaches everything, at the maker's own times, and never by a tremble."""

from __future__ import annotations

import random

import pytest

from coach.guide.bindings import BINDINGS
from coach.guide.commands import Command
from coach.tui.keys import Guard
from coach.tui.switch import (
    Item,
    Scanner,
    SwitchTimes,
    answer_items,
    command_items,
    number_items,
    proposed_scan_time,
)


def scanner(scan: float = 1.5, passes: int = 2) -> Scanner:
    return Scanner(command_items(BINDINGS), SwitchTimes(scan, passes))


def offered(switch: Scanner) -> list[str]:
    return [switch.offer.label] if switch.offer else []


def test_a_scan_starts_by_a_press_and_ends_by_itself() -> None:
    switch = scanner(scan=1.5, passes=2)
    assert not offered(switch)
    switch.press(100.0)
    seen: list[str] = []
    while (due := switch.due) is not None:
        seen += offered(switch)
        switch.tick(due)
    assert seen == ["Next", "Undo that", "Repeat", "Where am i", "More"] * 2
    assert not switch.tick(10**9)  # a year later still nothing


def test_a_press_takes_what_is_on_offer() -> None:
    switch = scanner(scan=1.5)
    switch.press(0.0)
    switch.tick(1.5)
    taken = switch.press(2.9)
    assert taken is not None
    assert taken.command is Command.UNDO
    assert switch.offer is None


def test_every_command_can_be_reached_within_the_time_of_its_turn() -> None:
    for binding in BINDINGS:
        if binding.command is Command.CHOOSE:
            continue  # its numbers are the answers themselves
        assert reached(binding.command) is not None, binding.command


def reached(wanted: Command) -> int | None:
    """How many presses lead to a command, opening groups on the way."""
    switch, at = scanner(), 0.0
    switch.press(at)
    presses = 1
    for _ in range(200):
        offer, due = switch.offer, switch.due
        if offer is None or due is None:
            return None
        if offer.command is wanted or (offer.group and not near(switch, wanted)):
            presses += 1
            if switch.press(at + 0.1) is not None:
                return presses
            at += 0.1
        else:
            at = due
            switch.tick(at)
    return None


def near(switch: Scanner, wanted: Command) -> bool:
    return any(item.command is wanted for item in switch._offered)


@pytest.mark.parametrize("scan", [0.5, 0.6, 1.5, 10.1, 20.0])
def test_scan_times_go_from_half_a_second_to_twenty(scan: float) -> None:
    switch = scanner(scan)
    switch.press(0.0)
    assert not switch.tick(scan - 0.01)
    assert switch.tick(scan)


@pytest.mark.parametrize("scan", [0.4, 20.1])
def test_other_scan_times_are_refused(scan: float) -> None:
    with pytest.raises(ValueError, match=r"0\.5 to 20"):
        SwitchTimes(scan)


def test_ten_presses_propose_a_scan_time() -> None:
    # Worked from the formula of RESNA 2006: mean press time 0.975 s / 0.65 = 1.5 s.
    times = [0.9, 1.0, 1.0, 1.0, 0.9, 1.0, 0.95, 1.05, 0.95, 1.0]
    assert proposed_scan_time(times) == 1.5
    assert proposed_scan_time([0.1]) == 0.5
    assert proposed_scan_time([60]) == 20.0


def test_digits_are_scanned_for_a_number() -> None:
    assert [item.label for item in number_items("")][:2] == ["1", "2"]
    assert number_items("7")[0].sign == "enter"
    assert answer_items(["Counts", "Does not"])[1] == Item("Does not", sign="2")


def test_two_hundred_steps_take_two_hundred_presses() -> None:
    guard, steps, at, presses = Guard(), 0, 0.0, 0
    while steps < 200:
        at += 30.0  # a block takes half a minute
        presses += 1
        steps += guard.counts("space", at)
    assert presses / steps <= 1.2


def test_ten_thousand_double_hits_never_count_twice() -> None:
    chance, at = random.Random(5), 0.0  # noqa: S311  the same hits in every run
    guard = Guard(lock_out=0.7)
    for _ in range(10_000):
        at += 2 + chance.random()
        assert guard.counts("space", at)
        assert not guard.counts("space", at + 0.01 + chance.random() * 0.68)


@pytest.mark.parametrize("delay", [0.033, 0.25, 0.5, 0.66])
def test_a_pedal_held_ten_seconds_at_thirty_a_second_is_one_step(delay: float) -> None:
    guard = Guard()
    presses = [0.0, *(delay + number / 30 for number in range(300))]
    assert [guard.counts("pagedown", at) for at in presses].count(True) == 1


def test_a_shorter_lock_out_would_take_a_held_pedal_for_two_presses() -> None:
    presses = [0.0, *(0.5 + number / 30 for number in range(300))]
    short = Guard(lock_out=0.35)
    assert [short.counts("pagedown", at) for at in presses].count(True) == 2


def test_after_letting_go_the_next_press_counts() -> None:
    guard = Guard()
    held = [number / 30 for number in range(300)]
    assert [guard.counts("f13", at) for at in held].count(True) == 1
    assert guard.counts("f13", held[-1] + 0.8)


@pytest.mark.parametrize("lock_out", [0.0, 0.5, 5.0])
def test_the_lock_out_is_the_maker_s_own(lock_out: float) -> None:
    guard = Guard(lock_out=lock_out, held=0)
    assert guard.counts("space", 0)
    assert guard.counts("space", lock_out + 0.01)


def test_another_key_is_never_locked_out() -> None:
    guard = Guard()
    assert guard.counts("space", 0)
    assert guard.counts("r", 0.05)


@pytest.mark.parametrize("acceptance", [0.3, 1.0, 2.0])
def test_a_touch_shorter_than_the_acceptance_does_nothing(acceptance: float) -> None:
    guard = Guard(acceptance=acceptance)
    brushed = [guard.counts("space", at) for at in (0.0, 5.0, 10.0)]
    assert brushed == [False] * 3
    meant = [20.0, *(20.5 + number / 30 for number in range(90))]
    counted = [at for at in meant if guard.counts("space", at)]
    assert len(counted) == 1
    assert acceptance <= counted[0] - 20.0 < max(acceptance, 0.5) + 0.05
