"""The microphone behind a stand-in for PortAudio: rates, loss, return, overflow, absence."""

from __future__ import annotations

import sys
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from types import ModuleType
from typing import Any

import numpy as np
import pytest

from coach.adapters.device_names import Way, names_of
from coach.adapters.microphone import WAITING, Microphone, microphone_names, to_16k
from coach.ports import Missing


class PortAudioError(Exception):
    """As the library raises it."""


@dataclass
class Status:
    input_overflow: bool = False


@dataclass
class Rig:
    """What is plugged in, and the streams that were opened."""

    devices: list[dict[str, Any]]
    rates: set[int] = field(default_factory=lambda: {16_000})
    channels: set[int] = field(default_factory=lambda: {1})
    streams: list[Stream] = field(default_factory=list)

    def last(self) -> Stream:
        return self.streams[-1]


class Stream:
    def __init__(self, rig: Rig, **asked: Any) -> None:
        rate, channels = asked["samplerate"], asked["channels"]
        if rate not in rig.rates or channels not in rig.channels:
            raise PortAudioError("Invalid sample rate")
        self.asked, self.closed = asked, False
        rig.streams.append(self)

    def start(self) -> None:
        pass

    def close(self) -> None:
        self.closed = True

    def give(self, samples: np.ndarray, *, overflow: bool = False) -> None:
        data = memoryview(samples.astype(np.int16).tobytes())
        self.asked["callback"](data, len(samples), None, Status(overflow))

    def end(self) -> None:
        self.asked["finished_callback"]()


def device(name: str, rate: int = 16_000) -> dict[str, Any]:
    return {"name": name, "index": 0, "max_input_channels": 2, "default_samplerate": rate}


@pytest.fixture
def rig(monkeypatch: pytest.MonkeyPatch) -> Rig:
    made = Rig([device("Desk microphone")])
    library: Any = ModuleType("sounddevice")

    def query_devices(kind: str | None = None) -> Any:
        if kind is None:
            return made.devices
        if not made.devices:
            raise PortAudioError("Error querying device -1")
        return made.devices[0]

    library.PortAudioError = PortAudioError
    library.query_devices = query_devices
    library.RawInputStream = lambda **asked: Stream(made, **asked)
    library._terminate = library._initialize = lambda: None
    monkeypatch.setitem(sys.modules, "sounddevice", library)
    return made


News = list[str | Missing]


@pytest.fixture
def opened() -> Iterator[Callable[[str | None], tuple[Microphone, News]]]:
    made: list[Microphone] = []

    def open_it(wanted: str | None = None) -> tuple[Microphone, News]:
        news: News = []
        made.append(Microphone(wanted, news.append, look=names_in_library))
        made[-1].start()
        return made[-1], news

    yield open_it
    for microphone in made:
        microphone.close()


def names_in_library(way: Way) -> tuple[str, ...]:
    return tuple(names_of(sys.modules["sounddevice"], way))


def wait(until: Callable[[], bool], seconds: float = 5.0) -> float:
    began = time.monotonic()
    while not until():
        assert time.monotonic() - began < seconds
        time.sleep(0.01)
    return time.monotonic() - began


Open = Callable[..., tuple[Microphone, News]]


def test_the_machines_own_choice_is_opened_at_sixteen_kilohertz(rig: Rig, opened: Open) -> None:
    microphone, news = opened()
    wait(lambda: bool(news))
    rig.last().give(np.arange(320))

    block = microphone.read(1.0)
    assert news == ["Desk microphone"]
    assert block is not None
    assert block.samples.tolist() == list(range(320))
    assert not block.lost


