"""One stage of the piece: foundation, row or finishing, with all that is true of the whole of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from coach.craft.finishing import Finish
from coach.craft.proof import Foundation, ProvedRow
from coach.craft.steps import StageKind
from coach.craft.waiting_yarn import WaitingYarn
from coach.craft.working import Action, Block, Group, Passes, Work


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage of the piece, with all that is true of the whole of it.

    number / of: which stage of the piece, from 1. label: "Foundation", "Row 6", "Weave in".
    stitches / spaces: the count to reach; stated: by the pattern, else worked out by the coach.
    place / places: which row of its part, of how many ("17 of 40").
    worked_as, repeat: as in the proof; row_in_repeat of rows_in_repeat: "third row of 4".
    turning_chain: this row's own; counted_below: the chain of the row below that counts as a
    stitch and is met at this row's end; chain_below: the chains that were made for this row at
    the end of the row below. first / last: what is worked first and last.
    turns_first: the work is turned before this row, and no words of either row say so.
    below: the row below. color / color_after / color_before: the yarn in force, the next
    stage's, and the one that the stage before ended with.
    ends: how many ends the piece will have, told before its first stitch.
    waiting: the yarn that is put down at the row's end, and when it is wanted again.
    row_at: which row of the proof this is, from 0; None for other stages. copies: how many of
    the part that begins here are to be made.
    """

    kind: StageKind
    number: int
    of: int
    label: str
    part: str | None = None
    side: str | None = None
    stitches: int = 0
    spaces: int = 0
    stated: bool = False
    place: int = 0
    places: int = 0
    worked_as: str | None = None
    repeat: tuple[int, int] | None = None
    row_in_repeat: int = 0
    rows_in_repeat: int = 0
    turning_chain: Block | None = None
    counted_below: Block | None = None
    chain_below: int = 0
    first: Block | Group | None = None
    last: Block | Group | None = None
    turns_first: bool = False
    joined: bool = False
    row: ProvedRow | None = None
    below: ProvedRow | None = None
    foundation: Foundation | None = None
    finish: Finish | None = None
    color: str | None = None
    color_after: str | None = None
    color_before: str | None = None
    ends: int = 0
    waiting: WaitingYarn | None = None
    row_at: int | None = None
    copies: int = 1

    @property
    def colored(self) -> bool:
        """True when the row's own blocks say which yarn they are worked in."""
        return self.row is not None and first_color(self.row.work) is not None


def blocks(work: Sequence[Work]) -> Iterator[Block | Group]:
    """Yield the blocks and groups of *work* once each, those of a repeat too, in written order."""
    for item in work:
        if isinstance(item, Passes):
            yield from blocks(item.parts)
            if item.last is not None:
                yield from blocks(item.last)
        elif not isinstance(item, Action):
            yield item


def works_anything(work: Sequence[Work]) -> bool:
    """Tell whether *work* has anything to make."""
    return any(True for _ in blocks(work))


def first_color(work: Sequence[Work]) -> str | None:
    """Return the yarn that *work* says it begins in, or None."""
    return next((block.color for block in blocks(work) if block.color), None)
