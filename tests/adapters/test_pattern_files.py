"""Every way of giving a pattern gives its text, or a sentence that says what to do."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from coach.adapters.pattern_files import LARGEST, PatternText, built_in_names, load
from coach.ports import Missing

NOTHING = io.BytesIO()


def refused(pattern: str, stdin: io.BytesIO = NOTHING) -> Missing:
    answer = load(pattern, stdin)
    assert isinstance(answer, Missing)
    return answer


def taken(pattern: str, stdin: io.BytesIO = NOTHING) -> PatternText:
    answer = load(pattern, stdin)
    assert isinstance(answer, PatternText)
    return answer


def test_a_built_in_pattern_is_found_by_its_name() -> None:
    assert taken("pebble-cloth").text.startswith("PEBBLE CLOTH")
    assert {"pebble-cloth", "orchard-gate-cushion"} <= set(built_in_names())


def test_a_pattern_may_come_from_standard_input() -> None:
    assert taken("-", io.BytesIO(b"Ch 9.\n")).text == "Ch 9.\n"


def test_a_near_miss_is_suggested() -> None:
    assert "Did you mean pebble-cloth?" in refused("peble-cloth").remedy


@pytest.mark.parametrize(
    ("raw", "word"),
    [
        (b"", "empty"),
        (b" \n\t\n", "empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00", "not plain text"),
        (bytes(range(1, 32)) * 9, "not plain text"),
        (b"\xff\xfe\x00", "not plain text"),
        (b"x" * (LARGEST + 1), "too large"),
    ],
)
def test_what_cannot_be_a_pattern_is_refused_with_a_sentence(
    tmp_path: Path, raw: bytes, word: str
) -> None:
    path = tmp_path / "gift.txt"
    path.write_bytes(raw)

    answer = refused(str(path))

    assert word in answer.reason
    assert answer.remedy.endswith(".")


def test_a_folder_is_no_pattern(tmp_path: Path) -> None:
    assert "folder" in refused(str(tmp_path)).reason


def test_a_name_with_a_zero_byte_is_refused() -> None:
    assert "can't be shown" in refused("a\0b").reason


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_the_usual_encodings_are_read(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "scarf.txt"
    path.write_bytes("Row 1 – sc in each st. (9 sc) ½”".encode(encoding))

    assert taken(str(path)).text == "Row 1 – sc in each st. (9 sc) ½”"
