"""Whether what was heard while the coach spoke is a maker's word, or the coach's own come back."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence

from coach.adapters.attention import Attention
from coach.adapters.ear_phrases import WARY_SURE
from coach.adapters.ear_verdicts import Unsure, Verdict
from coach.adapters.own_words import OwnWords
from coach.guide.interrupting import WhileSpeaking, may_interrupt, stop_hints
from coach.ports import SaidWord

STOP_HINTS = stop_hints()
NO_HINTS: frozenset[str] = frozenset()


class Interruptions:
    """Judges phrase after phrase. hears_clean: the coach's own sound is taken out beforehand."""

    def __init__(
        self,
        while_speaking: WhileSpeaking = WhileSpeaking.NOTHING,
        *,
        hears_clean: bool = False,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self.attention = Attention(while_speaking, clock)
        self._taken = while_speaking
        self._hears_clean = hears_clean
        self._own_words = OwnWords()
        self._clock = clock

    @property
    def are_heard(self) -> bool:
        """Whether anything at all is taken while the coach speaks."""
        return self._taken is not WhileSpeaking.NOTHING

    def coach_says(self, words: Sequence[SaidWord]) -> None:
        self._own_words.say(words)

    def coach_silent(self) -> None:
        self.attention.coach_silent()
        self._own_words.cut(self._clock())

    def interrupts(self, heard: Verdict, shift: float) -> bool:
        """Return whether *heard* began while the coach spoke.

        shift: seconds from the ear's own times to monotonic ones.
        """
        return self.attention.coach_spoke_at(heard.began + shift)

    def hints_at(self, at: float) -> frozenset[str]:
        """Return the words that, even alone, may have been said to stop the coach at *at*."""
        return STOP_HINTS if self._hears_clean and self.attention.coach_spoke_at(at) else NO_HINTS

    def takes(self, heard: Verdict, meaning: str, shift: float) -> bool:
        """Return whether *heard*, said while the coach spoke, is taken."""
        if isinstance(heard, Unsure):
            return self._hears_clean  # else echo is half heard all the time
        return (
            heard.confidence >= WARY_SURE
            and may_interrupt(heard.text, meaning, self._taken)
            and not self._own_words.holds(heard.text, heard.began + shift, heard.at + shift)
        )
