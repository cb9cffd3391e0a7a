"""One row of the way: worked on what lies below, judged, noted, and made the ground of the next."""

from __future__ import annotations

from dataclasses import replace

from coach.craft import fabric
from coach.craft.edge_rounds import number_left_open
from coach.craft.fault_words import message_of, stated_message
from coach.craft.instruction import Chain, Instruction, Repeated
from coach.craft.pattern import Line, Stated
from coach.craft.problem import Place, Problem, Verdict
from coach.craft.proof import ProvedRow
from coach.craft.row_attempts import Attempt, attempt, on_both, on_the_twin
from coach.craft.row_below import set_below, side_of
from coach.craft.row_bench import Ground
from coach.craft.row_fit import prove_row
from coach.craft.slips import likely_slip
from coach.craft.split_sides import MOST_SPLITS, Split
from coach.craft.stated_counts import stated_in_all, total_of
from coach.craft.stitch import called
from coach.craft.tally import mismatch, tally
from coach.craft.underarms import MOST_UNDERARMS, underarms_of
from coach.craft.walk import MOST_SLIPS, Below, Walk, WorkedRow, labelled


def work_row(
    walk: Walk,
    line: Line,
    label: str,
    number: int | None,
    stated: tuple[Stated, ...],
    *,
    worked_as: str | None = None,
    repeat: tuple[int, int] | None = None,
    at: Place | None = None,
    text: str | None = None,
    color: str | None = None,
) -> None:
    """Work one row on what lies below, and note what it comes to.

    color: the yarn that a repeat of rows tells ("Rep Rows 2-5 in B").
    """
    place = at or line.place
    if not stated and repeat and line.stated and wrong_before(walk, line):
        stated = line.stated[0] if at in (None, line.place) else as_meant(walk, line)
    number_on(walk, line.kind, number)
    color = color or planned_color(walk, number)
    if color is not None:
        walk.below.color = color
    ground_before = walk.below
    begun = walk.begun or (None if walk.rows else walk.foundation)
    taken, twin = on_both(walk, line, stated)
    fault, go_on = judged(walk, line, taken, stated, number=number, label=labelled(walk, label))
    ground, result, count = taken.ground, taken.result, taken.count
    walk.looked |= result.looked
    walk.results_by_row.append(result)
    verdict = fault.code if fault else Verdict.OK
    unknown = False  # what lies below is only guessed at after a fault: no sums of places then
    if fault is not None:
        key = (line.place.line, line.place.column, fault.code)
        if walk.below.edge and fault.code in _OF_FIT and not line.problems:
            verdict, unknown = Verdict.OK, True
        elif key not in walk.told:
            walk.told.add(key)
            if not (walk.below.uncertain and fault.code in _OF_FIT):
                walk.problems.append(fault)
                said = total_of(stated)
                if fault.code is Verdict.COUNT_MISMATCH and said is not None:
                    walk.meant[line.place] = said - result.used
            else:
                verdict, unknown = Verdict.OK, True
    total = stated_in_all(stated, count) if fault is None else total_of(stated)
    nothing = result.from_nothing or unknown
    turned = _turned(walk, line, afresh=result.from_nothing)
    side = side_of(walk, line, turned)
    row = ProvedRow(
        kind=line.kind,
        label=labelled(walk, label),
        number=number,
        part=walk.shown_part,
        side=side,
        line=place.line,
        worked=None if nothing else result.used,
        spaces_worked=None if nothing else result.used_spaces,
        made=total if walk.below.edge and unknown and total else count.made,
        spaces=count.spaces,
        by_stitch=count.by_stitch,
        stated=total,
        verdict=verdict,
        work=result.work,
        before=None if nothing else fabric.size(ground.below)[0],
        before_spaces=fabric.size(ground.below)[1],
        worked_as=worked_as,
        repeat=repeat,
        turned=turned,
        joined=result.joined,
        text=text or line.text,
        foundation=walk.begun,
        copies=walk.copies,
    )
    walk.worked.append(
        WorkedRow(walk.part, line, label, row.label, number, stated, ground_before, begun)
    )
    if twin is not None:
        walk.twin_rows[len(walk.rows)] = on_the_twin(row, twin)
    walk.rows.append(row)
    set_below(walk, line, result, count, go_on, stated, side)
    _note_what_is_left(walk, ground_before, taken if fault is None else None, number)
    walk.below.edge = number_left_open(line, stated, afresh=result.from_nothing)
    if twin is not None:
        walk.below.other = twin.result.out
    elif walk.below.other is not None:
        walk.slip = line.place
    if fault is None:
        _note_underarms(walk, line)
    _note_line(walk, line, label, number)
    walk.begins_part, walk.begun, walk.copies = False, None, 1


def _note_what_is_left(
    walk: Walk, before: Below, taken: Attempt | None, number: int | None
) -> None:
    """Keep what rows left past their ends, for later rows that come to it and sides joined there."""
    if taken is None:
        return
    leaves = taken.result.leaves
    here = leaves if taken.took_up else (*leaves, *before.beyond)
    walk.below.short = taken.short
    if here or before.ahead:
        walk.below.beyond, walk.below.ahead = before.ahead, here
    if leaves:
        below = walk.worked[-2].number if len(walk.worked) > 1 else None
        walk.splits = [*walk.splits[1 - MOST_SPLITS :], Split(number, below, leaves)]


