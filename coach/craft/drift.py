"""Why a count is off: causes ranked from what is worked in this very pattern.

It blames no one and moves nothing: it says which causes fit the numbers, the likeliest first,
which row is known right, and whether the trade can mend it without ripping. It guesses no
cause that the rows themselves don't allow: a round without a join has no join to be worked
into, a row over solid stitches no space.

Causes and their order: the makers' reports R01, R02, R06 to R08, R11 and R37 (a steady one
more or less a row comes from an edge or a join). Evening out in the next row of a plain
fabric: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from coach.craft.drift_causes import FOUNDATION, Carried, Cause, Diagnosis, Mend, Steady, Suspect
from coach.craft.proof import Proof, ProvedRow
from coach.craft.row_shape import Shape, shape_of

EVENED_OUT = 2  # so many stitches too many or too few may be evened out in a plain row
CHAINS_MISSED = 3  # more than these are not missed in working one row
CHAINS_MISCOUNTED = 4  # up to one chain in so many may be lost in counting a long chain
LOOKED_BACK = 12  # rows: a slip further back than this would show in more than one number


def diagnose(proof: Proof, row: int, count: int, confirmed: Mapping[int, int]) -> Diagnosis:
    """Return the causes that fit *count* stitches at the end of *row*.

    row: from 0 in the proof's rows; -1 is the foundation. confirmed: what the maker has
    counted on earlier rows, by row, whether it was right or not.

    Raises:
        IndexError: there is no such row.
    """
    if row == FOUNDATION:
        return _foundation(proof, count)
    return _Case(proof, row, count, confirmed).diagnosis()


def _foundation(proof: Proof, count: int) -> Diagnosis:
    chains = (proof.foundation.chains if proof.foundation else None) or 0
    off = count - chains
    cause = Cause.FOUNDATION_LONG if off > 0 else Cause.FOUNDATION_SHORT
    suspects = (Suspect(cause, FOUNDATION, abs(off)),) if off else ()
    mends = (Mend.KNOT_END,) if off > 0 else (Mend.ADD,) if off else ()
    return Diagnosis(FOUNDATION, "Foundation", False, chains, count, suspects, mends=mends)


class _Case:
    """One count that is off, with all that is known about the rows before it."""

    def __init__(self, proof: Proof, row: int, count: int, confirmed: Mapping[int, int]) -> None:
        self.proof, self.row, self.count = proof, row, count
        self.here = proof.rows[row]
        self.confirmed = {at: told for at, told in confirmed.items() if at < row}
        self.off = count - self.here.made
        self.right = max((at for at in self.confirmed if self._off(at) == 0), default=None)
        self.last = max(self.confirmed, default=None)  # the last row that was counted at all
        self.was = self._off(self.last) if self.last is not None else 0
        self.change = self.off - self.was  # what has come since that count
        self.part_begins = self._part_begins()

    def diagnosis(self) -> Diagnosis:
        shape = self._shape(self.row)
        steady = self._steady()
        suspects = self._suspects(steady)
        known = self._known_right(steady)
        return Diagnosis(
            row=self.row,
            label=self.here.label,
            round=self.here.kind == "round",
            expected=self.here.made,
            count=self.count,
            suspects=suspects,
            steady=steady,
            known_right=known,
            unchanged_since=self.last if self.last is not None and self.change == 0 else None,
            mends=self._mends(steady, suspects, known),
            carried=self._carried(),
            chain_counts=shape.chain_counts,
            labels=self._labels(),
            spaces=shape.spaces_below,
            sides=shape.sides,
            repeat_makes=next((each.makes for each in shape.repeats), 0),
            chained=self._chains(),
        )

    def _chains(self) -> int:
        return (self.proof.foundation.chains if self.proof.foundation else None) or 0

    def _off(self, row: int) -> int:
        """How many too many were counted on *row*, a row or the foundation."""
        if row == FOUNDATION:
            return self.confirmed[row] - self._chains()
        return self.confirmed[row] - self.proof.rows[row].made

    def _part_begins(self) -> int:
        part = self.here.part
        at = self.row
        while at > 0 and self.proof.rows[at - 1].part == part:
            at -= 1
        return at

    def _shape(self, row: int) -> Shape:
        below = self.proof.rows[row - 1] if row > 0 else None
        return shape_of(self.proof.rows[row], below)

    # A steady drift

    def _steady(self) -> Steady | None:
        """Return the drift of one a row (or two) that the numbers fit, if any."""
        change = abs(self.change)
        if change < 2:
            return None
        found: Steady | None = None
        if self.last is not None:
            found = self._steady_since(self.last, change)
        if found is None and not self._this_row_explains():
            begins = self.row - change  # one a row up to here must have begun after this one
            earliest = self.part_begins if self.last is None else self.last
            if begins >= earliest:
                found = Steady(begins, change, 1)
        if found is None or not self._can_drift(found.after + 1):
            return None
        return found

    def _steady_since(self, after: int, change: int) -> Steady | None:
        rows = self.row - after
        if rows >= 2 and change in {rows, 2 * rows}:
            return Steady(after, rows, change // rows)
        return None

    def _this_row_explains(self) -> bool:
        """Whether the row's own structure gives the whole difference, in one cause."""
        return any(True for _ in _structural(self._shape(self.row), self.row, self.change))

    def _can_drift(self, first: int) -> bool:
        """Whether each row from *first* to the counted one has an edge or a join to go wrong at."""
        kinds = {self._edge_kind(self.proof.rows[at]) for at in range(first, self.row + 1)}
        return len(kinds) == 1 and None not in kinds

    @staticmethod
    def _edge_kind(row: ProvedRow) -> str | None:
        if row.kind == "row":
            return "edge"
        return "join" if row.joined else None

    # Causes

    def _suspects(self, steady: Steady | None) -> tuple[Suspect, ...]:
        found: list[Suspect] = []
        if steady is not None:
            found.append(Suspect(self._edge_cause(self.row), self.row, steady.a_row))
        if self.change:
            for row in self._rows_in_doubt(steady):
                found.extend(self._causes(row))
        if not found and self.change:
            found.append(Suspect(Cause.WITHIN_A_BLOCK, self.row, abs(self.change)))
        return tuple({(each.cause, each.row): each for each in reversed(found)}.values())[::-1]

    def _rows_in_doubt(self, steady: Steady | None) -> Iterator[int]:
        """The rows where it may have happened: this one first, then back to the last count."""
        yield self.row
        if steady is None:
            earliest = self.last + 1 if self.last is not None else self.part_begins
            yield from range(self.row - 1, max(earliest, self.row - LOOKED_BACK) - 1, -1)

    def _causes(self, row: int) -> list[Suspect]:
        """Return what could make the whole difference within *row*."""
        shape = self._shape(row)
        found = list(_structural(shape, row, self.change))
        if shape.into_ring:
            cause = Cause.RING_EXTRA if self.change > 0 else Cause.RING_SHORT
            found.append(Suspect(cause, row, abs(self.change)))
        elif shape.into_chain:
            found.extend(_foundation_row(row, self.change, self._chains()))
        elif abs(self.change) <= EVENED_OUT and self._edge_kind(self.proof.rows[row]):
            found.append(Suspect(self._edge_cause(row), row, abs(self.change)))
        return found

    def _edge_cause(self, row: int) -> Cause:
        joined = self._edge_kind(self.proof.rows[row]) == "join"
        if self.change > 0:
            return Cause.JOIN_WORKED if joined else Cause.EDGE_EXTRA
        return Cause.JOIN_MISSED if joined else Cause.EDGE_MISSED

    # What is known, and what to do

    def _known_right(self, steady: Steady | None) -> int | None:
        """The last row counted right; else the one where a steady drift must have begun."""
        if self.right is not None:
            return self.right
        return steady.after if steady is not None and self.last is None else None

    def _mends(
        self, steady: Steady | None, suspects: tuple[Suspect, ...], known: int | None
    ) -> tuple[Mend, ...]:
        if self.off == 0:
            return ()
        few = abs(self.off) <= EVENED_OUT
        shape = self._shape(self.row)
        if steady is not None or self.change != self.off:
            return (Mend.RIP,)
        if shape.into_ring:
            return (Mend.TAKE_OUT if self.off > 0 else Mend.ADD,)
        mends: list[Mend] = []
        if few and self._plain_from_here() and not shape.into_chain:
            mends.append(Mend.EVEN_OUT)
        only_here = all(suspect.row == self.row for suspect in suspects)
        just_counted = known == self.row - 1
        mends.append(Mend.REDO_ROW if only_here or just_counted else Mend.RIP)
        return tuple(mends)

    def _plain_from_here(self) -> bool:
        """Whether this row and the next are plain: as many made as used, and no repeat."""
        rows = self.proof.rows[self.row : self.row + 2]
        shapes = [self._shape(self.row + at) for at in range(len(rows))]
        return len(rows) == 2 and all(
            not shape.repeats and row.made == row.before
            for shape, row in zip(shapes, rows, strict=True)
        )

    def _carried(self) -> Carried | None:
        """What the next row would come to on this count, if its words would not notice."""
        if self.row + 1 >= len(self.proof.rows):
            return None
        next_row = self.proof.rows[self.row + 1]
        if next_row.before != self.here.made or next_row.part != self.here.part:
            return None
        return _carried(next_row, self._shape(self.row + 1), self.row + 1, self.off)

    def _labels(self) -> dict[int, str]:
        """The labels of the rows that are spoken of; cheap for a piece of any length."""
        first = max(0, self.row - abs(self.change) - 1)
        near = {first, *range(max(0, self.row - LOOKED_BACK), self.row + 2)}
        near |= {first + 1, self.part_begins}
        near |= {at for at in (self.right, self.last) if at is not None}
        near |= {at + 1 for at in (self.right, self.last) if at is not None}
        rows = self.proof.rows
        labels = {at: rows[at].label for at in near if 0 <= at < len(rows)}
        labels[FOUNDATION] = "the foundation"
        return labels


