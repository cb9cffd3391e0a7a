"""Single rows, each with what lies below it: for an editor, and for checking the reader.

One JSON object a line in, one a line out. What lies below comes as run-length places in the
order in which the row meets them.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from coach.app.row_steps import steps_of
from coach.craft.fabric import CHAIN, Cell, Item, Kind, Run, Unit, cells_one_by_one, joined
from coach.craft.instruction import Chain, Make
from coach.craft.pattern import Draft, Line, SpecialStitch, Start
from coach.craft.problem import Verdict
from coach.craft.proof import Proof
from coach.craft.readings import prove
from coach.craft.walk import Below, Opening
from coach.craft.working import Block, Into, Where, Work
from coach.notation.reading import read_row
from coach.notation.unreadable import UnreadableError

MOST_PLACES = 5000


@dataclass(frozen=True, slots=True)
class Sums:
    """The answer for one size."""

    verdict: str
    worked: int | None
    spaces_worked: int | None
    produces: int | None
    chains_spaces: int | None
    steps: list[dict[str, Any]]
    message: str = ""
    hint: str = ""


class UnusableRecordError(Exception):
    """A record's own fields can't be used: its "before", sizes or terms are not what they must be."""


def prove_lines(lines: Iterable[str]) -> Iterator[str]:
    """Yield the answer to each record, in order; a record that can't be used is answered too."""
    for number, line in enumerate(lines, 1):
        if not line.strip():
            continue
        yield json.dumps(answer(line, number), ensure_ascii=False)


def answer(line: str, number: int) -> dict[str, Any]:
    """Return the answer to one record."""
    try:
        record = json.loads(line)
        if not isinstance(record, dict) or not isinstance(record.get("text"), str):
            raise TypeError("a record needs a text")
    except (ValueError, TypeError, RecursionError) as fault:
        return _unusable(f"line {number}", f"This line is no record that can be used: {fault}.")
    name = record.get("id", f"line {number}")
    try:
        sizes = _given(record).sizes
        if sizes:
            parts = [_proved(record, index) for index in range(len(sizes))]
        else:
            parts = [_proved(record, None)]
    except UnreadableError as fault:
        return _unusable(name, f"{fault.message} {fault.remedy}")
    except UnusableRecordError as fault:
        return _unusable(name, f"What lies below can't be used: {fault}.")
    return _together(name, parts, bool(sizes))


def _unusable(name: object, message: str) -> dict[str, Any]:
    return {
        "id": name, "verdict": str(Verdict.BROKEN_NOTATION), "worked": None, "spaces_worked": None,
        "produces": None, "chains_spaces": None, "steps": [], "message": message,
        "hint": "Give an object with id, terms, before and text.",
    }  # fmt: skip


def _together(name: object, parts: list[Sums], several: bool) -> dict[str, Any]:
    first = next((part for part in parts if part.verdict != "ok"), parts[0])

    def figure(field: str) -> Any:
        values = [getattr(part, field) for part in parts]
        if not several:
            return values[0]
        return None if all(value is None for value in values) else values

    return {
        "id": name,
        "verdict": first.verdict,
        "worked": figure("worked"),
        "spaces_worked": figure("spaces_worked"),
        "produces": figure("produces"),
        "chains_spaces": figure("chains_spaces"),
        "steps": figure("steps"),
        "message": first.message,
        "hint": first.hint,
    }


def _proved(record: Mapping[str, Any], size: int | None) -> Sums:
    given = _given(record)
    draft, earlier = read_row(
        record["text"],
        terms=given.terms,
        specials=given.specials,
        refs=given.refs,
        kind="round" if given.before.get("kind") == "round" else "row",
        sizes=given.sizes,
        size=size or 0,
    )
    try:
        below, rules = _below(given.before, draft, size), _rules(given.before)
    except (ValueError, TypeError, KeyError, AttributeError, IndexError, OverflowError) as fault:
        raise UnusableRecordError(str(fault)) from fault
    return _sums(prove(draft, Opening(below, rules, tuple(earlier))), draft, given.before)


@dataclass(frozen=True, slots=True)
class Given:
    """What a record gives beside its text."""

    before: Mapping[str, Any]
    sizes: tuple[str, ...]
    refs: Mapping[str, str]
    specials: Mapping[str, str]
    terms: str | None


def _given(record: Mapping[str, Any]) -> Given:
    """Return the record's fields, of the kinds that they must be."""
    try:
        before = record.get("before") or {}
        terms = record.get("terms")
        if terms not in (None, "US", "UK"):
            raise ValueError(f"terms must be US or UK, not {terms}")
        return Given(
            before,
            tuple(str(each) for each in record.get("sizes") or ()),
            {str(name): str(text) for name, text in (before.get("refs") or {}).items()},
            {str(k): str(v) for k, v in (before.get("special_stitches") or {}).items()},
            terms,
        )
    except (ValueError, TypeError, AttributeError) as fault:
        raise UnusableRecordError(str(fault)) from fault


def _at(value: Any, size: int | None) -> int:
    if isinstance(value, list):
        value = value[size or 0]
    return int(value or 0)


