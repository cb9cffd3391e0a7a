"""The proof of a whole pattern: row by row on the fabric below, under one reading of its customs."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from coach.craft import fabric
from coach.craft.fabric import CHAIN, Item, Run, space_cell, stitch_cell
from coach.craft.fault_words import message_of, stated_message
from coach.craft.gauge import Gauge, gauge_from
from coach.craft.pattern import (
    Act,
    Draft,
    Entry,
    Instruction,
    Line,
    Make,
    Noun,
    NoWords,
    Of,
    Part,
    Rerun,
    Start,
    Stated,
    Target,
    Which,
    makes_in,
)
from coach.craft.problem import Place, Problem, Verdict
from coach.craft.proof import Foundation, ProvedRow
from coach.craft.row_bench import Ground, RowResult, Switches
from coach.craft.row_fit import prove_row
from coach.craft.slips import likely_slip
from coach.craft.tally import Tally, mismatch, tally

MOST_ROWS = 6_000
MOST_SLIPS = 6  # rows whose likely slip is looked for


@dataclass(slots=True)
class Below:
    """What the next row is worked into.

    items: in the order in which they were made. turned: a turn was said at the row's end.
    uncertain: the row before was at fault, so its fabric is only what was stated.
    """

    items: tuple[Item, ...] = ()
    kind: str = "none"
    closing: tuple[int, str | None] | None = None
    turned: bool = False
    kept: bool = False  # "do not turn"
    uncertain: bool = False
    color: str | None = None
    side: str | None = None
    other: tuple[Item, ...] | None = None  # what was really made, where another count is stated
    as_met: bool = False  # the items stand in the order in which the next row meets them


@dataclass(frozen=True, slots=True)
class Opening:
    """Where a proof begins when it does not begin with nothing: a single row on what lies below."""

    below: Below
    rules: Mapping[int, str] = field(default_factory=dict)
    lines: tuple[Line, ...] = ()


@dataclass(slots=True)
class Walk:
    """One way through the whole pattern under one set of switches."""

    draft: Draft
    switches: Switches
    opening: Opening | None = None
    rows: list[ProvedRow] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    looked: set[tuple[str, int]] = field(default_factory=set)
    foundation: Foundation | None = None
    below: Below = field(default_factory=Below)
    lines: dict[tuple[str, int], Line] = field(default_factory=dict)
    named: dict[str, Line] = field(default_factory=dict)
    part: str | None = None
    shown_part: str | None = None
    last_number: int = 0
    last_kind: str = "row"
    alternate: tuple[str, Line] | None = None
    rules: dict[int, str] = field(default_factory=dict)
    told: set[tuple[int, int, Verdict]] = field(default_factory=set)
    memo: dict[tuple[object, ...], RowResult] = field(default_factory=dict)
    tallies: dict[int, Tally] = field(default_factory=dict)
    turned_over: dict[int, tuple[tuple[Item, ...], tuple[Item, ...]]] = field(default_factory=dict)
    results: dict[int, RowResult] = field(default_factory=dict)
    slips: set[tuple[int, int, Verdict]] = field(default_factory=set)
    interned: dict[tuple[Item, ...], tuple[Item, ...]] = field(default_factory=dict)
    gauge: Gauge | None = None
    starts: list[Start] = field(default_factory=list)
    results_by_row: list[RowResult] = field(default_factory=list)
    unit_sizes: dict[str, int] = field(default_factory=dict)

    def go(self) -> Walk:
        """Work the whole pattern; return self."""
        self.rules = dict(self.draft.counts_as)
        self.gauge = gauge_from(self.draft.gauge)
        if self.opening is not None:
            self.below = replace(self.opening.below)
            self.rules.update(self.opening.rules)
            for line in self.opening.lines:
                self.named[line.label] = line
                if line.number is not None:
                    self.lines[(line.kind, line.number)] = line
        self.problems += self.draft.problems
        for name, special in self.draft.specials.items():
            size = _unit_size(special.parts)
            if size:
                self.unit_sizes[name] = size
        for entry in self.draft.entries:
            self.enter(entry)
            if len(self.rows) >= MOST_ROWS:
                self.problems.append(
                    Problem(
                        Verdict.BROKEN_NOTATION,
                        entry.place,
                        f"The pattern has more than {MOST_ROWS} rows; the rest was not proved.",
                        "See whether a row number has a figure too many.",
                    )
                )
                break
        return self

    def enter(self, entry: Entry) -> None:
        """Take one entry of the draft."""
        match entry:
            case Part():
                self.part = entry.name
            case Start():
                self.start(entry)
            case NoWords():
                self.no_words(entry)
            case Rerun():
                self.rerun(entry)
            case Line():
                self.fill_alternates(entry)
                self.work(entry, entry.label, entry.number, entry.stated[0] if entry.stated else ())

    def start(self, entry: Start) -> None:
        """A foundation begins a piece, or a part of it."""
        self.starts.append(entry)
        kind = entry.kind
        items: tuple[Item, ...] = (Run(CHAIN, entry.chains),) if entry.chains else ()
        if self.foundation is None:
            self.foundation = Foundation(entry.chains, kind, entry.color, entry.place.line)
        self.below = Below(items, kind, color=entry.color)

    def no_words(self, entry: NoWords) -> None:
        """Rows that can't be guided are listed."""
        label = entry.label
        span = entry.numbers
        if span and span[1] > span[0]:
            short = "Row" if entry.kind == "row" else "Rnd"
            label = f"{short}s {span[0]} to {span[1]}"
            tell = f"{short}s {span[0]} to {span[1]} have no words; they cannot be guided."
        else:
            tell = f"{label} has no words that can be followed; it cannot be guided."
        self.problems.append(
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
            self.rows.append(
                ProvedRow(
                    entry.kind,
                    f"{short} {number}" if first else label,
                    number if first else None,
                    self.shown_part,
                    None,
                    entry.place.line,
                    None,
                    None,
                    0,
                    0,
                    {},
                    None,
                    Verdict.NO_WORDS,
                    (Act_remark(entry.why),),
                    text=entry.why,
                )
            )
        self.below.uncertain = True
        if last:
            self.last_number, self.last_kind = last, entry.kind

    # -- one row -----------------------------------------------------------------------------

    def work(
        self,
        line: Line,
        label: str,
        number: int | None,
        stated: tuple[Stated, ...],
        *,
        worked_as: str | None = None,
        repeat: tuple[int, int] | None = None,
        at: Place | None = None,
        text: str | None = None,
    ) -> None:
        """Work one row on what lies below, and note what it comes to."""
        place = at or line.place
        if not stated and repeat and line.stated and self.wrong_before(line):
            stated = line.stated[0]
        self.number_on(line.kind, number)
        ground = self.ground(line)
        result = self.proved(line, ground, stated)
        count = self.tallied(result.out)
        judged = (ground, result, count, stated, number, self.labelled(label))
        fault, go_on = self.judged(line, place, *judged)
        if fault is not None and self.below.other is not None:
            self.below = replace(self.below, items=self.below.other, other=None)
            again = self.ground(line)
            tried = self.proved(line, again, stated)
            counted = self.tallied(tried.out)
            second, on = self.judged(
                line, place, again, tried, counted, stated, number, self.labelled(label)
            )
            if second is None:
                ground, result, count, fault, go_on = again, tried, counted, second, on
        self.looked |= result.looked
        self.results_by_row.append(result)
        verdict = fault.code if fault else Verdict.OK
        if fault is not None:
            key = (line.place.line, line.place.column, fault.code)
            if key not in self.told:
                self.told.add(key)
                if not (self.below.uncertain and fault.code in _OF_FIT):
                    self.problems.append(fault)
                else:
                    verdict = Verdict.OK
        total = _total(stated)
        turned = (
            line.kind == "row" and bool(self.rows) and not self.below.kept
        ) or self.below.turned
        nothing = result.from_nothing
        side = self.side_of(line, turned)
        self.rows.append(
            ProvedRow(
                kind=line.kind,
                label=self.labelled(label),
                number=number,
                part=self.shown_part,
                side=side,
                line=place.line,
                worked=None if nothing else result.used,
                spaces_worked=None if nothing else result.used_spaces,
                made=count.made,
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
            )
        )
        self.after(line, result, count, go_on, stated, side)
        if number is not None:
            self.lines[(line.kind, number)] = line
        self.named[label] = line
        self.last_kind = line.kind

    def wrong_before(self, line: Line) -> bool:
        """Tell whether the count of these words was found wrong already: it is told only once."""
        return any(
            number == line.place.line and code is Verdict.COUNT_MISMATCH
            for number, _, code in self.told
        )

    def ground(self, line: Line) -> Ground:
        """Return what *line* is worked into, as it is met."""
        below = self.below
        kind = below.kind
        items = below.items
        rounds = line.kind == "round"
        if kind in ("row", "round"):
            begins = _turns_first(line.items)
            turned = below.turned or begins if rounds else not below.kept
            if turned and not below.as_met:
                items = self.from_other_side(items, join_first=kind == "round")
            kind = "round" if rounds else "row"
        ends = sum(1 for row in self.rows[-400:] if row.kind == "row")
        return Ground(items, kind, below.closing, rounds, below.color, ends)

    def from_other_side(self, items: tuple[Item, ...], *, join_first: bool) -> tuple[Item, ...]:
        """Return *items* turned; remembered, so that a blanket's rows are turned once."""
        known = self.turned_over.get(id(items))
        if known is None or known[0] is not items:
            turned = fabric.from_other_side(items)
            known = (items, self.interned.setdefault(turned, turned))
            self.turned_over[id(items)] = known
            self.turned_over[id(known[1])] = (known[1], items)
        return known[1]

    def proved(self, line: Line, ground: Ground, stated: tuple[Stated, ...] = ()) -> RowResult:
        """Return the row's sums; the same words on the same fabric are worked once."""
        rules = tuple(sorted(self.rules.items()))
        key = (
            id(line.items),
            id(ground.below),
            ground.kind,
            ground.already,
            ground.round,
            ground.color,
            ground.row_ends if _along_ends(line.items) else 0,
            rules,
        )
        same_words = ("text", line.text, line.base_stitch, *key[1:])
        known = self.memo.get(key) or self.memo.get(same_words)
        if known is None:
            known = prove_row(
                line.items,
                ground,
                self.switches,
                self.rules,
                self.draft.specials,
                (lambda made: mismatch(stated, tally(made), self.unit_sizes) is None)
                if stated
                else None,
            )
            known = replace(known, out=self.interned.setdefault(known.out, known.out))
            self.memo[key] = known
            if known.fault is None and line.text:
                self.memo[same_words] = known
            self._keep(ground.below)
        return known

    def slip(self, line: Line, ground: Ground, stated: tuple[Stated, ...]) -> str | None:
        """Return the hint that names the one number which would make the row fit, if there is one."""
        if (line.place.line, 0, Verdict.OK) in self.slips or len(self.slips) > MOST_SLIPS:
            return None
        self.slips.add((line.place.line, 0, Verdict.OK))

        def holds(items: tuple[Instruction, ...]) -> bool:
            tried = prove_row(items, ground, self.switches, self.rules, self.draft.specials)
            if tried.fault is not None:
                return False
            return mismatch(stated, tally(tried.out), self.unit_sizes) is None

        words = likely_slip(line.items, holds)
        return f"It fits with {words}." if words else None

    def _keep(self, items: tuple[Item, ...]) -> None:
        """Hold *items*, so that its identity stays its own as long as the walk lasts."""
        self.turned_over.setdefault(-id(items), (items, items))

    def tallied(self, items: tuple[Item, ...]) -> Tally:
        """Return the count of *items*, counted once."""
        known = self.tallies.get(id(items))
        if known is None:
            known = tally(items)
            self.tallies[id(items)] = known
            self._keep(items)
        return known

    def judged(  # noqa: PLR0917
        self,
        line: Line,
        place: Place,
        ground: Ground,
        result: RowResult,
        count: Tally,
        stated: tuple[Stated, ...],
        number: int | None,
        label: str,
    ) -> tuple[Problem | None, bool]:
        """Return the row's first fault, and whether the proof goes on from the stated count."""
        if line.problems:
            first = line.problems[0]
            for more in line.problems[1:]:
                if more.code in (Verdict.UNKNOWN_WORD, Verdict.TERM_CLASH):
                    key = (more.place.line, more.place.column, more.code)
                    if key not in self.told:
                        self.told.add(key)
                        self.problems.append(replace(more, row=number, label=label))
            return replace(first, row=number, label=label), True
        if result.fault is not None:
            code, where, why = result.fault
            message, hint = message_of(code, why, result, ground, label)
            hint = self.slip(line, ground, stated) or hint
            return Problem(code, where, message, hint, row=number, label=label), True
        wrong = mismatch(stated, count, self.unit_sizes)
        if wrong is not None:
            figure, found, what = wrong
            message, hint = stated_message(figure.number, found, what, label)
            at = figure.place
            return Problem(Verdict.COUNT_MISMATCH, at, message, hint, row=number, label=label), True
        return None, False

    def after(  # noqa: PLR0917
        self,
        line: Line,
        result: RowResult,
        count: Tally,
        at_fault: bool,
        stated: tuple[Stated, ...],
        side: str | None,
    ) -> None:
        """Set what the next row meets: the fabric made, or after a fault what was stated."""
        items = result.out
        other = None
        uncertain = False
        if at_fault:
            items, uncertain = self.as_stated(line, items, count, stated)
            if items is not result.out and result.fault is None and not line.problems:
                other = result.out
        elif self.below.uncertain and _total(stated) is None:
            uncertain = True
        kept = any(isinstance(item, Act) and item.kind == "do not turn" for item in line.items)
        ends = _turns_last(line.items)
        self.below = Below(
            items, line.kind, result.closing, ends, kept, uncertain, result.color, side, other
        )
        for length, counts in result.taken_counts:
            if length > 1 and _said(line.items, length):
                self.rules.setdefault(length, counts)

    def as_stated(
        self, line: Line, items: tuple[Item, ...], count: Tally, stated: tuple[Stated, ...]
    ) -> tuple[tuple[Item, ...], bool]:
        """Return what the next row meets after a fault, and whether it is only a guess."""
        total = _total(stated)
        spaces = {
            figure.noun.length or 1: figure.number
            for figure in stated
            if figure.noun is not None and figure.noun.of is Of.SPACE
        }
        if total is None:
            if (line.problems or not items) and self.below.items:
                items = (Run(stitch_cell("st"), fabric.size(self.below.items)[0]),)
            return items, True
        if total == count.made and not spaces and not line.problems:
            return items, False
        if total > 10**7 or sum(spaces.values()) > 10**5:
            return items, True
        if not spaces:
            return ((Run(stitch_cell("st"), total),) if total else ()), False
        return _spread(total, spaces), True

    def side_of(self, line: Line, turned: bool) -> str | None:
        """Return which side faces: as said, or by turning from the row before."""
        if (line.side and not self.rows) or (
            line.side and (line.number is None or not _rerun_of(self.rows, line))
        ):
            return line.side
        before = self.below.side
        if before is None:
            return None
        if not turned:
            return before
        return "WS" if before == "RS" else "RS"

    # -- labels ------------------------------------------------------------------------------

    def number_on(self, kind: str, number: int | None) -> None:
        """Notice where numbering starts again under a heading."""
        if number is None:
            return
        if number <= self.last_number and self.part is not None and self.rows:  # noqa: SIM102
            if (self.shown_part or "") != self.part:
                self.shown_part = self.part
                self.lines = {}
        self.last_number = number

    def labelled(self, label: str) -> str:
        """Return the label with its part, where numbering was started again."""
        return f"{self.shown_part} {label}" if self.shown_part else label

    # -- repeats of rows ---------------------------------------------------------------------

    def fill_alternates(self, line: Line) -> None:
        """Put in the rows that "and all even rows" stands for, before the next written one."""
        if self.alternate is None or line.number is None or line.kind != self.last_kind:
            return
        kind, source = self.alternate
        number = self.last_number + 1
        while number < line.number and number - self.last_number < 3000:
            if kind in ("even", "odd") and number % 2 != (0 if kind == "even" else 1):
                return
            if (line.kind, number) in self.lines:
                return
            self.work(
                source, _label(line.kind, number), number, (), worked_as=self.labelled(source.label)
            )
            number += 1
            if number < line.number and kind in ("even", "odd", "alternate"):
                return

    def rerun(self, entry: Rerun) -> None:
        """Work earlier rows again."""
        if entry.alternate is not None:
            self.set_alternate(entry)
            if self.opening is None or self.rows:
                return
        sources = self.sources(entry)
        if not sources:
            self.problems.append(
                Problem(
                    Verdict.NO_SUCH_PLACE,
                    entry.place,
                    f"It repeats rows that are not there: {', '.join(entry.source[:4])}.",
                    "Name rows that were written before.",
                    row=entry.numbers[0] if entry.numbers else None,
                )
            )
            return
        first, number_of_rows = self.span(entry, len(sources))
        fault = self.wrong_times(entry, len(sources), first, number_of_rows)
        total = math.ceil(number_of_rows / len(sources)) if sources else 0
        begins = len(self.rows)
        for index in range(number_of_rows):
            number = first + index
            if len(self.rows) >= MOST_ROWS:
                return
            line = sources[index % len(sources)]
            stated = _stated_for(entry.stated, index, number_of_rows)
            label = _label(line.kind, number)
            which = (
                (index // len(sources) + 1, total)
                if total > 1 or len(sources) > 1
                else (index + 1, number_of_rows)
            )
            self.work(
                line,
                label,
                number,
                stated,
                worked_as=self.labelled(line.label) if line.label != label else None,
                repeat=which,
                at=entry.place,
                text=entry.text,
            )
        if isinstance(entry.length_cm, Fraction):
            made = self.rows[begins:]
            self.rows[begins:] = [replace(row, until_cm=entry.length_cm) for row in made]
        if fault is not None:
            self.problems.append(fault)
        for act in entry.tail:
            if isinstance(act, Act) and act.kind == "facing":
                self.below.side = "WS" if act.text == "RS" else "RS"

    def set_alternate(self, entry: Rerun) -> None:
        """Remember what all even (or odd, or alternate) rows are worked as."""
        source = entry.source[0]
        line = self.named.get(source)
        if line is None and source.isdigit():
            line = self.lines.get((entry.kind, int(source)))
        if line is not None and entry.alternate is not None:
            self.alternate = (entry.alternate, line)

    def sources(self, entry: Rerun) -> list[Line]:
        """Return the lines that *entry* works again."""
        if entry.source == ("even",):
            return [_even(entry, self.rows)]
        out: list[Line] = []
        for name in entry.source:
            if name.startswith("last "):
                count = int(name.split()[1])
                recent = [self.named_row(row) for row in self.rows[-count:]]
                out += [line for line in recent if line is not None]
                continue
            line = self.named.get(name) if not name.isdigit() else None
            if line is None and name.isdigit():
                number = int(name)
                line = self.lines.get((entry.kind, number))
                if line is None:
                    line = self.lines.get(("round" if entry.kind == "row" else "row", number))
            if line is None:
                return []
            out.append(line)
        return out

    def named_row(self, row: ProvedRow) -> Line | None:
        """Return the line that a proved row was worked from."""
        if row.number is not None and (row.kind, row.number) in self.lines:
            return self.lines[(row.kind, row.number)]
        return self.named.get(row.label)

    def span(self, entry: Rerun, period: int) -> tuple[int, int]:
        """Return (first row number, how many rows)."""
        first = entry.numbers[0] if entry.numbers else self.last_number + 1
        if (
            entry.numbers
            and entry.numbers[1] >= entry.numbers[0]
            and (
                entry.numbers[1] > entry.numbers[0]
                or (entry.times is None and entry.length_cm is None)
            )
        ):
            return first, entry.numbers[1] - entry.numbers[0] + 1
        if entry.length_cm is not None:
            return first, self.rows_for_length(entry, period)
        return first, period * min(entry.times or 1, MOST_ROWS)

    def rows_for_length(self, entry: Rerun, period: int) -> int:
        """Turn a measured length into rows by the gauge, ending on the side that is asked."""
        length = entry.length_cm
        if self.gauge is None or not isinstance(length, Fraction):
            return period
        rows = max(self.gauge.rows_for(length) - len(self.rows), period)
        if entry.ending_side and self.below.side:
            last = self.below.side if rows % 2 == 0 else _other(self.below.side)
            if last != entry.ending_side:
                rows += 1
        elif period > 1:
            rows = math.ceil(rows / period) * period
        return rows

    def wrong_times(
        self, entry: Rerun, period: int, first: int, number_of_rows: int
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
            label=_label(entry.kind, first),
        )


_OF_FIT = (
    Verdict.TOO_MANY_STITCHES,
    Verdict.STITCHES_LEFT_OVER,
    Verdict.REPEAT_DOES_NOT_FIT,
    Verdict.NO_SUCH_PLACE,
    Verdict.COUNT_MISMATCH,
)


def Act_remark(text: str):  # type: ignore[no-untyped-def]  # noqa: N802
    """Return the one action of a row without words: the designer's own sentence."""
    from coach.craft.working import Action  # noqa: PLC0415

    return Action("remark", text)


def _unit_size(parts: Sequence[Instruction]) -> int:
    size = 0
    for part in parts:
        if isinstance(part, Make):
            size += part.each
        elif type(part).__name__ == "Chain":
            size += 1
    return size


def _total(stated: Sequence[Stated]) -> int | None:
    """Return the stated number of stitches, where the figures give one."""
    if not stated:
        return None
    stitches = [
        figure.number
        for figure in stated
        if figure.noun is None or figure.noun.of in (Of.STITCH, Of.NAMED)
    ]
    units = any(figure.noun is not None and figure.noun.of is Of.UNIT for figure in stated)
    if units or not stitches:
        return None
    plain = [
        figure.number for figure in stated if figure.noun is None or figure.noun.of is Of.STITCH
    ]
    return plain[0] if plain else sum(stitches)


def _spread(stitches: int, spaces: Mapping[int, int]) -> tuple[Item, ...]:
    """Return so many stitches with the spaces evenly between them."""
    number = sum(spaces.values())
    each, more = divmod(stitches, number + 1)
    items: list[Item] = []
    lengths = [length for length, times in spaces.items() for _ in range(times)]
    for index in range(number + 1):
        count = each + (1 if index < more else 0)
        if count:
            items.append(Run(stitch_cell("st"), count))
        if index < number:
            items.append(Run(space_cell(lengths[index]), 1))
    return fabric.joined(items)


def _stated_for(
    stated: tuple[tuple[Stated, ...], ...], index: int, rows: int
) -> tuple[Stated, ...]:
    """Return what is stated for one row of a range: its own figure, or at the end the last one."""
    if not stated:
        return ()
    if len(stated) == 1:
        return stated[0] if index == rows - 1 else ()
    return stated[index] if index < len(stated) else ()


def _rerun_of(rows: Sequence[ProvedRow], line: Line) -> bool:
    return any(row.line == line.place.line for row in rows[-400:])


def _label(kind: str, number: int | None) -> str:
    short = "Row" if kind == "row" else "Rnd"
    return f"{short} {number}" if number is not None else short


def _other(side: str) -> str:
    return "WS" if side == "RS" else "RS"


def _along_ends(items: Sequence[Instruction]) -> bool:
    return any(
        make.target is not None and make.target.noun.of is Of.ROW_END for make in makes_in(items)
    )


def _turns_first(items: Sequence[Instruction]) -> bool:
    for item in items:
        if isinstance(item, Act):
            if item.kind == "turn":
                return True
        elif type(item).__name__ != "Chain":
            return False
    return False


def _turns_last(items: Sequence[Instruction]) -> bool:
    worked = False
    for item in items:
        if isinstance(item, Act):
            if item.kind == "turn" and worked:
                return True
        elif type(item).__name__ != "Chain":
            worked = True
    return False


def _said(items: Sequence[Instruction], length: int) -> bool:
    from coach.craft.pattern import Chain  # noqa: PLC0415

    return any(
        isinstance(item, Chain) and item.count == length and item.counts_as is not None
        for item in items
    )


def _even(entry: Rerun, rows: Sequence[ProvedRow]) -> Line:
    """The line that "work 8 rows even" stands for: one in each, in the stitch of the row below."""
    stitch = "sc"
    if rows:
        stitch = max(rows[-1].by_stitch, key=lambda name: rows[-1].by_stitch[name], default="sc")
    make = Make(stitch, 1, Target(Which.EACH, Noun(Of.STITCH), open=True), entry.place)
    return Line(_label(entry.kind, None), entry.kind, None, (make,), entry.place, text=entry.text)
