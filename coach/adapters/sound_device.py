"""The loudspeaker as PortAudio gives it: found by name, opened, watched, found again.

Everything here may block, print or crash, so it runs only in the sound worker. PortAudio is
imported late: without it the import itself fails.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from coach.adapters.device_names import Way, find_device, names_of
from coach.adapters.speech_samples import Samples
from coach.ports import Missing

VOICE_RATE = 22_050  # what espeak-ng makes; asked for first
BLOCK = 0.01  # seconds: what a cut waits for at most
LATENCY = 0.04  # seconds asked of the device; 0.03 underran on a busy machine, 0.06 makes stop slow

Fill = Callable[[int], Samples]

NO_PORTAUDIO = Missing(
    "The sound library PortAudio isn't on this machine, so nothing can be spoken.",
    "Install it (Debian: apt-get install libportaudio2), then start the coach again.",
)
NO_LOUDSPEAKER = Missing(
    "No loudspeaker or headphones were found, so nothing can be spoken.",
    "Plug one in, or start the sound system.",
)


@dataclass(frozen=True, slots=True)
class Loudspeaker:
    """An open output: its name and rate, and the stream that must be closed in the end."""

    name: str
    rate: int
    latency: float
    stream: Any


def refresh_devices() -> Missing | None:
    """Make PortAudio look at the devices anew; every open stream of this process ends."""
    try:
        import sounddevice
    except OSError:  # raised by its import when the library isn't there
        return NO_PORTAUDIO
    except ImportError:
        return NO_PORTAUDIO
    sounddevice._terminate()
    sounddevice._initialize()
    return None


def output_names() -> list[str]:
    """Return the names of all outputs, the machine's own choice first."""
    import sounddevice

    return names_of(sounddevice, Way.OUT)


def open_loudspeaker(
    wanted: str | None, fill_at: Callable[[int], Fill], finished: Callable[[], None]
) -> Loudspeaker | Missing:
    """Open the output named *wanted*, or the machine's own choice when None.

    fill_at: gives, for a rate, what fills the blocks. finished: called when the stream ends,
    wanted or not.
    """
    try:
        import sounddevice
    except (OSError, ImportError):
        return NO_PORTAUDIO
    device = find_device(sounddevice, Way.OUT, wanted)
    if device is None:
        return NO_LOUDSPEAKER
    for rate in dict.fromkeys((VOICE_RATE, int(device["default_samplerate"]), 48_000, 44_100)):
        for channels in (1, 2):
            try:
                stream = _stream(device, rate, channels, fill_at(rate), finished)
                stream.start()
            except (sounddevice.PortAudioError, ValueError):
                continue
            return Loudspeaker(str(device["name"]), rate, float(stream.latency), stream)
    return Missing(
        f"The loudspeaker {device['name']} doesn't open; another program may hold it.",
        "Close that program, or choose another loudspeaker.",
    )


def _stream(device: Any, rate: int, channels: int, fill: Fill, finished: Callable[[], None]) -> Any:
    import sounddevice

    def callback(out: np.ndarray, frames: int, _time: Any, _status: Any) -> None:
        out[:] = fill(frames)[:, np.newaxis]

    return sounddevice.OutputStream(
        device=device["index"],
        samplerate=rate,
        channels=channels,
        dtype="int16",
        blocksize=round(rate * BLOCK),
        latency=LATENCY,
        callback=callback,
        finished_callback=finished,
    )
