"""Faults in a pattern as values: a stable code, the place, what is wrong, what would mend it.

Nothing here raises: a designer's mistake is a result, not a broken machine.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Verdict(StrEnum):
    """What the proof says of a row, or of a fault. The words are the command's stable contract."""

    OK = "ok"
    TOO_MANY_STITCHES = "too-many-stitches"
    STITCHES_LEFT_OVER = "stitches-left-over"
    REPEAT_DOES_NOT_FIT = "repeat-does-not-fit"
    COUNT_MISMATCH = "count-mismatch"
    NO_SUCH_PLACE = "no-such-place"
    UNKNOWN_WORD = "unknown-word"
    TERM_CLASH = "term-clash"
    BROKEN_NOTATION = "broken-notation"
    MULTIPLE_MISMATCH = "multiple-mismatch"
    UNCLEAR = "unclear"
    NO_WORDS = "no-words"


@dataclass(frozen=True, slots=True)
class Place:
    """Where something stands in the pattern's text as given: line and column, both from 1."""

    line: int
    column: int
    length: int = 1


@dataclass(frozen=True, slots=True)
class Problem:
    """One fault: its code, the row, the place, what is wrong by how much, and what would mend it."""

    code: Verdict
    place: Place
    message: str
    hint: str
    row: int | None = None
    label: str | None = None


@dataclass(frozen=True, slots=True)
class NotInWords:
    """A sentence that no one can be led through: why is "picture" or "at once" (two shapings)."""

    line: int
    sentence: str
    why: str
