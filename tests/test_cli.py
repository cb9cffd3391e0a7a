"""The command as scripts and checks meet it: exit status, messages, JSON, plain lines.

The numbers of the built-in patterns are counted by hand in the comments.
"""

from __future__ import annotations

import io
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from coach.cli import main

CUSHION, CLOTH = "orchard-gate-cushion", "pebble-cloth"


@pytest.fixture(autouse=True)
def own_home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COACH_HOME", str(tmp_path / "home"))


def coach(*arguments: str, typed: str = "", home: Path) -> subprocess.CompletedProcess[str]:
    """Run the real command in a process of its own, with nothing of the screen or sound."""
    return subprocess.run(
        [sys.executable, "-m", "coach", *arguments],
        input=typed,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
        env={**os.environ, "COACH_HOME": str(home)},
    )


def proof_of(pattern: str, capsys: pytest.CaptureFixture[str]) -> dict[str, Any]:
    assert main(["prove", pattern, "--json"]) == 0
    proof: dict[str, Any] = json.loads(capsys.readouterr().out)
    return proof


def test_every_row_of_the_cushion_front_has_the_numbers_counted_by_hand(
    capsys: pytest.CaptureFixture[str],
) -> None:
    proof = proof_of(CUSHION, capsys)
    rows = proof["rows"]

    assert proof["verdict"] == "proved"
    assert proof["faults"] == []
    assert proof["foundation"]["chains"] == 62
    assert (proof["multiple"]["of"], proof["multiple"]["plus"]) == (8, 4)
    assert proof["multiple"]["base_chains"] == 2
    assert [row["number"] for row in rows] == list(range(1, 35))
    # Row 1: 3 skipped chains count as 1, and 62 - 3 = 59 chains more are worked.
    assert (rows[0]["worked"], rows[0]["made"]) == (62, 60)
    assert rows[0]["by_stitch"] == {"dc": 60}
    # Seven times 2 ribs and 6 of the ground, 2 ribs more, and the edge stitch at each end.
    ground = {"dc": 1 + 7 * 3 + 1, "sc": 7 * 3}
    plain = {"dc": 1 + 7 * 6 + 1}
    worked_as = [2, 3, 4, 5] * 8
    for row, pattern_row in zip(rows[1:33], worked_as, strict=True):
        front = pattern_row % 2 == 0
        ribs = {"FPdc" if front else "BPdc": 7 * 2 + 2}
        assert row["by_stitch"] == (plain if pattern_row == 5 else ground) | ribs
        assert (row["worked"], row["made"], row["spaces"]) == (60, 60, 0)
        assert row["side"] == ("RS" if front else "WS")
    assert rows[33]["by_stitch"] == {"sc": 60}
    assert (rows[33]["side"], rows[33]["verdict"]) == ("RS", "ok")


def test_every_row_of_the_cloth_has_the_numbers_counted_by_hand(
    capsys: pytest.CaptureFixture[str],
) -> None:
    proof = proof_of(CLOTH, capsys)
    rows = proof["rows"]

    assert len(rows) == 12
    assert (rows[0]["worked"], rows[0]["made"]) == (17, 16)
    assert all((row["worked"], row["made"]) == (16, 16) for row in rows[1:])
    mixed = [row["number"] for row in rows if row["by_stitch"] == {"sc": 8, "dc": 8}]
    assert mixed == [3, 5, 7, 9]


def test_the_plain_session_tells_the_right_blocks(tmp_path: Path) -> None:
    done = coach(
        "follow", CLOTH, "--plain", "--no-speech", "--no-ear",
        typed="next\nnext\nback\nwhere am i\n", home=tmp_path,
    )  # fmt: skip
    lines = [line for line in done.stdout.splitlines() if line != "Microphone off."]

    assert (done.returncode, done.stderr) == (0, "")
    assert "Chain 17." in lines[2]
    assert lines[3].startswith("Row 1. Right side facing. It comes to 16 stitches.")
    assert lines[4].startswith("Single crochet in each of the next 16 chains.")
    assert lines[5] == lines[3]
    assert lines[6].startswith("Row 1 of 12, 11 to go after this one. Block 1 of 2.")


def test_a_session_goes_on_where_it_was_left(tmp_path: Path) -> None:
    quiet = ("follow", CLOTH, "--plain", "--no-speech", "--no-ear")
    coach(*quiet, typed="next\nnext\nnext\nquit\n", home=tmp_path)

    again = coach(*quiet, home=tmp_path)

    assert again.returncode == 0
    assert "Row 2" in again.stdout


