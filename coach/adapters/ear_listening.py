"""From sound to whole phrases: voice activity, the recogniser and the phrase rules in one line.

Used by the ear's worker, for the microphone and for a recording alike. Its clock is the sound
itself, so it gives the same answers at any speed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from coach.adapters.ear_phrases import UNSURE, WholePhrases
from coach.adapters.ear_readings import Part, Reading
from coach.adapters.ear_sayings import Saying, Sayings
from coach.adapters.ear_verdicts import Accepted, Noticed, Unsure
from coach.adapters.speech_samples import Samples
from coach.adapters.voice_activity import (
    APART,
    BLOCK,
    RATE,
    SOFTER,
    SUDDEN,
    Began,
    Detector,
    Ended,
    More,
    VoiceActivity,
    level,
)

Levels = NDArray[np.float64]
TALK = 7.0  # seconds of unbroken voice: talk, television; it isn't even decoded
LOUDEST = 9_000  # of 32767: the level that every utterance is brought to
MOST_GAIN = 20.0  # a whisper far away isn't blown up beyond this
ROOM = 8.0  # decibels over the background: before and after a voice that is only the room
FAR = 14.0  # decibels under the loudest of an utterance at which it is the voice in any case
KEPT = 0.3  # seconds decoded around the voice: the recogniser mishears a word with a cut edge
SOFT = 0.15  # seconds of these that may be the voice itself: breath, soft first and last sounds
TALK_BEFORE = 0.3  # seconds of softer voice before a phrase: talk, and no soft word of the phrase
LOUDEST_BLOCKS = 5  # how many blocks, about a syllable, say how loud a voice is


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
        self._background = 0.0  # the room's level when it began
        self._cut = False  # a voice is under way whose beginning was not heard
        self._hints: frozenset[str] = frozenset()
        self._sayings: Sayings | None = None  # while a lesson goes on

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
        if self._sayings is not None:
            self._sayings.reset()
        self._began, self._utterance, self._cut = None, [], False

    def overhear(self, samples: Samples) -> None:
        """Take samples that are not to be understood, only to know whether a voice is under way.

        The end of a word whose beginning was not heard is no word: "am I", out of "where am I",
        must neither be taken nor spoil what is said after it.
        """
        for event in self._activity.feed(samples):
            if not isinstance(event, More):
                self._cut = isinstance(event, Began)

    def learn(self, learns: bool) -> None:
        """Yield whole sayings as they are made out, in place of phrases, until told otherwise."""
        self._sayings = Sayings() if learns else None
        self.reset()

    def take_hints(self, words: frozenset[str]) -> None:
        """Yield something unsure for each of these words from now on, where no phrase is heard."""
        self._hints = words

    def forget_talk(self) -> None:
        """The talk that was heard was the coach's own, and it is over."""
        self._rules.forget_talk()

    def meaning(self, text: str) -> str:
        """Return the meaning of a whole phrase of the list; "" for anything else."""
        return self._rules.meaning(text)

    def skip(self, samples: int) -> None:
        """Let the clock go on over samples that were not to be heard."""
        self._activity.skip(samples)

    def notice(self, notices: bool) -> None:
        """Yield also, or no more, that a phrase is heard which may still grow."""
        self._rules.notices = notices

    def feed(self, samples: Samples) -> Iterator[Accepted | Unsure | Noticed | Saying]:
        """Take samples and yield what was understood with them."""
        for event in self._activity.feed(samples):
            verdict = None
            match event:
                case Ended() if self._cut:
                    self._cut = False
                case Began(at, run_up):
                    self._rules.voice_began(at)
                    self._began, self._utterance = at, [run_up]
                    self._start = self.now - len(run_up) / RATE
                    self._background = self._activity.background
                case More(more) if self._began is not None:
                    self._utterance.append(more)
                case Ended(at, _):
                    if self._began is not None:
                        part = self._part(self._began, at)
                        self._began, self._utterance = None, []
                        verdict = self._offer(part)
            if verdict is not None:
                yield verdict
        noticed = self._rules.take_notice()
        if noticed is not None:
            yield noticed
        waited = self._rules.tick(self.now)
        if waited is not None:
            yield waited
        if self._sayings is not None and self._began is None:
            saying = self._sayings.tick(self.now)
            if saying is not None:
                yield saying

    def _offer(self, part: Part) -> Accepted | Unsure | None:
        if self._sayings is not None:
            self._sayings.offer(part)
            return None
        return self._rules.offer(part) or self._hint(part)

    def _hint(self, part: Part) -> Unsure | None:
        """Return something unsure when the likeliest reading has one of the hints in it."""
        words = part.readings[0].words if part.readings else ()
        hinted = any(word.text in self._hints for word in words)
        return Unsure(UNSURE, part.ended, part.began) if hinted else None

    def _part(self, began: float, ended: float) -> Part:
        """Decode the utterance as a whole, without the talk in the background around it."""
        samples = np.concatenate(self._utterance)
        if ended - self._start > TALK:
            return Part((), began, ended)
        levels = _levels(samples)
        stretch = near(levels, self._background)
        first, last = stretch.first, min(stretch.last, len(samples))
        start = self._start + first / RATE
        self._decoder.begin(start, _at_one_level(samples[first:last]))
        around = KEPT - SOFT
        nearest = max(began, start + around if first else began)
        farthest = min(ended, self._start + last / RATE - around)
        loud = float(np.percentile(levels, 90)) if len(levels) else 0.0
        readings = self._decoder.end()
        return Part(readings, nearest, max(farthest, nearest), loud, stretch.among_talk)


