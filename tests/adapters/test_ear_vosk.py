"""The ear and its worker: any recording is heard, and whatever dies is told once and replaced."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

import numpy as np
import pytest
import soxr

from coach.adapters.ear_vosk import VoskEar
from coach.adapters.model_store import find_model
from coach.ports import Heard
from coach.wording.words import Words
from tests.adapters.sounds import Samples, noise, silence, spoken, write_wav

pytestmark = pytest.mark.mic

PHRASES = ("where am i", "go back", "next row", "how many", "i have #")


@pytest.fixture(scope="module")
def model() -> Path:
    found = find_model({}, Path("/nowhere"))
    assert isinstance(found, Path)
    return found


class Visit:
    """One ear and all that it handed over."""

    def __init__(self, ear: VoskEar) -> None:
        self.ear = ear
        self.heard: list[Heard] = []
        self.told: list[str] = []

    def start(self, *phrases: str) -> None:
        self.ear.start(self._on_heard, self._on_told)
        self.ear.listen_for(phrases or PHRASES)

    def texts(self) -> list[str]:
        return [heard.text for heard in self.heard if heard.text]

    def wait(self, until: Callable[[], bool], seconds: float = 30.0) -> None:
        end = time.monotonic() + seconds
        while not until():
            assert time.monotonic() < end, (self.heard, self.told)
            time.sleep(0.02)

    def _on_heard(self, heard: Heard) -> None:
        self.heard.append(heard)

    def _on_told(self, words: Words) -> None:
        self.told.append(words.full)


@pytest.fixture
def visit_of(model: Path) -> Iterator[Callable[[Path], Visit]]:
    ears: list[VoskEar] = []

    def open_ear(recording: Path) -> Visit:
        ears.append(VoskEar(model, recording=recording))
        return Visit(ears[-1])

    yield open_ear
    for ear in ears:
        ear.close()


def hear(visit: Visit, *phrases: str) -> Visit:
    visit.start(*phrases)
    assert visit.ear.ended.wait(60)
    return visit


def replaced(ear: VoskEar, last: int) -> bool:
    return ear.worker_pid() not in {None, last}


def told_in(samples: Samples, seconds_before: float = 1.0) -> Samples:
    return np.concatenate((silence(seconds_before), samples, silence(0.5)))


@pytest.mark.parametrize(
    ("rate", "channels", "gain"),
    [(16_000, 1, 1.0), (44_100, 2, 1.0), (48_000, 1, 0.1), (8_000, 1, 1.0), (22_050, 2, 2.5)],
)
def test_a_recording_of_any_rate_and_level_is_heard(
    visit_of: Callable[[Path], Visit], tmp_path: Path, rate: int, channels: int, gain: float
) -> None:
    samples = np.clip(told_in(spoken()) * gain, -32_767, 32_767)
    at_rate = soxr.resample(samples.astype(np.int16), 16_000, rate)
    file = write_wav(tmp_path / "said.wav", at_rate, rate=rate, channels=channels)

    visit = hear(visit_of(file))

    assert visit.texts() == ["where am i"]
    assert visit.heard[0].at == pytest.approx(1.0 + len(spoken()) / 16_000, abs=0.15)
    assert visit.heard[0].ms > 0


def test_a_recording_of_silence_and_of_a_fan_holds_no_command(
    visit_of: Callable[[Path], Visit], tmp_path: Path
) -> None:
    """User need L02: 60 s of digital silence, 60 s of a fan."""
    file = write_wav(tmp_path / "fan.wav", np.concatenate((silence(60), noise(60, 300))))

    assert hear(visit_of(file)).heard == []


def test_only_the_phrases_of_the_present_mode_are_taken(
    visit_of: Callable[[Path], Visit], tmp_path: Path
) -> None:
    file = write_wav(tmp_path / "said.wav", told_in(spoken()))

    assert hear(visit_of(file), "hello coach", "go back").texts() == []


def test_the_list_may_change_between_two_words(
    visit_of: Callable[[Path], Visit], tmp_path: Path
) -> None:
    file = write_wav(tmp_path / "said.wav", np.concatenate([told_in(spoken())] * 3))
    visit = visit_of(file)

    def hears(heard: Heard) -> None:
        visit.heard.append(heard)
        visit.ear.listen_for(["go back"])

    visit.ear.start(hears, lambda words: None)
    visit.ear.listen_for(PHRASES)

    assert visit.ear.ended.wait(60)
    assert visit.texts() == ["where am i"]


def test_what_is_no_recording_ends_at_once_and_is_told(
    visit_of: Callable[[Path], Visit], tmp_path: Path
) -> None:
    file = tmp_path / "said.wav"
    file.write_bytes(b"RIFF, or so it says")

    visit = hear(visit_of(file))

    assert visit.heard == []
    assert any("can't be heard" in sentence for sentence in visit.told)


def test_a_model_that_is_none_is_told_once_and_the_ear_stays_off(tmp_path: Path) -> None:
    (tmp_path / "am").mkdir()
    (tmp_path / "am" / "final.mdl").write_bytes(b"nonsense")
    visit = Visit(VoskEar(tmp_path))
    visit.start()

    assert visit.ear.ended.wait(30)
    visit.ear.close()
    (sentence,) = visit.told
    assert "holds no speech model that works" in sentence
    assert "Keys go on working" in sentence


def test_a_model_without_the_coachs_words_is_told(model: Path, tmp_path: Path) -> None:
    file = write_wav(tmp_path / "said.wav", told_in(spoken()))
    visit = Visit(VoskEar(model, recording=file))
    visit.start("größer bitte")
    visit.wait(lambda: bool(visit.told))
    visit.ear.close()

    assert "has none of the coach's words" in visit.told[0]


def test_a_worker_that_is_killed_is_told_once_and_another_takes_its_place(model: Path) -> None:
    visit = Visit(VoskEar(model))
    visit.start()
    first = visit.ear.worker_pid()
    assert first is not None
    os.kill(first, signal.SIGKILL)
    visit.wait(partial(replaced, visit.ear, first))
    visit.ear.close()

    assert sum("starts again" in told for told in visit.told) == 1


def test_a_worker_that_goes_with_its_microphone_is_no_second_trouble(model: Path) -> None:
    """Some sound libraries end the process when their server goes; that may happen many times."""
    visit = Visit(VoskEar(model, microphone="none of this name"))
    visit.start()
    visit.wait(lambda: any("No microphone" in told for told in visit.told))
    for _ in range(7):  # more often than a faulty ear is started again
        last = visit.ear.worker_pid()
        assert last is not None
        os.kill(last, signal.SIGKILL)
        visit.wait(partial(replaced, visit.ear, last))
    visit.ear.close()

    assert [told for told in visit.told if "No microphone" not in told] == []
    assert len(visit.told) == 1


def test_a_worker_that_hangs_is_ended_and_replaced(
    model: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("coach.adapters.ear_vosk.BEAT_MISSING", 1.5)
    visit = Visit(VoskEar(model, microphone="none of this name"))
    visit.start()
    visit.wait(lambda: any("No microphone" in told for told in visit.told))
    first = visit.ear.worker_pid()
    assert first is not None
    os.kill(first, signal.SIGSTOP)
    visit.wait(partial(replaced, visit.ear, first))
    visit.ear.close()

    assert len(visit.told) == 1, "the missing microphone was told, and one trouble is told once"


def test_a_makers_own_words_are_taken_for_the_phrase_they_stand_for(
    visit_of: Callable[[Path], Visit], tmp_path: Path
) -> None:
    """The recording says "where am i": for this maker that is how "next row" comes out."""
    visit = visit_of(write_wav(tmp_path / "said.wav", told_in(spoken())))
    visit.ear.take_words({"where am i": "next row"})

    hear(visit, "next row", "go back", "how many")

    assert visit.texts() == ["next row"]


def test_own_words_for_a_phrase_that_is_not_listened_for_now_are_left_alone(
    visit_of: Callable[[Path], Visit], tmp_path: Path
) -> None:
    visit = visit_of(write_wav(tmp_path / "said.wav", told_in(spoken())))
    visit.ear.take_words({"where am i": "next row"})

    hear(visit, "go back", "how many")

    assert visit.texts() == []


def test_in_a_lesson_whatever_is_said_is_handed_over_as_it_was_made_out(
    visit_of: Callable[[Path], Visit], tmp_path: Path
) -> None:
    visit = visit_of(write_wav(tmp_path / "said.wav", told_in(spoken())))
    visit.ear.learn(True)

    hear(visit, "next row", "where am i")

    assert [heard.readings[0] for heard in visit.heard] == ["where am i"]
    assert visit.texts() == [], "nothing is taken for a command meanwhile"
