"""Loudspeakers and microphones by name: their numbers change whenever one is plugged in.

Takes the sounddevice module as it was loaded, late, by whoever owns the device.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum
from types import ModuleType
from typing import Any

Device = Mapping[str, Any]


class Way(Enum):
    """Which way the sound goes, in PortAudio's own words."""

    IN = "input"
    OUT = "output"


def names_of(sounddevice: ModuleType, way: Way) -> list[str]:
    """Return the names of all devices of this kind, the machine's own choice first."""
    names = [str(each["name"]) for each in _devices(sounddevice, way)]
    chosen = _own_choice(sounddevice, way)
    return sorted(dict.fromkeys(names), key=lambda name: name != chosen)


def find_device(sounddevice: ModuleType, way: Way, wanted: str | None) -> Device | None:
    """Return the device named *wanted*, or the machine's own choice; None when it isn't there."""
    try:
        devices = _devices(sounddevice, way)
    except (sounddevice.PortAudioError, ValueError):
        return None
    name = wanted or _own_choice(sounddevice, way)
    for each in devices:
        if each["name"] == name:
            return each
    # A device's name may change its tail when it is plugged in at another place.
    close = [each for each in devices if wanted and wanted.lower() in each["name"].lower()]
    if close:
        return close[0]
    return devices[0] if devices and not wanted else None


def _devices(sounddevice: ModuleType, way: Way) -> list[Device]:
    channels = f"max_{way.value}_channels"
    return [each for each in sounddevice.query_devices() if int(each[channels]) > 0]


def _own_choice(sounddevice: ModuleType, way: Way) -> str | None:
    try:
        return str(sounddevice.query_devices(kind=way.value)["name"])
    except (sounddevice.PortAudioError, ValueError):
        return None
