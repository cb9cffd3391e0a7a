"""A pattern as it is written: rows, repeats of rows, foundations and parts, in their order.

The reader makes these from text; the proof works them. Everything carries its place in the
text.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeAlias

from coach.craft.color_plan import ColorPlan, Stripe
from coach.craft.instruction import Instruction, Make, Noun, Skip
from coach.craft.problem import NotInWords, Place, Problem


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
