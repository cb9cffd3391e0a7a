"""`coach prove --write`: the pattern anew on standard output, the proof's exit status."""

from __future__ import annotations

from pathlib import Path

import pytest

from coach.app.proving import prove_text
from coach.cli import main


def test_a_pattern_is_written_in_the_terms_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    status = main(["prove", "pebble-cloth", "--write", "uk"])

    written = capsys.readouterr()
    assert status == 0
    assert "Written in UK terms." in written.out
    assert "*dc in next st, tr in next st; rep from * across, turn. (8 dc, 8 tr)" in written.out
    assert written.err == ""
    assert prove_text(written.out).verdict == "proved"


def test_a_pattern_with_a_fault_is_written_and_told_by_the_exit_status(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pattern = tmp_path / "faulty.txt"
    pattern.write_text(
        "US terms\nCh 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. (9 sc)\n"
    )

    assert main(["prove", str(pattern), "--write", "us"]) == 1
    assert "Row 1: Sc in 2nd ch from hook and in each ch across. (9 sc)" in capsys.readouterr().out


def test_a_row_left_in_its_own_words_is_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    pattern = tmp_path / "strange.txt"
    pattern.write_text("US terms\nCh 9.\nRow 1: Sc in 2nd ch from hook, crumb in each ch across.\n")

    assert main(["prove", str(pattern), "--write", "uk"]) == 1

    written = capsys.readouterr()
    assert "crumb in each ch across" in written.out
    assert "Row 1 stands in the words given" in written.err
