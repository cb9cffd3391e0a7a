"""Groups named by their stitches: "5-dc shell", "3-tr cluster"; and bare ones that go in one place."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import (
    Chain,
    GroupIn,
    Instruction,
    Make,
    Of,
    Picot,
    Target,
    Which,
)
from coach.craft.stitch import legs
from coach.notation.clauses import is_bare, same_name
from coach.notation.nouns import ANY
from coach.notation.row_state import RowState
from coach.notation.stitch_places import place_after


def unit_ahead(reader: RowState) -> bool:
    """Tell whether the name of a shell or a cluster comes after this token."""
    following = reader.cursor.peek()
    return following is not None and following.kind == "unit"


def with_bare_before(
    reader: RowState, items: list[Instruction], made: list[Instruction]
) -> list[Instruction]:
    """ "2 dc, ch 3, 3 dc in same sp": what stands before without a place goes in there too."""
    last = made[-1]
    if len(made) != 1 or not isinstance(last, Make) or last.target is None:
        return made
    same = last.target.which is Which.SAME and last.target.noun.of is not Of.RING
    spaced = last.target.noun.of is Of.SPACE and last.target.count == 1
    if not (same or spaced) or last.target.which is Which.EACH:
        return made
    cut = len(items)
    while cut > 0 and (is_bare(items[cut - 1]) and not isinstance(items[cut - 1], Picot)):
        cut -= 1
    while cut < len(items) and isinstance(items[cut], Chain):
        cut += 1
    parts = items[cut:]
    if len(parts) < 2 or not isinstance(parts[-1], Chain) or not isinstance(parts[0], Make):
        return made
    if not same and (parts[0].stitch, parts[0].each) != (last.stitch, last.each):
        return made
    if any(isinstance(part, Make) and (part.increase or legs(part.stitch) > 1) for part in parts):
        return made
    del items[cut:]
    inside = (*parts, replace(last, target=None))
    return [GroupIn(tuple(inside), last.target, last.place)]


def n_legged(
    reader: RowState, number: int | None, stitch: str, unit: str, start: int
) -> list[Instruction] | None:
    """ "5-dc shell", "3-tr cluster": a group of five, or one top of three legs."""
    cursor = reader.cursor
    cursor.takes("st")
    where, _each = place_after(reader, unit, None)
    count = number or 1
    place = cursor.place(start)
    if unit.removeprefix("beg ") in ("shell", "fan", "half shell", "corner shell", "V-st"):
        return [Make(stitch, count, where or Target(Which.NEXT, ANY), place)]
    written = f"{number}-{stitch} {unit}" if number else unit
    for name in reader.specials:
        if same_name(name, f"{number} {form_written(reader, start)} {unit}") or same_name(
            name, written
        ):
            return [Make(unit, 1, where, place, named=name, legs=count if count > 1 else 0)]
    return [Make(unit, 1, where, place, legs=count if count > 1 else 0)]


def form_written(reader: RowState, start: int) -> str:
    """Return the stitch's name as it is written at the cursor's start."""
    return next(
        (t.raw for t in reader.cursor.tokens[start : reader.cursor.at] if t.kind == "stitch"), ""
    )
