"""From sound to whole phrases: voice activity, the recogniser and the phrase rules in one line.

Used by the ear's worker, for the microphone and for a recording alike. Its clock is the sound
itself, so it gives the same answers at any speed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Protocol

import numpy as np

from coach.adapters.ear_phrases import Accepted, Part, Reading, Unsure, WholePhrases
from coach.adapters.speech_samples import Samples
from coach.adapters.voice_activity import RATE, Began, Detector, Ended, More, VoiceActivity

TALK = 7.0  # seconds of unbroken voice: talk, television; it isn't even decoded
LOUDEST = 9_000  # of 32767: the level that every utterance is brought to
MOST_GAIN = 20.0  # a whisper far away isn't blown up beyond this


class Decoder(Protocol):
    """Turns one utterance at a time into words."""

    def begin(self, at: float, samples: Samples) -> None: ...

    def end(self) -> tuple[Reading, ...]: ...


class Listening:
    """Takes 16 kHz samples as they come and yields the phrases in them."""

    def __init__(self, decoder: Decoder, detector: Detector) -> None:
        self._decoder = decoder
        self._activity = VoiceActivity(detector)
        self._rules = WholePhrases()
        self._began: float | None = None
        self._utterance: list[Samples] = []
        self._start = 0.0  # when its first sample was taken

    @property
    def now(self) -> float:
        """Seconds of sound so far."""
        return self._activity.now

    def listen_for(self, meanings: Mapping[str, str]) -> None:
        """Take only these phrases from now on; an utterance under way is dropped."""
        self._rules.listen_for(meanings)
        self.reset()

    def reset(self) -> None:
        """Forget what was half heard: sound was lost, or the list has changed."""
        self._activity.reset()
        self._rules.reset()
        self._began, self._utterance = None, []

    def skip(self, samples: int) -> None:
        """Let the clock go on over samples that were not to be heard."""
        self._activity.skip(samples)

    def feed(self, samples: Samples) -> Iterator[Accepted | Unsure]:
        """Take samples and yield what was understood with them."""
        for event in self._activity.feed(samples):
            verdict = None
            match event:
                case Began(at, run_up):
                    self._rules.voice_began(at)
                    self._began, self._utterance = at, [run_up]
                    self._start = self.now - len(run_up) / RATE
                case More(more):
                    self._utterance.append(more)
                case Ended(at, _):
                    if self._began is not None:
                        part = Part(self._decoded(at), self._began, at)
                        self._began, self._utterance = None, []
                        verdict = self._rules.offer(part)
            if verdict is not None:
                yield verdict
        waited = self._rules.tick(self.now)
        if waited is not None:
            yield waited

    def _decoded(self, ended: float) -> tuple[Reading, ...]:
        """Decode the utterance as a whole, at one level: near or far, soft or loud.

        That costs some hundredths of a second at its end (0.02 of its length) and makes the
        answer the same over 40 decibels.
        """
        samples = np.concatenate(self._utterance)
        if ended - self._start > TALK:
            return ()
        peak = float(np.percentile(np.abs(samples.astype(np.int32)), 99.5))
        gain = min(MOST_GAIN, LOUDEST / max(peak, 1.0))
        level = np.clip(samples * gain, -32_767, 32_767).astype(np.int16)
        self._decoder.begin(self._start, level)
        return self._decoder.end()
