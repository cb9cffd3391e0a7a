"""What is really worked in a row, once the proof has settled every reading.

This is the shape that steps, words, charts and count checks are made from. The
repeats of the pattern are kept as repeats: cost follows what is written, not the
size of the piece. All stitch terms are US abbreviations ("sc", "dc", "FPdc",
"sc2tog", "bobble"); the words for a maker are chosen later, in US or UK terms.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias


class Into(StrEnum):
    """What the hook goes into."""

    NEXT = "next"  # one in each of the next places
    SAME = "same"  # the place just worked, or that a counted chain stands on
    SPACE = "space"  # a chain space
    STITCH_OR_SPACE = "stitch or space"  # whichever comes next
    RING = "ring"  # a chain ring or an adjustable ring
    CHAIN = "chain"  # the foundation chain
    FREE_LOOP = "free loop"  # the other side of the foundation chain
    TOGETHER = "together"  # drawn together over several places
    TURNING_CHAIN = "turning chain"
    SKIPPED = "skipped"  # a place that was skipped before (crossed stitches)
    BELOW = "below"  # a stitch some rows below
    BETWEEN = "between"  # the gap between two groups
    ROW_END = "row end"
    NOTHING = "nothing"  # chains in the air, actions that use no place


@dataclass(frozen=True, slots=True)
class Where:
    """The place of a block: what it goes into and how that place is told from its neighbours.

    places: how many places of the row below it goes into, one after another.
    named: the stitch that is met there, as the pattern names it ("dc", "shell"), or None.
    chain_length: of the chain space, when into is SPACE.
    position: "first", "last", "center", "corner", or None for simply the next.
    loop: "back", "front", "third", or None for both loops.
    rows_below: 0 for the row just below.
    """

    into: Into
    places: int = 1
    named: str | None = None
    chain_length: int | None = None
    position: str | None = None
    loop: str | None = None
    rows_below: int = 0
    remark: str | None = None


@dataclass(frozen=True, slots=True)
class Block:
    """One stitch kind worked over places one after another: *each* of it into every place.

    stitch: US term; "ch" for chains, "sk" for places passed over on purpose, "sl st" for
        slip stitches that travel or join. count is how many of it are made in all (for "sk":
        how many places are passed over). uses / uses_spaces: stitches and chain spaces of
        the row below that are used up, those quietly passed over included. makes /
        makes_spaces: stitches and chain spaces made.
    counts_as: for chains at a row's beginning: "dc", "dc+ch-1", or None when it is no stitch.
    role: "turning", "beginning", "join", "travel", "picot", "skipped chains" or None.
    color: the yarn in force when it is not the only one ("A", "MC"). already_made: the chain
        was made at the end of the line before. passing: places quietly passed over first.
    """

    stitch: str
    count: int
    where: Where
    each: int = 1
    uses: int = 0
    uses_spaces: int = 0
    makes: int = 0
    makes_spaces: int = 0
    counts_as: str | None = None
    role: str | None = None
    color: str | None = None
    already_made: bool = False
    passing: int = 0
    pattern_stitch: str | None = None  # the designer's own name, when the block is one ("shell")


@dataclass(frozen=True, slots=True)
class Group:
    """Several things all worked in one place, such as (2 dc, ch 1, 2 dc) in the next space.

    uses and uses_spaces belong to the group, not to its parts. times: the same group
    again in each of so many places, one after another.
    """

    parts: tuple[Block, ...]
    where: Where
    times: int = 1
    uses: int = 0
    uses_spaces: int = 0
    name: str | None = None  # "shell", "V-st", "half shell", as the pattern calls it
    color: str | None = None


@dataclass(frozen=True, slots=True)
class Passes:
    """A repeat as it is worked: *times* passes of *parts*, then *last* if the last pass differs.

    times counts only the full passes; when last is given the repeat has times + 1 passes.
    """

    parts: tuple[Work, ...]
    times: int
    last: tuple[Work, ...] | None = None

    @property
    def total(self) -> int:
        """How many passes in all: what "group k of n" counts to."""
        return self.times + (self.last is not None)


@dataclass(frozen=True, slots=True)
class Action:
    """Something done that uses no place and makes nothing: turn, place marker, change of colour.

    kind: "turn", "do not turn", "join", "marker", "colour", "fasten off", "rotate", "remark".
    text: what the designer wrote, where words are needed ("move marker up", the colour's name).
    """

    kind: str
    text: str = ""


Work: TypeAlias = Block | Group | Passes | Action
