"""How fast an utterance is said: cut into pieces, each with the engine's rate and a pause after.

Slow speech is made by longer pauses between the pieces rather than by stretched sounds, as far
as the words have places to pause (common practice, no source). Makes no sound itself.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

SLOWEST, USUAL, FASTEST = 80, 150, 300  # words a minute that a maker may ask for
UNHURRIED = 125  # words a minute; below this the pauses grow before the sounds do
LONGEST_PAUSE = 1.2  # seconds; a longer one sounds as if the coach had stopped
SENTENCE_PAUSE = 0.40  # seconds at the usual pace, after . ! ? : ;
COMMA_PAUSE = 0.16  # seconds at the usual pace

_ENDS = ".!?:;"
_SENTENCE = re.compile(r"(?<=[.!?:;])\s+")
_PHRASE = re.compile(r"(?<=[.!?:;,])\s+|\s+(?=(?:in|into|around|over|from|which|worked)\s)")


@dataclass(frozen=True, slots=True)
class Piece:
    """What the engine makes in one go, at its own rate, and the seconds of pause after it.

    sound: the seconds that its own sound should take by the pace asked for.
    """

    text: str
    engine_rate: int
    pause: float
    sound: float = 0.0


@dataclass(frozen=True, slots=True)
class Curve:
    """What an engine really does: pairs of (its own rate, words a minute measured), rising."""

    points: tuple[tuple[int, float], ...]

    def engine_rate(self, words_per_minute: float) -> int:
        """Return the engine's rate at which its sound runs at *words_per_minute*."""
        low, high = self.points[0], self.points[-1]
        for left, right in pairwise(self.points):
            if words_per_minute <= right[1] or right is high:
                low, high = left, right
                break
        slope = (high[0] - low[0]) / (high[1] - low[1])
        rate = low[0] + slope * (words_per_minute - low[1])
        return round(min(max(rate, self.points[0][0]), self.points[-1][0]))


def plan(text: str, words_per_minute: int, curve: Curve) -> tuple[Piece, ...]:
    """Return *text* in pieces that together last as long as *words_per_minute* asks.

    The curve is that of whole passages: a sentence of long words takes longer than its share.
    """
    asked = min(max(words_per_minute, SLOWEST), FASTEST)
    if asked < UNHURRIED:
        return _slow_plan(text, asked, curve)
    texts = _pieces(text, _SENTENCE)
    if not texts:
        return ()
    pauses = [SENTENCE_PAUSE * USUAL / asked] * len(texts)
    return _joined(texts, asked, curve.engine_rate(asked), pauses[:-1])


def spoken_words(text: str) -> int:
    """Return how many words are heard when *text* is said; "77" is two of them."""
    return sum(_words_of(each) for each in text.split())


def _slow_plan(text: str, asked: int, curve: Curve) -> tuple[Piece, ...]:
    """Lengthen the pauses first, and find more of them: between what to do and where."""
    texts = _pieces(text, _PHRASE)
    if not texts:
        return ()
    words = spoken_words(" ".join(texts))
    usual = [_usual_pause(each) for each in texts[:-1]]
    whole = words * 60 / asked
    missing = whole - words * 60 / UNHURRIED
    room = sum(LONGEST_PAUSE - pause for pause in usual)
    share = min(1.0, missing / room) if room > 0 else 0.0
    pauses = [pause + (LONGEST_PAUSE - pause) * share for pause in usual]
    sound = words * 60 / (whole - sum(pauses) + sum(usual))  # the curve holds the usual pauses
    return _joined(texts, asked, curve.engine_rate(min(sound, UNHURRIED)), pauses)


def _usual_pause(text: str) -> float:
    """Return the seconds that follow *text* at the unhurried pace; between phrases there is none."""
    slower = USUAL / UNHURRIED
    if text.endswith(","):
        return COMMA_PAUSE * slower
    return SENTENCE_PAUSE * slower if text[-1] in _ENDS else 0.0


def _joined(
    texts: Sequence[str], asked: int, rate: int, pauses: Sequence[float]
) -> tuple[Piece, ...]:
    """Return the pieces, each closed by a mark: without one the engine swallows the last word."""
    words = [spoken_words(text) for text in texts]
    a_word = 60 / asked - sum(pauses) / max(sum(words), 1)  # seconds of sound
    marks = [","] * len(pauses) + ["."]
    return tuple(
        Piece(_closed(text, mark), rate, pause, max(count * a_word, 0.0))
        for text, mark, pause, count in zip(texts, marks, [*pauses, 0.0], words, strict=True)
    )


def _closed(text: str, mark: str) -> str:
    return text if text[-1] in f"{_ENDS}," else f"{text}{mark}"


def _pieces(text: str, at: re.Pattern[str]) -> list[str]:
    found = [each.strip() for each in at.split(" ".join(text.split()))]
    return [each for each in found if any(sign.isalnum() for sign in each)]


def _words_of(token: str) -> int:
    digits = "".join(sign for sign in token if sign.isdecimal())
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


@dataclass(slots=True)
class Pacer:
    """Keeps one utterance to its pace: what its sounds gain or lose, its pauses make good.

    A pause grows or shrinks to half or double at most, so that it is still heard as the same.
    """

    late: float = 0.0  # seconds by which the utterance is behind its pace

    def pause_after(self, piece: Piece, seconds: float) -> float:
        """Return the pause after *piece*, whose own sound takes *seconds*."""
        self.late += seconds - piece.sound
        pause = min(max(piece.pause - self.late, piece.pause / 2), piece.pause * 2)
        self.late += pause - piece.pause
        return pause


# A short passage in the coach's own wording: one of every kind of sentence.
_MEASURED = (
    "Row 6. Right side facing. It comes to 77 stitches.",
    "Single crochet in each of the next 13 stitches.",
    "Front post double crochet around each of the next 5 stitches.",
    "Group 2 of 6. Chain 1, skip the next stitch, double crochet in the next stitch.",
    "Decrease: single crochet the next 2 stitches together.",
    "Chain 1. It does not count as a stitch. The first stitch goes in the very first stitch.",
    "The last stitch goes in the top of the turning chain. That makes 118.",
)


class Measuring:
    """Measures the curve of a voice that isn't known yet, one piece at a time, in idle moments."""

    def __init__(self, rates: Sequence[int] = (90, 150, 220, 300)) -> None:
        self._words = spoken_words(" ".join(_MEASURED))
        self._seconds = dict.fromkeys(rates, 0.0)
        self._left = [
            Piece(piece.text, rate, piece.pause * USUAL / rate)
            for rate in rates
            for text in _MEASURED
            for piece in plan(text, USUAL, Curve(((1, 1.0), (2, 2.0))))
        ]

    def next(self) -> Piece | None:
        """Return the next piece to be made, or None when all have been."""
        return self._left[-1] if self._left else None

    def made(self, seconds: float) -> None:
        """Take how long the piece from `next` sounds."""
        piece = self._left.pop()
        self._seconds[piece.engine_rate] += seconds + piece.pause

    def curve(self) -> Curve:
        """Return the measured curve; an engine that doesn't mind its rate gets a flat guess."""
        points = [(rate, self._words * 60 / took) for rate, took in self._seconds.items()]
        rising = all(b[1] > a[1] for a, b in pairwise(points))
        rising = rising and points[-1][1] > 1.5 * points[0][1]
        return Curve(tuple(points)) if rising else Curve(((80, 80.0), (300, 300.0)))
