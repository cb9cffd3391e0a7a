"""Ports: what the coach needs of the outside world, each one job.

Each port has a real, a silent and a recording form; the fakes live with the tests.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from coach.wording.words import Words


@dataclass(frozen=True, slots=True)
class Missing:
    """Something the machine hasn't got: what is missing, and what would bring it."""

    reason: str
    remedy: str


@dataclass(frozen=True, slots=True)
class SaidWord:
    """A word of the coach's own and when it sounds, in monotonic seconds."""

    text: str
    began: float
    ended: float


class Speaker(Protocol):
    """Says words aloud. Returns at once; a new call cuts off the one before."""

    def say(self, words: Words) -> None: ...

    def prepare(self, likely: Sequence[Words]) -> None:
        """Make these utterances ahead: they are likely to be asked for next."""

    def tone(self, kind: str) -> None:
        """Sound a short tone: "forward", "back", "done" or "not understood"."""

    def stop(self) -> None:
        """Fall silent within one block of sound."""

    def hold(self) -> None:
        """Fall silent for a moment: unless something new is said, go on from the broken clause."""

    def set_rate(self, words_per_minute: int) -> None: ...

    def set_loudness(self, percent: int) -> None: ...

    def close(self) -> None: ...


@dataclass(frozen=True, slots=True)
class Heard:
    """A whole phrase from the closed list, as the ear took it.

    text: the phrase, a number in it as words; "" when something like a phrase was said that
    the ear isn't sure of (the dialogue's ladder; never shown as heard).
    """

    text: str
    confidence: float
    ms: int  # from the end of the word to this
    at: float = 0.0  # when the phrase ended, in seconds: monotonic, or from a recording's start
    interrupts: bool = False  # it was said while the coach spoke
    waits: bool = False  # a phrase that may still grow: answer with a tone, the rest follows
    readings: tuple[str, ...] = ()  # in a lesson: what the ear made of it, the likeliest first


class Ear(Protocol):
    """Hears phrases of a closed list and hands them on, from a thread of its own.

    hears: called with each accepted phrase. tells: called with a plain sentence when the
    microphone or the recogniser comes or goes.
    """

    def start(self, hears: Callable[[Heard], None], tells: Callable[[Words], None]) -> None: ...

    def listen_for(self, phrases: Sequence[str]) -> None:
        """Take only these whole phrases from now on (the present mode's closed list)."""

    def take_words(self, own_words: Mapping[str, str]) -> None:
        """Take these words of the maker's own for the phrases that they stand for."""

    def learn(self, learns: bool) -> None:
        """Hand over whatever is said, as `Heard.readings`, in place of phrases, until told not to."""

    def mute(self, muted: bool) -> None: ...

    def coach_speaks(self, text: str, seconds: float) -> None:
        """The coach now says *text* for so long: be deaf to it, and for a short tail after."""

    def coach_says(self, words: Sequence[SaidWord]) -> None:
        """The coach says these words at these times: heard then, they are its own."""

    def coach_silent(self) -> None: ...

    def close(self) -> None: ...


@dataclass(frozen=True, slots=True)
class View:
    """All that stands before a maker now; both front ends show these same facts.

    sentence: the plain sentence of the present step, as spoken. headline: the row or stage,
    brief ("Row 6"). big: what dominates the screen, in lines of few words ("3", "front post
    double"). group: "group 2 of 6" or "". count: what the row must come to, brief. side:
    "right side" / "wrong side" / "". signs: states told in words ("microphone off", "speech
    off", "paused"). choices: numbered answers, at most five, when something is asked.
    worked: how many lines of *big* say what is worked, the rest where and what else; 0: not told.
    at: the address for the JSON stream: row, block, repeat, stitch.
    """

    sentence: str
    headline: str
    big: tuple[str, ...]
    group: str = ""
    count: str = ""
    side: str = ""
    signs: tuple[str, ...] = ()
    choices: tuple[str, ...] = ()
    notice: str = ""
    worked: int = 0
    at: Mapping[str, int] = field(default_factory=dict)
    row_stitches: int | None = None
    done: bool = False


class Display(Protocol):
    """Shows what stands before the maker, and tells short messages."""

    def show(self, view: View) -> None: ...

    def tell(self, words: Words) -> None:
        """Show a message that is not the present step (an answer, a notice)."""


@dataclass(frozen=True, slots=True)
class Event:
    """One command as it was taken, for the journal: progress is the sum of its events.

    row: the stage of the piece that the maker is at after it, from 1 (the foundation is one
    too). step: the step of that stage, from 1.
    """

    command: str
    number: int | None
    at: str  # ISO 8601 time
    row: int
    step: int


class OvertakenError(OSError):
    """Another coach has gone on with the same piece; nothing of its work is overwritten."""


class Progress(Protocol):
    """Keeps every event of every piece, safe against a power cut at any instant."""

    def save(self, piece: str, event: Event, state: str) -> None:
        """Store the event and the state after it; durable when this returns.

        Raises:
            OvertakenError: another coach has stored something for this piece since.
            OSError: the disk could not take it; the work goes on and the maker is told.
        """

    def state(self, piece: str) -> str | None:
        """Return the last state stored for *piece*, or None."""

    def events(self, piece: str) -> Sequence[Event]: ...

    def states(self, piece: str) -> Sequence[str]:
        """Return the state after each of the events, in the same order."""


@dataclass(frozen=True, slots=True)
class KeptPiece:
    """A piece that has a place. state: as it was last stored. last: when, ISO 8601.

    title, source, text: of the pattern as it was last opened; "" where it was never kept.
    """

    piece: str
    state: str
    last: str
    title: str = ""
    source: str = ""
    text: str = ""


class Pieces(Protocol):
    """Knows every piece that was begun, and keeps a copy of its pattern."""

    def keep_pattern(self, piece: str, title: str, source: str, text: str) -> None:
        """Keep a copy of the pattern, so that the piece can be taken up without its file.

        Raises:
            OSError: the disk could not take it.
        """

    def pieces(self) -> Sequence[KeptPiece]:
        """Return every piece with a place, the one touched last first."""


class Clock(Protocol):
    """Tells the time; the only one who does."""

    def now(self) -> float:
        """Seconds since the epoch."""
