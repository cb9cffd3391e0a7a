"""The microphone as PortAudio gives it: found by name, opened, watched, found again when lost.

The callback only copies into a bounded queue. Everything here may block, print or crash, so it
runs only in the ear's worker. PortAudio is imported late: without it the import itself fails.
"""

from __future__ import annotations

import contextlib
import queue
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from coach.adapters.device_names import Way, find_device, names_of
from coach.adapters.device_probe import Look, names_now
from coach.adapters.heartbeat import Heartbeat
from coach.adapters.speech_samples import Samples
from coach.adapters.voice_activity import RATE
from coach.ports import Missing

BLOCK = 0.02  # seconds of sound in one block
WAITING = 250  # blocks that may wait: five seconds; older ones are lost, and counted
WATCH = 0.1  # seconds between looks at the microphone
HEARTBEAT = 0.5  # seconds without a block: the microphone is lost
GETTING_READY = 2.0  # seconds allowed for the first block
CLOSING = 1.0  # seconds for a device to close
AGAIN = 0.8  # seconds between tries to get it back
ANY_OTHER = 3.0  # seconds after which any microphone is taken in place of the named one

NO_PORTAUDIO = Missing(
    "The sound library PortAudio isn't on this machine, so the coach can't hear.",
    "Keys go on working. To be heard, install it (Debian: apt-get install libportaudio2).",
)
NO_MICROPHONE = Missing(
    "No microphone was found, so the coach can't hear.",
    "Keys go on working. Plug one in; the coach will notice.",
)


@dataclass(frozen=True, slots=True)
class SoundBlock:
    """Samples at 16 kHz, and when the last of them was taken (monotonic seconds).

    lost: sound was lost before this block, so no word may reach across.
    """

    samples: Samples
    at: float
    lost: bool = False


