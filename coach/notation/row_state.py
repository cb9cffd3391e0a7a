"""The state of reading one row: the cursor, the row's stitch, what could not be read."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from coach.craft.instruction import Instruction
from coach.craft.pattern import SpecialStitch
from coach.craft.problem import Place, Problem, Verdict
from coach.notation.cursor import Cursor
from coach.notation.tokens import Token

CLOSERS = {"(": ")", "[": "]", "{": "}"}
SEPARATORS = (",", ";", ".", ":", "...", "–", "•", "/", "&", '"', "'", "-", "!", "+", "|")
STARS = ("*", "**", "***", "†", "††", "•")
DEEPEST = 30


def repeated_marks(tokens: Sequence[Token]) -> set[str]:
    """Return the signs that the row says to repeat from."""
    out: set[str] = set()
    for index, token in enumerate(tokens):
        if token.is_("rep"):
            for ahead in tokens[index + 1 : index + 4]:
                if ahead.is_(*STARS):
                    out.add(ahead.text)
                    break
                if not ahead.is_("from", "between", "the", "to", "instructions"):
                    break
    return out


@dataclass(slots=True)
class Marks:
    """The stars of one row that are open: where each repeat begins, and where it may stop.

    folded: what a repeat that is closed already held, for "rep from * to end" after other work.
    """

    starts: dict[str, int] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)
    stops: dict[str, int] = field(default_factory=dict)
    used: set[str] = field(default_factory=set)
    folded: dict[str, tuple[Instruction, ...]] = field(default_factory=dict)


class RowState:
    """What every reader of a part of a row shares; *sequence* reads what a bracket holds."""

    def __init__(
        self,
        tokens: Sequence[Token],
        *,
        base: str,
        specials: dict[str, SpecialStitch],
        suggest: Callable[[str], str],
        sequence: Callable[[str | None], list[Instruction]],
    ) -> None:
        self.cursor = Cursor(tokens)
        self.base = base
        self.specials = specials
        self.suggest = suggest
        self.sequence = sequence
        self.problems: list[Problem] = []
        self.depth = 0
        self.sentence = 0
        self.last_stitch = base
        self.repeated_marks = repeated_marks(tokens)

    def problem(self, code: Verdict, place: Place, message: str, hint: str) -> None:
        """Note what cannot be read."""
        self.problems.append(Problem(code, place, message, hint))
