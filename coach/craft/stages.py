"""A proved pattern as stages: the foundation, every row or round, and the finishing.

Each stage knows the facts that a maker asks for (which row it is worked as, which side faces,
what the count must come to, where the first and the last stitch go). It chooses no words.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from coach.craft.ends import ends_of
from coach.craft.finishing import USUAL_STEPS, Finish, finishing
from coach.craft.merging import sums_of, tree
from coach.craft.places_named import with_places_named, without_told_colors
from coach.craft.proof import Foundation, Proof, ProvedRow
from coach.craft.row_ends import (
    CLOSING_CHAIN,
    closing_actions,
    is_chain_of_row,
    opening_actions,
)
from coach.craft.step_tree import Steps
from coach.craft.steps import Pace, StageKind, Step, renumbered, sentences
from coach.craft.waiting_yarn import WaitingYarn, waiting_yarn
from coach.craft.working import Action, Block, Group, Into, Passes, Where, Work

LOT = 20  # a long chain is made and counted in lots of twenty


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
        return self.row is not None and _first_color(self.row.work) is not None


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


def steps(stage: Stage, pace: Pace = Pace.BLOCK) -> Sequence[Step]:
    """Return the steps of *stage*, looked up as they are asked for. There is always one at least."""
    if stage.foundation is not None:
        return _foundation_steps(stage.foundation, pace)
    if stage.finish is not None:
        return _finishing_steps(stage.finish)
    row = stage.row
    if row is None or not _worked(row.work):
        return sentences([("no words", row.text if row else "")])
    told = with_places_named(without_told_colors(row.work, stage.color_after))
    work, closing = closing_actions(told)
    if pace is not Pace.ROW:
        work, opening = opening_actions(work)
    else:
        opening = ()
    if stage.turns_first:
        opening = (Action("turn"), *opening)
    return Steps(
        tree(work, pace),
        available=_available(row),
        opening=opening,
        closing=closing,
        color_after=stage.color_after,
        color_before=stage.color_before,
    )


def _available(row: ProvedRow) -> int:
    """The stitches below that this row's blocks will use, and those that they leave.

    A place that is used without a block (a round's join stands on it) is not waiting for one.
    """
    used = sums_of(row.work).uses
    if row.before is None or row.worked is None:
        return used
    return used + max(0, row.before - row.worked)


def blocks(work: Sequence[Work]) -> Iterator[Block | Group]:
    """Yield the blocks and groups of *work* once each, those of a repeat too, in written order."""
    for item in work:
        if isinstance(item, Passes):
            yield from blocks(item.parts)
            if item.last is not None:
                yield from blocks(item.last)
        elif not isinstance(item, Action):
            yield item


def _worked(work: Sequence[Work]) -> bool:
    return any(True for _ in blocks(work))


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
            color=_first_color(row.work) or (foundation.color if foundation else None),
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


def _first_color(work: Sequence[Work]) -> str | None:
    return next((block.color for block in blocks(work) if block.color), None)


def _color_brought_in(row: ProvedRow, after: ProvedRow | None) -> str | None:
    """The next row's yarn, where it comes in on this row's last stitch: not where it is joined anew."""
    if after is None:
        return None
    ended = any(isinstance(item, Action) and item.kind == "fasten off" for item in row.work[-4:])
    joined = any(isinstance(item, Action) and item.kind == "join yarn" for item in after.work[:3])
    return None if ended or joined else _first_color(after.work)


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


def _foundation_steps(foundation: Foundation, pace: Pace) -> Sequence[Step]:
    chains = foundation.chains or 0
    made: list[Step] = []
    if chains and foundation.kind in {"chain", "ring", "joined chain"}:
        lot = chains if pace is Pace.ROW else LOT
        for first in range(1, chains + 1, lot):
            last = min(first + lot - 1, chains)
            chain = Block("ch", last - first + 1, Where(Into.NOTHING), color=foundation.color)
            made.append(
                Step(
                    0,
                    0,
                    (chain,),
                    first=first,
                    last=last,
                    done_before=first - 1,
                    made_before=first - 1,
                    left_after=chains - last,
                    task="chain",
                )
            )
    if foundation.kind != "chain" or not made:
        made.append(Step(0, 0, (), task=foundation.kind))
    return renumbered(made)


def _finishing_steps(finish: Finish) -> Sequence[Step]:
    """The task's own steps, its cautions, and each end to weave in where there are many."""
    if finish.usual:
        told = [(finish.task.value, "")] * (USUAL_STEPS[finish.task] + len(finish.cautions))
    else:
        told = [(finish.task.value, finish.sentence)]
    ends = finish.ends if finish.ends > ENDS_TOLD_FROM else 0
    return sentences([*told, *[(END, "")] * ends])


END = "end"  # the task of a step that is one end to weave in
ENDS_TOLD_FROM = 2  # the first and the last end need no list to tick off
