"""What stands on the screen: answers go when a new order is answered, "repeat" reads on."""

from dataclasses import replace

from coach.tui.standing import Standing
from coach.tui.window import Told
from tests.tui.views import CHAIN, FAULT, RIB

WHERE = Told("You are in row 6, block 2 of 5.", "Row 6")
LOST = Told("The microphone is gone.", "No microphone")


def standing() -> Standing:
    stands = Standing()
    stands.begin_act()
    stands.show(RIB, 1)
    return stands


def test_an_answer_goes_when_the_next_step_comes_by_voice() -> None:
    stands = standing()
    stands.begin_act()
    stands.tell(WHERE, 1)
    assert stands.told == [WHERE]
    stands.begin_act()
    stands.show(CHAIN, 1)
    assert (stands.view, stands.told) == (CHAIN, [])


def test_a_notice_in_the_same_act_stands_beside_the_step() -> None:
    stands = standing()
    stands.begin_act(ordered=True)
    stands.tell(LOST, 1)
    stands.show(CHAIN, 1)
    assert stands.told == [LOST]


def test_a_notice_of_its_own_takes_no_answer_away() -> None:
    stands = standing()
    stands.begin_act(ordered=True)
    stands.tell(WHERE, 1)
    stands.begin_act()
    stands.tell(LOST, 1)
    assert stands.told == [WHERE, LOST]
    stands.begin_act(ordered=True)
    stands.tell(Told("Faster."), 1)
    assert stands.told == [Told("Faster.")]


def test_repeat_reads_on_to_the_last_leaf_and_then_begins_again() -> None:
    stands = standing()
    again = Told(RIB.sentence, "3 front post double")
    leaves = []
    for _ in range(4):
        stands.begin_act()
        stands.tell(again, 3)
        leaves.append(stands.leaf)
    assert leaves == [1, 2, 0, 1]
    assert (stands.view, stands.told) == (RIB, [])


def test_an_answer_asked_for_again_reads_on_too() -> None:
    stands = standing()
    leaves = []
    for _ in range(4):
        stands.begin_act(ordered=True)
        stands.tell(WHERE, 2)
        leaves.append(stands.leaf)
    assert leaves == [0, 1, 0, 1]
    assert stands.told == [WHERE]


def test_repeat_reads_an_opening_notice_to_its_end_and_then_drops_it() -> None:
    stands = standing()
    stands.begin_act()
    stands.show(FAULT, 1)
    plain = replace(FAULT, notice="")
    seen = []
    for _ in range(2):
        stands.begin_act()
        stands.show(plain, 2)
        seen.append((stands.view.notice, stands.leaf))
    assert seen == [(FAULT.notice, 1), ("", 0)]


def test_the_next_step_begins_on_its_first_leaf() -> None:
    stands = standing()
    stands.turn_leaf(1, 3)
    assert stands.leaf == 1
    stands.begin_act(ordered=True)
    stands.show(CHAIN, 3)
    assert stands.leaf == 0
    stands.turn_leaf(-1, 3)
    assert stands.leaf == 2