def _below(before: Mapping[str, Any], draft: Draft, size: int | None) -> Below:
    kind = str(before.get("kind") or "none")
    stitches = _at(before.get("sts"), size)
    turning = before.get("turning_chain") or {}
    color = None
    if kind == "none":
        return Below()
    if kind == "chain":
        return Below((Run(CHAIN, stitches),) if stitches else (), "chain")
    places = before.get("places")
    items: tuple[Item, ...]
    if places:
        items = joined(
            Run(_cell(str(place["k"])), int(place["n"])) for place in places if int(place["n"]) > 0
        )
    else:
        items = (Run(Cell(Kind.STITCH, "st"), stitches),) if stitches else ()
    if turning.get("counts") and not turning.get("already_made_for_this_row") and kind == "row":
        items = _with_turning(items, int(turning.get("chains") or 0))
    items = with_units(items, draft.specials)
    closing = None
    if turning.get("already_made_for_this_row") and turning.get("chains"):
        closing = (int(turning["chains"]), "st" if turning.get("counts") else "")
    return Below(items, kind, closing, as_met=True, color=color)


def _cell(name: str) -> Cell:
    if name == "ch":
        return CHAIN
    if name.endswith("sp"):
        digits = "".join(letter for letter in name if letter.isdigit())
        length = int(digits) if digits else 1
        return Cell(Kind.SPACE, f"ch-{length} sp", length)
    return Cell(Kind.STITCH, name)


def _with_turning(items: tuple[Item, ...], chains: int) -> tuple[Item, ...]:
    """The last stitch met is the counted turning chain of the row below."""
    if not items or not isinstance(items[-1], Run) or not items[-1].cell.is_stitch:
        return items
    last = items[-1]
    kept = (Run(last.cell, last.count - 1),) if last.count > 1 else ()
    return (*items[:-1], *kept, Run(replace(last.cell, turning=True, length=chains), 1))


def with_units(items: tuple[Item, ...], specials: Mapping[str, SpecialStitch]) -> tuple[Item, ...]:
    """Mark the groups among plain places that are one of the pattern's own: shells, V-stitches."""
    shapes = [
        (name, shape) for name, special in specials.items() if len(shape := _shape(special)) > 1
    ]
    shapes.sort(key=lambda pair: -len(pair[1]))
    cells = list(cells_one_by_one(items, MOST_PLACES))
    if not shapes or len(cells) > MOST_PLACES:
        return items
    out: list[Cell] = []
    at = 0
    while at < len(cells):
        for name, shape in shapes:
            if _is_there(cells, at, shape):
                size = len(shape)
                out += [
                    replace(cell, unit=Unit(name, index, size))
                    for index, cell in enumerate(cells[at : at + size])
                ]
                at += size
                break
        else:
            out.append(cells[at])
            at += 1
    return joined(Run(cell, 1) for cell in out)


def _is_there(cells: Sequence[Cell], at: int, shape: Sequence[str]) -> bool:
    if [cell.name for cell in cells[at : at + len(shape)]] != list(shape):
        return False
    if len(set(shape)) > 1:
        return True
    name = shape[0]
    before = at == 0 or cells[at - 1].name != name
    run = 0
    while at + run < len(cells) and cells[at + run].name == name:
        run += 1
    return before and run == len(shape)


def _shape(special: SpecialStitch) -> list[str]:
    out: list[str] = []
    for part in special.parts:
        if isinstance(part, Make):
            out += [part.stitch] * part.each
        elif isinstance(part, Chain):
            out.append(f"ch-{part.count} sp")
    return out


def _rules(before: Mapping[str, Any]) -> dict[int, str]:
    turning = before.get("turning_chain") or {}
    if not turning or turning.get("counts") is None:
        return {}
    length = int(turning.get("chains") or 0)
    return {length: "st" if turning["counts"] else ""}


def _sums(proof: Proof, draft: Draft, before: Mapping[str, Any]) -> Sums:
    starts = [entry for entry in draft.entries if isinstance(entry, Start)]
    works: list[Work] = [
        Block("ch", start.chains or 0, Where(Into.NOTHING)) for start in starts if start.chains
    ]
    problem = proof.problems[0] if proof.problems else None
    verdict = str(problem.code) if problem else "ok"
    if problem is None and proof.questions:
        verdict = str(Verdict.UNCLEAR)
    message = problem.message if problem else (proof.questions[0].what if proof.questions else "")
    hint = problem.hint if problem else ""
    if not proof.rows:
        chains = sum(start.chains or 0 for start in starts)
        if not starts and problem is None:
            verdict, message = str(Verdict.BROKEN_NOTATION), "No row was found in this line."
        return Sums(verdict, None, None, chains, 0, steps_of(works), message, hint)
    row = proof.rows[0]
    if problem is not None and any(r.verdict is not Verdict.OK for r in proof.rows):
        row = next(r for r in proof.rows if r.verdict is not Verdict.OK)
    nothing = row.worked is None or before.get("kind") in (None, "none")
    return Sums(
        verdict,
        None if nothing else row.worked,
        None if nothing else row.spaces_worked,
        row.made,
        row.spaces,
        steps_of([*works, *row.work]),
        message,
        hint,
    )


__all__ = ["Line", "answer", "prove_lines", "with_units"]
