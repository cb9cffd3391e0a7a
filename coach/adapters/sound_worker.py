"""The process that plays: it owns PortAudio and the loudspeaker, and never leaves the room.

A sound library that prints, hangs or crashes does so here, away from the screen and the ear.
A loudspeaker that goes is reported within a second and taken again by name when it is back.
"""

from __future__ import annotations

import contextlib
import os
import queue
import sys
import threading
import time
from typing import Any, BinaryIO

import numpy as np

from coach.adapters.device_names import Way
from coach.adapters.device_probe import names_now
from coach.adapters.heartbeat import Heartbeat
from coach.adapters.sound_device import (
    NO_PORTAUDIO,
    VOICE_RATE,
    Loudspeaker,
    open_loudspeaker,
    refresh_devices,
)
from coach.adapters.sound_stream import SoundStream
from coach.adapters.speech_samples import Samples, Speech, resampled
from coach.adapters.swallowed_sound import SwallowedSound
from coach.adapters.worker_pipe import Message, read_message, take_the_pipes, write_message
from coach.ports import Missing

WATCH = 0.1  # seconds between looks at the loudspeaker
HEARTBEAT = 0.8  # seconds without a block: lost; a busy machine was seen to leave 0.6
SETTLING = 4.0  # seconds after opening in which a sound server may be slow to take blocks
SLOW_START = 3.0  # seconds without a block borne meanwhile (PulseAudio's null sink: 1.9)
AGAIN = 0.8  # seconds between tries to get it back
ANY_OTHER = 3.0  # seconds after which any loudspeaker is taken in place of the named one


class SoundWorker:
    """Plays what is ordered and reports what became of it."""

    def __init__(self, wanted: str | None, reports: BinaryIO, *, tap: bool) -> None:
        self._wanted = wanted
        self._tap = tap
        self._out: queue.SimpleQueue[tuple[Message, bytes]] = queue.SimpleQueue()
        self._reports = reports
        self._speaker: Loudspeaker | None = None
        self._stream = SoundStream(VOICE_RATE, self._line_news)
        self._ended = threading.Event()
        self._blocks = Heartbeat(WATCH)
        self._opened_at = time.monotonic()
        self._lost_at: float | None = None
        self._swallowed = SwallowedSound()
        self._gain = 1.0
        threading.Thread(target=self._send, daemon=True).start()

    # Orders

    def obey(self, order: Message, payload: bytes) -> None:
        """Carry out one order of the coach."""
        number = int(str(order.get("line", 0)))
        match order.get("do"):
            case "begin":
                self._stream.begin(number)
            case "feed":
                rate = int(str(order["rate"]))
                speech = Speech(np.frombuffer(payload, np.int16), rate)
                self._stream.feed(number, resampled(speech, self._stream.rate).samples)
            case "finish":
                self._stream.finish(number)
            case "cut":
                self._stream.cut()
            case "tone":
                self._stream.tone(str(order["kind"]))
            case "pause":
                self._stream.pause(bool(order["paused"]))
            case "gain":
                self._gain = float(str(order["gain"]))
                self._stream.set_gain(self._gain)

    # The loudspeaker

    def watch(self) -> None:
        """Open the loudspeaker, then look after it for as long as the program runs."""
        first = self._open()
        if first is not None:
            self._report({"missing": first.reason, "remedy": first.remedy})
            self._lost_at = time.monotonic()
        while True:
            time.sleep(WATCH if self._speaker else AGAIN)
            self._report({"beat": self._blocks.last})
            if first is NO_PORTAUDIO:
                continue  # it can't come while this process runs
            if self._speaker is None:
                if names_now(Way.OUT) and self._open() is None:
                    self._lost_at = None
            elif self._ended.is_set() or self._no_blocks():
                self._lose()
            else:
                self._look_for_swallowed_sound()

    def _no_blocks(self) -> bool:
        settling = time.monotonic() - self._opened_at < SETTLING
        return self._blocks.is_missing(SLOW_START if settling else HEARTBEAT)

    def _open(self) -> Missing | None:
        missing = refresh_devices()
        if missing is not None:
            return missing
        self._ended.clear()
        waited = time.monotonic() - (self._lost_at or time.monotonic())
        wanted = self._wanted if waited < ANY_OTHER else None
        self._opened_at = time.monotonic()
        self._blocks.begin()
        opened = open_loudspeaker(wanted, self._fill_at, self._ended.set)
        if isinstance(opened, Missing):
            return opened
        self._speaker = opened
        self._swallowed.opened(opened.latency)
        self._blocks.begin()  # to open it may have taken seconds
        self._report({"opened": opened.name, "rate": opened.rate, "latency": opened.latency})
        return None

    def _lose(self) -> None:
        """Tell that the loudspeaker is gone, unless it opens again at once."""
        speaker, self._speaker = self._speaker, None
        name = speaker.name if speaker else ""
        self._stream.cut()
        if not self._ended.is_set():
            # It hangs, and closing it may hang as well: a fresh process is surer.
            self._report({"lost": name})
            time.sleep(0.05)
            os._exit(1)
        if speaker is not None:
            with contextlib.suppress(Exception):  # a dead device may refuse even to close
                speaker.stream.close()
        self._lost_at = time.monotonic()
        if self._open() is None:
            self._lost_at = None  # a busy sound server dropped it: nobody need be troubled
        else:
            self._report({"lost": name})

    def _look_for_swallowed_sound(self) -> None:
        """Tell when sound is taken faster than it can be heard: then nobody hears it."""
        playing = self._stream.playing()
        if playing is None:
            return
        number, played = playing
        if self._swallowed.look(number, played / self._stream.rate, time.monotonic()):
            self._report({"swallowed": number})

    # Blocks

    def _fill_at(self, rate: int) -> Any:
        if rate != self._stream.rate:
            self._stream = SoundStream(rate, self._line_news)
            self._stream.set_gain(self._gain)
        return self._fill

    def _fill(self, count: int) -> Samples:
        self._blocks.beat()
        at = time.monotonic()
        block = self._stream.fill(count)
        if self._tap:
            head: Message = {"played": at, "rate": self._stream.rate}
            self._out.put((head, block.tobytes()))
        return block

    # Reports

    def _line_news(self, what: str, number: int) -> None:
        at = time.monotonic()
        if what == "started":
            self._swallowed.started(number, at)
        self._report({what: number, "at": at})

    def _report(self, message: Message) -> None:
        self._out.put((message, b""))

    def _send(self) -> None:
        while True:
            message, payload = self._out.get()
            try:
                write_message(self._reports, message, payload)
            except (OSError, ValueError):
                os._exit(0)  # the coach is gone


def main(arguments: list[str]) -> None:
    """Run as a worker: "--device NAME" chooses the loudspeaker, "--tap" sends back each block."""
    orders, reports = take_the_pipes()
    wanted = arguments[arguments.index("--device") + 1] if "--device" in arguments else None
    worker = SoundWorker(wanted, reports, tap="--tap" in arguments)
    threading.Thread(target=worker.watch, daemon=True).start()
    while (read := read_message(orders)) is not None:
        worker.obey(*read)
    os._exit(0)  # the coach is gone; a sound library may hang on the way out


if __name__ == "__main__":
    main(sys.argv[1:])
