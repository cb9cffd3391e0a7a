"""Repeats within a row: those with a number, and open ones tried with every end that may fit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from coach.craft.each_place import each_of
from coach.craft.fabric import (
    Run,
    opened,
    spaces_left,
    stitches_left,
)
from coach.craft.hand import Hand, items_made, work_done
from coach.craft.open_ends import demand_of
from coach.craft.pass_runs import Runs, come_round, stretched, wound_on
from coach.craft.pattern import (
    Bound,
    EachOf,
    GroupIn,
    Instruction,
    Make,
    Of,
    Repeated,
    Target,
    Which,
)
from coach.craft.places_wanted import left_of, sought, target_of
from coach.craft.problem import Verdict
from coach.craft.row_bench import Bench, Misfit
from coach.craft.stitch import legs

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
    item = replace(item, until=_named_bound(item.until, tail))
    yield from _cut(bench, item, states, demand, tail)


def _named_bound(until: Bound | None, tail: Sequence[Instruction]) -> Bound | None:
    """Return "to last sc" with its name, which the words after it give: "dc in last sc"."""
    first = tail[0] if tail else None
    if until is None or until.kind != "last" or until.noun.of is not Of.STITCH:
        return until
    if not isinstance(first, Make) or first.target is None or first.target.which is not Which.LAST:
        return until
    named = first.target.noun.of is Of.NAMED and first.target.count == until.count
    return replace(until, noun=first.target.noun) if named else until


def _cut(
    bench: Bench,
    item: Repeated,
    states: list[tuple[Hand, Runs]],
    demand: int,
    tail: Sequence[Instruction],
) -> Iterator[Hand]:
    ends = [body for body in _ends(bench, item) if not _said_again(body, item, tail)]
    if item.until is not None and _clear_bound(item.until):
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


def _said_again(body: Sequence[Instruction], item: Repeated, tail: Sequence[Instruction]) -> bool:
    """Tell whether a pass cut short ends with what "ending 6 ch" says after it: worked only once."""
    if not item.ending or not tail or not body:
        return False
    return type(body[-1]) is type(tail[0]) and replace(body[-1], place=tail[0].place) == tail[0]


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


def _ends(bench: Bench, item: Repeated) -> list[tuple[Instruction, ...]]:
    body = item.body
    if item.stop_at is not None:
        return [body[: item.stop_at]]
    if item.ending:
        cut: list[tuple[Instruction, ...]] = []
        for length in range(len(body), 0, -1):
            shorter = _one_fewer(body[length - 1])
            cut += [(*body[: length - 1], each) for each in shorter]
            if length > 1:
                cut.append(body[: length - 1])
        return cut
    first = body[0]
    if bench.ground.round and isinstance(first, Make | EachOf) and _bounded(first):
        return [(first,)]
    return []


def _clear_bound(until: Bound) -> bool:
    return (
        until.noun.of in (Of.STITCH, Of.NAMED, Of.CHAIN, Of.TURNING_CHAIN, Of.STITCH_OR_SPACE)
        or until.noun.of is Of.SPACE
    )


def bound_met(bench: Bench, until: Bound, hand: Hand) -> bool:
    """Tell whether the work stands where the repeat is said to stop."""
    noun = until.noun
    if until.kind == "last":
        if noun.of is Of.SPACE:
            wanted = sought(bench, Target(Which.NEXT, noun), hand)
            return left_of(hand.rest, wanted) == until.count
        if noun.of is Of.STITCH_OR_SPACE:
            return stitches_left(hand.rest) + spaces_left(hand.rest) == until.count
        left = {stitches_left(hand.rest)}
        if noun.of is Of.NAMED:  # "to last sc", with dc before it that are passed over
            left.add(left_of(hand.rest, sought(bench, Target(Which.NEXT, noun), hand)))
        return until.count in left
    if noun.of is Of.TURNING_CHAIN:
        return stitches_left(hand.rest) == 1
    if hand.rest is None:
        return False
    which = Which.CORNER if noun.of is Of.SPACE and noun.length is None else Which.NEXT
    run = opened(hand.rest).item
    return isinstance(run, Run) and sought(bench, Target(which, noun), hand)(run.cell)


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


def open_each(
    bench: Bench, item: Instruction, hand: Hand, tail: Sequence[Instruction]
) -> Iterator[Hand]:
    """An "each" that runs to the end: what follows it needs its own places."""
    demand = demand_of(tail)
    many, until = _as_each(item)
    if many is None:
        yield bench.step(item, hand)
        return
    firsts, many = _firsts(many)
    for first in firsts:
        hand = bench.step(first, hand)
    left = stitches_left(hand.rest)
    if until is not None:
        yield each_of(bench, many, hand, None)
        return
    if demand and _takes_all(many, tail) and not bench.states_count:
        yield each_of(bench, many, hand, left)
        return
    tried = dict.fromkeys(
        most
        for most in (
            left - demand,
            left,
            left - demand - 1,
            left - demand + 1,
            left - 1,
            left - 2,
        )
        if 0 <= most <= left
    )
    if not tried:
        tried = {0: None}
    for most in tried:
        yield each_of(bench, many, hand, most)


def _takes_all(many: EachOf, tail: Sequence[Instruction]) -> bool:
    """Tell whether "in each st across" is followed by more of the next stitches: none are left.

    "In the last st" or "in the turning chain" after it is the end of the stretch itself, and
    so is an increase or the one "next st" that an edge is closed with.
    """
    target = target_of(many.parts[-1])
    if len(many.parts) > 1 or not target.open or target.noun.of is not Of.STITCH or not tail:
        return False
    first = tail[0]
    return (
        isinstance(first, Make)
        and first.target is not None
        and first.target.which is Which.NEXT
        and first.target.noun.of is Of.STITCH
        and first.target.count > 1
        and first.each == 1
        and legs(first.stitch) == 1
    )


def _bounded(item: Make | EachOf) -> bool:
    if isinstance(item, EachOf):
        return item.until is not None
    return item.target is not None and item.target.until is not None


def _as_each(item: Instruction) -> tuple[EachOf | None, Bound | None]:
    if isinstance(item, EachOf):
        return item, item.until
    if isinstance(item, Make | GroupIn) and item.target is not None:
        return EachOf((item,), item.place, None), None
    return None, None


def _one_fewer(item: Instruction) -> Sequence[Instruction]:
    """Return *item* over fewer places: "omitting last sc" of "sc in next 2 sts"."""
    if not isinstance(item, Make):
        return []
    if item.target is None:
        return [replace(item, each=number) for number in range(item.each - 1, 0, -1)][:4]
    if item.target.which is Which.NEXT and item.target.count > 1:
        counts = range(item.target.count - 1, 0, -1)
        return [replace(item, target=replace(item.target, count=count)) for count in counts][:4]
    return []


def _firsts(item: EachOf) -> tuple[list[Instruction], EachOf]:
    """Part "in next st and in each st across" into the named places and the open stretch."""
    part = item.parts[0]
    target = target_of(part)
    if len(item.parts) > 1 or not target.also:
        return [], item
    places = (target, *target.also)
    closed = [each for each in places if each.which is not Which.EACH]
    rest = [each for each in places if each.which is Which.EACH]
    if places[0].which is Which.EACH:
        closed = []
    firsts: list[Instruction] = [replace(part, target=replace(each, also=())) for each in closed]
    parts = tuple(replace(part, target=replace(each, also=())) for each in rest)
    return firsts, EachOf(parts, item.place, None)
