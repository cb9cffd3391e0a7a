"""How stitches stand in the fabric, from the side that faces: what fingers meet in the row below.

A front post stands out towards the maker who works it, and away from the same maker after
turning; so whether one may follow what shows is a matter of sides, and is settled here. It
chooses no words.

Sources: "How to crochet post stitches" (front post is worked from the face toward the worker),
"Basketweave stitch with UK translation" (front and back post are one stitch seen from two
sides); where bobbles and popcorns bulge is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from coach.craft.merging import sums_of
from coach.craft.stage import Stage
from coach.craft.steps import StageKind, Step
from coach.craft.working import Action, Block, Group, Into, Passes, Work


class Look(StrEnum):
    """How a stitch stands, from the side that faces the maker."""

    FLAT = "flat"
    TOWARDS = "stands out towards you"
    AWAY = "stands out away from you"
    BUMP_TOWARDS = "bulges towards you"
    BUMP_AWAY = "bulges away from you"
    SOFT = "a soft bump"
    FAN = "a fan"
    GAP = "a gap"
    CHAIN = "foundation chain"


class Following(StrEnum):
    """Whether a post stitch may simply follow what shows below."""

    NOTHING = "nothing to follow"  # no post stitches here
    FOLLOW = "follow what shows"
    REVERSE = "reverse what shows"
    BEGIN = "begin on flat stitches"
    MIXED = "some follow, some reverse"


@dataclass(frozen=True, slots=True)
class Seen:
    """So many stitches side by side that stand alike; *of* is the size of one fan."""

    look: Look
    count: int
    stitch: str
    of: int = 0


@dataclass(frozen=True, slots=True)
class Appearance:
    """What a maker meets below the next step, what the step makes, and whether it follows."""

    meets: tuple[Seen, ...]
    makes: tuple[Seen, ...]
    following: Following


_FLIPPED = {
    Look.TOWARDS: Look.AWAY,
    Look.AWAY: Look.TOWARDS,
    Look.BUMP_TOWARDS: Look.BUMP_AWAY,
    Look.BUMP_AWAY: Look.BUMP_TOWARDS,
}
_BULGES = {
    "bobble": Look.BUMP_AWAY,
    "mb": Look.BUMP_AWAY,
    "bo": Look.BUMP_AWAY,
    "tuft": Look.BUMP_AWAY,
    "cl": Look.BUMP_AWAY,
    "cluster": Look.BUMP_AWAY,
    "popcorn": Look.BUMP_TOWARDS,
    "pc": Look.BUMP_TOWARDS,
    "puff": Look.SOFT,
}
FAN_AT_LEAST = 3  # three stitches from one foot spread like a fan; two hardly do


def look_of(stitch: str, *, turned: bool) -> Look:
    """Return how *stitch* stands; turned: its maker faced the other side when it was worked."""
    if stitch.upper().startswith("FP"):
        look = Look.TOWARDS
    elif stitch.upper().startswith("BP"):
        look = Look.AWAY
    else:
        last_word = stitch.lower().rsplit(maxsplit=1)[-1] if stitch else ""
        look = _BULGES.get(last_word, Look.FLAT)
    return _FLIPPED.get(look, look) if turned else look


def appearance(stage: Stage, step: Step) -> Appearance:
    """Return what the maker meets and makes at *step*, from the side that faces."""
    makes = tuple(_grouped(_made(step.parts), turned=False))
    meets = _meets(stage, step)
    return Appearance(meets, makes, _following(step, meets))


def turned_since_below(stage: Stage) -> bool:
    """Return whether the work was turned between the row below and this one."""
    if stage.below is None or stage.row is None:
        return False
    if stage.side and stage.below.side:
        return stage.side != stage.below.side
    return stage.row.turned or stage.turns_first or stage.kind is StageKind.ROW


def _meets(stage: Stage, step: Step) -> tuple[Seen, ...]:
    if any(part.where.into is Into.CHAIN for part in step.parts):
        return (Seen(Look.CHAIN, step.uses, "ch"),)
    below = stage.below
    if below is None or not (step.uses or step.uses_spaces):
        return ()
    turned = turned_since_below(stage)
    low, high = step.done_before, step.done_before + step.uses
    if turned:
        low, high = below.made - high, below.made - low
    runs = list(_between(below.work, max(low, 0), min(high, below.made), _Count()))
    if not step.uses_spaces:
        runs = _trimmed(runs)
    return tuple(_grouped(reversed(runs) if turned else runs, turned=turned))


@dataclass(slots=True)
class _Count:
    """How many stitches were passed on the way along a row."""

    done: int = 0


@dataclass(frozen=True, slots=True)
class _Run:
    stitch: str
    count: int
    fan: int = 0
    gap: bool = False


def _between(work: Sequence[Work], low: int, high: int, at: _Count) -> Iterator[_Run]:
    """Yield the stitches of *work* numbered low to high (from 0), with the spaces among them."""
    for item in work:
        if at.done > high:
            return
        if isinstance(item, Action):
            continue
        if isinstance(item, Passes):
            yield from _in_passes(item, low, high, at)
            continue
        for run in _made((item,)):
            if run.gap:
                if low <= at.done <= high:
                    yield run
                continue
            first, last = max(low, at.done), min(high, at.done + run.count)
            at.done += run.count
            if last > first:
                yield _Run(run.stitch, last - first, run.fan)


def _in_passes(passes: Passes, low: int, high: int, at: _Count) -> Iterator[_Run]:
    """Step over whole passes that lie before *low*: a long repeat costs no more than a short one."""
    made = sums_of(passes.parts).made
    over = max(0, min(passes.times, (low - at.done) // made - 1)) if made else 0
    at.done += over * made
    for _ in range(passes.times - over):
        if at.done > high:
            return
        yield from _between(passes.parts, low, high, at)
        if not made:
            break
    if passes.last is not None:
        yield from _between(passes.last, low, high, at)


def _made(parts: Iterable[Block | Group]) -> Iterator[_Run]:
    """Yield what *parts* leave on the row's top: stitches, fans and gaps."""
    for part in parts:
        if isinstance(part, Group):
            stitches = sum(block.makes for block in part.parts)
            spaces = any(block.makes_spaces for block in part.parts)
            fan = stitches if stitches >= FAN_AT_LEAST and not spaces else 0
            for _ in range(part.times):
                for block in part.parts:
                    yield from _made_by(block, fan)
        else:
            fan = part.each if part.each >= FAN_AT_LEAST else 0
            yield from _made_by(part, fan)


