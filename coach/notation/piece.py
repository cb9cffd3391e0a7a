"""One piece of a pattern's text: the lines that belong together, and what they are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from coach.craft.problem import Place
from coach.notation.cleaning import CleanLine
from coach.notation.header import Header

Span: TypeAlias = tuple[CleanLine, int, int]


@dataclass(slots=True)
class Piece:
    """One stretch of lines that belongs together: a row with its header, or other text."""

    kind: str  # "row", "rerun", "start", "even", "grow", "pattern", "continue", "colour", "part", "text"
    spans: list[Span]
    header: Header | None = None
    part: str | None = None
    count: Span | None = None  # a corrected count, in the place of what the row states

    @property
    def text(self) -> str:
        """The words of the piece on one line."""
        return " ".join(line.text[start:end].strip() for line, start, end in self.spans).strip()

    @property
    def place(self) -> Place:
        """Where it begins."""
        line, start, _ = self.spans[0]
        return Place(line.number, line.column(start))
