"""A draft back to pattern text, in US or UK terms: text that is read as the same pattern.

Each row is written in one settled wording, then the whole is read again: a row that came out
otherwise (talk, or a fault that has no settled words) keeps the designer's own words, its
stitches respelled where the terms change. What a draft does not hold (the blurb, the list of
abbreviations) is not written.
"""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.pattern import Draft, Part
from coach.notation.reading import read
from coach.notation.words import Vocabulary
from coach.notation.writing_colors import color_lines
from coach.notation.writing_entries import Written, name_of, stretches_of
from coach.notation.writing_front import finishing_lines, front_lines
from coach.notation.writing_likeness import alike, bare
from coach.notation.writing_words import Terms

__all__ = ["alike", "write", "write_and_tell"]


def write(draft: Draft, *, terms: str) -> str:
    """Return *draft* as pattern text in *terms* ("US" or "UK"): one size, one row a line.

    `read` gives an equal draft for it (see `alike`) wherever the language has words for what
    was read. Rows that were not understood stand in the designer's own words.
    """
    return _written(draft, Terms(terms.upper() == "UK"))[0]


def write_and_tell(draft: Draft, *, terms: str) -> tuple[str, tuple[str, ...]]:
    """Return what `write` returns, and which rows it leaves in the designer's own words."""
    return _written(draft, Terms(terms.upper() == "UK"))


def _written(draft: Draft, terms: Terms) -> tuple[str, tuple[str, ...]]:
    """Write the draft, read it again, and put own words where a row came out otherwise."""
    source = Vocabulary(draft.terms, draft.specials)
    stretches = list(stretches_of(draft, terms, source))
    front = front_lines(draft, terms, source)
    after = finishing_lines(draft, terms, source)
    own = [each.settled is None for each in stretches]
    notes = _notes_before(draft, stretches)
    text, lines = _composed(draft, front, stretches, own, notes, after)
    again = read(text, terms=terms.name)
    for index, stretch in enumerate(stretches):
        if not own[index] and not _came_back(stretch, again, lines[index]):
            own[index] = True
    text, _ = _composed(draft, front, stretches, own, notes, after)
    kept = tuple(
        name_of(each.entries[0]) for each, kept in zip(stretches, own, strict=True) if kept
    )
    return text, kept


def _composed(  # noqa: PLR0917
    draft: Draft,
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
        head = stretch.entries[0]
        out += color_lines(draft, head.name) if isinstance(head, Part) else []
    return "\n".join([*out, *after]) + "\n", lines


def _came_back(stretch: Written, again: Draft, line: int) -> bool:
    there = [entry for entry in again.entries if entry.place.line == line]
    return [bare(entry) for entry in there] == [bare(entry) for entry in stretch.entries]


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