def _structural(shape: Shape, row: int, change: int) -> Iterator[Suspect]:
    """Yield what the structure of one row explains wholly, the most telling first."""
    size, more = abs(change), change > 0
    if more and size >= 2 and size == shape.spaces_below:
        yield Suspect(Cause.SPACES_WORKED, row)
    if shape.sides >= 3 and size % shape.sides == 0:
        cause = Cause.SIDE_EXTRA if more else Cause.SIDE_MISSED
        yield Suspect(cause, row, size // shape.sides)
    for repeat in shape.repeats:
        if repeat.makes >= 2 and size and size % repeat.makes == 0:
            cause = Cause.REPEAT_LONG if more else Cause.REPEAT_SHORT
            if size // repeat.makes <= max(1, repeat.passes // 2):
                yield Suspect(cause, row, size // repeat.makes)
        if repeat.passes >= 3 and size == repeat.passes and repeat.passes != shape.sides:
            cause = Cause.EACH_REPEAT_LONG if more else Cause.EACH_REPEAT_SHORT
            yield Suspect(cause, row)
    if size and size <= shape.increases:
        yield Suspect(Cause.INCREASE_EXTRA if more else Cause.INCREASE_MISSED, row, size)
    if size and size <= shape.decreases:
        yield Suspect(Cause.DECREASE_MISSED if more else Cause.DECREASE_EXTRA, row, size)
    if not more and shape.stitches_a_space and size % shape.stitches_a_space == 0:
        yield Suspect(Cause.SPACE_MISSED, row, size // shape.stitches_a_space)


def _foundation_row(row: int, change: int, chains: int) -> Iterator[Suspect]:
    """A few chains are missed in working; a part of them is miscounted in chaining."""
    more, size = change > 0, abs(change)
    if size <= CHAINS_MISSED:
        yield Suspect(Cause.CHAIN_TWICE if more else Cause.CHAIN_MISSED, row, size)
    if size * CHAINS_MISCOUNTED <= chains:
        yield Suspect(Cause.FOUNDATION_LONG if more else Cause.FOUNDATION_SHORT, row, size)


def _carried(row: ProvedRow, shape: Shape, at: int, off: int) -> Carried | None:
    """What a row of one repeat comes to when the row below has *off* stitches more."""
    if len(shape.repeats) == 1 and shape.repeats[0].uses:
        repeat = shape.repeats[0]
        more, rest = divmod(off, repeat.uses)
        if rest or repeat.passes + more < 0:
            return None
        return Carried(at, row.made + more * repeat.makes, row.spaces + more * repeat.makes_spaces)
    if not shape.repeats and row.made == row.before:
        return Carried(at, row.made + off, row.spaces)
    return None
