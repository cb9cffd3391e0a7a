"""A voice worker with a faulty engine: each way in which pyttsx3 was seen to fail, on order.

Run as a program: stub_voice_worker.py FAULT MARK. The first worker to find no file MARK makes
it and misbehaves; the next ones work well, as after a restart. "always-FAULT" never recovers.
"""

from __future__ import annotations

import math
import os
import struct
import sys
import threading
import time
import types
import wave
from collections.abc import Callable
from pathlib import Path
from typing import Any

from coach.adapters import voice_worker


class StubDriver:
    """As a pyttsx3 driver: files only, one text at a time."""

    def __init__(self, proxy: Any, fault: str) -> None:
        self._proxy = proxy
        self._fault = fault
        self._loops = 0
        self._job: tuple[str, str] | None = None
        self._rate = 200

    def getProperty(self, name: str) -> Any:  # noqa: N802 - pyttsx3's own name
        return {"rate": self._rate, "voices": []}.get(name)

    def setProperty(self, name: str, value: Any) -> None:  # noqa: N802
        if name == "rate":
            self._rate = value

    def save_to_file(self, text: str, path: str) -> None:
        self._job = (text, path)

    def startLoop(self) -> None:  # noqa: N802
        self._proxy.setBusy(False)
        if self._job and self._job[0] == "Ready.":  # the text that every process throws away
            works(self, *self._job)
        elif self._job:
            self._loops += 1
            text, path = self._job
            print("Audio saved to", path)  # noqa: T201 - as the real driver does
            FAULTS[self._fault](self, text, path)

    def finish(self) -> None:
        self._proxy.notify("finished-utterance", completed=True)
        self._proxy.setBusy(False)

    @property
    def loops(self) -> int:
        return self._loops

    def fail(self, fault: Exception) -> None:
        self._proxy.notify("error", exception=fault)
        self._proxy.setBusy(False)

    def endLoop(self) -> None:  # noqa: N802
        pass

    def stop(self) -> None:
        pass

    def destroy(self) -> None:
        pass


def write(path: str, text: str, level: float = 0.5, seconds: float | None = None) -> None:
    """Write a hum of 0.4 s a word, as a stand-in for speech."""
    length = 0.4 * len(text.split()) if seconds is None else seconds
    frames = b"".join(
        struct.pack("<h", int(level * 20000 * math.sin(at / 20)))
        for at in range(int(8000 * length))
    )
    with wave.open(path, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(8000)
        file.writeframes(frames)


def works(driver: StubDriver, text: str, path: str) -> None:
    write(path, text)
    driver.finish()


def hangs(driver: StubDriver, text: str, path: str) -> None:
    time.sleep(3600)


def second_hangs(driver: StubDriver, text: str, path: str) -> None:
    (works if driver.loops == 1 else hangs)(driver, text, path)


def dies(driver: StubDriver, text: str, path: str) -> None:
    os._exit(1)  # as espeak-ng does without its data


def crashes(driver: StubDriver, text: str, path: str) -> None:
    os.abort()


def silent(driver: StubDriver, text: str, path: str) -> None:
    write(path, text, level=0.0)
    driver.finish()


def empty(driver: StubDriver, text: str, path: str) -> None:
    write(path, text, seconds=0.0)
    driver.finish()


def no_file(driver: StubDriver, text: str, path: str) -> None:
    driver.finish()


def cut_short(driver: StubDriver, text: str, path: str) -> None:
    write(path, text)
    Path(path).write_bytes(Path(path).read_bytes()[:1000])
    driver.finish()


def garbage(driver: StubDriver, text: str, path: str) -> None:
    Path(path).write_bytes(b"no sound at all" * 50)
    driver.finish()


def too_short(driver: StubDriver, text: str, path: str) -> None:
    write(path, text, seconds=0.05)
    driver.finish()


def error_event(driver: StubDriver, text: str, path: str) -> None:
    driver.fail(RuntimeError("no voice of that name"))


def raises(driver: StubDriver, text: str, path: str) -> None:
    raise RuntimeError("the driver broke")


def late_file(driver: StubDriver, text: str, path: str) -> None:
    """Say "finished" before the file is there, as on macOS: no fault, only slow."""
    driver.finish()

    threading.Timer(0.3, write, (path, text)).start()


def finishes_twice(driver: StubDriver, text: str, path: str) -> None:
    works(driver, text, path)
    driver.finish()


def prints_much(driver: StubDriver, text: str, path: str) -> None:
    for _ in range(200):
        print("ALSA lib confmisc.c: cannot find card", flush=True)  # noqa: T201
        os.write(2, b"Expression 'err' failed in 'pa_linux_alsa.c' \xff\xfe\n")
    works(driver, text, path)


FAULTS: dict[str, Callable[[StubDriver, str, str], None]] = {
    each.__name__: each
    for each in (
        works,
        hangs,
        second_hangs,
        dies,
        crashes,
        silent,
        empty,
        no_file,
        cut_short,
        garbage,
        too_short,
        error_event,
        raises,
        late_file,
        finishes_twice,
        prints_much,
    )
}


def main(fault: str, mark: Path) -> None:
    always = fault.startswith("always-")
    if not always and mark.exists():
        fault = "works"
    mark.touch()
    stub = types.ModuleType("pyttsx3.drivers.stub")
    stub.buildDriver = lambda proxy: StubDriver(proxy, fault.removeprefix("always-"))  # type: ignore[attr-defined]
    sys.modules["pyttsx3.drivers.stub"] = stub
    voice_worker.run(lambda: voice_worker.Pyttsx3Maker("stub"))


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]))
