"""What goes to the loudspeaker, block by block: one line of speech, a tone over it, or a hush.

Pure mixing, without a device and without a clock: `fill` is asked for the next block and gives
it. A line that is cut is gone by the next block. Between sounds a faint noise is played, never
digital silence: some outputs swallow the first word after it, and an echo canceller loses hold.
"""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from coach.adapters.speech_samples import Samples
from coach.adapters.tones import tone_samples

HUSH = 16  # of 32767 (-66 dB): unheard, but not digital silence
FADE = 0.005  # seconds in which a cut line fades, so that the cut doesn't click


@dataclass(slots=True)
class _Line:
    """One utterance on its way out, which may still be growing."""

    number: int
    waiting: deque[Samples] = field(default_factory=deque)
    complete: bool = False
    started: bool = False
    played: int = 0  # samples

    def take(self, count: int) -> Samples:
        taken: list[Samples] = []
        while count and self.waiting:
            first = self.waiting.popleft()
            taken.append(first[:count])
            if len(first) > count:
                self.waiting.appendleft(first[count:])
            count -= len(taken[-1])
        return np.concatenate(taken) if taken else np.zeros(0, np.int16)


class SoundStream:
    """Mixes what is to be played now at *rate* samples a second.

    tells: called with ("started" | "ended" | "cut", number of the line) from whichever thread
    brought it about; it must return at once.
    """

    def __init__(self, rate: int, tells: Callable[[str, int], None]) -> None:
        self.rate = rate
        self._tells = tells
        self._lock = threading.Lock()
        self._line: _Line | None = None
        self._tone: Samples = np.zeros(0, np.int16)
        self._tail: Samples = np.zeros(0, np.int16)
        self._gain = 1.0
        self._paused = False
        noise = np.random.default_rng(7)  # a hush, not a secret
        self._hush = noise.integers(-HUSH, HUSH + 1, rate).astype(np.int16)
        self._hush_at = 0

    def begin(self, number: int) -> None:
        """Begin a new line; the one before is cut."""
        self.cut()
        with self._lock:
            self._line = _Line(number)

    def feed(self, number: int, samples: Samples) -> None:
        """Add *samples* to the line *number*; those of a line that was cut are dropped."""
        with self._lock:
            if self._line is not None and self._line.number == number:
                self._line.waiting.append(samples)

    def finish(self, number: int) -> None:
        """Say that the line *number* has all its samples."""
        with self._lock:
            if self._line is not None and self._line.number == number:
                self._line.complete = True

    def cut(self) -> None:
        """End the line: it fades within 5 ms and nothing of it follows. A tone sounds on."""
        with self._lock:
            line, self._line = self._line, None
            if line is None:
                return
            if line.started and not self._paused:
                tail = line.take(round(FADE * self.rate))
                self._tail = (tail * np.linspace(1, 0, len(tail))).astype(np.int16)
        self._tells("cut", line.number)

    def tone(self, kind: str) -> None:
        """Sound a tone at once; a line that has not begun waits until it has sounded."""
        with self._lock:
            self._tone = tone_samples(kind, self.rate)

    def pause(self, paused: bool) -> None:
        """Hold the line where it is, or let it go on from there."""
        with self._lock:
            self._paused = paused

    def set_gain(self, gain: float) -> None:
        with self._lock:
            self._gain = gain

    def playing(self) -> tuple[int, int] | None:
        """Return the number of the line that sounds and its samples played, or None."""
        with self._lock:
            line = self._line
            if line is None or not line.started or self._paused:
                return None
            return line.number, line.played

    def fill(self, count: int) -> Samples:
        """Return the next *count* samples for the device."""
        news: list[tuple[str, int]] = []
        with self._lock:
            mixed = np.zeros(count, np.float32)
            tone, self._tone = self._tone[:count], self._tone[count:]
            mixed[: len(tone)] += tone
            tail, self._tail = self._tail[:count], self._tail[count:]
            mixed[: len(tail)] += tail
            if not self._paused:
                self._add_line(mixed, max(len(tone), len(tail)), news)
            mixed *= self._gain
            mixed += self._next_hush(count)
            block: Samples = np.clip(mixed, -32768, 32767).astype(np.int16)
        for what, number in news:
            self._tells(what, number)
        return block

    def _add_line(self, mixed: np.ndarray, at: int, news: list[tuple[str, int]]) -> None:
        line = self._line
        if line is None:
            return
        start = 0 if line.started else at  # speech begins after the tone, never under it
        samples = line.take(len(mixed) - start)
        if len(samples) and not line.started:
            line.started = True
            news.append(("started", line.number))
        mixed[start : start + len(samples)] += samples
        line.played += len(samples)
        if line.complete and not line.waiting:
            self._line = None
            news.append(("ended", line.number))

    def _next_hush(self, count: int) -> Samples:
        if self._hush_at + count > len(self._hush):
            self._hush_at = 0
        hush = self._hush[self._hush_at : self._hush_at + count]
        self._hush_at += count
        return hush if len(hush) == count else np.resize(hush, count).astype(np.int16)
