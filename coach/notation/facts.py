"""What the whole text says before any row is read: terms, vocabulary, stitches, counting rules."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from coach.craft.pattern import Line, SpecialStitch
from coach.notation import front_matter
from coach.notation.cleaning import CleanLine
from coach.notation.corner_blocks import BLOCK_WORDS, block_chain, with_blocks
from coach.notation.named_by_counts import named_by_counts
from coach.notation.piece import Piece
from coach.notation.special_stitches import (
    also_called,
    row_piece,
    special_stitches,
    usual_specials,
)
from coach.notation.words import Vocabulary


@dataclass(slots=True)
class Facts:
    """What the whole text says before any row is read."""

    terms: str | None
    clues: tuple[str, ...]
    vocabulary: Vocabulary
    specials: dict[str, SpecialStitch] = field(default_factory=dict)
    rules: dict[int, str] = field(default_factory=dict)
    rows_read: dict[tuple[str, str], Line] = field(default_factory=dict)
    block_chain: int | None = None  # corner to corner: the chain that a block hangs in


def facts_of(lines: Sequence[CleanLine], pieces: Sequence[Piece], terms: str | None) -> Facts:
    """Return the facts of the whole text: terms, vocabulary, special stitches, counting rules."""
    stated = terms or front_matter.stated_terms(lines)
    working = "\n".join(piece.text for piece in pieces if piece.kind in ("row", "rerun", "start"))
    guessed, clues = front_matter.guessed_terms(working)
    if guessed is None and stated is None:
        everything = "\n".join(line.text for line in lines)
        guessed, more = front_matter.guessed_terms(everything)
        clues = tuple(dict.fromkeys(clues + more))
    settled = stated or guessed
    vocabulary = Vocabulary(settled)
    facts = Facts(settled, clues, vocabulary)
    texts = [piece for piece in pieces if piece.kind == "text"]
    specials = special_stitches(pieces, vocabulary)
    chain = block_chain("\n".join(piece.text for piece in pieces))
    if chain is not None:
        specials = with_blocks(specials, chain, lambda words: row_piece(words, vocabulary))
    facts.block_chain = chain
    names = (*specials, *(BLOCK_WORDS if chain else ()))
    facts.vocabulary = Vocabulary(settled, names, also_called(specials))
    facts.specials = with_usual(specials, facts.vocabulary)
    facts.specials.update(named_by_counts(pieces, specials, facts.vocabulary))
    facts.rules = front_matter.counting_rules(
        "\n".join(piece.text for piece in texts), facts.vocabulary
    )
    if chain is not None:
        facts.rules[chain] = f"+ch-{chain}"
    return facts


def with_usual(
    specials: Mapping[str, SpecialStitch], vocabulary: Vocabulary
) -> dict[str, SpecialStitch]:
    """Return *specials* and the groups that the trade knows without a definition."""
    out = dict(usual_specials(vocabulary))
    out.update(specials)
    return out
