"""Chosen absences: a speaker that says nothing, because the maker asked for that."""

from __future__ import annotations

from collections.abc import Sequence

from coach.wording.words import Words


class Silence:
    """A `coach.ports.Speaker` that says nothing, by choice."""

    def say(self, words: Words) -> None:
        pass

    def prepare(self, likely: Sequence[Words]) -> None:
        pass

    def tone(self, kind: str) -> None:
        pass

    def stop(self) -> None:
        pass

    def hold(self) -> None:
        pass

    def set_rate(self, words_per_minute: int) -> None:
        pass

    def set_loudness(self, percent: int) -> None:
        pass

    def close(self) -> None:
        pass
