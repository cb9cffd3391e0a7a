"""A pattern as it is written: rows of instructions, before anything is worked or counted.

The reader makes these from text; the proof works them. Everything carries its place in the
text. Stitch names are US abbreviations already.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TypeAlias

from coach.craft.color_plan import ColorPlan, Stripe
from coach.craft.problem import NotInWords, Place, Problem


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
    """*number* increases or decreases spread evenly over all that is left, *stitch* in the others."""

    stitch: str
    number: int
    decrease: bool
    place: Place


Instruction: TypeAlias = (
    Make | Chain | Picot | Skip | GroupIn | EachOf | Repeated | Join | Leave | Act | Sides | Spread
)


@dataclass(frozen=True, slots=True)
class Stated:
    """One figure of a stated count: "4 ch-2 sps" is 4 of SPACE with length 2; None for plain."""

    number: int
    noun: Noun | None
    place: Place


@dataclass(frozen=True, slots=True)
class Line:
    """One row's text read: what to work and what is stated at its end.

    stated: the counts, once for each row of a range where several are listed. problems:
    what cannot be read. words: False when the row is only a chart or a photo.
    """

    label: str
    kind: str  # "row" or "round"
    number: int | None
    items: tuple[Instruction, ...]
    place: Place
    stated: tuple[tuple[Stated, ...], ...] = ()
    problems: tuple[Problem, ...] = ()
    side: str | None = None
    words: bool = True
    text: str = ""
    part: str | None = None
    base_stitch: str | None = None
    until: int | None = None  # the last of the rows with these words: one count may be its alone
    alike: int = 1  # how many rows have these words


@dataclass(frozen=True, slots=True)
class Rerun:
    """Rows worked as earlier ones: "Rows 6-45: Rep Rows 2-5 ten times more".

    numbers: first and last row number, or None where only times (or a length) is given.
    source: the rows repeated, as (kind, number or label). length_cm: "until piece measures".
    instead: what is worked otherwise at the row's beginning or end ("but 2 sc in last st").
    """

    numbers: tuple[int, int] | None
    source: tuple[str, ...]
    place: Place
    kind: str = "row"
    times: int | None = None
    stated: tuple[tuple[Stated, ...], ...] = ()
    length_cm: object | None = None
    ending_side: str | None = None
    part: str | None = None
    alternate: str | None = None  # "even", "odd": all such rows from here
    text: str = ""
    tail: tuple[Instruction, ...] = ()
    instead: tuple[Make | Skip, ...] = ()
    listed: bool = False  # one of "Rows 2, 4 and 6": worked where its number belongs
    stripes: tuple[Stripe, ...] = ()  # the yarn, where it is another than in the rows repeated
    under: int | None = None  # these rows go by one number with the row before them


@dataclass(frozen=True, slots=True)
class Start:
    """A foundation: chain, joined chain, ring; chains is None for an adjustable ring.

    open_multiple: (of, plus) where the words give only a multiple, and *chains* were chosen.
    """

    chains: int | None
    kind: str
    place: Place
    color: str | None = None
    part: str | None = None
    open_multiple: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class NoWords:
    """Rows that are only a chart, a photo or a colour: listed, never guided."""

    numbers: tuple[int, int] | None
    label: str
    place: Place
    kind: str = "row"
    part: str | None = None
    why: str = ""


@dataclass(frozen=True, slots=True)
class Part:
    """A heading under which numbering starts again: BORDER, HEEL; *copies* of it are made."""

    name: str
    place: Place
    copies: int = 1


@dataclass(frozen=True, slots=True)
class PartAgain:
    """A part worked as the one under the heading *source*: all of it, or rows first to last.

    lead: the words that tell where it is begun.
    """

    source: str
    place: Place
    rows: tuple[int, int] | None = None
    part: str | None = None
    text: str = ""
    lead: str = ""


Entry: TypeAlias = Line | Rerun | Start | NoWords | Part | PartAgain


@dataclass(frozen=True, slots=True)
class SpecialStitch:
    """A stitch as the pattern defines it: one top, or the parts that go in one place.

    over_space: for a filet square, how it is worked where a chain space lies below it.
    """

    name: str
    definition: str
    parts: tuple[Instruction, ...] = ()  # empty: it closes to one top
    beginning_of: str | None = None
    over_space: tuple[Instruction, ...] = ()


@dataclass(frozen=True, slots=True)
class StatedMultiple:
    """What the pattern says of its multiple: "multiple of 8 + 5, plus 2 for the foundation"."""

    of: int
    plus: int
    chains: int
    unit: str | None
    place: Place


@dataclass(frozen=True, slots=True)
class Draft:
    """The whole pattern as written.

    counts_as: what a turning chain of so many chains stands for ("" for no stitch); key 0
    holds for every beginning chain.
    """

    title: str
    terms: str | None
    entries: tuple[Entry, ...]
    clues: tuple[str, ...] = ()
    counts_as: Mapping[int, str] = field(default_factory=dict)
    specials: Mapping[str, SpecialStitch] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()
    multiple: StatedMultiple | None = None
    sizes: tuple[str, ...] = ()
    size: str | None = None
    gauge: str | None = None
    colors: tuple[str, ...] = ()
    color_plan: ColorPlan = field(default_factory=ColorPlan)
    materials: tuple[str, ...] = ()
    finishing: tuple[tuple[int, str], ...] = ()
    notes: tuple[tuple[int, str], ...] = ()
    spiral: bool = False
    turned_rounds: bool = False
    remarks: tuple[Problem, ...] = ()
    not_in_words: tuple[NotInWords, ...] = ()


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