class Microphone:
    """Gives the sound of the wanted microphone, or of the machine's own choice, as it comes.

    tells: called from the watching thread with the microphone's name when it opens, and with
    what is missing when it doesn't or is lost. look: names the devices there are now, without
    danger to this process. stuck: called when a dead device can't even be closed; PortAudio's own
    thread may then spin for ever, and only a fresh process is rid of it.
    """

    def __init__(
        self,
        wanted: str | None,
        tells: Callable[[str | Missing], None],
        *,
        look: Look = names_now,
        stuck: Callable[[], None] = lambda: None,
    ) -> None:
        self._wanted = wanted
        self._look = look
        self._stuck = stuck
        self._tells = tells
        self._queue: queue.Queue[tuple[bytes, float]] = queue.Queue(WAITING)
        self._overflows = 0
        self._overflows_told = 0
        self._blocks = Heartbeat(WATCH)
        self._ended = threading.Event()
        self._stream: Any = None
        self._name = ""
        self._channels = 1
        self._to_16k: Callable[[Samples], Samples] = _as_it_is
        self._lost_at: float | None = None
        self._closing = threading.Event()
        self._watcher = threading.Thread(target=self._watch, name="microphone", daemon=True)

    @property
    def overflows(self) -> int:
        """How many times sound was lost because nobody took it in time."""
        return self._overflows

    def start(self) -> None:
        """Begin to look for the microphone; returns at once."""
        self._watcher.start()

    def close(self) -> None:
        self._closing.set()
        self._watcher.join(timeout=2)
        self._drop_stream()

    def read(self, timeout: float) -> SoundBlock | None:
        """Return the next block, or None when none came within *timeout* seconds."""
        try:
            data, at = self._queue.get(timeout=timeout)
        except queue.Empty:
            return None
        lost = self._overflows != self._overflows_told
        self._overflows_told = self._overflows
        frames = np.frombuffer(data, np.int16)
        if self._channels > 1:
            frames = frames.reshape(-1, self._channels).mean(axis=1).astype(np.int16)
        return SoundBlock(self._to_16k(frames), at, lost)

    def drop_waiting(self) -> None:
        """Throw away what was taken but not yet read."""
        with contextlib.suppress(queue.Empty):
            while True:
                self._queue.get_nowait()

    # The stream

    def _callback(self, data: Any, _frames: int, _time: Any, status: Any) -> None:
        self._blocks.beat()
        if status.input_overflow:
            self._overflows += 1
        try:
            self._queue.put_nowait((bytes(data), self._blocks.last))
        except queue.Full:
            self._overflows += 1

    def _watch(self) -> None:
        told: str | None = None
        while not self._closing.is_set():
            if self._stream is None and self._lost_at is not None and not self._look(Way.IN):
                pass  # none is back yet
            elif self._stream is None:
                missing = self._open()
                if missing is None:
                    told = None
                    self._tells(self._name)
                elif missing.reason != told:  # told once, not at every try
                    told = missing.reason
                    self._tells(missing)
            elif self._ended.is_set() or self._blocks.is_missing(HEARTBEAT):
                self._lost_at = time.monotonic()
                told = NO_MICROPHONE.reason  # so that its absence isn't told a second time
                self._tells(_lost(self._name))
                self._drop_stream()  # may take its time: a dead device may hang
            self._closing.wait(WATCH if self._stream is not None else AGAIN)

    def _open(self) -> Missing | None:
        try:
            import sounddevice
        except (OSError, ImportError):  # OSError: the library isn't there
            return NO_PORTAUDIO
        with contextlib.suppress(Exception):  # the list of devices is frozen until then
            sounddevice._terminate()
            sounddevice._initialize()
        waited = time.monotonic() - self._lost_at if self._lost_at is not None else 0.0
        wanted = self._wanted or (self._name or None if waited < ANY_OTHER else None)
        device = find_device(sounddevice, Way.IN, wanted)
        if device is None:
            return NO_MICROPHONE
        self._ended.clear()
        self._blocks.begin(grace=GETTING_READY)
        for rate in dict.fromkeys((RATE, int(device["default_samplerate"]), 48_000, 44_100)):
            for channels in (1, 2):
                if self._try(sounddevice, device, rate, channels):
                    self._name = str(device["name"])
                    return None
        return Missing(
            f"The microphone {device['name']} doesn't open; another program may hold it.",
            "Close that program or choose another microphone; the coach keeps trying.",
        )

    def _try(self, sounddevice: Any, device: Any, rate: int, channels: int) -> bool:
        stream = None
        try:
            stream = sounddevice.RawInputStream(
                device=device["index"],
                samplerate=rate,
                channels=channels,
                dtype="int16",
                blocksize=round(rate * BLOCK),
                callback=self._callback,
                finished_callback=self._ended.set,
            )
            self._channels, self._to_16k = channels, to_16k(rate)
            stream.start()
        except (sounddevice.PortAudioError, ValueError):
            if stream is not None:
                with contextlib.suppress(Exception):
                    stream.close()
            self._ended.clear()
            return False
        self._stream = stream
        return True

    def _drop_stream(self) -> None:
        stream, self._stream = self._stream, None
        if stream is not None:
            closing = threading.Thread(target=_close, args=(stream,), daemon=True)
            closing.start()
            closing.join(CLOSING)
            if closing.is_alive():
                self._stuck()
        self.drop_waiting()


def _close(stream: Any) -> None:
    with contextlib.suppress(Exception):  # a dead device may refuse even to close
        stream.close()


def microphone_names() -> list[str]:
    """Return the names of all inputs, the machine's own choice first.

    Raises:
        OSError: PortAudio is not on this machine.
    """
    import sounddevice

    return names_of(sounddevice, Way.IN)


def to_16k(rate: int) -> Callable[[Samples], Samples]:
    """Return what brings a stream of mono samples from *rate* to 16 kHz, block by block."""
    if rate == RATE:
        return _as_it_is
    import soxr

    stream = soxr.ResampleStream(rate, RATE, 1, dtype="int16", quality="HQ")

    def convert(samples: Samples) -> Samples:
        return np.asarray(stream.resample_chunk(samples), np.int16).reshape(-1)

    return convert


def _as_it_is(samples: Samples) -> Samples:
    return samples


def _lost(name: str) -> Missing:
    return Missing(
        f"The microphone {name} is gone, so the coach can't hear just now.",
        "Keys go on working, and your place is kept. Plug it in again; the coach will notice.",
    )
