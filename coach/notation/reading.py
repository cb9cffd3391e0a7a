"""Pattern text to a draft: lines to rows, headings, foundations and notes.

The whole text is read once for its facts (terms, sizes, special stitches) and once for its
rows. Nothing is proved here, and nothing is thrown away silently: what is no row is kept as
front matter, note or finishing, in the pattern's own words.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from coach.craft.pattern import Draft, Line, Part
from coach.notation import front_matter
from coach.notation.cleaning import clean_lines
from coach.notation.corner_blocks import counted_in_blocks
from coach.notation.counted_squares import counted_in_squares
from coach.notation.entries import entries_of
from coach.notation.facts import facts_of
from coach.notation.pasted_columns import interleaved
from coach.notation.piece import Piece
from coach.notation.pieces import segmented
from coach.notation.row_entries import row_entries
from coach.notation.sizes import for_size, sizes_in
from coach.notation.special_stitches import special_stitch
from coach.notation.surroundings import colours_of, materials_of, multiple_of, texts_of, title_of
from coach.notation.unreadable import UnreadableError, refuse
from coach.notation.words import Vocabulary
from coach.notation.words_elsewhere import not_in_words


def read(text: str, *, terms: str | None = None, size: str | None = None) -> Draft:
    """Read a pattern's text.

    Args:
        text: the pattern as it came.
        terms: "US" or "UK" where that is known already; else the text decides.
        size: one of the pattern's sizes; else the first.

    Raises:
        UnreadableError: nothing in it can be a pattern (empty, no text, far too long).

    """
    refuse(text)
    lines = clean_lines(text)
    sizes = sizes_in(lines)
    chosen = _chosen_size(sizes, size)
    if sizes:
        lines = for_size(lines, sizes, chosen)
    pieces = segmented(lines)
    facts = facts_of(lines, pieces, terms)
    entries, problems, color_plan = entries_of(pieces, facts)
    if (columns := interleaved(lines)) is not None:
        problems.insert(0, columns)
    if facts.block_chain is not None:
        entries = counted_in_blocks(entries, facts.specials, facts.block_chain)
    entries = counted_in_squares(entries, facts.specials)
    front, notes, finishing = texts_of(pieces)
    return Draft(
        title=title_of(lines),
        terms=facts.terms,
        entries=tuple(entries),
        clues=facts.clues,
        counts_as=facts.rules,
        specials=facts.specials,
        problems=tuple(problems),
        multiple=multiple_of(lines),
        sizes=sizes,
        size=sizes[chosen] if sizes else None,
        gauge=front_matter.gauge_line(lines),
        colors=colours_of(lines),
        color_plan=color_plan,
        materials=materials_of(front),
        finishing=tuple(finishing),
        notes=tuple(notes),
        not_in_words=not_in_words(pieces),
        spiral=bool(re.search(r"\bspiral\b|do not join", text, re.IGNORECASE)),
    )


def read_row(
    text: str,
    *,
    terms: str | None = None,
    specials: Mapping[str, str] | None = None,
    refs: Mapping[str, str] | None = None,
    kind: str = "row",
    sizes: Sequence[str] = (),
    size: int = 0,
) -> tuple[Draft, list[Line]]:
    """Read a single row; return its draft, and the earlier rows of *refs* that it may repeat.

    Raises:
        UnreadableError: nothing in it can be a row.

    """
    refuse(text)
    lines = clean_lines(text)
    if sizes:
        lines = for_size(lines, sizes, size)
    pieces = segmented(lines)
    if not any(piece.kind in ("row", "rerun", "start", "even", "grow") for piece in pieces):
        spans = [span for piece in pieces for span in piece.spans]
        pieces = [Piece("row", spans)] if spans else []
    facts = facts_of(lines, pieces, terms)
    defined = {
        made.name: made
        for name, words in (specials or {}).items()
        for made in [special_stitch(name, words, Vocabulary(facts.terms, specials or ()))]
    }
    facts.vocabulary = Vocabulary(facts.terms, {**facts.specials, **defined})
    facts.specials = {**facts.specials, **defined}
    entries, problems, _ = entries_of(pieces, facts)
    entries = [
        replace(entry, kind=kind) if isinstance(entry, Line) and entry.number is None else entry
        for entry in entries
    ]
    earlier: list[Line] = []
    for name, words in (refs or {}).items():
        for piece in segmented(clean_lines(f"{name}: {words}")):
            earlier += [
                entry for entry in row_entries(piece, facts, "sc") if isinstance(entry, Line)
            ]
    draft = Draft(
        title="",
        terms=facts.terms,
        entries=tuple(entry for entry in entries if not isinstance(entry, Part)),
        clues=facts.clues,
        counts_as=facts.rules,
        specials=facts.specials,
        problems=tuple(problems),
        multiple=multiple_of(lines),
        sizes=tuple(sizes),
        size=sizes[size] if sizes else None,
    )
    return draft, earlier


def _chosen_size(sizes: Sequence[str], size: str | None) -> int:
    if not sizes or size is None:
        return 0
    for index, name in enumerate(sizes):
        if name.lower() == size.strip().lower():
            return index
    raise UnreadableError(
        f"There is no size {size} in this pattern.", f"Choose one of: {', '.join(sizes)}."
    )
