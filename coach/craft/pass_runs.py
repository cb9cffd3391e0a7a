"""The passes of a repeat: counted as they come round, and wound on without being worked again."""

from __future__ import annotations

from dataclasses import dataclass, replace

from coach.craft import fabric
from coach.craft.fabric import Item
from coach.craft.fabric_ahead import count_at, drift, lowered
from coach.craft.hand import Hand, passes
from coach.craft.working import Work


@dataclass(frozen=True, slots=True)
class Runs:
    """The passes of a repeat so far: what each made and how it was worked, with counts."""

    start: Hand
    made: tuple[tuple[tuple[Item, ...], int], ...] = ()
    worked: tuple[tuple[tuple[Work, ...], int], ...] = ()
    number: int = 0

    def adding(self, items: tuple[Item, ...], works: tuple[Work, ...], times: int) -> Runs:
        """Return the runs with one kind of pass more, *times* over."""
        return Runs(
            self.start,
            _counted_on(self.made, items, times),
            _counted_on(self.worked, works, times),
            self.number + times,
        )

    def again(self, period: int, times: int) -> Runs:
        """Return the runs with the last *period* passes *times* over again."""
        if period == 1:
            return self.adding(self.made[-1][0], self.worked[-1][0], times)
        made = tuple(
            item
            for part, count in _last_of(self.made, period)
            for item in fabric.section(part, count)
        )
        works = tuple(
            work
            for part, count in _last_of(self.worked, period)
            for work in passes([(part, count)])
        )
        kinds = _last_of(self.worked, period)
        if len(kinds) == 1:
            return Runs(
                self.start,
                (*self.made, (fabric.joined(made), times)),
                _counted_on(self.worked, kinds[0][0], times * period),
                self.number + times * period,
            )
        return Runs(
            self.start,
            (*self.made, (fabric.joined(made), times)),
            (*self.worked, (works, times)),
            self.number + times * period,
        )

    def told(self, hand: Hand) -> Hand:
        """Return the hand with all these passes made and told after the start."""
        made = tuple(item for part, count in self.made for item in fabric.section(part, count))
        return hand.making(fabric.joined(made), *passes(list(self.worked)))


def _counted_on(parts: tuple, part: tuple, times: int) -> tuple:  # type: ignore[type-arg]
    if parts and parts[-1][0] == part:
        return (*parts[:-1], (part, parts[-1][1] + times))
    return (*parts, (part, times))


def _last_of(parts: tuple, number: int) -> list:  # type: ignore[type-arg]
    """Return the last *number* passes as (part, count), in order."""
    out: list = []  # type: ignore[type-arg]
    for part, count in reversed(parts):
        if number <= 0:
            break
        taken = min(count, number)
        out.append((part, taken))
        number -= taken
    return out[::-1]


def come_round(
    states: list[tuple[Hand, Runs]], left: int | None, aside: int
) -> tuple[int, int] | None:
    """Return (times, period) when the work has come round and can be wound on, else None."""
    now = states[-1][0]
    if now.rest is None:
        return None
    for period in range(1, min(len(states), 13)):
        before = states[-1 - period][0]
        if before.over != now.over or before.last != now.last or before.begun != now.begun:
            continue
        moved = drift(before.rest, now.rest)
        if moved is None:
            continue
        depth, step = moved
        times = (count_at(now.rest, depth) - 1) // step - (aside + period - 1) // period
        if left is not None:
            times = min(times, left // period)
        return (times, period) if times > 0 else None
    return None


def wound_on(states: list[tuple[Hand, Runs]], times: int, period: int) -> tuple[Hand, Runs]:
    """Return the hand and its passes after the last *period* passes *times* over again."""
    now, runs = states[-1]
    before = states[-1 - period][0]
    moved = drift(before.rest, now.rest)
    assert moved is not None and now.rest is not None  # noqa: S101, PT018
    depth, step = moved
    hand = replace(
        now,
        rest=lowered(now.rest, depth, step * times),
        used=now.used + (now.used - before.used) * times,
        used_spaces=now.used_spaces + (now.used_spaces - before.used_spaces) * times,
    )
    return hand, runs.again(period, times)


def stretched(before: Hand, after: Hand, times: int) -> Hand:
    """The hand after so many more passes over nothing: only the sums grow."""
    return replace(
        after,
        used=after.used + (after.used - before.used) * times,
        used_spaces=after.used_spaces + (after.used_spaces - before.used_spaces) * times,
        over=after.over + (after.over - before.over) * times,
        over_spaces=after.over_spaces + (after.over_spaces - before.over_spaces) * times,
    )
