"""What a row tells its maker to do, thing after thing, before anything is worked or counted.

The reader makes these from text; the proof works them. Everything carries its place in the
text. Stitch names are US abbreviations already.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from coach.craft.problem import Place


class Which(StrEnum):
    """Which places a target means."""

    NEXT = "next"
    EACH = "each"
    SAME = "same"
    FIRST = "first"
    LAST = "last"
    NTH = "nth"  # "2nd dc", "4th ch from hook"
    CENTER = "center"
    CORNER = "corner"
    REMAINING = "remaining"
    ANY = "any"


class Of(StrEnum):
    """What kind of place a noun names."""

    STITCH = "stitch"  # any stitch
    NAMED = "named"  # a stitch of one name
    SPACE = "space"
    STITCH_OR_SPACE = "stitch or space"
    CHAIN = "chain"
    FROM_HOOK = "chain from hook"
    RING = "ring"
    TURNING_CHAIN = "turning chain"
    UNIT = "unit"  # a shell, a V-stitch, a group
    FREE_LOOP = "free loop"
    ROW_END = "row end"
    SKIPPED = "skipped"
    BETWEEN = "between"
    MARKER = "marker"
    LAYERS = "both layers"
    SQUARE = "filled square"  # of filet, in a count; its length is how many stitches wide it is


@dataclass(frozen=True, slots=True)
class Noun:
    """What is worked into, as the text names it: "dc", "ch-2 sp", "shell", "st"."""

    of: Of
    name: str | None = None
    length: int | None = None


@dataclass(frozen=True, slots=True)
class Bound:
    """Where something stops: with *count* of *noun* left ("to last 4 sts"), or just before it."""

    kind: str  # "last" or "before"
    noun: Noun
    count: int = 1


@dataclass(frozen=True, slots=True)
class Target:
    """The places an instruction goes into.

    count: how many places for NEXT, FIRST, LAST. nth: for NTH. until: where EACH stops; open
    tells that EACH runs "across", "around" or "to end". within: "ch-1 sp of next V-st".
    also: further places named after "and". together: drawn together over the count.
    of_row: the number of the earlier row that the words name, until it is counted from this one.
    """

    which: Which
    noun: Noun
    count: int = 1
    nth: int = 0
    until: Bound | None = None
    open: bool = False
    within: Target | None = None
    also: tuple[Target, ...] = ()
    together: bool = False
    around: bool = False
    loop: str | None = None
    rows_below: int = 0
    of_row: int | None = None
    remark: str | None = None


AS_FIRST = "as the first stitch"
"""The remark of a chain that the round began in: met again at the end of the other side."""


@dataclass(frozen=True, slots=True)
class Make:
    """*each* of *stitch* in every place of *target*; bare when no place is named ("7 sc")."""

    stitch: str
    each: int
    target: Target | None
    place: Place
    times: int = 1
    named: str | None = None  # the pattern's own name: "shell", "pc"
    beginning: bool = False
    loop: str | None = None
    increase: bool = False  # "inc": always in one place
    legs: int = 0  # of a cluster that is named by them ("3-dc cluster"); 0 where they are not told


@dataclass(frozen=True, slots=True)
class Chain:
    """Chains in the air. counts_as: "dc", "dc+ch-1", "" (no stitch), or None where nothing is said.

    throughout: what is said holds for the rest of the pattern. worked: what follows goes into
    these chains, from the hook on.
    """

    count: int
    place: Place
    counts_as: str | None = None
    throughout: bool = False
    worked: bool = False


@dataclass(frozen=True, slots=True)
class Picot:
    """A picot: chains closed into a small loop; no stitch and no space to work into."""

    chains: int
    place: Place
    target: Target | None = None


@dataclass(frozen=True, slots=True)
class Skip:
    """Places passed over on purpose. counts_as: what skipped foundation chains stand for."""

    target: Target
    place: Place
    counts_as: str | None = None


@dataclass(frozen=True, slots=True)
class GroupIn:
    """Several things in one place, the same again in *times* places."""

    parts: tuple[Instruction, ...]
    target: Target
    place: Place
    name: str | None = None


@dataclass(frozen=True, slots=True)
class EachOf:
    """Over a stretch of places, each kind of place gets its own: "2 sc in each sp, sc in each dc"."""

    parts: tuple[Make | GroupIn, ...]
    place: Place
    until: Bound | None = None


@dataclass(frozen=True, slots=True)
class Repeated:
    """A repeated section.

    times: passes in all for brackets, or None for an open one ("across"). more: what was
    written after a star, and whether "more" or "in all" was said. stop_at: how many
    instructions of the body the last pass works ("ending last rep at **"). ending: the text
    says that a tail replaces or completes the last pass.
    """

    body: tuple[Instruction, ...]
    place: Place
    times: int | None = None
    custom: str = "in all"  # "more", "others", or "either" where the trade reads it both ways
    until: Bound | None = None
    stop_at: int | None = None
    ending: bool = False
    star: bool = True
    loose: bool = False  # talk ("keep doing that"): the body may begin later than it is cut
    extra_stop: int | None = None  # after the repeat, once more up to this instruction


@dataclass(frozen=True, slots=True)
class Join:
    """Closing a round; stitch is "sl st", or the stitch that makes the last space."""

    place: Place
    stitch: str = "sl st"
    into: str = ""
    ring: bool = False


@dataclass(frozen=True, slots=True)
class Leave:
    """Places left unworked on purpose; None for all that remain."""

    place: Place
    count: int | None = None


@dataclass(frozen=True, slots=True)
class Act:
    """Something done that makes nothing: kind is that of craft.working.Action.

    color: the new yarn's name, where yarn is joined.
    """

    kind: str
    place: Place
    text: str = ""
    color: str | None = None


@dataclass(frozen=True, slots=True)
class Sides:
    """A change of what is worked into: "other side of chain", "row ends"."""

    of: Of
    place: Place


@dataclass(frozen=True, slots=True)
class Spread:
    """*number* increases or decreases spread evenly over all that is left, *stitch* in the others.

    every: an increase in every so many instead, as often as that fits; 0 where a number is told.
    """

    stitch: str
    number: int
    decrease: bool
    place: Place
    every: int = 0


Instruction: TypeAlias = (
    Make | Chain | Picot | Skip | GroupIn | EachOf | Repeated | Join | Leave | Act | Sides | Spread
)


def makes_in(items: Iterable[Instruction]) -> Iterator[Make]:
    """Yield every stitch instruction of *items*, those in groups and repeats too."""
    for item in items:
        match item:
            case Make():
                yield item
            case GroupIn() | EachOf():
                yield from makes_in(item.parts)
            case Repeated():
                yield from makes_in(item.body)
            case _:
                pass
