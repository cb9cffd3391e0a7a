"""Repeats within a row: those with a number, and open ones tried with every end that may fit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from coach.craft.fabric_ahead import stitches_left
from coach.craft.hand import Hand, items_made, work_done
from coach.craft.instruction import Instruction, Repeated
from coach.craft.open_ends import demand_of
from coach.craft.open_stretches import open_each
from coach.craft.pass_runs import Runs, come_round, stretched, wound_on
from coach.craft.problem import Verdict
from coach.craft.repeat_ends import bound_met, clear_bound, ends_of, named_bound, said_again
from coach.craft.row_bench import Bench, Misfit

WINDOW = 14  # passes kept before the end of an open repeat, to go back to


def counted(bench: Bench, item: Repeated, hand: Hand) -> Hand:
    """A repeat with a number: so many passes, whether they fit or not."""
    if item.custom == "others":
        return _for_the_others(bench, item, hand)
    total = item.times or 1
    if item.custom == "more":
        total += 1
    elif item.custom == "either":
        bench.looked.add(("star", 0))
        total += 0 if bench.switches.star_in_all else 1
    last = total - 1 if item.stop_at is not None else total
    runs, hand = run(bench, item.body, hand, last, None)
    if item.stop_at is not None:
        runs, hand = once(bench, item.body[: item.stop_at], hand, runs)
    hand = runs.told(hand)
    if item.extra_stop is not None:
        hand = bench.work_all(item.body[: item.extra_stop], hand)
    return hand


def _counted_and_ended(
    bench: Bench, item: Repeated, hand: Hand, tail: Sequence[Instruction]
) -> Iterator[Hand]:
    """ "9 more times, ending last repeat with ss in first st": what stands last gives way to it."""
    whole = replace(item, ending=False)
    yield counted(bench, whole, hand)
    for length in range(len(item.body) - 1, 0, -1):
        if not said_again(item.body[:length], item, tail):
            try:
                yield counted(bench, replace(whole, stop_at=length), hand)
            except Misfit:
                continue


def _for_the_others(bench: Bench, item: Repeated, hand: Hand) -> Hand:
    """ "Do that for the other three corners": three times more, or three with the one just told.

    How many there are below decides.
    """
    times = item.times or 1
    more = replace(item, times=times + 1, custom="in all")
    try:
        after = counted(bench, more, hand)
    except Misfit:
        after = None
    if after is not None and (after.over, after.over_spaces) == (hand.over, hand.over_spaces):
        return after
    return counted(bench, replace(item, times=times, custom="in all"), hand)


def once(bench: Bench, body: Sequence[Instruction], hand: Hand, runs: Runs) -> tuple[Runs, Hand]:
    """One more pass, of another length."""
    after = bench.work_all(body, replace(hand, out=None, work=None))
    return runs.adding(items_made(after), work_done(after), 1), replace(
        after, out=hand.out, work=hand.work
    )


def run(
    bench: Bench,
    body: Sequence[Instruction],
    hand: Hand,
    total: int,
    keep: list[tuple[Runs, Hand]] | None,
) -> tuple[Runs, Hand]:
    """Work *total* passes; what comes round again is not worked again."""
    runs = Runs(hand)
    states: list[tuple[Hand, Runs]] = [(hand, runs)]
    number = 0
    while number < total:
        runs, after = once(bench, body, hand, runs)
        number += 1
        left = total - number
        if left and after.rest is None and hand.rest is None:
            runs, after = runs.again(1, left), stretched(hand, after, left)
            return runs, after
        hand = after
        states.append((hand, runs))
        skipped = come_round(states, left, 2) if left else None
        if skipped:
            times, period = skipped
            hand, runs = wound_on(states, times, period)
            number += times * period
            states = [(hand, runs)]
    return runs, hand


def open_outcomes(
    bench: Bench, item: Instruction, hand: Hand, tail: tuple[Instruction, ...]
) -> Iterator[Hand]:
    """Yield the hands after an open instruction, likeliest first."""
    demand = demand_of(tail)
    if not isinstance(item, Repeated):
        yield from open_each(bench, item, hand, tail)
        return
    if item.times is not None:
        yield from _counted_and_ended(bench, item, hand, tail)
        return
    if item.loose:
        for cut in range(len(item.body)):
            whole = replace(item, body=item.body[cut:], loose=False)
            try:
                before = bench.work_all(item.body[:cut], hand) if cut else hand
                yield from open_outcomes(bench, whole, before, tail)
            except Misfit:
                continue
        return
    states = open_passes(bench, item, hand, demand)
    _note_fit(bench, item, states, demand)
    item = replace(item, until=named_bound(item.until, tail))
    yield from _cut(bench, item, states, demand, tail)


def _cut(
    bench: Bench,
    item: Repeated,
    states: list[tuple[Hand, Runs]],
    demand: int,
    tail: Sequence[Instruction],
) -> Iterator[Hand]:
    ends = [body for body in ends_of(bench, item) if not said_again(body, item, tail)]
    if item.until is not None and clear_bound(item.until):
        for hand, runs in states:
            if bound_met(bench, item.until, hand):
                yield runs.told(hand)
        if item.stop_at is None:
            return
    ordered = sorted(
        enumerate(states),
        key=lambda pair: (stitches_left(pair[1][0].rest) != demand, -pair[0]),
    )
    for _, (hand, runs) in ordered:
        if item.ending or item.stop_at is not None:
            yield from _ended(bench, ends, hand, runs)
        if item.stop_at is None and runs.number:
            yield runs.told(hand)
        if not item.ending and item.stop_at is None:
            yield from _ended(bench, ends, hand, runs)


def _ended(
    bench: Bench, ends: Sequence[tuple[Instruction, ...]], hand: Hand, runs: Runs
) -> Iterator[Hand]:
    """Yield the hand after a last pass that is cut short, longest first."""
    for body in ends:
        try:
            more, after = once(bench, body, hand, runs)
        except Misfit:
            continue
        if after.over == hand.over:
            yield more.told(after)


def open_passes(bench: Bench, item: Repeated, hand: Hand, demand: int) -> list[tuple[Hand, Runs]]:
    """Work passes until one no longer fits; return every state that may be the last."""
    runs = Runs(hand)
    states: list[tuple[Hand, Runs]] = [(hand, runs)]
    kept: list[tuple[Hand, Runs]] = [(hand, runs)]
    idle = False
    while hand.rest is not None or not runs.number:
        try:
            runs, after = once(bench, item.body, hand, runs)
        except Misfit as fault:
            if runs.number or fault.code is not Verdict.NO_SUCH_PLACE:
                break
            raise
        if after.over > hand.over or after.over_spaces > hand.over_spaces:
            break
        if after.rest is hand.rest and idle:
            break  # passes that use nothing would never end
        idle = after.rest is hand.rest
        per_pass = max(after.used - hand.used, 1)
        hand = after
        states.append((hand, runs))
        kept.append((hand, runs))
        aside = WINDOW + (demand + _held_back(item)) // per_pass
        skipped = come_round(states, None, aside)
        if skipped:
            times, period = skipped
            hand, runs = wound_on(states, times, period)
            states = [(hand, runs)]
            kept.append((hand, runs))
    return kept


def _held_back(item: Repeated) -> int:
    return item.until.count if item.until and item.until.kind == "last" else 0


def _note_fit(bench: Bench, item: Repeated, states: list[tuple[Hand, Runs]], demand: int) -> None:
    if len(states) < 2:
        return
    outside = states[0][0].used + demand
    if item.stop_at is not None:
        outside += demand_of(item.body[: item.stop_at])
    each = states[1][0].used - states[0][0].used
    bench.fit = (outside, each, states[0][0].used + stitches_left(states[0][0].rest))
