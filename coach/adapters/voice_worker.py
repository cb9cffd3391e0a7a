"""The process that makes speech: a text comes in, samples go out, one at a time.

It owns the speech engine, which blocks, prints, hangs and may end the process it lives in.
Each sentence goes through a fresh file that is read and deleted; nothing is ever played here,
so an engine that can't be stopped need not be. Watching over it is the other side's work.
"""

from __future__ import annotations

import contextlib
import ctypes
import os
import queue
import sys
import tempfile
import threading
import time
from pathlib import Path
from typing import Any, BinaryIO, Protocol

from coach.adapters.sound_file import NotSoundError, take_apart
from coach.adapters.worker_pipe import Message, read_message, take_the_pipes, write_message

SETTLE = 0.2  # seconds given to the engine to take a new rate before the text
FILE_WAIT = 1.0  # seconds from "finished" to a whole file on disk
FIRST_RATE = 150
ENGINE_WAIT = 60.0  # seconds for one text; the other side's watch is much shorter


class CannotSpeakError(RuntimeError):
    """The engine can't be had, or it made nothing of a text."""


class Maker(Protocol):
    """Makes the sound of one text as a whole WAV or AIFF file."""

    def make(self, text: str, rate: int, voice: str) -> bytes: ...

    def voices(self) -> list[dict[str, str]]: ...


def load_bundled_espeak() -> None:
    """Load the espeak-ng library that came from the package registry, before pyttsx3 looks.

    pyttsx3 opens "libespeak-ng.so.1" by that name, which is this library's own, so the loaded
    one is taken. A missing data folder would end the whole process with status 1 and no word
    (seen with espeak-ng 1.52), so its phoneme table is looked for first.

    Raises:
        CannotSpeakError: the library or its data isn't there.
    """
    try:
        import espeakng_loader

        library, data = espeakng_loader.get_library_path(), Path(espeakng_loader.get_data_path())
    except (ImportError, RuntimeError) as fault:
        raise CannotSpeakError("The bundled voice isn't installed.") from fault
    if not (data / "phontab").is_file():
        raise CannotSpeakError("The bundled voice has lost its data folder.")
    os.environ["ESPEAK_DATA_PATH"] = str(data.parent)
    try:
        ctypes.CDLL(library, mode=ctypes.RTLD_GLOBAL)
    except OSError as fault:
        raise CannotSpeakError("The bundled voice's library doesn't load here.") from fault


class Pyttsx3Maker:
    """pyttsx3 by files only: `save_to_file`, then its event, then the file itself.

    `say` is never called: after one `save_to_file` it would go into that file unheard, and it
    can't be cut. The first text of a process is thrown away: it came out at pyttsx3's own first
    rate in 15 of 25 processes, and it loads the voice's data before the maker waits for it.
    """

    def __init__(self, driver: str | None = None) -> None:
        if driver is None and sys.platform not in {"win32", "darwin"}:
            driver = "espeak"
        if driver == "espeak":
            load_bundled_espeak()
        import pyttsx3

        try:
            self._engine: Any = pyttsx3.init(driver)
        except Exception as fault:
            raise CannotSpeakError("The speech engine doesn't start.") from fault
        self._finished = threading.Event()
        self._fault: Exception | None = None
        self._engine.connect("finished-utterance", self._on_finished)
        self._engine.connect("error", self._on_error)
        self._voice = ""
        with contextlib.suppress(CannotSpeakError):
            self._made("Ready.", FIRST_RATE, "")

    def make(self, text: str, rate: int, voice: str) -> bytes:
        """Return the sound of *text*; an engine that broke off is asked once more.

        Raises:
            CannotSpeakError: it made no sound of it.
        """
        with contextlib.suppress(CannotSpeakError):
            return self._made(text, rate, voice)
        return self._made(text, rate, voice)

    def _made(self, text: str, rate: int, voice: str) -> bytes:
        self._set(rate, voice)
        self._finished.clear()
        self._fault = None
        with tempfile.TemporaryDirectory(prefix="coach-voice-") as folder:
            path = Path(folder) / "speech.wav"
            self._engine.save_to_file(text, str(path))
            self._engine.runAndWait()  # may return long before or after the sound is made
            if not self._finished.wait(ENGINE_WAIT):
                raise CannotSpeakError("The speech engine never finished.")
            if self._fault is not None:
                raise CannotSpeakError(f"The speech engine failed: {self._fault}")
            return _whole_file(path)

    def voices(self) -> list[dict[str, str]]:
        found = self._engine.getProperty("voices") or []
        return [
            {"id": str(each.id), "name": str(each.name), "languages": _languages(each)}
            for each in found
        ]

    def _set(self, rate: int, voice: str) -> None:
        """Set voice, then rate, and wait until the engine has taken the rate and is at rest.

        pyttsx3 cancels whatever espeak-ng still has in its queue when the next text begins: the
        new rate, or the text itself. Without the wait more than half of 300 texts with changing
        rates came out at an older rate, and some came out empty.
        """
        self._rest()  # at the start its own first rate is still on its way
        if voice and voice != self._voice:
            self._engine.setProperty("voice", voice)
            self._voice = voice
            self._rest()
        self._engine.setProperty("rate", rate)
        self._rest(rate)

    def _rest(self, rate: int | None = None) -> None:
        """Wait until the engine is at rest, and at *rate* where one is given."""
        limit = time.monotonic() + SETTLE
        while time.monotonic() < limit:
            with contextlib.suppress(Exception):
                taken = rate is None or int(self._engine.getProperty("rate")) == rate
                if taken and not self._is_busy():
                    return
            time.sleep(0.001)

    def _is_busy(self) -> bool:
        """Return whether espeak-ng is at work; other engines don't tell."""
        espeak: Any = sys.modules.get("pyttsx3.drivers._espeak")
        return espeak is not None and bool(espeak.IsPlaying())

    def _on_finished(self, **_: object) -> None:
        self._finished.set()

    def _on_error(self, exception: Exception | None = None, **_: object) -> None:
        self._fault = exception or RuntimeError("no reason given")
        self._finished.set()


