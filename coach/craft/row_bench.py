"""The bench on which one row is proved: what lies below, the readings in force, what it comes to."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from coach.craft.fabric import Cell, Item, Kind
from coach.craft.hand import Hand
from coach.craft.instruction import Instruction
from coach.craft.pattern import SpecialStitch
from coach.craft.problem import Place, Verdict
from coach.craft.working import Work


@dataclass(frozen=True, slots=True)
class Switches:
    """The pattern-wide readings: each a custom of wording that the trade reads in two ways.

    bare_in_one: "2 sc" is two in one stitch. star_in_all: "rep from * 5 times" is five in all.
    chains: what an unexplained beginning chain of so many chains does: counts or not.
    behind: a stitch rows below uses the place of the skip that follows it. mesh: chains between
    stitches pass over as many. slips: a slip stitch in the middle of a row is a stitch.
    figure: work in the space of a group uses the whole group up. whole_chain: a first row that
    does not say where it begins is worked into every chain, none left at the hook. ends_worked:
    nothing is left at a row's end that is not said to be left. no_ring: a first round that names
    no place is not begun in a ring. uk: the pattern is in UK terms, and so is what is told of it.
    """

    bare_in_one: bool = False
    star_in_all: bool = False
    chains: tuple[tuple[int, bool], ...] = ()
    skipped: tuple[tuple[int, bool], ...] = ()
    behind: bool = False
    mesh: bool = False
    slips: bool = False
    figure: bool = False
    whole_chain: bool = False
    ends_worked: bool = False
    no_ring: bool = False
    uk: bool = False


ROW_BELOW = "the row below"


@dataclass(frozen=True, slots=True)
class Ground:
    """What a row is worked into, in the order in which it is met.

    kind: "none", "chain", "joined chain", "row" or "round". already: the chain made before
    turning, and what it stands for.
    """

    below: tuple[Item, ...] = ()
    kind: str = "none"
    already: tuple[int, str | None] | None = None
    round: bool = False
    color: str | None = None
    row_ends: int = 0  # rows worked so far in the piece, for what is picked up along its edge
    chain_edge: int = 0  # chains that the first row was worked into, where a later row meets them
    named: str = ROW_BELOW  # what a fault calls it


class Misfit(Exception):  # noqa: N818
    """Inside this module only: the row can't go on here; says why."""

    def __init__(self, code: Verdict, place: Place, message: str) -> None:
        super().__init__(message)
        self.code = code
        self.place = place
        self.message = message


@dataclass(frozen=True, slots=True)
class RowResult:
    """What a row came to.

    fault: (code, place, message), or None when it fits. closing: the chain made at its end for
    the next row. fit: (outside, each, available) of an open repeat that does not come out.
    """

    used: int
    used_spaces: int
    out: tuple[Item, ...]
    work: tuple[Work, ...]
    fault: tuple[Verdict, Place, str] | None = None
    over: int = 0
    left: int = 0
    left_spaces: int = 0
    closing: tuple[int, str | None] | None = None
    looked: frozenset[tuple[str, int]] = frozenset()
    from_nothing: bool = False
    turned: bool = False
    joined: bool = False
    color: str | None = None
    fit: tuple[int, int, int] | None = None
    taken_counts: tuple[tuple[int, str], ...] = ()
    leaves: tuple[Item, ...] = ()  # what it leaves unworked on purpose at its end


def any_stitch(cell: Cell) -> bool:
    """Tell whether *cell* can be worked as a stitch."""
    return cell.kind is not Kind.SPACE


def any_place(cell: Cell) -> bool:
    """Take every cell."""
    return True


@dataclass(slots=True)
class Bench:
    """One row on the bench: its ground, the readings in force, what was looked at.

    worked, worked_all: how one instruction is worked, and several: what lies within a group or
    a repeat is worked by the same rules as the row itself.
    """

    ground: Ground
    switches: Switches
    counts_as: Mapping[int, str]
    specials: Mapping[str, SpecialStitch]
    worked: Callable[[Bench, Instruction, Hand], Hand]
    worked_all: Callable[[Bench, Sequence[Instruction], Hand], Hand]
    looked: set[tuple[str, int]] = field(default_factory=set)
    taken: dict[int, str] = field(default_factory=dict)
    budget: int = 20000
    fit: tuple[int, int, int] | None = None
    first_height: str | None = None
    ring_ahead: bool = False  # the row works into a ring that was made before it
    states_count: bool = False  # a count is stated, which decides between ways to end a stretch
    slips_in_turn: bool = False  # a repeat of the row has slip stitches and others turn about
    begun_with: Cell | None = None  # the counted chain that the row or round began with

    def step(self, item: Instruction, hand: Hand) -> Hand:
        """Return the hand after one instruction."""
        return self.worked(self, item, hand)

    def work_all(self, items: Sequence[Instruction], hand: Hand) -> Hand:
        """Return the first hand that *items* end with."""
        return self.worked_all(self, items, hand)

    @property
    def slips_count(self) -> bool:
        """Slip stitches are stitches only in a row that has no others."""
        return self.first_height == "sl st"
