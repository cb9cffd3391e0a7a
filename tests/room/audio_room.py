"""A room for tests: the real sound server, synthetic visitors, and a recorder at the loudspeaker."""

from __future__ import annotations

import os
import shlex
import subprocess
import threading
import time
import wave
from collections.abc import Mapping
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

ROOT = Path(__file__).resolve().parents[2]
SCRIPT = ROOT / "scripts" / "audio-room"
LEVEL = 9_000  # of 32767: the visitor's loudest sample


class AudioRoom:
    """One room: what is said in it reaches the microphone of programs run in its environment."""

    def __init__(self, folder: Path, *, leak_db: int | None = None) -> None:
        self._folder = folder
        leak = ["--leak", str(leak_db)] if leak_db is not None else []
        told = subprocess.run(
            [SCRIPT, *leak, "start"],
            env={**os.environ, "AUDIO_ROOM": str(folder / "room")},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        added = dict(line.removeprefix("export ").split("=", 1) for line in told.splitlines())
        self.environment: Mapping[str, str] = {
            **os.environ,
            **{name: shlex.split(value)[0] for name, value in added.items()},
        }
        self._recorder: subprocess.Popen[bytes] | None = None

    def close(self) -> None:
        self.end_recording()
        subprocess.run([SCRIPT, "stop"], env=self.environment, check=True)

    def say(self, text: str, voice: str = "slt") -> float:
        """Let a visitor say *text*; return the monotonic time at which it was over."""
        clip = self._folder / f"{voice}-{text.replace(' ', '-')}.wav"
        if not clip.exists():
            speak(text, voice, clip)
        subprocess.run([SCRIPT, "say", clip], env=self.environment, check=True)
        return time.monotonic()

    def record_loudspeaker(self, file: Path) -> None:
        """Record what the loudspeaker plays, until `end_recording`."""
        self._recorder = subprocess.Popen([SCRIPT, "record", file], env=self.environment)

    def end_recording(self) -> None:
        recorder, self._recorder = self._recorder, None
        if recorder is not None:
            recorder.terminate()
            recorder.wait(5)

    def unplug_microphone(self) -> None:
        """Take the sound server away, as an unplugged card takes its devices."""
        subprocess.run([SCRIPT, "stop"], env=self.environment, check=True)

    def plug_in_again(self) -> None:
        subprocess.run([SCRIPT, "start"], env=self.environment, check=True, capture_output=True)


def speak(text: str, voice: str, file: Path) -> None:
    """Write *text*, spoken by one of flite's voices, as 16 kHz sound at a steady level."""
    raw = file.with_suffix(".raw.wav")
    subprocess.run(["flite", "-voice", voice, "-t", text, "-o", raw], check=True)
    samples, rate = read_wav(raw)
    raw.unlink()
    scaled = samples * (LEVEL / max(1, int(np.abs(samples.astype(np.int32)).max())))
    pause = np.zeros(rate // 10, np.int16)
    with wave.open(str(file), "wb") as written:
        written.setnchannels(1)
        written.setsampwidth(2)
        written.setframerate(rate)
        written.writeframes(np.concatenate((pause, scaled.astype(np.int16))).tobytes())


def read_wav(file: Path) -> tuple[NDArray[np.int16], int]:
    """Return the samples of a mono 16-bit file and its rate; a header left open is no matter."""
    with wave.open(str(file)) as read:
        return np.frombuffer(read.readframes(read.getnframes()), np.int16), read.getframerate()


class Lines:
    """The lines that a program writes, as they come, with the time of each."""

    def __init__(self, program: subprocess.Popen[str]) -> None:
        self._program = program
        self._lines: list[tuple[float, str]] = []
        self._changed = threading.Condition()
        self.over = False
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()

    def join(self) -> None:
        """Wait until the program's last line was read."""
        self._reader.join(5)

    def _read(self) -> None:
        for line in self._program.stdout or ():
            with self._changed:
                self._lines.append((time.monotonic(), line.rstrip("\n")))
                self._changed.notify_all()
        with self._changed:
            self.over = True
            self._changed.notify_all()

    def all(self) -> list[str]:
        with self._changed:
            return [line for _, line in self._lines]

    def wait_for(self, part: str, seconds: float, *, after: int = 0) -> tuple[float, str]:
        """Return the first line holding *part* from line number *after* on, and its time.

        Raises AssertionError when it doesn't come in *seconds*.
        """
        until = time.monotonic() + seconds
        with self._changed:
            while True:
                for at, line in self._lines[after:]:
                    if part in line:
                        return at, line
                left = until - time.monotonic()
                if left <= 0 or self.over:
                    seen = "\n".join(line for _, line in self._lines)
                    raise AssertionError(f"{part!r} never came. What came:\n{seen}")
                self._changed.wait(left)

    def count(self) -> int:
        with self._changed:
            return len(self._lines)
