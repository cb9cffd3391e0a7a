"""Speech in pieces: planned at the maker's pace, made ahead where it is likely, kept when made.

Says what is to be made next, and makes nothing itself.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, replace

from coach.adapters.speech_kept import KeptSpeech, Key
from coach.adapters.speech_pace import (
    FASTEST,
    SLOWEST,
    Curve,
    Measuring,
    Piece,
    plan,
    spoken_words,
)
from coach.adapters.speech_samples import Speech
from coach.adapters.voice_settings import ESPEAK_CURVE, VoiceSettings


@dataclass(frozen=True, slots=True)
class ToMake:
    """One piece for the voice to make; *measuring*: only to learn how fast the voice is."""

    piece: Piece
    key: Key
    measuring: Measuring | None = None

    @property
    def voice(self) -> str:
        return self.key[0]


class SpeechStock:
    """All speech that is made or to be made. curve: the voice's real rates, None to measure them."""

    def __init__(self, settings: VoiceSettings, curve: Curve | None) -> None:
        self._settings = settings
        self._curve = curve or ESPEAK_CURVE
        self._measuring = None if curve else Measuring()
        self._kept = KeptSpeech()
        self._likely: deque[Piece] = deque()

    def set_rate(self, words_per_minute: int) -> None:
        """Plan at *words_per_minute* (80 to 300) from now on."""
        rate = min(max(words_per_minute, SLOWEST), FASTEST)
        self._settings = replace(self._settings, words_per_minute=rate)
        self._likely.clear()

    def set_voice(self, voice: str) -> bool:
        """Plan for another voice, whose pace is to be measured; return whether it is another."""
        if voice == self._settings.voice:
            return False
        self._settings = replace(self._settings, voice=voice)
        self._likely.clear()
        self._measuring = Measuring()
        return True

    def plan(self, text: str) -> tuple[Piece, ...]:
        return plan(text, self._settings.words_per_minute, self._curve)

    def expected(self, pieces: Sequence[Piece]) -> float:
        """Return about how long *pieces* sound, in seconds, by what is known so far."""
        seconds = 0.0
        for piece in pieces:
            made = self.made(piece)
            guess = spoken_words(piece.text) * 60 / self._settings.words_per_minute
            seconds += piece.pause + (made.seconds if made else guess)
        return seconds

    def made(self, piece: Piece) -> Speech | None:
        """Return the speech of *piece*, if it is made."""
        return self._kept.get(self._key(piece))

    def prepare(self, texts: Sequence[str]) -> None:
        """Have these made ahead, in order, in place of any asked for before."""
        self._likely = deque(piece for text in texts for piece in self.plan(text))

    def to_make(self, piece: Piece) -> ToMake:
        return ToMake(piece, self._key(piece))

    def is_anything_ahead(self) -> bool:
        """Return whether something likely, or to be measured, isn't made yet."""
        self._drop_made()
        return bool(self._likely) or (
            self._measuring is not None and self._measuring.next() is not None
        )

    def take_ahead(self) -> ToMake | None:
        """Return what is to be made ahead now, if anything is."""
        self._drop_made()
        if self._likely:
            return self.to_make(self._likely.popleft())
        piece = self._measuring.next() if self._measuring is not None else None
        return ToMake(piece, self._key(piece), self._measuring) if piece is not None else None

    def keep(self, made: ToMake, speech: Speech) -> None:
        """Keep what was made, or learn its pace from it."""
        measuring = made.measuring
        if measuring is None:
            self._kept.keep(made.key, speech)
            return
        measuring.made(speech.seconds)
        if measuring is self._measuring and measuring.next() is None:
            self._curve, self._measuring = measuring.curve(), None

    def give_up_measuring(self) -> None:
        """A failing engine has better to do."""
        self._measuring = None

    def _drop_made(self) -> None:
        while self._likely and self._key(self._likely[0]) in self._kept:
            self._likely.popleft()

    def _key(self, piece: Piece) -> Key:
        return self._settings.voice, piece.engine_rate, piece.text
