"""When the ear attends to what: deaf, only noticing voices, or taking words. Moved by the clock.

Half-duplex unless something else is asked for: while the coach speaks, and while the room still
rings, nothing is taken.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from enum import Enum

from coach.guide.interrupting import WhileSpeaking

TAIL = 0.5  # seconds after the coach has spoken during which a room still rings
NOTICE = 0.2  # seconds in which a voice is noticed that was under way when listening began
LATE = 3.0  # seconds beyond its due end after which the coach's speech is taken to be over


class Heed(Enum):
    """What is done with the sound that comes in."""

    NOTHING = "nothing"  # muted, or the coach speaks
    VOICES = "voices"  # only noticed, so that half a word isn't taken for a whole one
    WORDS = "words"


class Attention:
    """What is done with sound, by when it was taken. All times are monotonic seconds."""

    def __init__(
        self,
        while_speaking: WhileSpeaking = WhileSpeaking.NOTHING,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self.while_speaking = while_speaking
        self._clock = clock
        self._muted = False
        self._speaks_since = float("-inf")
        self._speaks_until = float("-inf")
        self._overhears_until = float("-inf")

    @property
    def muted(self) -> bool:
        return self._muted

    def mute(self, muted: bool) -> None:
        self._muted = muted
        if not muted:
            self.lost(self._clock())

    def coach_speaks(self, seconds: float) -> None:
        """The coach speaks from now on, for about *seconds*."""
        now = self._clock()
        if not self.coach_spoke_at(now):
            self._speaks_since = now
        self._speaks_until = now + seconds + LATE

    def coach_silent(self) -> None:
        self._speaks_until = self._clock()
        if self.while_speaking is WhileSpeaking.NOTHING:
            self._overhears_until = max(self._overhears_until, self._speaks_until + TAIL)

    def lost(self, at: float) -> None:
        """Sound before *at* was not heard: a word may be under way."""
        self._overhears_until = max(self._overhears_until, at + NOTICE)

    def coach_spoke_at(self, at: float) -> bool:
        """Return whether the coach spoke at *at*, or the room still rang of it."""
        return self._speaks_since <= at < self._speaks_until + TAIL

    def heed(self, at: float) -> Heed:
        """Return what is done with sound that was taken at *at*."""
        deaf = self.while_speaking is WhileSpeaking.NOTHING and at < self._speaks_until
        if self._muted or deaf:
            return Heed.NOTHING
        return Heed.VOICES if at < self._overhears_until else Heed.WORDS
