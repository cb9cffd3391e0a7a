"""Rows that turn part way, and later rows that take up again what those left.

"Row 2: Sc in next 15 sts, turn." of a short-row scarf or the turn of a heel leaves stitches that a
later row meets past the end of the fabric. A row that only turns is taken for such a one where the
pattern bears it out; else what it leaves is a slip (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from coach.craft.instruction import (
    Act,
    Bound,
    Chain,
    Instruction,
    Join,
    Leave,
    Make,
    Noun,
    Of,
    Repeated,
    Skip,
    Target,
    Which,
)
from coach.craft.lower_row import at_the_top
from coach.craft.pattern import Line, Part
from coach.craft.stitch import legs
from coach.craft.walk import Walk

_SHAPES = re.compile(
    r"\b(?:short[\s-]?rows?|turn(?:ing)?\s+(?:the\s+)?heel|heel\s+turn|heel\s+flap|divide|dividing|split(?:ting)?|"
    r"shap(?:e|ing)\s+(?:the\s+)?(?:back\s+|front\s+)?(?:neck|shoulders?|armholes?|heel|toe|crown)|"
    r"(?:first|left|right|second)\s+(?:shoulder|side|half|strap)|neck(?:line)?\s+shaping|shoulder\s+shaping)\b",
    re.IGNORECASE,
)
_TAKEN_UP = re.compile(
    r"\b(?:unworked|unused|left\s+(?:over|free|unworked)|skipped)\s+(?:st(?:itche)?s?|sc|hdc|dc|htr|tr)\b"
    r"|\b(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr)\s+(?:that\s+(?:were|you)\s+)?left\b",
    re.IGNORECASE,
)
_OF_ROW = re.compile(
    r"\b(?:of|on|from|in|along)\s+(?:the\s+)?(?:row|rnd|round)\s+(\d+)", re.IGNORECASE
)


def turned_part_way(walk: Walk, line: Line) -> tuple[Instruction, ...] | None:
    """Return the words of a row that only turns, with what it leaves told; None where it is a slip."""
    turn = _turns_at_the_end(line.items)
    if turn is None or not _counted_out(line.items):
        return None
    borne_out = (
        walk.below.short
        or _under_a_heading(walk, line)
        or _taken_up_later(walk, line)
        or _next_turns_too(walk, line)
    )
    if not borne_out:
        return None
    leave = Leave(line.items[turn].place)
    return (*line.items[:turn], leave, *line.items[turn:])


def takes_up(line: Line) -> bool:
    """Tell whether the row's words say that it goes on into stitches left before."""
    return _TAKEN_UP.search(line.text) is not None or _OF_ROW.search(line.text) is not None


def taking_up(items: Sequence[Instruction]) -> tuple[Instruction, ...]:
    """Return *items* with "5 skipped sts", "5 unworked sts of Row 1" as the next places of the row."""
    return stopping_before([_among_the_next(item) for item in at_the_top(items)])


def _among_the_next(item: Instruction) -> Instruction:
    if isinstance(item, Make) and item.target is not None and item.target.noun.of is Of.SKIPPED:
        return replace(item, target=replace(item.target, noun=Noun(Of.STITCH)))
    return item


def stopping_before(items: Sequence[Instruction]) -> tuple[Instruction, ...]:
    """Return "sc in each st across, sc in 5 unworked sts" with its run stopped before those five."""
    at = next((i for i, item in enumerate(items) if _runs_on(item)), None)
    run = items[at] if at is not None else None
    if at is None or not isinstance(run, Make) or run.target is None:
        return tuple(items)
    after = _used([item for item in items[at + 1 :] if not isinstance(item, Join)])
    if not after:
        return tuple(items)
    until = Bound("last", Noun(Of.STITCH), after)
    held = replace(run, target=replace(run.target, until=until, open=False))
    return (*items[:at], held, *items[at + 1 :])


def _runs_on(item: Instruction) -> bool:
    where = item.target if isinstance(item, Make) else None
    return (
        where is not None
        and where.which is Which.EACH
        and where.until is None
        and not where.also
        and where.noun.of is not Of.ROW_END
    )


def _turns_at_the_end(items: Sequence[Instruction]) -> int | None:
    """Return where the last turn of a row stands, after its work and before nothing but a chain."""
    for index in range(len(items) - 1, -1, -1):
        item = items[index]
        if isinstance(item, Act) and item.kind == "turn":
            worked = any(isinstance(each, Make) for each in items[:index])
            return index if worked else None
        if not isinstance(item, Act | Chain):
            return None
    return None


def _counted_out(items: Sequence[Instruction]) -> bool:
    """Tell whether every number of a row is said: no run or repeat goes on to the end."""
    for item in items:
        if isinstance(item, Repeated) and (item.times is None or not _counted_out(item.body)):
            return False
        where = item.target if isinstance(item, Make) else None
        if where is not None and Which.EACH in {each.which for each in (where, *where.also)}:
            return False
    return True


def _under_a_heading(walk: Walk, line: Line) -> bool:
    said = [walk.part or "", line.label, *(note for _, note in walk.draft.notes)]
    return any(_SHAPES.search(words) for words in said)


def _taken_up_later(walk: Walk, line: Line) -> bool:
    """Tell whether a later row names what was left, or the row on which it was left."""
    below = line.number - 1 if line.number is not None else None
    for later in _after(walk, line):
        if _TAKEN_UP.search(later.text):
            return True
        named = {int(number) for number in _OF_ROW.findall(later.text)}
        if below is not None and below in named and (later.number or 0) > below + 2:
            return True
    return False


def _next_turns_too(walk: Walk, line: Line) -> bool:
    """Tell whether the next row turns part way over this one: no slip is made in two rows on end."""
    following = next(_after(walk, line), None)
    if following is None or _turns_at_the_end(following.items) is None:
        return False
    if not _counted_out(following.items):
        return False
    made, used = _made(line.items), _used(following.items)
    return made is not None and used is not None and 0 < used < made


def _after(walk: Walk, line: Line) -> Iterator[Line]:
    """Yield the rows after *line* of its piece: up to the second heading after it."""
    entries = walk.draft.entries
    at = next((i for i, entry in enumerate(entries) if entry is line), len(entries))
    headings = 0
    for entry in entries[at + 1 :]:
        headings += isinstance(entry, Part)
        if headings > 1:
            return
        if isinstance(entry, Line):
            yield entry


def _places_of(item: Instruction) -> int | None:
    """Return how many places *item* goes into, where it says so."""
    places: int | None = None
    match item:
        case Make(target=Target(noun=Noun(of=Of.ROW_END))):
            places = 0
        case Make(target=Target(which=Which.NEXT | Which.FIRST | Which.LAST, also=()) as where):
            places = where.count * item.times
        case Make(target=None):
            places = item.each * (1 if item.increase else legs(item.stitch))
        case Skip(target=Target(which=Which.NEXT | Which.FIRST | Which.LAST) as where):
            places = where.count
        case Repeated(times=int(times)) if (within := _used(item.body)) is not None:
            places = times * within
    return places


def _used(items: Sequence[Instruction]) -> int | None:
    worked = [_places_of(item) for item in items if not isinstance(item, Act | Chain | Leave)]
    return None if None in worked else sum(each or 0 for each in worked)


def _made(items: Sequence[Instruction]) -> int | None:
    """Return how many plain stitches a row makes, where each goes into one place."""
    total = 0
    for item in items:
        if isinstance(item, Act | Chain | Skip | Leave):
            continue
        places = _places_of(item)
        if places is None or not isinstance(item, Make):
            return None
        total += places // legs(item.stitch) * (2 if item.increase else 1)
    return total
