"""The proof of a whole pattern: every count against the row below and against what is stated."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from coach.craft.problem import NotInWords, Problem, Verdict
from coach.craft.working import Work


@dataclass(frozen=True, slots=True)
class Foundation:
    """What the first row is worked into: a chain of so many, a ring, or None of either."""

    chains: int | None = None
    kind: str = "chain"  # chain, ring, magic ring, joined chain, foundation stitches, none
    color: str | None = None
    line: int = 1
    loops: int = 0  # for "foundation stitches"


@dataclass(frozen=True, slots=True)
class ProvedRow:
    """One row or round as it is worked, with its sums.

    kind: "row" or "round". label: normalised ("Row 6", "Border Rnd 1", "Dec Rnd 3").
    worked_as / repeat: for a row that repeats another ("Rows 6-45: rep Rows 2-5"): the label of
    the row it is worked as, and (which repeat, of how many); else None.
    worked, spaces_worked: None where the row starts from nothing. side: "RS", "WS" or None.
    work: what is worked, in order. before: how many stitches there are to work into.
    turned: the work was turned before this row. until_cm: the row is one of those that are
    worked until the piece measures so much; how many was worked out by the gauge.
    foundation: what a further piece is begun with, told at its first row. copies: how many of
    the part that begins here are to be made.
    """

    kind: str
    label: str
    number: int | None
    part: str | None
    side: str | None
    line: int
    worked: int | None
    spaces_worked: int | None
    made: int
    spaces: int
    by_stitch: Mapping[str, int]
    stated: int | None
    verdict: Verdict
    work: tuple[Work, ...]
    before: int | None = None
    before_spaces: int = 0
    worked_as: str | None = None
    repeat: tuple[int, int] | None = None
    turned: bool = False
    joined: bool = False
    text: str = ""
    until_cm: Fraction | None = None
    foundation: Foundation | None = None
    copies: int = 1


@dataclass(frozen=True, slots=True)
class Reading:
    """A choice between two customs of wording that the sums (or the text) settled."""

    what: str
    taken: str
    because: str


@dataclass(frozen=True, slots=True)
class Question:
    """Something that the text leaves open: asked once, with what each choice would mean.

    keys: the customs that the second choice turns from their usual reading; empty where a
    choice is not one of customs (US or UK terms).
    """

    what: str
    choices: tuple[str, ...]
    keys: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Multiple:
    """The derived multiple: *of* and *plus* in *unit*, and the chains added for the foundation."""

    of: int
    plus: int
    unit: str
    base_chains: int


@dataclass(frozen=True, slots=True)
class Proof:
    """The whole pattern, row by row in working order, with every fault, reading and question."""

    title: str
    terms: str | None  # "US", "UK" or None while unknown
    foundation: Foundation | None
    rows: tuple[ProvedRow, ...]
    problems: tuple[Problem, ...] = ()
    readings: tuple[Reading, ...] = ()
    questions: tuple[Question, ...] = ()
    multiple: Multiple | None = None
    sizes: tuple[str, ...] = ()
    size: str | None = None
    gauge: str | None = None
    finishing: tuple[tuple[int, str], ...] = ()  # (line, sentence) in the pattern's own words
    materials: tuple[str, ...] = ()
    special_stitches: Mapping[str, str] = field(default_factory=dict)  # name -> definition
    colors: tuple[str, ...] = ()
    not_in_words: tuple[NotInWords, ...] = ()

    @property
    def holds(self) -> bool:
        """True when every row fits and nothing is at fault."""
        return not self.problems

    @property
    def verdict(self) -> str:
        """The contract's word: proved, faults or unreadable."""
        if not self.rows:
            return "unreadable"
        return "proved" if self.holds else "faults"
