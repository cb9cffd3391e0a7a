"""Rows worked as earlier ones: by range, by times, by length, and all even or odd rows."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from coach.craft.color_plan import striped
from coach.craft.instruction import Act, Make, Noun, Of, Target, Which
from coach.craft.pattern import Line, Rerun
from coach.craft.problem import Problem, Verdict
from coach.craft.proof import ProvedRow
from coach.craft.range_counts import not_its_own
from coach.craft.row_walk import work_row
from coach.craft.stated_counts import stated_for
from coach.craft.walk import MOST_ROWS, Walk, label_of, shown_as
from coach.craft.worked_otherwise import worked_otherwise


def fill_alternates(walk: Walk, line: Line) -> None:
    """Put in the rows that "and all even rows" stands for, before the next written one."""
    if walk.alternate is None or line.number is None or line.kind != walk.last_kind:
        return
    kind, source = walk.alternate
    number = walk.last_number + 1
    while number < line.number and number - walk.last_number < 3000:
        if kind in ("even", "odd") and number % 2 != (0 if kind == "even" else 1):
            return
        if (line.kind, number) in walk.lines:
            return
        work_row(
            walk,
            source,
            label_of(line.kind, number),
            number,
            (),
            worked_as=shown_as(walk, source),
        )
        number += 1
        if number < line.number and kind in ("even", "odd", "alternate"):
            return


def rerun(walk: Walk, entry: Rerun) -> None:
    """Work earlier rows again."""
    if entry.alternate is not None:
        set_alternate(walk, entry)
        if walk.opening is None or walk.rows:
            return
    sources = sources_of(walk, entry)
    if not sources:
        walk.problems.append(
            Problem(
                Verdict.NO_SUCH_PLACE,
                entry.place,
                f"It repeats rows that are not there: {', '.join(entry.source[:4])}.",
                "Name rows that were written before.",
                row=entry.numbers[0] if entry.numbers else None,
            )
        )
        return
    sources = [_otherwise(walk, line, entry) for line in sources]
    first, number_of_rows = span_of(walk, entry, len(sources))
    if entry.source[0] == "even":
        sources = [replace(line, label=label_of(line.kind, first)) for line in sources]
    if len(walk.rows) + number_of_rows > MOST_ROWS:
        walk.too_many = True  # told before any of them is worked
        return
    fault = wrong_times(walk, entry, len(sources), first, number_of_rows)
    total = math.ceil(number_of_rows / len(sources)) if sources else 0
    begins = len(walk.rows)
    in_yarn: dict[tuple[int, str], Line] = {}
    for index in range(number_of_rows):
        number = first + index
        line = sources[index % len(sources)]
        stated = stated_for(entry.stated, index, number_of_rows)
        if stated and not_its_own(walk, entry, line):
            stated = ()
        label = label_of(line.kind, number)
        if entry.under is not None:
            label = f"{label_of(line.kind, entry.under)}, {index + 2} of {number_of_rows + 1}"
        which = (
            (index // len(sources) + 1, total)
            if total > 1 or len(sources) > 1
            else (index + 1, number_of_rows)
        )
        color = striped(entry.stripes, index, repeats=True)
        work_row(
            walk,
            _in_yarn(in_yarn, line, color),
            label,
            number if entry.under is None else None,
            stated,
            worked_as=shown_as(walk, line) if line.label != label else None,
            repeat=which,
            at=entry.place,
            text=entry.text,
            color=color,
        )
    if isinstance(entry.length_cm, Fraction):
        made = walk.rows[begins:]
        walk.rows[begins:] = [replace(row, until_cm=entry.length_cm) for row in made]
    if fault is not None:
        walk.problems.append(fault)
    for act in entry.tail:
        if isinstance(act, Act) and act.kind == "facing":
            walk.below.side = "WS" if act.text == "RS" else "RS"


def _in_yarn(known: dict[tuple[int, str], Line], line: Line, color: str | None) -> Line:
    """Return *line* begun in *color*, where its own words name another yarn; kept once for each."""
    if color is None or not any(
        isinstance(item, Act) and item.kind == "colour" for item in line.items
    ):
        return line
    key = (id(line), color)
    if key not in known:
        first = next(item for item in line.items if isinstance(item, Act) and item.kind == "colour")
        items = tuple(replace(first, text=color) if item is first else item for item in line.items)
        known[key] = replace(line, items=items, text=f"With {color}, {line.text}")
    return known[key]


def _otherwise(walk: Walk, line: Line, entry: Rerun) -> Line:
    """Return *line* with what *entry* says is worked otherwise; a problem where it cannot be placed."""
    if not entry.instead:
        return line
    items = worked_otherwise(line.items, entry.instead)
    problems = line.problems
    if items is None:
        items, problems = line.items, (_nowhere(line, entry),)
    return replace(
        line, items=items, problems=problems, stated=(), text=entry.text, place=entry.place
    )


def _nowhere(line: Line, entry: Rerun) -> Problem:
    return Problem(
        Verdict.BROKEN_NOTATION,
        entry.instead[0].place,
        f"It says what is worked otherwise than in {line.label}, but not in the place of what.",
        "Write the row out.",
    )


def set_alternate(walk: Walk, entry: Rerun) -> None:
    """Remember what all even (or odd, or alternate) rows are worked as."""
    source = entry.source[0]
    line = walk.named.get(source)
    if line is None and source.isdigit():
        line = walk.lines.get((entry.kind, int(source)))
    if line is not None and entry.alternate is not None:
        walk.alternate = (entry.alternate, line)


def sources_of(walk: Walk, entry: Rerun) -> list[Line]:
    """Return the lines that *entry* works again."""
    if entry.source[0] == "even":
        return [_even(entry, walk.rows)]
    out: list[Line] = []
    for name in entry.source:
        if name.startswith("last "):
            count = int(name.split()[1])
            recent = [named_row(walk, row) for row in walk.rows[-count:]]
            out += [line for line in recent if line is not None]
            continue
        line = walk.named.get(name) if not name.isdigit() else None
        if line is None and name.isdigit():
            number = int(name)
            line = walk.lines.get((entry.kind, number))
            if line is None:
                line = walk.lines.get(("round" if entry.kind == "row" else "row", number))
        if line is None:
            return []
        out.append(line)
    return out


def named_row(walk: Walk, row: ProvedRow) -> Line | None:
    """Return the line that a proved row was worked from."""
    if row.number is not None and (row.kind, row.number) in walk.lines:
        return walk.lines[(row.kind, row.number)]
    return walk.named.get(row.label)


def span_of(walk: Walk, entry: Rerun, period: int) -> tuple[int, int]:
    """Return (first row number, how many rows)."""
    first = entry.numbers[0] if entry.numbers else walk.last_number + 1
    if (
        entry.numbers
        and entry.numbers[1] >= entry.numbers[0]
        and (
            entry.numbers[1] > entry.numbers[0] or (entry.times is None and entry.length_cm is None)
        )
    ):
        return first, entry.numbers[1] - entry.numbers[0] + 1
    if entry.length_cm is not None:
        return first, rows_for_length(walk, entry, period)
    return first, period * min(entry.times or 1, MOST_ROWS)


def rows_for_length(walk: Walk, entry: Rerun, period: int) -> int:
    """Turn a measured length into rows by the gauge, ending on the side that is asked."""
    length = entry.length_cm
    if walk.gauge is None or not isinstance(length, Fraction):
        return period
    rows = max(walk.gauge.rows_for(length) - len(walk.rows), period)
    if entry.ending_side and walk.below.side:
        last = walk.below.side if rows % 2 == 0 else _other(walk.below.side)
        if last != entry.ending_side:
            rows += 1
    elif period > 1:
        rows = math.ceil(rows / period) * period
    return rows


def wrong_times(
    walk: Walk, entry: Rerun, period: int, first: int, number_of_rows: int
) -> Problem | None:
    """Hold "Rows 6-45" against "ten times more"."""
    if entry.times is None or not entry.numbers or entry.numbers[1] <= entry.numbers[0]:
        return None
    if entry.times * period in (number_of_rows, number_of_rows + period):
        return None
    return Problem(
        Verdict.COUNT_MISMATCH,
        entry.place,
        f"Rows {first} to {first + number_of_rows - 1} are {number_of_rows} rows, but {period} rows "
        f"worked {entry.times} times make {entry.times * period}.",
        "Correct the row numbers or the number of times.",
        row=first,
        label=label_of(entry.kind, first),
    )


def _other(side: str) -> str:
    return "WS" if side == "RS" else "RS"


def _even(entry: Rerun, rows: Sequence[ProvedRow]) -> Line:
    """The line that "work 8 rows even" stands for: one in each, in the stitch of the row below."""
    stitch = entry.source[1] if len(entry.source) > 1 else "sc"
    if rows and len(entry.source) == 1:
        stitch = max(rows[-1].by_stitch, key=lambda name: rows[-1].by_stitch[name], default="sc")
    make = Make(stitch, 1, Target(Which.EACH, Noun(Of.STITCH), open=True), entry.place)
    return Line(label_of(entry.kind, None), entry.kind, None, (make,), entry.place, text=entry.text)
