"""Proving as a use case: text in, proof out, and the contract's JSON of it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from coach.app.line_proving import prove_lines
from coach.craft.instruction import Of, Skip, makes_in
from coach.craft.pattern import Draft, Line
from coach.craft.proof import Proof, ProvedRow, Question, Reading
from coach.craft.readings import prove
from coach.craft.row_colors import colors_of
from coach.craft.stitch import height
from coach.notation.reading import read
from coach.wording.plain_text import size_told

__all__ = ["proof_json", "prove_lines", "prove_text"]


def prove_text(
    text: str,
    *,
    terms: str | None = None,
    size: str | None = None,
    settled: tuple[tuple[str, int], ...] | None = None,
) -> Proof:
    """Read and prove a pattern's text.

    settled: customs that the maker has chosen otherwise than usual, once asked; () for none.

    Raises:
        UnreadableError: nothing in it can be a pattern.

    """
    draft = read(text, terms=terms, size=size)
    if settled is not None:
        return _with_sizes(text, draft, prove(draft, settled=settled))
    if draft.terms is None and terms is None:
        return _with_sizes(text, *_either_terms(text, draft, size))
    return _with_sizes(text, draft, prove(draft))


def _either_terms(text: str, draft: Draft, size: str | None) -> tuple[Draft, Proof]:
    """Try US and UK terms where the words prove neither; the sums may decide."""
    if not any(row for row in draft.entries if isinstance(row, Line)) or not _tells_terms(draft):
        return draft, prove(draft)
    tried = {}
    for terms in ("US", "UK"):
        other = read(text, terms=terms, size=size)
        tried[terms] = (other, prove(other))
    faults = {terms: len(proof.problems) for terms, (_, proof) in tried.items()}
    suits = {terms: _suits_its_chains(other) for terms, (other, _) in tried.items()}
    if faults["US"] == faults["UK"] and suits["US"] != suits["UK"]:
        terms = "US" if suits["US"] else "UK"
        chosen = tried[terms]
        reading = Reading(
            "terms", terms, "the chains skipped at the hook suit that stitch's height"
        )
    elif faults["US"] == faults["UK"]:
        chosen, reading = tried["US"], None
    else:
        terms = min(faults, key=lambda each: faults[each])
        chosen = tried[terms]
        reading = Reading("terms", terms, "the counts fit only so")
    draft, proof = chosen
    question = Question(
        "Are these US or UK terms? The pattern does not say.",
        (
            "US: dc is a double crochet, tr a treble.",
            "UK: dc is what the US calls single crochet, tr what the US calls double crochet.",
        ),
    )
    readings = (reading, *proof.readings) if reading else proof.readings
    settled = reading.taken if reading else None
    return draft, replace(
        proof, terms=settled, readings=readings, questions=(question, *proof.questions)
    )


def _suits_its_chains(draft: Draft) -> bool:
    """Tell whether the first row skips as many chains as its stitch is tall."""
    for entry in draft.entries:
        if isinstance(entry, Line):
            skipped = [
                item.target.count
                for item in entry.items
                if isinstance(item, Skip) and item.target.noun.of is Of.FROM_HOOK
            ]
            first = next((make.stitch for make in makes_in(entry.items)), None)
            return bool(skipped and first and skipped[0] == height(first))
    return False


def _tells_terms(draft: Draft) -> bool:
    """Tell whether the pattern has stitches whose name differs between the terms."""
    return any(
        make.stitch != "sl st"
        for entry in draft.entries
        if isinstance(entry, Line)
        for make in makes_in(entry.items)
    )


def _with_sizes(text: str, draft: Draft, proof: Proof) -> Proof:
    """Add what is wrong in the other sizes: a fault in any size is a fault of that row."""
    if len(draft.sizes) < 2:
        return proof
    problems = list(proof.problems)
    told = {(each.place.line, each.place.column, each.code) for each in problems}
    rows = {(each.place.line, each.code) for each in problems}
    for name in draft.sizes:
        if name == draft.size:
            continue
        other = prove(read(text, terms=draft.terms, size=name))
        for each in other.problems:
            if (each.place.line, each.place.column, each.code) in told or (
                each.place.line,
                each.code,
            ) in rows:
                continue
            told.add((each.place.line, each.place.column, each.code))
            problems.append(replace(each, message=f"In {size_told(name)}: {each.message}"))
    problems.sort(key=lambda each: (each.place.line, each.place.column))
    return replace(proof, problems=tuple(problems))


def proof_json(proof: Proof) -> dict[str, Any]:
    """Return *proof* as the contract's object."""
    foundation = {"chains": proof.foundation.chains} if proof.foundation else None
    return {
        "title": proof.title,
        "terms": proof.terms,
        "verdict": proof.verdict,
        "foundation": foundation,
        "rows": [_row(row) for row in proof.rows],
        "faults": [
            {
                "code": str(problem.code),
                "row": problem.row,
                "label": problem.label,
                "line": problem.place.line,
                "column": problem.place.column,
                "message": problem.message,
                "hint": problem.hint,
            }
            for problem in proof.problems
        ],
        "readings": [
            {"what": each.what, "taken": each.taken, "because": each.because}
            for each in proof.readings
        ],
        "questions": [
            {"what": each.what, "choices": list(each.choices)} for each in proof.questions
        ],
        "multiple": {
            "of": proof.multiple.of,
            "plus": proof.multiple.plus,
            "unit": proof.multiple.unit,
            "base_chains": proof.multiple.base_chains,
        }
        if proof.multiple
        else None,
        "sizes": list(proof.sizes),
        "size": proof.size,
        "colors": list(proof.colors),
        "not_in_words": [
            {"line": each.line, "text": each.sentence, "why": each.why}
            for each in proof.not_in_words
        ],
    }


def _row(row: ProvedRow) -> dict[str, Any]:
    return {
        "kind": row.kind,
        "label": row.label,
        "part": row.part,
        "number": row.number,
        "side": row.side,
        "line": row.line,
        "worked": row.worked,
        "spaces_worked": row.spaces_worked,
        "made": row.made,
        "spaces": row.spaces,
        "by_stitch": dict(row.by_stitch),
        "stated": row.stated,
        "verdict": str(row.verdict),
        "worked_as": row.worked_as,
        "repeat": list(row.repeat) if row.repeat else None,
        "colors": list(dict.fromkeys(colors_of(row))),
    }
