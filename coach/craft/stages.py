"""A proved pattern as stages: the foundation, every row or round, and the finishing.

Each stage knows the facts that a maker asks for (which row it is worked as, which side faces,
what the count must come to, where the first and the last stitch go). It chooses no words.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby

from coach.craft.ends import ends_of
from coach.craft.finishing import finishing
from coach.craft.proof import Foundation, Proof, ProvedRow
from coach.craft.row_ends import (
    CLOSING_CHAIN,
    closing_actions,
    is_chain_of_row,
)
from coach.craft.stage import Stage, blocks, first_color
from coach.craft.steps import StageKind
from coach.craft.waiting_yarn import waiting_yarn
from coach.craft.working import Action, Block, Group, Into, Work


def stages(proof: Proof) -> tuple[Stage, ...]:
    """Return every stage of *proof* in working order."""
    finishes = finishing(proof)
    begun = {at: each for at in range(len(proof.rows)) if (each := foundation_of(proof, at))}
    if not proof.rows and proof.foundation is not None:
        begun[0] = proof.foundation
    of = len(begun) + len(proof.rows) + len(finishes)
    made: list[Stage] = []
    if begun and not proof.rows:
        made.append(_foundation_stage(begun[0], ends_of(proof).count))
    for at, stage in enumerate(_row_stages(proof.rows, begun)):
        if at not in begun:
            made.append(stage)
            continue
        start = _foundation_stage(begun[at], 0 if at else ends_of(proof).count)
        if at:
            label = f"{stage.part} foundation" if stage.part else start.label
            start = replace(start, label=label, part=stage.part)
        made += [replace(start, copies=stage.copies), replace(stage, copies=1)]
    made = [replace(stage, number=at, of=of) for at, stage in enumerate(made, start=1)]
    before = len(made)
    for at, finish in enumerate(finishes, start=1):
        label = finish.task.value.capitalize()
        made.append(Stage(StageKind.FINISHING, before + at, of, label, finish=finish))
    return tuple(made)


def foundation_of(proof: Proof, at: int) -> Foundation | None:
    """Return what is made before row *at*, where a piece begins there; None where none does.

    A row of foundation stitches is chain and first row in one; a first round "in the ring"
    needs one, told or not; and a chain closed under such a round is a ring.
    """
    row = proof.rows[at]
    foundation = row.foundation if at else proof.foundation
    first = list(blocks(row.work))
    in_ring = any(block.where.into is Into.RING for block in first) and not any(
        isinstance(block, Block) and block.role == "foundation" for block in first
    )
    if foundation is None:
        return Foundation(kind="magic ring") if in_ring else None
    if foundation.kind in ("none", "foundation stitches"):
        return None
    if foundation.kind == "joined chain" and in_ring:
        return replace(foundation, kind="ring")
    return foundation


def _foundation_stage(foundation: Foundation, ends: int) -> Stage:
    return Stage(
        StageKind.FOUNDATION,
        0,
        0,
        "Foundation",
        stitches=foundation.chains or foundation.loops,
        stated=True,
        foundation=foundation,
        color=foundation.color,
        ends=ends,
    )


def _row_stages(rows: Sequence[ProvedRow], begun: Mapping[int, Foundation]) -> Iterator[Stage]:
    """Yield the stage of each row; its number among all stages is not known here.

    begun: the foundations of the pieces, by the row that they are made for. No yarn passes from
    the last row of a piece to the next piece.
    """
    places = _places(rows)
    repeats = _repeats(rows)
    stated = {row.label: row.made for row in rows if row.stated is not None}
    for at, row in enumerate(rows):
        below = rows[at - 1] if at and rows[at - 1].part == row.part else None
        work, _ = closing_actions(row.work)
        worked = [block for block in blocks(work) if not _is_chain_of_row(block)]
        stitches = [block for block in worked if not _is_join(block)]
        after = rows[at + 1] if at + 1 < len(rows) and at + 1 not in begun else None
        foundation = begun.get(at) or begun.get(0)
        yield Stage(
            StageKind.ROUND if row.kind == "round" else StageKind.ROW,
            0,
            0,
            row.label,
            part=row.part,
            side=row.side,
            stitches=row.made,
            spaces=row.spaces,
            stated=row.stated is not None or stated.get(row.worked_as or "") == row.made,
            place=places[at][0],
            places=places[at][1],
            worked_as=row.worked_as,
            repeat=row.repeat,
            row_in_repeat=repeats[at][0],
            rows_in_repeat=repeats[at][1],
            turning_chain=turning_chain(row.work),
            counted_below=_counted_below(row, below),
            first=stitches[0] if stitches else None,
            last=stitches[-1] if stitches else None,
            chain_below=_closing_chain(below),
            turns_first=row.turned and not _says_turn(row, below),
            joined=row.joined or any(_is_join(block) for block in worked),
            row=row,
            below=below,
            color=first_color(row.work) or (foundation.color if foundation else None),
            color_after=_color_brought_in(row, after),
            color_before=_last_color(() if at in begun else rows[:at], foundation),
            waiting=waiting_yarn(rows, at) if _color_brought_in(row, after) else None,
            row_at=at,
            copies=row.copies,
        )


def turning_chain(work: Sequence[Work]) -> Block | None:
    """Return the chain that a row begins with (skipped foundation chains too), or None."""
    for block in blocks(work):
        if isinstance(block, Block) and _is_chain_of_row(block):
            return block
        return None
    return None


def _is_chain_of_row(block: Block | Group) -> bool:
    return isinstance(block, Block) and is_chain_of_row(block)


def _is_join(block: Block | Group) -> bool:
    return isinstance(block, Block) and block.role == "join"


def _counted_below(row: ProvedRow, below: ProvedRow | None) -> Block | None:
    """The chain that began the row below is met last, if the work was turned and it counts."""
    if below is None or row.kind == "round" or not _turned_between(row, below):
        return None
    chain = turning_chain(below.work)
    return chain if chain is not None and chain.counts_as else None


def _turned_between(row: ProvedRow, below: ProvedRow) -> bool:
    return row.turned or _says_turn(row, below)


def _says_turn(row: ProvedRow, below: ProvedRow | None) -> bool:
    """Whether the words of this row's beginning or of the last row's end say to turn."""
    own = any(isinstance(item, Action) and item.kind == "turn" for item in row.work[:3])
    _, closing = closing_actions(below.work) if below is not None else ((), ())
    return own or any(action.kind == "turn" for action in closing)


def _closing_chain(below: ProvedRow | None) -> int:
    """How many chains the row below made for this one before turning."""
    if below is None:
        return 0
    _, closing = closing_actions(below.work)
    return next((int(action.text) for action in closing if action.kind == CLOSING_CHAIN), 0)


def _color_brought_in(row: ProvedRow, after: ProvedRow | None) -> str | None:
    """The next row's yarn, where it comes in on this row's last stitch: not where it is joined anew."""
    if after is None:
        return None
    ended = any(isinstance(item, Action) and item.kind == "fasten off" for item in row.work[-4:])
    joined = any(isinstance(item, Action) and item.kind == "join yarn" for item in after.work[:3])
    return None if ended or joined else first_color(after.work)


def _last_color(before: Sequence[ProvedRow], foundation: Foundation | None) -> str | None:
    """The yarn that the row before ended with, if it tells any."""
    if not before:
        return foundation.color if foundation is not None else None
    told = [block.color for block in blocks(before[-1].work) if block.color]
    return told[-1] if told else None


def _places(rows: Sequence[ProvedRow]) -> list[tuple[int, int]]:
    """Return (which, of how many) for each row within its part."""
    places: list[tuple[int, int]] = []
    for _, group in groupby(rows, key=lambda row: row.part):
        count = len(list(group))
        places.extend((number, count) for number in range(1, count + 1))
    return places


def _repeats(rows: Sequence[ProvedRow]) -> list[tuple[int, int]]:
    """Return (which row of its repeat, of how many) for each row; (0, 0) outside a repeat."""
    found: list[tuple[int, int]] = []
    for repeat, group in groupby(rows, key=lambda row: (row.part, row.repeat)):
        count = len(list(group))
        inside = repeat[1] is not None
        found.extend((number, count) if inside else (0, 0) for number in range(1, count + 1))
    return found
