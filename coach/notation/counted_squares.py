"""Counts of a filet row told in squares: "(12 sps, 1 bl)", "1 sp, 10 blks, 1 sp".

An open square is a chain space; a filled one is as many stitches as a square is wide. Squares of
one kind that are listed apart, in the order of the row, are counted together.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from coach.craft.instruction import Chain, Make, Noun, Of, Skip
from coach.craft.pattern import Entry, Line, Rerun, SpecialStitch, Stated


def counted_in_squares(
    entries: Iterable[Entry], specials: Mapping[str, SpecialStitch]
) -> list[Entry]:
    """Return *entries* with the pattern's own filet squares as what they are in its counts."""
    nouns = {
        name.lower(): noun
        for name, special in specials.items()
        if (noun := _square(name, special)) is not None
    }
    if not nouns:
        return list(entries)
    return [_in_entry(entry, nouns) for entry in entries]


def _in_entry(entry: Entry, nouns: Mapping[str, Noun]) -> Entry:
    if not isinstance(entry, Line | Rerun):
        return entry
    return replace(entry, stated=tuple(_together(row, nouns) for row in entry.stated))


def _together(row: tuple[Stated, ...], nouns: Mapping[str, Noun]) -> tuple[Stated, ...]:
    """Return the figures of a row with its squares named, and those of one kind as one figure."""
    out: dict[Noun, Stated] = {}
    others: list[Stated] = []
    for figure in row:
        noun = figure.noun
        square = nouns.get((noun.name or "").lower()) if noun and noun.of is Of.UNIT else None
        if square is None:
            others.append(figure)
        elif square in out:
            out[square] = replace(out[square], number=out[square].number + figure.number)
        else:
            out[square] = replace(figure, noun=square)
    return (*out.values(), *others)


def _square(name: str, special: SpecialStitch) -> Noun | None:
    """Return what a square of this name is counted as, or None where it is no square."""
    if not special.over_space:
        return None
    skips = [part.target.count for part in special.parts if isinstance(part, Skip)]
    if skips:
        return Noun(Of.SPACE, None, skips[0])
    if any(isinstance(part, Chain) for part in special.parts):
        return None
    made = [part.target.count for part in special.parts if isinstance(part, Make) and part.target]
    return Noun(Of.SQUARE, name, made[0]) if made else None
