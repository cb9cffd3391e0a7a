"""The sound check names the devices there are to choose from."""

from __future__ import annotations

import sys
from types import ModuleType
from typing import Any

import pytest

from coach.adapters.soundcheck import devices_to_choose_from


def with_devices(monkeypatch: pytest.MonkeyPatch, *devices: tuple[str, int, int]) -> None:
    """Let PortAudio list these: name, inputs, outputs; the last is the machine's own choice."""
    listed = [
        {"name": name, "max_input_channels": inputs, "max_output_channels": outputs}
        for name, inputs, outputs in devices
    ]

    def query_devices(kind: str | None = None) -> Any:
        return listed if kind is None else listed[-1]

    library: Any = ModuleType("sounddevice")
    library.query_devices = query_devices
    library.PortAudioError = RuntimeError
    monkeypatch.setitem(sys.modules, "sounddevice", library)


def test_several_loudspeakers_are_named_the_machines_own_choice_first(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    with_devices(monkeypatch, ("Monitor", 0, 2), ("Headset", 1, 2))

    (line,) = devices_to_choose_from()

    assert line.full.startswith("Loudspeakers: Headset; Monitor. The first is the machine's")
    assert "loudspeaker in the settings" in line.full


def test_one_of_each_is_no_choice(monkeypatch: pytest.MonkeyPatch) -> None:
    with_devices(monkeypatch, ("Headset", 1, 2))

    assert devices_to_choose_from() == []


def test_without_portaudio_nothing_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    class Missing:
        def __getattr__(self, name: str) -> Any:
            raise OSError("PortAudio library not found")

    monkeypatch.setitem(sys.modules, "sounddevice", Missing())

    assert devices_to_choose_from() == []