def _languages(voice: Any) -> str:
    spoken = getattr(voice, "languages", None) or []
    return " ".join(
        each.decode("ascii", "ignore") if isinstance(each, bytes) else str(each) for each in spoken
    )


def _whole_file(path: Path) -> bytes:
    """Return the file's bytes once it is closed, parseable and not empty."""
    limit = time.monotonic() + FILE_WAIT
    while True:
        try:
            content = path.read_bytes()
            take_apart(content)
        except (OSError, NotSoundError) as fault:
            if time.monotonic() > limit:
                raise CannotSpeakError(f"The speech engine left no sound: {fault}") from fault
            time.sleep(0.005)
        else:
            return content


def serve(maker: Maker, orders: queue.SimpleQueue[Message], reports: BinaryIO) -> None:
    """Answer orders until the program ends: {"make": text} with bytes, {"voices": true}."""
    write_message(reports, {"ready": True})
    while True:
        order = orders.get()
        answer: Message = {"id": order.get("id")}
        payload = b""
        try:
            if "make" in order:
                rate, voice = int(str(order["rate"])), str(order.get("voice") or "")
                payload = maker.make(str(order["make"]), rate, voice)
            else:
                answer["voices"] = maker.voices()
        except Exception as fault:
            # Whatever the engine did, the other side is told and starts a fresh process.
            answer["fault"] = str(fault) or type(fault).__name__
        write_message(reports, answer, payload)


def run(make_maker: Any) -> None:
    """Run as a worker: take the pipes, start the engine in this thread, serve."""
    order_pipe, reports = take_the_pipes()
    orders: queue.SimpleQueue[Message] = queue.SimpleQueue()
    threading.Thread(target=_read_orders, args=(order_pipe, orders), daemon=True).start()
    try:
        maker = make_maker()
    except CannotSpeakError as fault:
        write_message(reports, {"missing": str(fault)})
        return
    serve(maker, orders, reports)


def _read_orders(pipe: BinaryIO, orders: queue.SimpleQueue[Message]) -> None:
    while (read := read_message(pipe)) is not None:
        orders.put(read[0])
    os._exit(0)  # the coach is gone; the engine may be stuck, so no tidy way out is tried


def main(arguments: list[str]) -> None:
    """Run with "--piper FOLDER" for a natural voice, else with pyttsx3 and its own driver."""
    if arguments[:1] == ["--piper"]:
        from coach.adapters.voice_piper import PiperMaker

        run(lambda: PiperMaker(Path(arguments[1])))
    else:
        run(Pyttsx3Maker)


if __name__ == "__main__":
    main(sys.argv[1:])
