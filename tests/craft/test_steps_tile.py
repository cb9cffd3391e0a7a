"""Whatever the row: the steps number every stitch once, and use up what the row uses."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from coach.craft.merging import sums_of
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.craft.steps import Pace
from coach.craft.working import Action, Work
from tests.craft.rows_by_hand import (
    TURN,
    chain,
    colored,
    decrease,
    each,
    in_space,
    increase,
    join,
    piece,
    repeat,
    row,
    skip,
    top_of_chain,
    turning,
)

BLOCKS = st.one_of(
    st.builds(each, st.sampled_from(["sc", "dc", "FPdc", "BPdc", "bobble"]), st.integers(1, 7)),
    st.builds(colored, st.just("sc"), st.integers(1, 5), st.sampled_from(["A", "B"])),
    st.builds(chain, st.integers(1, 4)),
    st.builds(skip, st.integers(1, 3)),
    st.builds(increase, st.just("dc"), st.integers(2, 5), st.integers(1, 3)),
    st.builds(decrease, st.sampled_from(["sc2tog", "dc2tog"]), st.integers(1, 3)),
    st.builds(in_space, st.just(each("dc", 2)), st.just(chain(2)), st.just(each("dc", 2))),
    st.just(Action("marker")),
)
WORK = st.recursive(
    st.lists(BLOCKS, min_size=1, max_size=4).map(tuple),
    lambda inner: st.tuples(
        st.lists(BLOCKS, max_size=2), st.integers(1, 5), inner, st.one_of(st.none(), inner)
    ).map(lambda made: (*made[0], repeat(made[1], *made[2], last=made[3]))),
    max_leaves=4,
)
ROWS = st.tuples(
    st.sampled_from([(), (turning(1), TURN), (TURN, turning(3, "dc"))]),
    WORK,
    st.sampled_from([(), (TURN,), (top_of_chain(), TURN), (join(),)]),
).map(lambda parts: (*parts[0], *parts[1], *parts[2]))


@given(ROWS, st.sampled_from(Pace))
@settings(max_examples=150, deadline=None)
def test_the_stitch_numbers_tile_the_row(work: tuple[Work, ...], pace: Pace) -> None:
    sums = sums_of(work)
    (stage, *_) = stages(piece(row(2, *work)))
    told = list(steps(stage, pace))

    number = 0
    for step in told:
        assert step.made_before == number
        if step.last:
            assert step.first == number + 1
            number = step.last
    if sums.uses or sums.made or sums.made_spaces:
        assert number == sums.made
        assert sum(step.uses for step in told) == sums.uses
        assert sum(step.uses_spaces for step in told) == sums.uses_spaces
    assert [step.number for step in told] == list(range(1, len(told) + 1))
    assert [step.closes_stage for step in told] == [False] * (len(told) - 1) + [True]


@given(ROWS)
@settings(max_examples=100, deadline=None)
def test_every_pass_opens_once_and_is_numbered_in_order(work: tuple[Work, ...]) -> None:
    (stage, *_) = stages(piece(row(2, *work)))
    outer = [step for step in steps(stage) if step.opens and step.opens == len(step.passes)]

    before = None
    for step in outer:
        here = step.passes[0]
        assert here.number == 1 or before == (here.number - 1, here.of)
        before = (here.number, here.of)
