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

from coach.guide.bindings import BINDINGS

ROOT = Path(__file__).resolve().parents[2]
SCRIPT = ROOT / "scripts" / "audio-room"
LEVEL = 9_000  # of 32767: the visitor's loudest sample
AUDIBLE = 300  # of 32767: well over the hush that the coach plays between sounds


def same_order(phrase: str) -> frozenset[str]:
    """Return all the phrases that give the same order as *phrase*.

    "Next", surely heard, is obeyed before "row" has come: it is one order, whichever is heard.
    """
    return next(frozenset(each.spoken) for each in BINDINGS if phrase in each.spoken)


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
        self._recorder: Recorder | None = None

    def close(self) -> None:
        if self._recorder is not None:
            self._recorder.close()
        subprocess.run([SCRIPT, "stop"], env=self.environment, check=True)

    def say(self, text: str, voice: str = "slt") -> float:
        """Let a visitor say *text*; return the monotonic time at which it was over."""
        clip = self._folder / f"{voice}-{text.replace(' ', '-')}.wav"
        if not clip.exists():
            speak(text, voice, clip)
        subprocess.run([SCRIPT, "say", clip], env=self.environment, check=True)
        return time.monotonic()

    def loudspeaker(self) -> Recorder:
        """Return what records the loudspeaker, from the first call on."""
        if self._recorder is None:
            self._recorder = Recorder(self.environment)
        return self._recorder

    def unplug_microphone(self) -> None:
        """Take the sound server away, as an unplugged card takes its devices."""
        subprocess.run([SCRIPT, "stop"], env=self.environment, check=True)

    def plug_in_again(self) -> None:
        subprocess.run([SCRIPT, "start"], env=self.environment, check=True, capture_output=True)


class Recorder:
    """Records what the loudspeaker plays, and knows when it was last heard."""

    def __init__(self, environment: Mapping[str, str]) -> None:
        self._program = subprocess.Popen(
            [
                *("parec", "--device=speaker.monitor", "--latency-msec=50"),
                *("--rate=16000", "--channels=1", "--format=s16le"),
            ],
            env=environment,
            stdout=subprocess.PIPE,
        )
        self._lock = threading.Lock()
        self._last_loud = 0.0
        self._loud = 0  # tenths of a second with a voice in them
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()

    def _read(self) -> None:
        pipe = self._program.stdout
        while pipe is not None and (data := pipe.read(3_200)):
            samples = np.frombuffer(data[: len(data) // 2 * 2], np.int16).astype(np.int32)
            with self._lock:
                if len(samples) and np.abs(samples).max() > AUDIBLE:
                    self._last_loud = time.monotonic()
                    self._loud += 1

    @property
    def seconds_heard(self) -> float:
        """Seconds in which the loudspeaker could be heard."""
        with self._lock:
            return self._loud / 10

    def wait_for_hush(self, seconds: float = 1.2, within: float = 60.0) -> None:
        """Wait until the loudspeaker has been silent for *seconds*."""
        until = time.monotonic() + within
        while time.monotonic() < until:
            with self._lock:
                if time.monotonic() - self._last_loud > seconds:
                    return
            time.sleep(0.05)
        raise AssertionError("the coach never fell silent")

    def wait_for_speech(self, after: float, within: float = 15.0) -> None:
        """Wait until more has been heard than *after* seconds and a tone: speech has begun."""
        until = time.monotonic() + within
        while self.seconds_heard < after + 0.5:
            assert time.monotonic() < until, "no speech was heard from the loudspeaker"
            time.sleep(0.03)

    def close(self) -> None:
        self._program.terminate()
        self._program.wait(5)
        self._reader.join(5)
        if self._program.stdout is not None:
            self._program.stdout.close()


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