@pytest.mark.parametrize(
    ("arguments", "status", "told"),
    [
        (["prove", "no-such-pattern"], 2, "There is no file or built-in pattern named"),
        (["prove"], 2, "Which pattern?"),
        (["prove", CLOTH, "--size", "M"], 2, "no size M"),
        (["follow", CLOTH, "--from", "the top", "--plain"], 2, "names no row"),
        (["follow", CLOTH, "--plain", "--hear", "gone.wav"], 2, "no recording named gone.wav"),
        (["follow", CLOTH, "--plain", "--width", "3"], 2, "no width between 20 and 1000"),
        (["steps", CLOTH, "--rows", "two"], 2, "no range of rows"),
        (["unravel"], 2, "invalid choice"),
        (["prove", "--lines", "gone.jsonl"], 2, "can't be read"),
    ],
)
def test_what_cannot_be_done_is_told_in_a_sentence_and_by_the_status(
    arguments: list[str], status: int, told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(arguments) == status
    assert told in capsys.readouterr().err


@pytest.mark.parametrize(
    "raw",
    [b"", b"\n \n", b"\x89PNG\r\n\x1a\n\x00\x00", b"x" * 50_000_000, b"Dear Mo, thank you.\n"],
    ids=["empty", "blank", "picture", "50 MB", "a letter"],
)
@pytest.mark.parametrize("command", ["prove", "follow", "steps"])
def test_no_command_takes_what_is_no_pattern(
    command: str, raw: bytes, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "gift.txt"
    path.write_bytes(raw)
    extra = ["--plain", "--no-speech", "--no-ear"] if command == "follow" else []

    assert main([command, str(path), *extra]) == 2
    told = capsys.readouterr().err
    assert told.startswith("coach: ")
    assert "Traceback" not in told


def test_a_faulty_pattern_is_told_by_the_status_and_shown_with_a_caret(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "mat.txt"
    path.write_text(
        "Pond Mat (US terms)\nCh 13.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\n"
        "Row 2: Ch 1, turn, sc in each of next 14 sts. (14 sc)\n",
        encoding="utf-8",
    )

    assert main(["prove", str(path)]) == 1
    page = capsys.readouterr().out
    assert "Row 2, line 4" in page
    assert "^" in page
    assert main(["prove", str(path), "--json"]) == 1
    fault = json.loads(capsys.readouterr().out)["faults"][0]
    assert (fault["code"], fault["row"], fault["line"]) == ("too-many-stitches", 2, 4)


def test_single_lines_are_answered_in_order(tmp_path: Path) -> None:
    line = {
        "id": "a",
        "terms": "US",
        "before": {"kind": "row", "sts": 9, "spaces": 0},
        "text": "Row 2: Ch 1, sc in each st across, turn. (9 sc)",
        "rows": 1,
    }
    asked = "".join(json.dumps(line | {"id": name}) + "\n" for name in "abc")

    done = coach("prove", "--lines", "-", typed=asked, home=tmp_path)

    answers = [json.loads(each) for each in done.stdout.splitlines()]
    assert [each["id"] for each in answers] == ["a", "b", "c"]
    assert {each["verdict"] for each in answers} == {"ok"}
    assert {(each["worked"], each["produces"]) for each in answers} == {(9, 9)}


def test_a_reader_that_leaves_early_is_no_fault(tmp_path: Path) -> None:
    done = subprocess.run(
        ["bash", "-c", f"'{sys.executable}' -m coach steps {CUSHION} | head -n 1; echo ${{PIPESTATUS[0]}}"],
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )  # fmt: skip

    assert done.stdout.splitlines()[-1] == "0"
    assert "Traceback" not in done.stderr


def test_a_reader_that_leaves_before_the_last_words_is_no_fault_either(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The words held back to the end meet the closed pipe where it is still guarded."""
    left = tmp_path / "left"
    with left.open("w") as held_back:

        class Left(io.StringIO):
            met = 0

            def flush(self) -> None:
                self.met += 1
                raise BrokenPipeError

            def fileno(self) -> int:
                return held_back.fileno()

        stdout = Left()
        monkeypatch.setattr(sys, "stdout", stdout)
        assert main(["prove", CUSHION]) == 0
        assert stdout.met == 1
        assert Path(f"/proc/self/fd/{held_back.fileno()}").resolve() == Path(os.devnull)


def test_the_shelf_lists_what_was_begun_first(tmp_path: Path) -> None:
    quiet = ("--plain", "--no-speech", "--no-ear")
    coach("follow", CUSHION, *quiet, typed="next\n", home=tmp_path)

    shelf = json.loads(coach("shelf", "--json", home=tmp_path).stdout)

    assert [each["name"] for each in shelf] == [CUSHION, CLOTH]
    assert shelf[0]["place"]
    assert shelf[0]["last"]
    assert shelf[1]["place"] is None
