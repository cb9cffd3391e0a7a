"""A pattern proved again as its maker reads it, once the open questions are answered.

A question is asked once; the answer is kept with the place of the piece.
"""

from __future__ import annotations

from collections.abc import Callable

from coach.app.proving import prove_text
from coach.craft.proof import Proof

TERMS = ("US", "UK")  # in the order in which the question about terms offers them

Answers = tuple[tuple[str, int], ...]


def settler(
    text: str, *, terms: str | None = None, size: str | None = None
) -> Callable[[Answers], Proof]:
    """Return what proves *text* again by a maker's answers: (question, number of the choice)."""

    def settle(answers: Answers) -> Proof:
        chosen = dict(answers)
        first = prove_text(text, terms=terms, size=size)
        named = terms or _terms(first, chosen)
        if named is None:
            return first
        known = prove_text(text, terms=named, size=size)
        turned = [
            key for each in known.questions if chosen.get(each.what) == 2 for key in each.keys
        ]
        if any(each.what not in chosen for each in known.questions):
            return known
        return prove_text(text, terms=named, size=size, settled=tuple(turned))

    return settle


def _terms(proof: Proof, chosen: dict[str, int]) -> str | None:
    """Return the terms that were chosen where they were asked for, else the pattern's own."""
    for question in proof.questions:
        if question.keys or question.what not in chosen:
            continue
        if question.choices and question.choices[0].startswith(TERMS[0]):
            return TERMS[chosen[question.what] - 1]
    return proof.terms
