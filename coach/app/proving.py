"""Proving as a use case: text in, proof out, and the contract's JSON of it."""

from __future__ import annotations

from typing import Any

from coach.app.line_proving import prove_lines
from coach.craft.proof import Proof, ProvedRow
from coach.craft.readings import prove
from coach.notation.reading import read


__all__ = ["prove_lines", "prove_text", "proof_json"]


def prove_text(text: str, *, terms: str | None = None, size: str | None = None) -> Proof:
    """Read and prove a pattern's text.

    Raises:
        Unreadable: nothing in it can be a pattern.

    """
    return prove(read(text, terms=terms, size=size))


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
    }