@dataclass(frozen=True, slots=True)
class Stretch:
    """The samples of an utterance that are near, and whether talk farther off lies around them."""

    first: int
    last: int
    among_talk: bool = False


def near(levels: Levels, background: float) -> Stretch:
    """Return what of an utterance is near, and not only the room around it.

    Talk in the background keeps the detector awake; decoded, it becomes words before and after
    the command. *levels*: of its blocks. *background*: the level of the room, as
    `VoiceActivity.background`. In a quiet room nothing is taken away. The end may lie beyond
    the last sample.
    """
    if not len(levels):
        return Stretch(0, BLOCK)
    among_talk = _among_talk(levels, background)
    if among_talk is not None:
        return among_talk
    least = min(float(np.percentile(levels, 90)) - FAR, background + ROOM)
    loud = np.flatnonzero(levels >= least)
    return _with_edges(int(loud[0]), int(loud[-1]))


def _among_talk(levels: Levels, background: float) -> Stretch | None:
    """Return the loudest stretch among talk that began in a quiet room just before, if that it is.

    The room's level follows slowly, so it says nothing of a television that was just switched on.
    Talk must have come before: "NEXT week we go", its first word loudest, is one mouth's sentence.
    """
    loudest = float(np.sort(levels)[-LOUDEST_BLOCKS:][0])
    if background > loudest - SUDDEN:
        return None
    loud = np.flatnonzero(levels >= loudest - SOFTER)
    apart = np.flatnonzero(np.diff(loud) * BLOCK > APART * RATE) + 1
    runs = np.split(loud, apart)
    energies = [float(np.sum(10 ** (levels[run] / 10))) for run in runs]
    run = runs[int(np.argmax(energies))]
    stretch = _with_edges(int(run[0]), int(run[-1]), among_talk=True)
    voice = levels >= background + ROOM
    before = np.count_nonzero(voice[: stretch.first // BLOCK]) * BLOCK / RATE
    return stretch if before >= TALK_BEFORE else None


def _with_edges(first: int, last: int, *, among_talk: bool = False) -> Stretch:
    """Return the stretch from block *first* to block *last*, with what is kept around it."""
    margin = round(KEPT * RATE)
    return Stretch(max(0, first * BLOCK - margin), (last + 1) * BLOCK + margin, among_talk)


def _levels(samples: Samples) -> Levels:
    """Return the level of each whole block of *samples*, in decibels."""
    whole = samples[: len(samples) // BLOCK * BLOCK].reshape(-1, BLOCK)
    return np.array([level(block) for block in whole], np.float64)


def _at_one_level(samples: Samples) -> Samples:
    """Bring an utterance to one level: the answer is the same over 40 decibels."""
    peak = float(np.percentile(np.abs(samples.astype(np.int32)), 99.5))
    gain = min(MOST_GAIN, LOUDEST / max(peak, 1.0))
    louder: Samples = np.clip(samples * gain, -32_767, 32_767).astype(np.int16)
    return louder
