"""What is done when the last stitch is made: the pattern's own words, or the trade's usual.

Only the order, the tasks and the fibre are decided here; the sentences are wording's. It
never claims that the designer said what the trade merely does.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from coach.craft.ends import ends_of
from coach.craft.proof import Proof


class Task(StrEnum):
    """A piece of work of finishing."""

    STUFF = "stuff"
    FASTEN_OFF = "fasten off"
    MEASURE = "measure"
    WEAVE_IN = "weave in"
    JOIN = "join the pieces"
    BLOCK = "block"
    CARE = "care"
    COUNT_IN = "count the tools back in"
    OTHER = "as the pattern says"


class Fibre(StrEnum):
    """What the yarn is made of, as far as the pattern says: it decides how it is blocked."""

    WOOL = "wool"
    COTTON = "cotton"
    ACRYLIC = "acrylic"
    MIXED = "mixed"
    UNKNOWN = "unknown"


class Caution(StrEnum):
    """A danger that the finished piece may bring, told once and left to those who know."""

    WHEELS = "wheels"
    INFANT = "infant"
    TOY = "toy"
    OXYGEN = "oxygen"
    ALLERGY = "allergy"


# How many steps of its own the coach has for a task that the pattern leaves out.
USUAL_STEPS: dict[Task, int] = {
    Task.FASTEN_OFF: 2,
    Task.MEASURE: 1,
    Task.WEAVE_IN: 3,
    Task.JOIN: 2,
    Task.BLOCK: 2,
    Task.CARE: 2,
    Task.COUNT_IN: 1,
}


@dataclass(frozen=True, slots=True)
class Finish:
    """One task of finishing: the designer's *sentence*, or "" where the trade's usual is meant."""

    task: Task
    sentence: str = ""
    line: int = 0
    fibre: Fibre = Fibre.UNKNOWN
    cautions: tuple[Caution, ...] = ()
    ends: int = 0  # to weave in; 0 for other tasks

    @property
    def usual(self) -> bool:
        """True when the pattern is silent and the trade's usual way is told."""
        return not self.sentence


# The first that is found in a sentence names its task; "weave" stands before "fasten" because
# "Fasten off and weave in all ends" is two tasks, and is split before it comes here.
_TASKS: tuple[tuple[Task, str], ...] = (
    (Task.STUFF, r"\bstuff"),
    (Task.FASTEN_OFF, r"\b(fasten(ing)? off|f\.?o\.?\b|break off|finish off|cut (the )?yarn)"),
    (Task.WEAVE_IN, r"\b(weave|sew|darn|work|run|hide) (in )?.{0,12}\bends?\b|\bweave in\b"),
    (Task.BLOCK, r"\b(block|pin (it )?(out )?to|steam|damp|soak|press)"),
    (Task.JOIN, r"\b(sew|seam|join|whip ?stitch|graft|lay out|make up)"),
    (Task.CARE, r"\b(wash|launder|tumble|iron|dry clean|bleach)"),
    (Task.MEASURE, r"\bmeasur"),
)

_ORDER = (Task.FASTEN_OFF, Task.MEASURE, Task.WEAVE_IN, Task.BLOCK, Task.CARE, Task.COUNT_IN)


def finishing(proof: Proof) -> tuple[Finish, ...]:
    """Return the tasks of finishing in order: the pattern's own first, the usual where it is silent."""
    fibre = fibre_of(proof.materials)
    ends = ends_of(proof).count
    own = [
        _own(part, line, fibre, ends)
        for line, sentence in proof.finishing
        for part in _split(sentence)
    ]
    told = {finish.task for finish in own}
    missing = [task for task in _ORDER if task not in told and _called_for(task, proof)]
    whole = list(own)
    for task in missing:
        cautions = cautions_of(proof) if task is Task.CARE else ()
        usual = Finish(task, fibre=fibre, cautions=cautions, ends=_ends(task, ends))
        whole.insert(_place(whole, task), usual)
    return tuple(whole)


def _own(sentence: str, line: int, fibre: Fibre, ends: int) -> Finish:
    task = task_of(sentence)
    return Finish(task, sentence, line, fibre, ends=_ends(task, ends))


def _ends(task: Task, ends: int) -> int:
    return ends if task is Task.WEAVE_IN else 0


def task_of(sentence: str) -> Task:
    """Return which task a finishing sentence is about."""
    lowered = sentence.lower()
    return next((task for task, sign in _TASKS if re.search(sign, lowered)), Task.OTHER)


def fibre_of(materials: Sequence[str]) -> Fibre:
    """Return the fibre that the materials name, MIXED where they name several or a blend."""
    text = " ".join(materials).lower()
    found = {
        fibre
        for fibre, sign in (
            (Fibre.WOOL, r"\b(wool|merino|alpaca|mohair|cashmere)\b"),
            (Fibre.COTTON, r"\b(cotton|linen|hemp|bamboo)\b"),
            (Fibre.ACRYLIC, r"\b(acrylic|polyester|nylon|microfibre|microfiber|polyamide)\b"),
        )
        if re.search(sign, text)
    }
    if len(found) > 1 or (found and re.search(r"\bblend", text)):
        return Fibre.MIXED
    return found.pop() if found else Fibre.UNKNOWN


def cautions_of(proof: Proof) -> tuple[Caution, ...]:
    """Return the dangers that this kind of piece may bring, judged by its title and words."""
    text = " ".join((proof.title, *(sentence for _, sentence in proof.finishing))).lower()
    found = [
        caution
        for caution, sign in (
            (Caution.WHEELS, r"\b(lap|blankets?|afghan|throw|shawl\w*|scarf|fringe|wrap|rug)\b"),
            (Caution.INFANT, r"\b(baby|babies|infant|newborn|preemie|cot|crib|pram|stroller)\b"),
            (Caution.TOY, r"\b(toy|doll|teddy|bear|rattle|egg|stuff\w*|amigurumi)\b"),
            (Caution.OXYGEN, r"\b(lap|blankets?|afghan|throw|shawl\w*|scarf|hat|beanie|wrap)\b"),
        )
        if re.search(sign, text)
    ]
    return (*found, Caution.ALLERGY)


def _called_for(task: Task, proof: Proof) -> bool:
    """A piece without a gauge has no size to measure; a stuffed toy is not pinned out."""
    if task is Task.BLOCK:
        return Caution.TOY not in cautions_of(proof)
    return task is not Task.MEASURE or proof.gauge is not None


def _place(whole: Sequence[Finish], task: Task) -> int:
    """Return where a usual task goes: after the tasks that come before it in the trade's order."""
    earlier = set(_ORDER[: _ORDER.index(task)])
    if task is Task.FASTEN_OFF:
        return 0
    if task in {Task.CARE, Task.COUNT_IN}:
        return len(whole)
    after = [at + 1 for at, finish in enumerate(whole) if finish.task in earlier]
    return after[-1] if after else len(whole)


def _split(sentence: str) -> list[str]:
    """Split a line of several sentences; "5.5 mm" and "approx. 3" are not ends of sentences."""
    parts = re.split(r"(?<=[a-z0-9)\"”″][.;!])\s+(?=[A-Z])", sentence.strip())
    split: list[str] = []
    for part in parts:
        split.extend(re.split(r"(?i)(?<=fasten off)\s+and\s+(?=weave)", part))
    return [part.strip() for part in split if part.strip()]
