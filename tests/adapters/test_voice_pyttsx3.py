"""Speech is made in a process of its own, and every way in which it fails is noticed."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from coach.adapters.voice_pyttsx3 import SpeechLostError, VoiceMissingError, WorkerVoice

STUB = Path(__file__).with_name("stub_voice_worker.py")
ROW = "Single crochet in the next three stitches."


@pytest.fixture
def voices(tmp_path: Path) -> Iterator[Voices]:
    made = Voices(tmp_path)
    yield made
    for each in made.opened:
        each.close()


class Voices:
    """Voices whose first worker has the named fault."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.opened: list[WorkerVoice] = []

    def with_fault(self, fault: str, patience: float = 1.5) -> WorkerVoice:
        command = [sys.executable, str(STUB), fault, str(self.folder / "seen")]
        voice = WorkerVoice(command, patience=patience, log=self.folder / "noise.log")
        self.opened.append(voice)
        return voice


# What pyttsx3 2.99 was seen to do: measured on Debian 12, or read in its drivers.
FAULTS = [
    "hangs",
    "dies",
    "crashes",
    "silent",
    "empty",
    "no_file",
    "cut_short",
    "garbage",
    "too_short",
    "error_event",
    "raises",
]


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_is_told_and_the_next_text_is_spoken(voices: Voices, fault: str) -> None:
    voice = voices.with_fault(fault)

    with pytest.raises(SpeechLostError):
        voice.make(ROW, 150)
    again = voice.make(ROW, 150)

    assert again.seconds == pytest.approx(7 * 0.4, abs=0.05)


def test_a_second_text_that_never_comes_back_is_given_up(voices: Voices) -> None:
    voice = voices.with_fault("second_hangs")
    voice.make(ROW, 150)

    with pytest.raises(SpeechLostError, match="hung"):
        voice.make(ROW, 150)
    assert voice.make(ROW, 150).seconds > 2


@pytest.mark.parametrize("oddity", ["works", "late_file", "finishes_twice", "prints_much"])
def test_what_is_only_odd_is_no_fault(voices: Voices, oddity: str) -> None:
    voice = voices.with_fault(f"always-{oddity}")

    lengths = [voice.make(text, 150).seconds for text in ("one two", "one two three", "one")]

    assert lengths == pytest.approx([0.8, 1.2, 0.4], abs=0.05)


def test_the_worker_prints_into_the_log_and_never_onto_the_terminal(
    voices: Voices, capfd: pytest.CaptureFixture[str]
) -> None:
    voices.with_fault("always-prints_much").make(ROW, 150)

    assert capfd.readouterr() == ("", "")
    assert b"cannot find card" in (voices.folder / "noise.log").read_bytes()


def test_a_worker_ended_from_outside_is_replaced(voices: Voices) -> None:
    voice = voices.with_fault("always-works")
    voice.make(ROW, 150)
    pid = voice.pid
    assert pid is not None
    os.kill(pid, 9)

    with pytest.raises(SpeechLostError, match="ended"):
        voice.make(ROW, 150)

    assert voice.make(ROW, 150).seconds > 2
    assert voice.pid != pid


def test_closing_in_the_middle_of_a_hang_ends_the_worker_and_leaves_no_file(
    voices: Voices, tmp_path: Path
) -> None:
    voice = voices.with_fault("always-hangs", patience=60)
    voice.start()
    pid = voice.pid
    assert pid is not None

    voice.close()

    with pytest.raises(OSError, match="No such process"):
        os.kill(pid, 0)
    with pytest.raises(SpeechLostError):
        voice.make(ROW, 150)


def test_a_machine_without_an_engine_is_told_so(tmp_path: Path) -> None:
    lost = tmp_path / "no_engine.py"
    lost.write_text(
        "from coach.adapters import voice_worker\n"
        "def none(): raise voice_worker.CannotSpeakError('The bundled voice is not installed.')\n"
        "voice_worker.run(none)\n"
    )
    voice = WorkerVoice([sys.executable, str(lost)])

    with pytest.raises(VoiceMissingError, match="not installed"):
        voice.make(ROW, 150)
    voice.close()


def test_a_worker_that_can_not_be_started_is_told_so(tmp_path: Path) -> None:
    voice = WorkerVoice([str(tmp_path / "nothing")])

    with pytest.raises(SpeechLostError, match="start"):
        voice.make(ROW, 150)
    voice.close()
