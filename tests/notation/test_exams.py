"""The reading exams, held at the score that was reached: known misses may only grow fewer.

The answers come from people who had not seen the reader (see the README beside each exam).
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from coach.app.line_proving import answer
from coach.app.proving import proof_json, prove_text
from coach.notation.unreadable import UnreadableError

HERE = Path(__file__).parent
ASKED = ("id", "terms", "before", "text", "rows", "sizes")
SUMS = ("worked", "spaces_worked", "produces", "chains_spaces")

KNOWN_LINES: dict[str, set[str]] = {
    "fifth_exam_lines": {
        "l086",
        "l096",
    },
    "third_exam": set(),
    "independent": set(),
    "second_exam": set(),
}
KNOWN_PATTERNS: dict[str, set[str]] = {
    "fifth_exam": set(),
    "fourth_exam": set(),
    "third_exam": set(),
    "independent": set(),
    "second_exam": set(),
}  # fmt: skip


def records(exam: str) -> Iterator[dict[str, Any]]:
    for line in (HERE / exam / "lines.jsonl").read_text(encoding="utf-8").splitlines():
        yield json.loads(line)


def line_is_right(record: dict[str, Any]) -> bool:
    """Answered with the verdict and, where it fits, every sum that the record gives."""
    got = answer(json.dumps({key: record[key] for key in ASKED if key in record}), 1)
    if got["verdict"] != record["verdict"].replace(" ", "-"):
        return False
    expected = record["expect"]
    if record["verdict"] != "ok" or expected is None:
        return True
    return all(got[key] == expected[key] for key in SUMS if expected.get(key) is not None)


def faulty_is_found(text: str, truth: dict[str, Any]) -> bool:
    """Exactly one fault, in the row and of a kind that the sidecar calls fair."""
    faults = proof_json(prove_text(text, size=truth.get("prove_size")))["faults"]
    fair = {
        verdict.replace(" ", "-") for verdict in [truth["verdict"], *truth.get("also_fair", [])]
    }
    return (
        len(faults) == 1
        and faults[0]["code"] in fair
        and (
            truth["row"] == faults[0]["label"] or truth["row"].split()[-1] == str(faults[0]["row"])
        )
    )


def pattern_is_right(text: str, truth: dict[str, Any]) -> bool:
    """Proved, with every row's sums, in every size."""
    return all(
        size_is_right(text, truth, index, size)
        for index, size in enumerate(truth.get("sizes") or [None])
    )


def size_is_right(text: str, truth: dict[str, Any], index: int, size: str | None) -> bool:
    got = proof_json(prove_text(text, size=size if index else None))
    if got["verdict"] != "proved":
        return False
    if truth.get("only_verdict"):
        return True
    wanted = [
        tuple(row[key][index] if isinstance(row[key], list) else row[key] for key in SUMS)
        for row in truth["rows"]
    ]
    listed = isinstance(truth["rows"][0]["produces"], list)
    wanted = [row for row in wanted if not (listed and row[2] is None)]
    by_length = truth.get("by_length", False)  # leaves open how many rows a length takes
    found = [
        (row["worked"], row["spaces_worked"], row["made"], row["spaces"])
        for row in got["rows"]
        if not (by_length and row["worked_as"])
    ]
    if truth.get("optional_tail"):  # whether pieces told by other pieces are listed is left open
        found = found[: len(wanted)]
    return len(found) == len(wanted) and all(
        want is None or have == want
        for row, right in zip(found, wanted, strict=True)
        for have, want in zip(row, right, strict=True)
    )


def answered_right(path: Path) -> bool:
    """Proved or faulted as the sidecar says; a pattern turned away unread is wrong."""
    truth = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
    right = faulty_is_found if path.stem.startswith("faulty") else pattern_is_right
    try:
        return right(path.read_text(encoding="utf-8"), truth)
    except UnreadableError:
        return False


@pytest.mark.parametrize("exam", sorted(KNOWN_LINES))
def test_lines_are_read_as_well_as_before(exam: str) -> None:
    wrong = {record["id"] for record in records(exam) if not line_is_right(record)}
    assert wrong <= KNOWN_LINES[exam]


@pytest.mark.parametrize("exam", sorted(KNOWN_PATTERNS))
def test_patterns_are_read_as_well_as_before(exam: str) -> None:
    paths = sorted((HERE / exam / "patterns").glob("*.txt"))
    wrong = {path.stem for path in paths if not answered_right(path)}
    assert wrong <= KNOWN_PATTERNS[exam]
