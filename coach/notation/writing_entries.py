"""Rows, ranges, repeats of rows, foundations and headings written back, each on its line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from coach.craft.pattern import Draft, Entry, Line, NoWords, Part, PartAgain, Rerun, Start
from coach.notation.words import Vocabulary
from coach.notation.writing_colors import repeated_in
from coach.notation.writing_rows import RowWriter
from coach.notation.writing_words import Terms, WordlessError, respelled

_INCH = Fraction(254, 100)
_WORDS = {1: "once", 2: "twice"} | {
    number: f"{word} times"
    for number, word in enumerate(
        ("three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"), 3
    )
}
_PARTS_OF_AN_INCH = {
    Fraction(1, 4): "¼",
    Fraction(1, 2): "½",
    Fraction(3, 4): "¾",
    Fraction(1, 3): "⅓",
    Fraction(2, 3): "⅔",
    Fraction(1, 8): "⅛",
}


@dataclass(frozen=True, slots=True)
class Written:
    """One stretch of entries that is written on one line, in each way that it can be."""

    entries: tuple[Entry, ...]
    settled: str | None  # None: no settled words
    own: str


def stretches_of(draft: Draft, terms: Terms, source: Vocabulary) -> Iterator[Written]:
    """Yield the entries as they stand on lines: a range of rows is one line."""
    entries = _under_headings(draft.entries)
    index = 0
    while index < len(entries):
        first = entries[index]
        together = [first]
        while index + len(together) < len(entries) and _of_one_line(
            together, entries[index + len(together)]
        ):
            together.append(entries[index + len(together)])
        index += len(together)
        own = _own_words(together, terms, source)
        try:
            settled: str | None = _settled_words(together, terms, source)
        except WordlessError:
            settled = None
        yield Written(tuple(together), settled, own)


def _under_headings(entries: Sequence[Entry]) -> list[Entry]:
    """Return the entries without headings that no row stands under."""
    return [
        entry
        for index, entry in enumerate(entries)
        if not isinstance(entry, Part)
        or (index + 1 < len(entries) and not isinstance(entries[index + 1], Part))
    ]


def _of_one_line(together: Sequence[Entry], entry: Entry) -> bool:
    """Tell whether *entry* is a further row of the range that *together* began."""
    first = together[0]
    return (
        isinstance(first, Line)
        and isinstance(entry, Rerun)
        and entry.place == first.place
        and entry.source == (first.label,)
    )


def _own_words(entries: Sequence[Entry], terms: Terms, source: Vocabulary) -> str:
    first = entries[0]
    if isinstance(first, Part):
        copies = f" (make {first.copies})" if first.copies > 1 else ""
        return f"{first.name.upper()}{copies}"
    if isinstance(first, Start):
        return _start(first)
    if isinstance(first, PartAgain):
        return first.text
    if isinstance(first, NoWords):
        return f"{_header(entries)}{first.why}"
    words = respelled(first.text, source, terms)
    if isinstance(first, Line) and first.label == "Start":
        return words
    return f"{_header(entries)}{words}"


def _settled_words(entries: Sequence[Entry], terms: Terms, source: Vocabulary) -> str:
    match entries[0]:
        case Line() as line:
            return _line(line, entries, terms, source)
        case Rerun() as rerun:
            return f"{_header(entries)}{_rerun(rerun, terms, source)}"
        case _:
            return _own_words(entries, terms, source)


def _line(line: Line, entries: Sequence[Entry], terms: Terms, source: Vocabulary) -> str:
    if line.problems:
        raise WordlessError("a row that was not understood")
    if any(isinstance(each, Rerun) and (each.under or each.length_cm) for each in entries):
        raise WordlessError("several rows that go by one number")
    writer = RowWriter(terms, source, around="around" if line.kind == "round" else "across")
    stated = line.stated
    for entry in entries[1:]:
        if isinstance(entry, Rerun) and entry.stated != line.stated:
            stated = (*stated, *entry.stated)
    words = writer.row(line.items, stated)
    return words if line.label == "Start" else f"{_header(entries)}{words}"


def _start(entry: Start) -> str:
    colour = f"With {entry.color}, ch" if entry.color else "Ch"
    joined = ", join" if entry.kind == "joined chain" else ""
    return f"{colour} {entry.chains}{joined}."


def _header(entries: Sequence[Entry]) -> str:
    """Return "Row 2 (RS): ", "Rows 3-5: ", "Row 4 and all even rows: ", or nothing."""
    first = entries[0]
    if isinstance(first, Rerun | NoWords):
        short = "Row" if first.kind == "row" else "Rnd"
        if first.numbers is None:
            return f"{first.label}: " if isinstance(first, NoWords) else ""
        return f"{short}{_numbers(first.numbers)}: "
    assert isinstance(first, Line)  # noqa: S101 - the other kinds have no header
    reruns = [entry for entry in entries[1:] if isinstance(entry, Rerun) and entry.numbers]
    label = _many(first.label) if reruns else first.label
    side = f" ({first.side})" if first.side else ""
    every = next((e.alternate for e in entries[1:] if isinstance(e, Rerun) and e.alternate), None)
    if every:
        label = f"{first.label} and all {every} {'rows' if first.kind == 'row' else 'rnds'}"
    elif len(reruns) == 1 and reruns[0].numbers and reruns[0].numbers[1] > reruns[0].numbers[0]:
        label += f"-{reruns[0].numbers[1]}"
    elif reruns:
        label += "".join(f", {entry.numbers[0]}" for entry in reruns if entry.numbers)
    return f"{label}{side}: "


def _many(label: str) -> str:
    return label.replace("Row ", "Rows ", 1).replace("Rnd ", "Rnds ", 1)


def _numbers(numbers: tuple[int, int]) -> str:
    first, last = numbers
    return f" {first}" if first == last else f"s {first}-{last}"


def _rerun(entry: Rerun, terms: Terms, source: Vocabulary) -> str:
    """Return "Rep Rows 2-5 ten times", "Work 6 rows even", "Rep Row 3 for all even rows"."""
    short = "Row" if entry.kind == "row" else "Rnd"
    if entry.source[0] == "even" and entry.times:
        how = f"in {terms.stitch(entry.source[1])}" if len(entry.source) > 1 else "even"
        return f"Work {entry.times} {short.lower()}s {how}."
    if entry.source[0] == "even" and len(entry.source) > 1:
        raise WordlessError("rows of a length that are told by a stitch alone")
    if entry.instead:
        raise WordlessError("a row that is worked as another but for its edge")
    words = f"Rep {_sources(entry.source, short)}"
    alternating = repeated_in(entry.stripes, period_of(entry))
    words += alternating if not alternating.startswith(",") else ""
    if entry.times is not None:
        words += f" {_WORDS[entry.times]}" if entry.times in _WORDS else f" {entry.times} times"
    if entry.alternate:
        words += f" for all {entry.alternate} {short.lower()}s"
    if isinstance(entry.length_cm, Fraction):
        words += f" until piece measures {_length(entry.length_cm)}"
    if entry.ending_side:
        words += f", ending with a {entry.ending_side} {short.lower()}"
    for act in entry.tail:
        words += f", {getattr(act, 'text', '')} is facing"
    words += alternating if alternating.startswith(",") else ""
    counts = RowWriter(terms, source).counts(entry.stated)
    return f"{words}. {counts}".rstrip()


def period_of(entry: Rerun) -> int:
    """Return how many rows *entry* works each time."""
    last = entry.source[0].startswith("last ")
    return int(entry.source[0].split()[1]) if last else len(entry.source)


def _sources(source: Sequence[str], short: str) -> str:
    if source[0].startswith("last "):
        count = int(source[0].split()[1])
        return f"last {count} {short.lower()}s" if count > 1 else f"last {short.lower()}"
    if not all(each.isdigit() for each in source):
        raise WordlessError("a repeat of a row that has a name")
    numbers = [int(each) for each in source]
    if len(numbers) == 1:
        return f"{short} {numbers[0]}"
    if numbers == list(range(numbers[0], numbers[-1] + 1)):
        return f"{short}s {numbers[0]}-{numbers[-1]}"
    *most, last = numbers
    return f"{short}s {', '.join(map(str, most))} and {last}"


def _length(length: Fraction) -> str:
    """Return a length exactly: in centimetres where they are decimal, else in inches."""
    hundredths = length * 10000
    if hundredths.denominator == 1:
        return f"{float(length):g} cm" if length.denominator > 1 else f"{length} cm"
    whole, part = divmod(length / _INCH, 1)
    if part in _PARTS_OF_AN_INCH:
        return f'{whole}{_PARTS_OF_AN_INCH[part]}"'
    raise WordlessError(f"no exact words for {length} cm")


def name_of(entry: Entry) -> str:
    """Return what an entry is called when it is told of."""
    match entry:
        case Line() | NoWords():
            return entry.label
        case Part():
            return entry.name
        case PartAgain():
            return entry.part or entry.source
        case Start():
            return "the foundation"
        case Rerun():
            return f"the repeat of rows on line {entry.place.line}"
