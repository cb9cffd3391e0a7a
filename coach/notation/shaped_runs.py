"""A plain run that is shaped at its ends or evenly: "sc across, dec 1 st at each end".

How many stitches are gained or lost is said; where they lie is the trade's custom: the first and
the last stitch (or two) of the row, or spread evenly (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass

from coach.craft.instruction import Bound, Instruction, Make, Spread, Target, Which
from coach.craft.problem import Place
from coach.notation.cursor import Cursor
from coach.notation.nouns import ANY
from coach.notation.row_state import RowState
from coach.notation.some_places import runs_across

_ENDS = frozenset({"first", "last"})
_BEGIN = (
    "inc", "dec", "increasing", "decreasing", "evenly", "and", "while", "but", "working", "with", "making",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Shaping:
    """How a run is shaped: at which of its ends, or (for none) evenly; how many at each or in all."""

    decrease: bool
    number: int
    ends: frozenset[str]


def shaped_run(reader: RowState, items: list[Instruction]) -> list[Instruction] | None:
    """Take "dec 1 st at each end", "increasing 6 sts evenly" with the run before or after it.

    What stands in *items* for the run is taken out.
    """
    cursor = reader.cursor
    if not cursor.sees(*_BEGIN) and not cursor.sees_kind("num"):
        return None
    start = cursor.at
    told = _shaping(cursor)
    if told is None:
        cursor.at = start
        told = _increased_at_ends(cursor, items)
    if told is None:
        cursor.at = start
        return None
    place = cursor.place(start)
    before = items[-1] if items else None
    if isinstance(before, Make) and runs_across(before):
        items.pop()
        base = before.stitch
    else:
        base = _run_after(reader) or reader.base
    if not told.ends:
        return [Spread(base, told.number, told.decrease, place)]
    return _at_the_ends(base, told, place)


def _at_the_ends(base: str, told: _Shaping, place: Place) -> list[Instruction]:
    if told.decrease:
        shaped = Make(f"{base}{told.number + 1}tog", 1, None, place)
        held = told.number + 1
    else:
        one = Target(Which.NEXT, ANY)
        shaped = Make(base, told.number + 1, one, place, increase=True)
        held = 1
    until = Bound("last", ANY, held) if "last" in told.ends else None
    run = Make(base, 1, Target(Which.EACH, ANY, until=until, open=until is None), place)
    out: list[Instruction] = [run]
    if "first" in told.ends:
        out.insert(0, shaped)
    if "last" in told.ends:
        out.append(shaped)
    return out


def _shaping(cursor: Cursor) -> _Shaping | None:
    cursor.takes("and", "while", "but")
    evenly = cursor.takes("evenly") is not None
    word = cursor.takes("inc", "dec", "increasing", "decreasing")
    if word is None:
        return None
    decrease = word.is_("dec", "decreasing")
    number = cursor.number()
    if cursor.sees_kind("stitch"):
        cursor.next()
    else:
        cursor.takes("st", "times")
    ends = frozenset[str]()
    if not evenly and not cursor.sees("evenly"):
        ends = _ends(cursor)
    evenly = _evenly(cursor) or evenly
    if not ends and not (evenly and number is not None):
        return None
    if not _clause_ends(cursor):
        return None
    return _Shaping(decrease, number or 1, ends)


def _increased_at_ends(cursor: Cursor, items: list[Instruction]) -> _Shaping | None:
    """Take "working 2 sc in first and last st" after its run."""
    run = items[-1] if items else None
    cursor.takes("working", "with", "making", "but")
    number = cursor.number()
    stitch = cursor.next() if cursor.sees_kind("stitch") else None
    if number not in (2, 3) or stitch is None or not isinstance(run, Make):
        return None
    if run.stitch != stitch.text or not runs_across(run) or not cursor.takes("in", "into"):
        return None
    cursor.takes("both", "the")
    if not cursor.takes_all("first", "and", "last") or not cursor.takes("st"):
        return None
    return _Shaping(False, number - 1, _ENDS) if _clause_ends(cursor) else None


def _ends(cursor: Cursor) -> frozenset[str]:
    """Take "at each end of row", "both sides", "at beg and end", "at end of row"."""
    cursor.takes("at", "on")
    cursor.skip_fillers()
    ends: set[str] = set()
    if cursor.takes("each", "both", "either"):
        if cursor.takes("end", "side", "edge", "sides", "ends"):
            ends = set(_ENDS)
    else:
        while (word := cursor.takes("beg", "start", "end")) is not None:
            ends.add("last" if word.is_("end") else "first")
            if not cursor.takes("and", "&"):
                break
            cursor.takes("at")
            cursor.skip_fillers()
    if ends and cursor.takes("of"):
        cursor.takes("the", "this")
        cursor.takes("row", "rnd")
    return frozenset(ends)


def _evenly(cursor: Cursor) -> bool:
    """Take "evenly spaced around", "evenly in the round"."""
    if not cursor.takes("evenly"):
        return False
    cursor.takes("spaced", "spread", "distributed", "apart")
    cursor.takes("across", "around", "along", "over", "in", "round")
    cursor.takes("the", "this")
    cursor.takes("row", "rnd")
    return True


def _clause_ends(cursor: Cursor) -> bool:
    return cursor.now is None or cursor.sees(
        ",", ".", ";", ")", "(", "–", ":", "and", "turn", "join"
    )


def _run_after(reader: RowState) -> str | None:
    """Take ", sc in each rem st" after the shaping; return its stitch, or None where none follows."""
    from coach.notation.stitch_words import stitches  # noqa: PLC0415 - each reads the other

    cursor = reader.cursor
    start = cursor.at
    cursor.takes(",")
    cursor.takes("and", "with")
    if cursor.sees_kind("stitch"):
        made = stitches(reader, [])
        if (
            made is not None
            and len(made) == 1
            and isinstance(made[0], Make)
            and runs_across(made[0])
        ):
            return made[0].stitch
    cursor.at = start
    return None
