"""The steps of a pattern as data, for editors and scripts: the contract's `steps --json`.

Tells a proof; proves nothing itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coach.craft.proof import Proof
from coach.craft.stage import Stage
from coach.craft.stage_steps import steps
from coach.craft.stages import stages
from coach.craft.steps import Pace, StageKind, Step
from coach.craft.working import Block, Group, Into, Where
from coach.wording.telling import words_for_step


def steps_json(
    proof: Proof,
    *,
    rows: tuple[int, int] | None = None,
    pace: Pace = Pace.BLOCK,
    terms: str | None = None,
) -> list[dict[str, Any]]:
    """Return each step of *proof* as a JSON object, in working order.

    rows: only those from the first to the last number, both included; None is the whole piece
    with foundation and finishing. terms: the names to speak, else the pattern's own.
    """
    return list(told_steps(proof, rows=rows, pace=pace, terms=terms))


def told_steps(
    proof: Proof,
    *,
    rows: tuple[int, int] | None = None,
    pace: Pace = Pace.BLOCK,
    terms: str | None = None,
) -> Iterator[dict[str, Any]]:
    """Yield what `steps_json` lists, one by one: a very wide piece need not be held whole."""
    spoken = terms or proof.terms or "US"
    for stage in stages(proof):
        if rows is None or _within(stage, rows):
            for step in steps(stage, pace):
                yield _told(stage, step, spoken)


def _within(stage: Stage, rows: tuple[int, int]) -> bool:
    number = stage.row.number if stage.row is not None else None
    return number is not None and rows[0] <= number <= rows[1]


def _told(stage: Stage, step: Step, terms: str) -> dict[str, Any]:
    words = words_for_step(stage, step, terms)
    main = _main(step)
    return {
        "row": _row_number(stage),
        "label": stage.label,
        "kind": stage.kind.value,
        "block": step.number,
        "blocks": step.of,
        "repeat": [step.passes[0].number, step.passes[0].of] if step.passes else None,
        "repeats": [[each.number, each.of] for each in step.passes],
        "count": _count(step, main),
        "stitch": _stitch(main) if not step.turns else _in_turn(step),
        "into": _into(step, main),
        "parts": [_part(part) for part in step.parts],
        "from": step.first,
        "to": step.last,
        "color": main.color if main is not None else None,
        "color_next": step.color_next,
        "full": words.full,
        "brief": words.brief,
    }


def _row_number(stage: Stage) -> int | None:
    if stage.kind is StageKind.FOUNDATION:
        return 0
    return stage.row.number if stage.row is not None else None


def _main(step: Step) -> Block | Group | None:
    """The part that a step is about: a skip or a chain only where there is nothing else."""
    worked = [
        part
        for part in step.parts
        if isinstance(part, Group) or part.stitch not in {"sk", "ch"} or part.role
    ]
    return next(iter(worked or step.parts), None)


def _count(step: Step, main: Block | Group | None) -> int:
    if step.turns:
        return step.turns
    if isinstance(main, Group):
        return main.times
    return 0 if main is None else main.count


def _stitch(part: Block | Group | None) -> str | None:
    if isinstance(part, Group):
        return part.name or "group"
    return None if part is None else part.stitch


def _in_turn(step: Step) -> str:
    """The stitches of an alternation: "FPdc, BPdc"."""
    return ", ".join(part.stitch for part in step.parts if isinstance(part, Block))


def _into(step: Step, main: Block | Group | None) -> str | None:
    if main is None:
        return None
    return _counted(main.where, step.turns) if step.turns else into_noted(main)


def _part(part: Block | Group) -> dict[str, Any]:
    told: dict[str, Any] = {
        "count": part.times if isinstance(part, Group) else part.count,
        "stitch": _stitch(part),
        "into": into_noted(part),
    }
    if isinstance(part, Group):
        told["parts"] = [_part(each) for each in part.parts]
    return told


_PLACES = {
    Into.RING: "ring",
    Into.NOTHING: None,
    Into.SAME: "same st",
    Into.TURNING_CHAIN: "top of tch",
    Into.SKIPPED: "skipped st",
    Into.STITCH_OR_SPACE: "next st or sp",
}


def into_noted(part: Block | Group) -> str | None:
    """Return where *part* goes, in the short form of the contract: "next 5 sts"."""
    where = part.where
    if where.into is Into.SAME and where.chain_length:
        return "same sp"
    if where.into in _PLACES:
        return _PLACES[where.into]
    if isinstance(part, Group):
        count = part.times
    elif part.each > 1:
        count = max(1, part.count // part.each)
    else:
        count = where.places
    return _counted(where, count)


def _counted(where: Where, count: int) -> str:
    noun = _noun(where)
    word = where.position or "next"
    return (
        f"{word} {count} {noun}{'' if noun.endswith('c') else 's'}"
        if count > 1
        else f"{word} {noun}"
    )


def _noun(where: Where) -> str:
    if where.into is Into.SPACE:
        return f"ch-{where.chain_length} sp" if where.chain_length else "sp"
    nouns = {Into.CHAIN: "ch", Into.ROW_END: "row end", Into.FREE_LOOP: "free loop"}
    return nouns.get(where.into) or where.named or "st"
