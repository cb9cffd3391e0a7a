"""The way through a whole pattern: what is known so far, and what the next row meets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from coach.craft.fabric import Item
from coach.craft.gauge import Gauge
from coach.craft.instruction import Chain, Instruction, Make
from coach.craft.pattern import Draft, Line, Start, Stated
from coach.craft.problem import Place, Problem, Verdict
from coach.craft.proof import Foundation, ProvedRow
from coach.craft.row_bench import RowResult, Switches
from coach.craft.split_sides import Split
from coach.craft.tally import Tally, tally
from coach.craft.underarms import Underarm
from coach.craft.usual_edge import UsualEdge

MOST_ROWS = 6_000


MOST_SLIPS = 6  # rows whose likely slip is looked for


@dataclass(slots=True)
class Below:
    """What the next row is worked into.

    items: in the order in which they were made. turned: a turn was said at the row's end.
    uncertain: the row before was at fault, so its fabric is only what was stated.
    """

    items: tuple[Item, ...] = ()
    kind: str = "none"
    closing: tuple[int, str | None] | None = None
    turned: bool = False
    kept: bool = False  # "do not turn"
    uncertain: bool = False
    color: str | None = None
    side: str | None = None
    other: tuple[Item, ...] | None = None  # what was really made, where another count is stated
    edge: bool = False  # picked up along edges: its number, or where its corners are, is not told
    as_met: bool = False  # the items stand in the order in which the next row meets them
    beyond: tuple[Item, ...] = ()  # left by earlier rows past the end that the next row comes to
    ahead: tuple[Item, ...] = ()  # left past the other end, where the row after next comes to
    short: bool = False  # the row turned part way, and only so


@dataclass(frozen=True, slots=True)
class Opening:
    """Where a proof begins when it does not begin with nothing: a single row on what lies below."""

    below: Below
    rules: Mapping[int, str] = field(default_factory=dict)
    lines: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class WorkedRow:
    """A row as it was worked, to be worked again: under which heading, and on which ground."""

    part: str | None
    line: Line
    label: str
    shown: str
    number: int | None
    stated: tuple[Stated, ...]
    ground: Below
    begun: Foundation | None


@dataclass(slots=True)
class Walk:
    """One way through the whole pattern under one set of switches."""

    draft: Draft
    switches: Switches
    opening: Opening | None = None
    rows: list[ProvedRow] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    looked: set[tuple[str, int]] = field(default_factory=set)
    foundation: Foundation | None = None
    below: Below = field(default_factory=Below)
    lines: dict[tuple[str, int], Line] = field(default_factory=dict)
    named: dict[str, Line] = field(default_factory=dict)
    shown: dict[int, str] = field(
        default_factory=dict
    )  # a row's label, by the identity of its line
    part: str | None = None
    shown_part: str | None = None
    begins_part: bool = False  # a heading stands before the next row
    splits: list[Split] = field(default_factory=list)  # rows that left places unworked at their end
    underarms: list[Underarm] = field(default_factory=list)  # skipped under a chain, for sleeves
    worked: list[WorkedRow] = field(default_factory=list)
    copies: int = 1  # of the part that the next row begins
    begun: Foundation | None = None  # what a further piece is begun with, before its first row
    last_number: int = 0
    last_kind: str = "row"
    alternate: tuple[str, Line] | None = None
    rules: dict[int, str] = field(default_factory=dict)
    told: set[tuple[int, int, Verdict]] = field(default_factory=set)
    memo: dict[tuple[object, ...], RowResult] = field(default_factory=dict)
    tallies: dict[int, Tally] = field(default_factory=dict)
    turned_over: dict[int, tuple[tuple[Item, ...], tuple[Item, ...]]] = field(default_factory=dict)
    results: dict[int, RowResult] = field(default_factory=dict)
    slips: set[tuple[int, int, Verdict]] = field(default_factory=set)
    interned: dict[tuple[Item, ...], tuple[Item, ...]] = field(default_factory=dict)
    gauge: Gauge | None = None
    starts: list[Start] = field(default_factory=list)
    twin_rows: dict[int, ProvedRow] = field(default_factory=dict)  # as on what was really made
    too_many: bool = False  # a repeat asks for more rows than any pattern has
    slip: Place | None = None  # the row of the count that twin_rows go on without
    end_counts: set[Place] = field(default_factory=set)  # rows whose one count is the last row's
    meant: dict[Place, int] = field(default_factory=dict)  # by row: how many more its count says
    disproved: set[Place] = field(default_factory=set)  # rows whose count later rows showed wrong
    results_by_row: list[RowResult] = field(default_factory=list)
    unit_sizes: dict[str, int] = field(default_factory=dict)
    usual_edges: dict[Place, UsualEdge] = field(default_factory=dict)  # rounds with an open number


def tried_on(walk: Walk) -> Walk:
    """Return a copy to go on with and throw away: nothing that is noted on it reaches *walk*.

    What is shared are stores of results that hold for both.
    """
    return replace(
        walk,
        rows=list(walk.rows),
        problems=[],
        looked=set(),
        below=replace(walk.below),
        lines=dict(walk.lines),
        named=dict(walk.named),
        shown=dict(walk.shown),
        splits=list(walk.splits),
        underarms=list(walk.underarms),
        worked=list(walk.worked),
        rules=dict(walk.rules),
        told=set(),
        memo={},
        slips=set(walk.slips),
        starts=list(walk.starts),
        twin_rows={},
        end_counts=set(walk.end_counts),
        meant=dict(walk.meant),
        disproved=set(walk.disproved),
        results_by_row=[],
        unit_sizes=dict(walk.unit_sizes),
        usual_edges={},
    )


def keep(walk: Walk, items: tuple[Item, ...]) -> None:
    """Hold *items*, so that its identity stays its own as long as the walk lasts."""
    walk.turned_over.setdefault(-id(items), (items, items))


def tallied(walk: Walk, items: tuple[Item, ...]) -> Tally:
    """Return the count of *items*, counted once."""
    known = walk.tallies.get(id(items))
    if known is None:
        known = tally(items)
        walk.tallies[id(items)] = known
        keep(walk, items)
    return known


def labelled(walk: Walk, label: str) -> str:
    """Return the label with its part, where numbering was started again."""
    return f"{walk.shown_part} {label}" if walk.shown_part else label


def shown_as(walk: Walk, line: Line) -> str:
    """Return the label under which *line* was worked; it may be of the part before this one."""
    return walk.shown.get(id(line)) or labelled(walk, line.label)


def label_of(kind: str, number: int | None) -> str:
    """Return the row's name as it is listed: "Row 6", "Rnd 3"."""
    short = "Row" if kind == "row" else "Rnd"
    return f"{short} {number}" if number is not None else short


def unit_size(parts: Sequence[Instruction]) -> int:
    """Return how many places a group of *parts* leaves."""
    size = 0
    for part in parts:
        if isinstance(part, Make):
            size += part.each
        elif isinstance(part, Chain):
            size += 1
    return size
