"""Errors that teach: each fault says where, what is wrong, and one way to mend it.

The faults are seeded: patterns with known faults, and the coach's own patterns with one mutation
in a row. WCAG 2.2, 3.3.1 and 3.3.3, asks for the item in error, the error in text and a
suggestion; the first sentence has twenty words at most.
"""

from __future__ import annotations

import random
import re
from functools import cache
from pathlib import Path

import pytest

from coach.app.proving import prove_text
from coach.craft.problem import Problem
from coach.wording.report import proof_page
from tests.a11y.works import ROOT

FAULTY = sorted((ROOT / "tests" / "notation" / "independent" / "patterns").glob("faulty-*.txt"))
OWN = sorted((ROOT / "coach" / "patterns").glob("*.txt"))
MOST_WORDS = 20
MUTATIONS = 40
BLAME = re.compile(r"\b(invalid|illegal|failed|exception|traceback|null|none)\b", re.I)


def mutated(text: str, chance: random.Random) -> str:
    """One slip of the pen in a row: another number, a lost bracket or star, a word misspelt."""
    rows = [
        at
        for at, line in enumerate(text.splitlines())
        if re.match(r"\s*(row|rnd|round)s? \d", line, re.I)
    ]
    lines = text.splitlines()
    at = chance.choice(rows)
    head, colon, body = lines[at].partition(":")
    slips = [
        lambda told: re.sub(
            r"\d+", lambda found: str(int(found[0]) + chance.randint(1, 3)), told, count=1
        ),
        lambda told: re.sub(r"[*\])]", "", told, count=1),
        lambda told: re.sub(r"\b(sc|dc|hdc|tr|FPdc)\b", "scx", told, count=1),
        lambda told: re.sub(r"(\d+)(?=[^\d]*$)", lambda found: str(int(found[0]) + 2), told),
    ]
    lines[at] = head + colon + chance.choice(slips)(body)
    return "\n".join(lines)


@cache
def problems() -> tuple[tuple[str, Problem, str], ...]:
    found = [(path.stem, path.read_text(encoding="utf-8")) for path in FAULTY]
    for path in OWN:
        chance = random.Random(path.stem)  # noqa: S311  the same slips in every run
        text = path.read_text(encoding="utf-8")
        found += [(f"{path.stem} {n}", mutated(text, chance)) for n in range(MUTATIONS)]
    return tuple(
        (name, problem, text) for name, text in found for problem in prove_text(text).problems
    )


def test_there_are_enough_seeded_faults() -> None:
    assert len(problems()) >= 60


def test_each_fault_says_where_it_is() -> None:
    for name, problem, text in problems():
        lines = text.splitlines()
        assert 1 <= problem.place.line <= len(lines), (name, problem)
        assert 1 <= problem.place.column <= len(lines[problem.place.line - 1]) + 1, (name, problem)


def test_each_fault_says_what_is_wrong_in_a_short_first_sentence() -> None:
    for name, problem, _text in problems():
        first = re.split(r"(?<=[.?!]) ", problem.message)[0]
        assert 3 <= len(first.split()) <= MOST_WORDS, (name, first)
        assert not BLAME.search(problem.message), (name, problem.message)


def test_each_fault_says_one_way_to_mend_it() -> None:
    assert [(name, each.message) for name, each, _ in problems() if not each.hint.strip()] == []


@pytest.mark.parametrize("path", FAULTY[:5], ids=lambda path: path.stem)
def test_the_page_tells_all_of_it(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    proof = prove_text(text)
    page = " ".join(proof_page(proof, text).split())
    for problem in proof.problems:
        assert f"line {problem.place.line}, column {problem.place.column}" in page
        assert " ".join(problem.message.split()) in page
        assert f"Try: {' '.join(problem.hint.split())}" in page