def _note_underarms(walk: Walk, line: Line) -> None:
    """Remember what a row skipped under a chain, for a sleeve that is begun there later."""
    if len(walk.rows) > 1 and any(isinstance(each, Chain | Repeated) for each in line.items):
        below = walk.rows[-2].by_stitch
        stitch = max(below, key=lambda name: below[name], default="sc")
        if found := underarms_of(line, stitch):
            walk.underarms = [*walk.underarms, *found][-MOST_UNDERARMS:]


def _note_line(walk: Walk, line: Line, label: str, number: int | None) -> None:
    """Remember the words of a row, for rows that repeat it."""
    if number is not None:
        walk.lines[(line.kind, number)] = line
    walk.named[label] = line
    if label == line.label:
        walk.shown[id(line)] = labelled(walk, label)
    walk.last_kind = line.kind


def _turned(walk: Walk, line: Line, *, afresh: bool) -> bool:
    """Tell whether the work is turned before *line*; a piece that is begun afresh is not."""
    below = walk.below
    if below.kind not in ("row", "round") or (afresh and walk.begins_part):
        return False
    return (line.kind == "row" and bool(walk.rows) and not below.kept) or below.turned


def planned_color(walk: Walk, number: int | None) -> str | None:
    """Return the yarn that the plan of colours tells for row *number*."""
    if number is None or not walk.draft.color_plan.stretches:
        return None
    parts = (walk.part,) if walk.shown_part else (None, walk.part)
    return walk.draft.color_plan.color_at(number, parts)


def wrong_before(walk: Walk, line: Line) -> bool:
    """Tell whether the count of these words was found wrong already: it is told only once.

    Where later rows went on from what was made, the words were right and only the count is wrong.
    """
    at = (line.place.line, line.place.column, Verdict.COUNT_MISMATCH)
    return line.place not in walk.disproved and at in walk.told


def as_meant(walk: Walk, line: Line) -> tuple[Stated, ...]:
    """Return what a row whose count was found wrong is meant to come to when it is worked again.

    "Row 2: ... (4 dc)" on 3 is meant to add one: so it is on 5, and its slip is not told twice.
    """
    change = walk.meant.get(line.place)
    figures = line.stated[0]
    if change is None or len(figures) != 1:
        return figures
    tried = attempt(walk, line, figures)
    if tried.result.fault is not None or tried.result.from_nothing:
        return figures
    return (replace(figures[0], number=tried.result.used + change),)


def slip_hint(walk: Walk, line: Line, ground: Ground, stated: tuple[Stated, ...]) -> str | None:
    """Return the hint that names the one number which would make the row fit, if there is one."""
    if (line.place.line, 0, Verdict.OK) in walk.slips or len(walk.slips) > MOST_SLIPS:
        return None
    walk.slips.add((line.place.line, 0, Verdict.OK))

    def holds(items: tuple[Instruction, ...]) -> bool:
        tried = prove_row(items, ground, walk.switches, walk.rules, walk.draft.specials)
        if tried.fault is not None:
            return False
        return mismatch(stated, tally(tried.out), walk.unit_sizes) is None

    words = likely_slip(line.items, holds, uk=walk.switches.uk)
    return f"It fits with {words}." if words else None


def judged(
    walk: Walk,
    line: Line,
    taken: Attempt,
    stated: tuple[Stated, ...],
    *,
    number: int | None,
    label: str,
) -> tuple[Problem | None, bool]:
    """Return the row's first fault, and whether the proof goes on from the stated count."""
    ground, result, count = taken.ground, taken.result, taken.count
    if line.problems:
        first = line.problems[0]
        for more in line.problems[1:]:
            if more.code in (Verdict.UNKNOWN_WORD, Verdict.TERM_CLASH):
                key = (more.place.line, more.place.column, more.code)
                if key not in walk.told:
                    walk.told.add(key)
                    walk.problems.append(replace(more, row=number, label=label))
        return replace(first, row=number, label=label), True
    if result.fault is not None:
        code, where, why = result.fault
        message, hint = message_of(code, why, result, ground, label)
        hint = slip_hint(walk, line, ground, stated) or hint
        return Problem(code, where, message, hint, row=number, label=label), True
    wrong = mismatch(stated, count, walk.unit_sizes)
    if wrong is not None:
        figure, found, what = wrong
        message, hint = stated_message(
            figure.number, found, called(what, uk=walk.switches.uk), label
        )
        slip = slip_hint(walk, line, ground, stated)
        hint = f"{hint} {slip}" if slip else hint
        at = figure.place
        return Problem(Verdict.COUNT_MISMATCH, at, message, hint, row=number, label=label), True
    return None, False


def number_on(walk: Walk, kind: str, number: int | None) -> None:
    """Notice where numbering starts again under a heading."""
    if number is None:
        return
    if number == 1 and walk.begun is not None and walk.part and not walk.begins_part:
        pieces = sum(1 for row in walk.rows if row.foundation is not None) + 2
        walk.part = f"Piece {pieces}"  # it has no heading, and is none of what stands above
    if number <= walk.last_number and walk.part is not None and walk.rows:  # noqa: SIM102
        if (walk.shown_part or "") != walk.part:
            walk.shown_part = walk.part
            # rows before a split are of the piece that both its sides belong to
            walk.lines = {at: line for at, line in walk.lines.items() if at[1] < number}
    walk.last_number = number


_OF_FIT = (
    Verdict.TOO_MANY_STITCHES,
    Verdict.STITCHES_LEFT_OVER,
    Verdict.REPEAT_DOES_NOT_FIT,
    Verdict.NO_SUCH_PLACE,
    Verdict.COUNT_MISMATCH,
)
