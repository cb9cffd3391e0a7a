"""Ears that don't hear by themselves: none at all by choice, and one shared by all who take turns."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from coach.ports import Ear, Heard, SaidWord
from coach.wording.words import Words


class Deaf:
    """Hears nothing, by choice or because something is missing."""

    def start(self, hears: Callable[[Heard], None], tells: Callable[[Words], None]) -> None:
        pass

    def listen_for(self, phrases: Sequence[str]) -> None:
        pass

    def take_words(self, own_words: Mapping[str, str]) -> None:
        pass

    def learn(self, learns: bool) -> None:
        pass

    def mute(self, muted: bool) -> None:
        pass

    def coach_speaks(self, text: str, seconds: float) -> None:
        pass

    def coach_says(self, words: Sequence[SaidWord]) -> None:
        pass

    def coach_silent(self) -> None:
        pass

    def close(self) -> None:
        pass


class SharedEar:
    """One ear for the shelf, the settings and the session: whoever starts it last is told.

    The microphone and the recogniser are opened once and stay open from one to the next.
    """

    def __init__(self, ear: Ear) -> None:
        self._ear = ear
        self._hears: Callable[[Heard], None] = lambda heard: None
        self._tells: Callable[[Words], None] = lambda words: None
        self._started = False

    def start(self, hears: Callable[[Heard], None], tells: Callable[[Words], None]) -> None:
        self._hears, self._tells = hears, tells
        if not self._started:
            self._started = True
            self._ear.start(self._on_heard, self._on_told)

    def listen_for(self, phrases: Sequence[str]) -> None:
        self._ear.listen_for(phrases)

    def take_words(self, own_words: Mapping[str, str]) -> None:
        self._ear.take_words(own_words)

    def learn(self, learns: bool) -> None:
        self._ear.learn(learns)

    def mute(self, muted: bool) -> None:
        self._ear.mute(muted)

    def coach_speaks(self, text: str, seconds: float) -> None:
        self._ear.coach_speaks(text, seconds)

    def coach_says(self, words: Sequence[SaidWord]) -> None:
        self._ear.coach_says(words)

    def coach_silent(self) -> None:
        self._ear.coach_silent()

    def close(self) -> None:
        self._ear.close()

    # Whoever is told changes while the ear stays open, so it is looked up at each word.

    def _on_heard(self, heard: Heard) -> None:
        self._hears(heard)

    def _on_told(self, words: Words) -> None:
        self._tells(words)
