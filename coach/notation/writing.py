"""A draft back to pattern text, in US or UK terms: text that is read as the same pattern.

Each row is written in one settled wording, then the whole is read again: a row that came out
otherwise (talk, or a fault that has no settled words) keeps the designer's own words, its
stitches respelled where the terms change. What a draft does not hold (the blurb, the list of
abbreviations) is not written.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from coach.craft.pattern import Draft, Entry, Line, NoWords, Part, Rerun, SpecialStitch, Start
from coach.craft.problem import Place, Problem
from coach.notation.front_matter import usual_specials
from coach.notation.reading import read
from coach.notation.words import Vocabulary
from coach.notation.writing_rows import RowWriter
from coach.notation.writing_words import Terms, WordlessError, respelled

UNTITLED = "Untitled Pattern"
_NOWHERE = Place(1, 1)
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


def write(draft: Draft, *, terms: str) -> str:
    """Return *draft* as pattern text in *terms* ("US" or "UK"): one size, one row a line.

    `read` gives an equal draft for it (see `alike`) wherever the language has words for what
    was read. Rows that were not understood stand in the designer's own words.
    """
    return _written(draft, Terms(terms.upper() == "UK"))[0]


def write_and_tell(draft: Draft, *, terms: str) -> tuple[str, tuple[str, ...]]:
    """Return what `write` returns, and which rows it leaves in the designer's own words."""
    return _written(draft, Terms(terms.upper() == "UK"))


def alike(draft: Draft) -> Draft:
    """Return *draft* in the form in which two drafts of the same pattern are equal.

    Places, the words as given, clues and the sizes not chosen are left out; headings that no
    row stands under too. Stitches have US names inside a draft, so terms make no difference.
    """
    specials = {name: replace(each, definition="") for name, each in sorted(draft.specials.items())}
    bare: Draft = _bare(draft)
    return replace(
        bare,
        title="" if draft.title == UNTITLED else draft.title,
        terms=None,
        entries=tuple(_bare(entry) for entry in draft.entries if not isinstance(entry, Part)),
        clues=(),
        specials=_bare(specials),
        sizes=(),
        size=None,
        finishing=(),
        notes=(),
        materials=(),
        gauge=None,
    )


def _bare(value: Any) -> Any:
    """Return *value* without places and without the words as given."""
    if isinstance(value, Place):
        return _NOWHERE
    if isinstance(value, tuple):
        return tuple(_bare(each) for each in value)
    if isinstance(value, dict):
        return {name: _bare(each) for name, each in value.items()}
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        given = {each.name: _bare(getattr(value, each.name)) for each in dataclasses.fields(value)}
        for name in ("text", "base_stitch", "into"):
            if name in given and not (name == "text" and type(value).__name__ == "Act"):
                given[name] = None
        if type(value).__name__ == "Act" and value.kind in ("remark", "marker", "fasten off"):  # type: ignore[attr-defined]
            given["text"] = ""
        if isinstance(value, Problem):
            given["message"] = given["hint"] = ""
        return type(value)(**given)
    return value


# -- the whole ---------------------------------------------------------------------------------


def _written(draft: Draft, terms: Terms) -> tuple[str, tuple[str, ...]]:
    """Write the draft, read it again, and put own words where a row came out otherwise."""
    source = Vocabulary(draft.terms, draft.specials)
    stretches = list(_stretches(draft, terms, source))
    front = _front(draft, terms, source)
    after = _finishing(draft, terms, source)
    own = [each.settled is None for each in stretches]
    notes = _notes_before(draft, stretches)
    text, lines = _composed(front, stretches, own, notes, after)
    again = read(text, terms=terms.name)
    for index, stretch in enumerate(stretches):
        if not own[index] and not _came_back(stretch, again, lines[index]):
            own[index] = True
    text, _ = _composed(front, stretches, own, notes, after)
    kept = tuple(
        _name_of(each.entries[0]) for each, kept in zip(stretches, own, strict=True) if kept
    )
    return text, kept


def _composed(
    front: Sequence[str],
    stretches: Sequence[Written],
    own: Sequence[bool],
    notes: Sequence[Sequence[str]],
    after: Sequence[str],
) -> tuple[str, list[int]]:
    """Return the text, and the line on which each stretch stands."""
    out = list(front)
    lines: list[int] = []
    for stretch, given, before in zip(stretches, own, notes, strict=True):
        out += [line for note in before for line in ("", note, "")]
        lines.append(len(out) + 1)
        out.append(stretch.own if given or stretch.settled is None else stretch.settled)
    return "\n".join([*out, *after]) + "\n", lines


