"""From a name on the command line to a pattern's text and its proof, or a refusal in words."""

from __future__ import annotations

import os
import sys

from coach.adapters.pattern_files import PatternText, load
from coach.app.proving import prove_text
from coach.app.shelf import found
from coach.craft.proof import Proof
from coach.notation.unreadable import UnreadableError
from coach.ports import KeptPiece, Missing
from coach.wiring.refusal import UnusableError


def pattern_named(name: str) -> PatternText:
    """Return the pattern called *name*: a file, "-", a built-in, or a piece begun earlier.

    Raises:
        UnusableError: it can't be had; the message says why and what to do.
    """
    pattern = load(name, sys.stdin.buffer)
    if not isinstance(pattern, Missing):
        return pattern
    kept = found(name, _begun_pieces())
    if kept is not None and kept.text:
        return PatternText(kept.piece, kept.source, kept.text)
    raise UnusableError(f"{pattern.reason} {pattern.remedy}")


def prove(pattern: PatternText, size: str | None) -> Proof:
    """Return the proof of *pattern* in *size*, or in its first size.

    Raises:
        UnusableError: it can't be read at all, or has no such size.
    """
    try:
        proof = prove_text(pattern.text, size=size)
    except UnreadableError as refusal:
        raise UnusableError(f"{pattern.source}: {refusal.message} {refusal.remedy}") from refusal
    if size and proof.size is None:
        there = f"The sizes are: {', '.join(proof.sizes)}." if proof.sizes else "It has one size."
        raise UnusableError(f"There is no size {size} in {pattern.source}. {there}")
    return proof


def rows_missing(pattern: PatternText, proof: Proof) -> str:
    """Return what to tell of a pattern without rows: why, and how a row is written."""
    told = f" {proof.problems[0].message} {proof.problems[0].hint}" if proof.problems else ""
    return (
        f"No row or round was found in {pattern.source}.{told} A row starts like this: "
        "Row 1: Sc in 2nd ch from hook and in each ch across."
    )


def _begun_pieces() -> list[KeptPiece]:
    from coach.adapters.progress_sqlite import SqliteProgress  # noqa: PLC0415 - seldom needed
    from coach.wiring.visit import home_folder  # noqa: PLC0415

    progress = SqliteProgress(home_folder(os.environ))
    try:
        return list(progress.pieces())
    except OSError:
        return []
    finally:
        progress.close()
