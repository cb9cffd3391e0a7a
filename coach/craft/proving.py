"""The proof of a whole pattern: row by row on the fabric below, under one reading of its customs."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.fabric import CHAIN, Item, Run
from coach.craft.gauge import gauge_from
from coach.craft.part_again import part_again
from coach.craft.pattern import Draft, Entry, Line, NoWords, Part, PartAgain, Rerun, Start
from coach.craft.problem import Problem, Verdict
from coach.craft.proof import Foundation, ProvedRow
from coach.craft.range_counts import stated_of
from coach.craft.reruns import fill_alternates, rerun
from coach.craft.row_bench import Switches
from coach.craft.row_walk import planned_color, work_row
from coach.craft.walk import MOST_ROWS, Below, Opening, Walk, unit_size
from coach.craft.working import Action


def walked(draft: Draft, switches: Switches, opening: Opening | None = None) -> Walk:
    """Work the whole of *draft* under *switches*; return the way with all its rows and faults."""
    walk = Walk(draft, replace(switches, uk=draft.terms == "UK"), opening)
    walk.rules = dict(walk.draft.counts_as)
    walk.gauge = gauge_from(walk.draft.gauge)
    if walk.opening is not None:
        walk.below = replace(walk.opening.below)
        walk.rules.update(walk.opening.rules)
        for line in walk.opening.lines:
            walk.named[line.label] = line
            if line.number is not None:
                walk.lines[(line.kind, line.number)] = line
    walk.problems += walk.draft.problems
    for name, special in walk.draft.specials.items():
        size = unit_size(special.parts)
        if size:
            walk.unit_sizes[name] = size
    for entry in walk.draft.entries:
        enter(walk, entry)
        if walk.too_many or len(walk.rows) >= MOST_ROWS:
            walk.problems.append(
                Problem(
                    Verdict.BROKEN_NOTATION,
                    entry.place,
                    f"The pattern has more than {MOST_ROWS} rows; the rest was not proved.",
                    "See whether a row number has a figure too many.",
                )
            )
            break
    return walk


def enter(walk: Walk, entry: Entry) -> None:
    """Take one entry of the draft."""
    match entry:
        case Part():
            walk.part, walk.begins_part, walk.copies = entry.name, True, entry.copies
        case Start():
            begin(walk, entry)
        case NoWords():
            no_words(walk, entry)
        case Rerun():
            rerun(walk, entry)
        case PartAgain():
            part_again(walk, entry)
        case Line():
            fill_alternates(walk, entry)
            work_row(walk, entry, entry.label, entry.number, stated_of(walk, entry))


def begin(walk: Walk, entry: Start) -> None:
    """A foundation begins a piece, or a part of it."""
    walk.starts.append(entry)
    kind = entry.kind
    items: tuple[Item, ...] = (Run(CHAIN, entry.chains),) if entry.chains else ()
    color = entry.color
    if color is None and not walk.rows:
        color = planned_color(walk, 1)  # chain and first row are worked on end
    begun = Foundation(entry.chains, kind, color, entry.place.line)
    if walk.foundation is None:
        walk.foundation = begun
    if walk.rows:
        walk.begun = begun
    # a first round that names no place goes into the ring, as it does where none was told
    walk.below = Below(items, "none" if kind == "magic ring" else kind, color=color)


def no_words(walk: Walk, entry: NoWords) -> None:
    """Rows that can't be guided are listed."""
    label = entry.label
    span = entry.numbers
    if span and span[1] > span[0]:
        short = "Row" if entry.kind == "row" else "Rnd"
        label = f"{short}s {span[0]} to {span[1]}"
        tell = f"{short}s {span[0]} to {span[1]} have no words; they cannot be guided."
    else:
        tell = f"{label} has no words that can be followed; it cannot be guided."
    walk.problems.append(
        Problem(
            Verdict.NO_WORDS,
            entry.place,
            tell,
            "Write what is worked, stitch by stitch, beside the chart or photo.",
            row=span[0] if span else None,
            label=label,
        )
    )
    first, last = span or (None, None)
    for number in range(first or 0, (last or first or 0) + 1):
        short = "Row" if entry.kind == "row" else "Rnd"
        walk.rows.append(
            ProvedRow(
                entry.kind,
                f"{short} {number}" if first else label,
                number if first else None,
                walk.shown_part,
                None,
                entry.place.line,
                None,
                None,
                0,
                0,
                {},
                None,
                Verdict.NO_WORDS,
                (Action("remark", entry.why),),
                text=entry.why,
            )
        )
    walk.below.uncertain = True
    if last:
        walk.last_number, walk.last_kind = last, entry.kind
