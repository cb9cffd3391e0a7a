"""How fast an utterance is said: cut into pieces, each with the engine's rate and a pause after.

Slow speech is made by longer pauses between the pieces rather than by stretched sounds, as far
as the words have places to pause (common practice, no source). Makes no sound itself.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

SLOWEST, USUAL, FASTEST = 80, 150, 300  # words a minute that a maker may ask for
UNHURRIED = 125  # words a minute; below this the pauses grow before the sounds do
LONGEST_PAUSE = 1.2  # seconds; a longer one sounds as if the coach had stopped
SENTENCE_PAUSE = 0.40  # seconds at the usual pace, after . ! ? : ;
COMMA_PAUSE = 0.16  # seconds at the usual pace

_SENTENCE = re.compile(r"(?<=[.!?:;])\s+")
_CLAUSE = re.compile(r"(?<=[.!?:;,])\s+")


@dataclass(frozen=True, slots=True)
class Piece:
    """What the engine makes in one go, at its own rate, and the seconds of pause after it."""

    text: str
    engine_rate: int
    pause: float


@dataclass(frozen=True, slots=True)
class Curve:
    """What an engine really does: pairs of (its own rate, words a minute measured), rising."""

    points: tuple[tuple[int, float], ...]

    def engine_rate(self, words_per_minute: float) -> int:
        """Return the engine's rate at which its sound runs at *words_per_minute*."""
        low, high = self.points[0], self.points[-1]
        for left, right in zip(self.points, self.points[1:], strict=False):
            if words_per_minute <= right[1] or right is high:
                low, high = left, right
                break
        slope = (high[0] - low[0]) / (high[1] - low[1])
        rate = low[0] + slope * (words_per_minute - low[1])
        return round(min(max(rate, self.points[0][0]), self.points[-1][0]))


def plan(text: str, words_per_minute: int, curve: Curve) -> tuple[Piece, ...]:
    """Return *text* in pieces that together last as long as *words_per_minute* asks."""
    asked = min(max(words_per_minute, SLOWEST), FASTEST)
    slow = asked < UNHURRIED
    texts = _pieces(text, _CLAUSE if slow else _SENTENCE)
    if not texts:
        return ()
    usual = [(COMMA_PAUSE if each.endswith(",") else SENTENCE_PAUSE) for each in texts]
    usual[-1] = 0.0
    if not slow:
        rate = curve.engine_rate(asked)
        pauses = [pause * USUAL / asked for pause in usual]
        return tuple(Piece(t, rate, p) for t, p in zip(texts, pauses, strict=True))
    return _slow_plan(texts, usual, asked, curve)


def spoken_words(text: str) -> int:
    """Return how many words are heard when *text* is said; "77" is two of them."""
    return sum(_words_of(each) for each in text.split())


def _slow_plan(
    texts: Sequence[str], usual: Sequence[float], asked: int, curve: Curve
) -> tuple[Piece, ...]:
    words = spoken_words(" ".join(texts))
    whole = words * 60 / asked
    unhurried = words * 60 / UNHURRIED
    pauses = [pause * USUAL / UNHURRIED for pause in usual]
    missing = whole - unhurried - _over(pauses, usual)
    room = sum(LONGEST_PAUSE - pause for pause in pauses if pause)
    share = min(1.0, missing / room) if room > 0 else 0.0
    pauses = [pause + (LONGEST_PAUSE - pause) * share if pause else 0.0 for pause in pauses]
    sound = words * 60 / max(whole - _over(pauses, usual), 0.1)
    rate = curve.engine_rate(min(sound, UNHURRIED))
    return tuple(Piece(t, rate, p) for t, p in zip(texts, pauses, strict=True))


def _over(pauses: Sequence[float], usual: Sequence[float]) -> float:
    """Return the seconds of *pauses* beyond the usual ones, which the curve already holds."""
    return sum(pauses) - sum(usual)


def _pieces(text: str, at: re.Pattern[str]) -> list[str]:
    """Cut *text*, each piece closed by a mark: without one the engine swallows the last word."""
    found = [each.strip() for each in at.split(" ".join(text.split()))]
    found = [each for each in found if any(sign.isalnum() for sign in each)]
    return [each if each[-1] in ".!?:;," else f"{each}." for each in found]


def _words_of(token: str) -> int:
    digits = "".join(sign for sign in token if sign.isdigit())
    if not digits or len(digits) > 6:
        return 1
    return _number_words(int(digits))


def _number_words(number: int) -> int:
    if number <= 20 or (number < 100 and number % 10 == 0):
        return 1
    if number < 100:
        return 2
    if number < 1000:
        rest = number % 100
        return 2 + (1 + _number_words(rest) if rest else 0)  # "two hundred and five"
    rest = number % 1000
    return _number_words(number // 1000) + 1 + (_number_words(rest) if rest else 0)
