"""Takes the coach's own sound out of what the microphone hears, so that it can be interrupted.

The canceller itself is WebRTC's audio processing module, inside the optional package livekit
(Apache-2.0). It is fed here in step: for each hundredth of a second that was heard, what was
played then. Runs only in the ear's worker.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any, Protocol

import numpy as np

from coach.adapters.microphone import to_16k
from coach.adapters.speech_samples import Samples
from coach.adapters.voice_activity import RATE
from coach.ports import Missing

FRAME = RATE // 100  # samples: a hundredth of a second, what the canceller takes at a time
LAG = 0.03  # seconds: a played block is on its way here for less; its echo comes later still
OUT_OF_STEP = 0.15  # seconds between clock and samples counted
FOR_GOOD = (
    0.5  # seconds of sound out of step after which the clock is right: a busy machine is late
)
GAP = 2.0  # seconds out of step after which it is right at once: the stream was opened anew
REMEMBERED = 2.0  # seconds of played sound that are kept

NO_CANCELLER = Missing(
    "The echo canceller isn't installed, so the coach can't hear while it speaks.",
    "Install the package livekit, or leave out cancel_echo in the settings.",
)


class Frames(Protocol):
    """Cancels the echo, a hundredth of a second at a time, at 16 kHz."""

    def played(self, frame: Samples) -> None: ...

    def cleaned(self, frame: Samples) -> Samples: ...


class _Step:
    """Says when samples counted and the clock have parted for good."""

    def __init__(self) -> None:
        self._parted = 0.0  # seconds of sound since they were together

    def is_lost(self, away: float, seconds: float) -> bool:
        """Return it for sound of *seconds* that came *away* seconds from where the count has it."""
        self._parted = self._parted + seconds if abs(away) > OUT_OF_STEP else 0.0
        lost = self._parted > FOR_GOOD or abs(away) > GAP
        self._parted = 0.0 if lost else self._parted
        return lost


class EchoCanceller:
    """Keeps what was played and what is heard in step, and gives back the heard without echo."""

    def __init__(self, frames: Frames) -> None:
        self._frames = frames
        self._lock = threading.Lock()
        self._played: Samples = np.zeros(0, np.int16)
        self._played_from = 0.0  # when the first of them was played
        self._played_step, self._heard_step = _Step(), _Step()
        self._rate = 0
        self._to_16k: Callable[[Samples], Samples] = to_16k(RATE)
        self._rest: Samples = np.zeros(0, np.int16)
        self._heard_from = float("-inf")  # when the first of the rest was heard

    def play(self, samples: Samples, rate: int, at: float) -> None:
        """Take what is handed to the loudspeaker at *at*, in monotonic seconds; from any thread."""
        with self._lock:
            if rate != self._rate:
                self._rate, self._to_16k = rate, to_16k(rate)
            away = at - self._played_from - len(self._played) / RATE
            if self._played_step.is_lost(away, len(samples) / rate):
                self._played, self._played_from = self._played[:0], at
            self._played = np.concatenate((self._played, self._to_16k(samples)))
            old = len(self._played) - round(REMEMBERED * RATE)
            if old > 0:
                self._played, self._played_from = self._played[old:], self._played_from + old / RATE

    def clean(self, samples: Samples, at: float) -> Samples:
        """Return *samples*, the last of which was heard at *at*, without echo.

        Whole hundredths of a second only; what is left over comes with the next.
        """
        due = at - (len(self._rest) + len(samples)) / RATE
        if self._heard_step.is_lost(due - self._heard_from, len(samples) / RATE):
            self._heard_from = due
        self._rest = np.concatenate((self._rest, samples))
        cleaned: list[Samples] = []
        while len(self._rest) >= FRAME:
            frame, self._rest = self._rest[:FRAME], self._rest[FRAME:]
            self._frames.played(self._played_at(self._heard_from - LAG))
            cleaned.append(self._frames.cleaned(frame))
            self._heard_from += FRAME / RATE
        return np.concatenate(cleaned) if cleaned else np.zeros(0, np.int16)

    def _played_at(self, at: float) -> Samples:
        """Return the hundredth of a second that was played from *at* on; silence where none was."""
        with self._lock:
            first = round((at - self._played_from) * RATE)
            found = self._played[max(first, 0) : max(first + FRAME, 0)]
        frame: Samples = np.zeros(FRAME, np.int16)
        if len(found):
            start = max(-first, 0)
            frame[start : start + len(found)] = found
        return frame


class WebRtcFrames:
    """The WebRTC module. Loads a library of 40 MB; opens no socket."""

    def __init__(self) -> None:
        """Load it.

        Raises:
            ImportError: the package livekit isn't installed.
        """
        from livekit import rtc

        self._frame = rtc.AudioFrame
        self._module = rtc.AudioProcessingModule(echo_cancellation=True, high_pass_filter=True)

    def played(self, frame: Samples) -> None:
        self._module.process_reverse_stream(self._wrapped(frame))

    def cleaned(self, frame: Samples) -> Samples:
        wrapped = self._wrapped(frame)
        self._module.process_stream(wrapped)
        return np.frombuffer(bytes(wrapped.data.cast("B")), np.int16)

    def _wrapped(self, frame: Samples) -> Any:
        return self._frame(bytearray(frame.tobytes()), RATE, 1, len(frame))