@pytest.mark.parametrize("rate", [8_000, 44_100, 48_000])
def test_a_device_of_another_rate_is_resampled(rig: Rig, opened: Open, rate: int) -> None:
    rig.devices, rig.rates = [device("Card", rate)], {rate}
    microphone, news = opened()
    wait(lambda: bool(news))
    tone = 8_000 * np.sin(2 * np.pi * 440 * np.arange(rate) / rate)
    for at in range(0, rate, rate // 50):
        rig.last().give(tone[at : at + rate // 50])
    heard = []
    while (block := microphone.read(0.05)) is not None:
        heard.append(block.samples)

    whole = np.concatenate(heard)
    assert len(whole) == pytest.approx(16_000, abs=1_600)
    pitch = int(np.argmax(np.abs(np.fft.rfft(whole.astype(float))))) * 16_000 / len(whole)
    assert pitch == pytest.approx(440, abs=2)


def test_a_stereo_device_is_heard_as_the_mean_of_both_sides(rig: Rig, opened: Open) -> None:
    rig.channels = {2}
    microphone, news = opened()
    wait(lambda: bool(news))
    rig.last().give(np.array([100, 300] * 320))

    block = microphone.read(1.0)
    assert block is not None
    assert set(block.samples.tolist()) == {200}


def test_a_microphone_that_ends_is_told_within_a_second_and_taken_again_by_name(
    rig: Rig, opened: Open
) -> None:
    _, news = opened()
    wait(lambda: bool(news))
    rig.devices = []
    rig.last().end()

    assert wait(lambda: len(news) == 2) < 1.0
    lost = news[1]
    assert isinstance(lost, Missing)
    assert "Desk microphone is gone" in lost.reason
    rig.devices = [device("Another microphone"), device("Desk microphone")]
    assert wait(lambda: len(news) == 3) < 3.0
    assert news[2] == "Desk microphone"


def test_a_microphone_that_falls_silent_without_a_word_is_lost_too(
    rig: Rig, opened: Open, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A killed sound server raises nothing: the blocks just stop."""
    monkeypatch.setattr("coach.adapters.microphone.GETTING_READY", 0.1)
    _, news = opened()
    wait(lambda: bool(news))
    rig.last().give(np.zeros(320))

    assert wait(lambda: len(news) >= 2) < 1.5
    assert isinstance(news[1], Missing)


def test_a_dead_microphone_that_hangs_when_it_is_closed_is_told_first_and_given_up(
    rig: Rig, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Seen with a killed sound server: PortAudio waits for a thread of its own that never ends."""
    monkeypatch.setattr("coach.adapters.microphone.CLOSING", 0.1)
    news: News = []
    stuck, let_go = threading.Event(), threading.Event()
    microphone = Microphone(None, news.append, look=names_in_library, stuck=stuck.set)
    microphone.start()
    wait(lambda: bool(news))
    rig.last().close = let_go.wait  # type: ignore[assignment]
    rig.devices = []

    rig.last().end()

    assert stuck.wait(5)
    assert isinstance(news[1], Missing)
    let_go.set()
    microphone.close()


def test_no_microphone_is_told_once(rig: Rig, opened: Open) -> None:
    rig.devices = []
    _, news = opened()
    wait(lambda: bool(news))
    time.sleep(1.0)

    (told,) = news
    assert isinstance(told, Missing)
    assert "No microphone was found" in told.reason


def test_a_missing_portaudio_is_told_with_its_remedy(
    opened: Open, monkeypatch: pytest.MonkeyPatch
) -> None:
    class Refusing:
        def find_spec(self, name: str, *_: object) -> None:
            if name == "sounddevice":
                raise OSError("PortAudio library not found")

    monkeypatch.delitem(sys.modules, "sounddevice", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Refusing(), *sys.meta_path])
    _, news = opened()
    wait(lambda: bool(news))

    told = news[0]
    assert isinstance(told, Missing)
    assert "PortAudio isn't on this machine" in told.reason
    assert "libportaudio2" in told.remedy


def test_a_device_that_another_program_holds_is_named(rig: Rig, opened: Open) -> None:
    rig.rates = set()
    _, news = opened()
    wait(lambda: bool(news))

    told = news[0]
    assert isinstance(told, Missing)
    assert "Desk microphone doesn't open" in told.reason


def test_lost_sound_is_counted_and_marks_the_next_block(rig: Rig, opened: Open) -> None:
    microphone, news = opened()
    wait(lambda: bool(news))
    rig.last().give(np.zeros(320), overflow=True)
    first = microphone.read(1.0)
    for _ in range(WAITING + 3):
        rig.last().give(np.zeros(320))

    assert first is not None
    assert first.lost
    assert microphone.overflows == 4
    block = microphone.read(1.0)
    assert block is not None
    assert block.lost


def test_what_waits_may_be_thrown_away(rig: Rig, opened: Open) -> None:
    microphone, news = opened()
    wait(lambda: bool(news))
    rig.last().give(np.zeros(320))
    microphone.drop_waiting()

    assert microphone.read(0.05) is None


def test_names_come_with_the_machines_choice_first(rig: Rig) -> None:
    rig.devices = [device("Desk microphone"), device("Headset")]

    assert microphone_names() == ["Desk microphone", "Headset"]


def test_sixteen_kilohertz_pass_as_they_are() -> None:
    samples = np.arange(10, dtype=np.int16)

    assert to_16k(16_000)(samples) is samples


def test_closing_ends_the_watch(rig: Rig) -> None:
    before = threading.active_count()
    microphone = Microphone(None, lambda news: None)
    microphone.start()
    wait(lambda: bool(rig.streams))
    microphone.close()

    assert rig.last().closed
    assert threading.active_count() == before
