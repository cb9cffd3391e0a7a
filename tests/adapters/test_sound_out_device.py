"""The loudspeaker is found by name and opened at a rate it takes, or it is told what is missing.

The stand-in behaves as PortAudio was seen to: the same errors at the same calls.
"""

from __future__ import annotations

import builtins
import sys
import types
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from coach.adapters import sound_device
from coach.adapters.sound_device import Loudspeaker, open_loudspeaker, refresh_devices
from coach.ports import Missing


class PortAudioError(Exception):
    """As sounddevice's own."""


class FakeStream:
    """An output stream that starts unless the device refuses its rate or channels."""

    def __init__(self, machine: Machine, **asked: Any) -> None:
        device = machine.devices[asked["device"]]
        if asked["samplerate"] not in device["rates"] or asked["channels"] not in device["takes"]:
            raise PortAudioError("Invalid sample rate or number of channels")
        self.asked = asked
        self.latency = 0.03

    def start(self) -> None:
        if self.asked["device"] == 9:
            raise PortAudioError("Device unavailable [PaErrorCode -9985]")

    def block(self, frames: int = 4) -> np.ndarray:
        out = np.zeros((frames, self.asked["channels"]), np.int16)
        self.asked["callback"](out, frames, None, None)
        return out


class Machine(types.ModuleType):
    """A stand-in for the module sounddevice."""

    PortAudioError = PortAudioError

    def __init__(self, *devices: dict[str, Any]) -> None:
        super().__init__("sounddevice")
        self.devices = list(devices)
        self.refreshed = 0

    def query_devices(self, device: int | None = None, kind: str | None = None) -> Any:
        if kind == "output":
            if not self.devices:
                raise PortAudioError("Error querying device -1")
            return self.devices[0]
        return self.devices

    def OutputStream(self, **asked: Any) -> FakeStream:  # noqa: N802 - sounddevice's own name
        return FakeStream(self, **asked)

    def _terminate(self) -> None:
        pass

    def _initialize(self) -> None:
        self.refreshed += 1


def device(index: int, name: str, *rates: int, takes: tuple[int, ...] = (1, 2)) -> dict[str, Any]:
    return {
        "index": index,
        "name": name,
        "max_output_channels": 2,
        "default_samplerate": float(rates[-1]),
        "rates": rates,
        "takes": takes,
    }


def opened(
    monkeypatch: pytest.MonkeyPatch, machine: Machine, wanted: str | None = None
) -> Loudspeaker | Missing:
    monkeypatch.setitem(sys.modules, "sounddevice", machine)
    return open_loudspeaker(
        wanted, lambda _rate: lambda count: np.full(count, 7, np.int16), lambda: None
    )


def test_the_machines_own_choice_is_opened_at_the_voices_rate(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    speaker = opened(monkeypatch, Machine(device(0, "headphones", 22_050, 48_000)))

    assert isinstance(speaker, Loudspeaker)
    assert (speaker.name, speaker.rate) == ("headphones", 22_050)
    assert speaker.stream.asked["blocksize"] <= 0.02 * 22_050  # a cut waits for no more


def test_a_device_that_refuses_the_voices_rate_gets_its_own(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    speaker = opened(monkeypatch, Machine(device(0, "monitor", 48_000)))

    assert isinstance(speaker, Loudspeaker)
    assert speaker.rate == 48_000


def test_a_device_that_refuses_one_channel_gets_the_same_in_both(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    speaker = opened(monkeypatch, Machine(device(0, "card", 44_100, takes=(2,))))

    assert isinstance(speaker, Loudspeaker)
    assert speaker.stream.block().tolist() == [[7, 7]] * 4


def test_a_device_is_found_by_its_name_wherever_it_now_stands(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    machine = Machine(device(0, "monitor", 48_000), device(1, "USB headset: Audio (hw:2)", 48_000))

    for name in ("USB headset: Audio (hw:2)", "usb headset"):
        speaker = opened(monkeypatch, machine, name)
        assert isinstance(speaker, Loudspeaker)
        assert speaker.name.startswith("USB headset")


def test_a_named_device_that_is_away_is_not_swapped_for_another(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    machine = Machine(device(0, "monitor", 48_000))

    assert isinstance(opened(monkeypatch, machine, "headset"), Missing)


def test_no_device_is_told_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    missing = opened(monkeypatch, Machine())

    assert isinstance(missing, Missing)
    assert "No loudspeaker" in missing.reason
    assert "Plug one in" in missing.remedy


def test_a_microphone_alone_is_no_loudspeaker(monkeypatch: pytest.MonkeyPatch) -> None:
    microphone = {**device(0, "microphone", 48_000), "max_output_channels": 0}

    assert isinstance(opened(monkeypatch, Machine(microphone)), Missing)


def test_a_device_held_by_another_program_is_told_by_name(monkeypatch: pytest.MonkeyPatch) -> None:
    machine = Machine(*(device(at, f"card {at}", 48_000) for at in range(10)))

    missing = opened(monkeypatch, machine, "card 9")

    assert isinstance(missing, Missing)
    assert "card 9" in missing.reason


def test_portaudio_that_is_not_there_is_told_with_what_brings_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.delitem(sys.modules, "sounddevice", raising=False)
    real: Callable[..., Any] = builtins.__import__

    def without(name: str, *rest: Any) -> Any:
        if name == "sounddevice":
            raise OSError("PortAudio library not found")  # what its import raises
        return real(name, *rest)

    monkeypatch.setattr(builtins, "__import__", without)

    assert refresh_devices() is sound_device.NO_PORTAUDIO
    missing = open_loudspeaker(None, lambda _: lambda count: np.zeros(count, np.int16), print)
    assert missing is sound_device.NO_PORTAUDIO
    assert "libportaudio2" in sound_device.NO_PORTAUDIO.remedy


def test_devices_are_looked_at_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    machine = Machine()
    monkeypatch.setitem(sys.modules, "sounddevice", machine)

    assert refresh_devices() is None
    assert machine.refreshed == 1
