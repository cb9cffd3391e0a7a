"""What is not installed is told in a sentence, with what to do about it."""

from __future__ import annotations

import gzip
import json
import subprocess
import sys
from pathlib import Path

import pytest

pytest.importorskip("numpy")

from scripts.ear import make_speech, make_tests, programs


def test_what_a_program_writes_is_returned(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    program = tmp_path / "flite"
    program.write_text("#!/bin/sh\ncat -\necho said $1\n", encoding="utf-8")
    program.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path), prepend=":")

    assert programs.output_of(["flite", "loudly"], typed="next row\n") == b"next row\nsaid loudly\n"


def test_a_program_that_fails_is_no_missing_program(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    program = tmp_path / "flite"
    program.write_text("#!/bin/sh\nexit 3\n", encoding="utf-8")
    program.chmod(0o755)
    monkeypatch.setenv("PATH", str(tmp_path), prepend=":")

    with pytest.raises(subprocess.CalledProcessError):
        programs.output_of(["flite"])


@pytest.mark.parametrize("voice", ["espeak-ng", "flite rms", "festival ked_diphone", "rhvoice slt"])
def test_a_missing_speaker_stops_the_making_of_speech_with_a_sentence(
    voice: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    monkeypatch.setattr("scripts.ear.engines.espeak_variants", lambda: ("f1",))
    monkeypatch.setattr(
        sys, "argv", ["make_speech", str(tmp_path / "speech"), "--voices", voice, "--hours", "0.01"]
    )

    assert make_speech.main() == 2
    told = capsys.readouterr().err
    assert told.startswith("The speech was not made. The program ")
    assert "is not installed" in told


def test_missing_prompts_stop_the_making_of_tests_with_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(make_tests, "SCRIPT", tmp_path / "none.gz")
    monkeypatch.setattr(sys, "argv", ["make_tests", str(tmp_path), "human-16k"])

    assert make_tests.main() == 2
    assert "The recorded prompts are missing: apt-get install" in capsys.readouterr().err


def test_a_recorded_prompt_is_a_test_of_what_it_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Three prompts: a number, talk with a word of an order in it, and one whose sound is absent.
    script = tmp_path / "script.gz"
    with gzip.open(script, "wt", encoding="latin-1") as lines:
        lines.write("digits/7: seven\ngo-home: go home\nlost: press two\n")
    (tmp_path / "digits").mkdir()
    for name in ("digits/7", "go-home"):
        (tmp_path / f"{name}.wav").write_bytes(b"sound")
    monkeypatch.setattr(make_tests, "SCRIPT", script)
    monkeypatch.setattr(make_tests, "SOUNDS", tmp_path)
    monkeypatch.setattr(make_tests, "output_of", lambda command: b"\x00\x40" * 1600)

    assert make_tests.write_voice(tmp_path / "tests", "human-8k") == 2
    told = (tmp_path / "tests" / "human-8k.jsonl").read_text(encoding="utf-8").splitlines()
    assert [(json.loads(line)["kind"], json.loads(line)["text"]) for line in told] == [
        ("number", "seven"),
        ("mixed", "go home"),
    ]
