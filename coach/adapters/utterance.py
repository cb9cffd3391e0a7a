"""One thing to say on its way: its pieces, how many are sent, and which word sounds when.

Pure: seconds come in. The loudspeaker itself may be some hundredths of a second behind.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from coach.adapters.speech_pace import Pacer, Piece, spoken_words
from coach.ports import SaidWord


@dataclass(frozen=True, slots=True)
class _Sent:
    """A piece that was sent: when it sounds, in seconds from the utterance's first sample."""

    text: str
    begins: float
    seconds: float


@dataclass(slots=True)
class Utterance:
    """What is being said. due: by when the next news of it must have come.

    sounds_since: when its first sample was played, None before that. held_at: since when it is
    held back for the maker's sake, None when it isn't.
    """

    line: int
    text: str
    pieces: tuple[Piece, ...]
    seconds: float
    due: float
    pacer: Pacer = field(default_factory=Pacer)
    first: int = 0  # the piece that this line begins with: 0, or where it was broken off
    sent: int = 0
    failed: int = 0
    sounds_since: float | None = None
    held_at: float | None = None
    _sent: list[_Sent] = field(default_factory=list)
    _length: float = 0.0

    def is_all_sent(self) -> bool:
        return self.sent == len(self.pieces)

    def send(self, seconds: float) -> float:
        """Note that the next piece, which sounds *seconds*, is sent; return the pause after it."""
        piece = self.pieces[self.sent]
        pause = self.pacer.pause_after(piece, seconds)
        self._sent.append(_Sent(piece.text, self._length, seconds))
        self._length += seconds + pause
        self.sent += 1
        return pause

    def begin_again(self, line: int, piece: int, due: float) -> None:
        """Go back to the beginning of *piece*, on a new line."""
        self.line, self.first, self.sent, self.due = line, piece, piece, due
        self.pacer = Pacer()
        self.sounds_since = self.held_at = None
        self._sent, self._length = [], 0.0

    def clause_at(self, at: float) -> int:
        """Return which piece sounded at *at*: the next one when it had just ended."""
        if self.sounds_since is None:
            return self.first
        played = at - self.sounds_since
        over = sum(played >= each.begins + each.seconds for each in self._sent)
        return min(self.first + over, len(self.pieces) - 1)

    def words(self, since: int = 0) -> tuple[SaidWord, ...]:
        """Return every word of the pieces sent, from the one numbered *since* on, and its time."""
        if self.sounds_since is None:
            return ()
        return tuple(
            word
            for each in self._sent[max(since - self.first, 0) :]
            for word in word_times(each.text, self.sounds_since + each.begins, each.seconds)
        )


def word_times(text: str, begins: float, seconds: float) -> tuple[SaidWord, ...]:
    """Share *seconds* out among the words of *text*, by their length in letters.

    A figure counts as the words that it is said with, of five letters each. Of 1,268 words of the
    coach 95 in 100 begin within 0.23 s of that, all within 0.56 s (`scripts/bench_word_times.py`).
    """
    words = text.split()
    weights = [_weight(word) for word in words]
    whole = sum(weights) or 1.0
    said: list[SaidWord] = []
    for word, weight in zip(words, weights, strict=True):
        ends = begins + seconds * weight / whole
        said.append(SaidWord(word, begins, ends))
        begins = ends
    return tuple(said)


def _weight(word: str) -> float:
    letters = sum(sign.isalpha() for sign in word)
    return 1.0 + (letters or 5 * spoken_words(word))