def _made_by(block: Block, fan: int) -> Iterator[_Run]:
    if block.makes:
        stitch = (block.counts_as or block.stitch).partition("+")[0]
        yield _Run(stitch, block.makes, fan)
    if block.makes_spaces:
        yield _Run("ch", block.makes_spaces, gap=True)


def _trimmed(runs: list[_Run]) -> list[_Run]:
    while runs and runs[0].gap:
        runs = runs[1:]
    while runs and runs[-1].gap:
        runs = runs[:-1]
    return runs


def _grouped(runs: Iterable[_Run], *, turned: bool) -> Iterator[Seen]:
    """Draw together what stands alike side by side."""
    held: Seen | None = None
    for run in runs:
        look = look_of(run.stitch, turned=turned)
        if run.gap:
            look = Look.GAP
        elif run.fan:
            look = Look.FAN
        seen = Seen(look, run.count, run.stitch, run.fan)
        if held is not None and (held.look, held.of) == (seen.look, seen.of):
            stitch = held.stitch if held.stitch == seen.stitch else ""
            held = Seen(held.look, held.count + seen.count, stitch, held.of)
            continue
        if held is not None:
            yield held
        held = seen
    if held is not None:
        yield held


def _following(step: Step, meets: Sequence[Seen]) -> Following:
    """Compare each post stitch with the look of the very place that it goes round."""
    below = [seen.look for seen in meets for _ in range(seen.count) if seen.look is not Look.GAP]
    found: set[Following] = set()
    for place, stitch in enumerate(_posts(step)):
        if stitch is None or place >= len(below):
            continue
        wants = look_of(stitch, turned=False)
        if below[place] is wants:
            found.add(Following.FOLLOW)
        elif below[place] is _FLIPPED[wants]:
            found.add(Following.REVERSE)
        else:
            found.add(Following.BEGIN)
    if not found:
        return Following.NOTHING
    return found.pop() if len(found) == 1 else Following.MIXED


def _posts(step: Step) -> Iterator[str | None]:
    """Yield for each place of the step the post stitch worked there, or None."""
    if step.turns:
        for turn in range(step.turns):
            yield _post(step.parts[turn % len(step.parts)])
        return
    for part in step.parts:
        for _ in range(part.uses):
            yield _post(part)


def _post(part: Block | Group) -> str | None:
    if isinstance(part, Group) or not part.stitch.upper().startswith(("FP", "BP")):
        return None
    return part.stitch