def _came_back(stretch: Written, again: Draft, line: int) -> bool:
    there = [entry for entry in again.entries if entry.place.line == line]
    return [_bare(entry) for entry in there] == [_bare(entry) for entry in stretch.entries]


def _name_of(entry: Entry) -> str:
    match entry:
        case Line() | NoWords():
            return entry.label
        case Part():
            return entry.name
        case Start():
            return "the foundation"
        case Rerun():
            return f"the repeat of rows on line {entry.place.line}"


# -- front matter ------------------------------------------------------------------------------


def _front(draft: Draft, terms: Terms, source: Vocabulary) -> list[str]:
    out = [draft.title or UNTITLED, f"Written in {terms.name} terms."]
    if draft.size is not None:
        out.append(f"Worked in size {draft.size}.")
    if draft.gauge:
        gauge = respelled(draft.gauge, source, terms, prose=True)
        out.append(f"{'Tension' if terms.uk else 'Gauge'}: {gauge}")
    out += [line for line in (_multiple(draft), _colours(draft)) if line]
    out += [_rule(length, stands_for, terms) for length, stands_for in draft.counts_as.items()]
    out += _specials(draft, terms, source)
    if draft.spiral:
        out.append("Work in a spiral where the rounds are not joined.")
    if draft.materials:
        first, *more = draft.materials
        out += [f"Materials: {first}", *more]
    return [*out, ""]


def _multiple(draft: Draft) -> str:
    stated = draft.multiple
    if stated is None:
        return ""
    unit = {"chains": " ch", "stitches": " sts"}.get(stated.unit or "", "")
    words = f"Multiple of {stated.of}{unit}"
    if stated.plus or stated.chains:
        words += f" + {stated.plus}"
    if stated.chains:
        words += f", plus {stated.chains} for the foundation ch"
    return f"{words}."


def _colours(draft: Draft) -> str:
    named = [
        f"{name} ({letter})" for letter, _, name in (each.partition(" ") for each in draft.colors)
    ]
    return f"Colours used are {', '.join(named)}." if named else ""


def _rule(length: int, stands_for: str, terms: Terms) -> str:
    chain = f"ch-{length}" if length else "turning ch"
    if not stands_for:
        return f"The {chain} at the start of a row does not count as a st."
    words = terms.counted(stands_for)
    article = "" if words.startswith(("a ", "ch ")) else "a "
    return f"The {chain} at the start of a row counts as {article}{words}."


def _specials(draft: Draft, terms: Terms, source: Vocabulary) -> list[str]:
    usual = usual_specials(source)
    return [
        f"{name}: {_definition(special, source, terms)}"
        for name, special in draft.specials.items()
        if usual.get(name) != special
    ]


def _definition(special: SpecialStitch, source: Vocabulary, terms: Terms) -> str:
    return respelled(" ".join(special.definition.split()), source, terms)


def _finishing(draft: Draft, terms: Terms, source: Vocabulary) -> list[str]:
    if not draft.finishing:
        return []
    by_line: dict[int, list[str]] = {}
    for line, sentence in draft.finishing:
        by_line.setdefault(line, []).append(respelled(sentence, source, terms, prose=True))
    return ["", "FINISHING", *(" ".join(sentences) for sentences in by_line.values())]


def _notes_before(draft: Draft, stretches: Sequence[Written]) -> list[list[str]]:
    """Return the notes between the rows, each before the row that it stood before."""
    waiting = list(draft.notes)
    out: list[list[str]] = []
    for stretch in stretches:
        line = stretch.entries[0].place.line
        before = [text for at, text in waiting if at < line]
        waiting = [(at, text) for at, text in waiting if at >= line]
        out.append(before)
    return out


# -- entries -----------------------------------------------------------------------------------


def _stretches(draft: Draft, terms: Terms, source: Vocabulary) -> Iterator[Written]:
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
        return first.name.upper()
    if isinstance(first, Start):
        return _start(first)
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
    label = _many(first.label) if len(entries) > 1 else first.label
    side = f" ({first.side})" if first.side else ""
    reruns = [entry for entry in entries[1:] if isinstance(entry, Rerun)]
    if reruns and reruns[0].alternate:
        label = f"{first.label} and all {reruns[0].alternate} {'rows' if first.kind == 'row' else 'rnds'}"
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
    if entry.source == ("even",):
        return f"Work {entry.times} {short.lower()}s even."
    words = f"Rep {_sources(entry.source, short)}"
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
    counts = RowWriter(terms, source).counts(entry.stated)
    return f"{words}. {counts}".rstrip()


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
