"""A speaker that is silent by choice, and one that writes down what it was asked to say."""

from __future__ import annotations

import io
import json
import os
from pathlib import Path

import pytest

from coach.adapters.quiet_descriptors import quiet_descriptors
from coach.adapters.silent import Silence
from coach.adapters.speech_recorder import RecordingSpeaker
from coach.ports import Speaker
from coach.wording.words import Words


def speak_all(speaker: Speaker) -> None:
    speaker.tone("forward")
    speaker.say(Words("Reihe fünf. That makes 77.", "77"))
    speaker.prepare([Words("Next.", "next"), Words("Back.", "back")])
    speaker.stop()
    speaker.set_rate(120)
    speaker.set_loudness(60)
    speaker.close()


def test_silence_takes_every_order_and_makes_no_sound() -> None:
    speak_all(Silence())


def test_the_recorder_writes_one_line_an_order_and_passes_it_on() -> None:
    first, second = io.StringIO(), io.StringIO()

    speak_all(RecordingSpeaker(first, onward=RecordingSpeaker(second)))

    assert [json.loads(line) for line in first.getvalue().splitlines()] == [
        {"tone": "forward"},
        {"say": "Reihe fünf. That makes 77."},
        {"prepare": ["Next.", "Back."]},
        {"stop": True},
        {"rate": 120},
        {"loudness": 60},
        {"close": True},
    ]
    assert second.getvalue() == first.getvalue()


def test_native_noise_goes_to_the_log_and_the_terminal_is_given_back(
    capfd: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """User need L12: two hundred lines on descriptor 2, not all of them text."""
    log = tmp_path / "noise.log"
    with quiet_descriptors(log), quiet_descriptors():
        for _ in range(200):
            os.write(2, b"ALSA lib confmisc.c:855: cannot find card '0' \xff\n")
    os.write(2, b"after\n")

    assert capfd.readouterr().err == "after\n"
    assert log.read_bytes().count(b"\n") == 200


def test_a_log_that_can_not_be_written_is_no_trouble(
    capfd: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    with quiet_descriptors(tmp_path / "no" / "such" / "folder.log"):
        os.write(2, b"noise\n")

    assert capfd.readouterr().err == ""
