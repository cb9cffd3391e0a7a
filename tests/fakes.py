"""A fake of every port, for tests: each records what it was asked, in one common log.

Load a `Log`, hand it to the fakes, and look in it for what came first.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from coach.ports import Event, Heard, SaidWord, View
from coach.wording.words import Words


@dataclass
class Log:
    """What the ports were asked, in order: ("saved", …), ("shown", …), ("said", …)."""

    entries: list[tuple[str, object]] = field(default_factory=list)

    def add(self, kind: str, what: object = None) -> None:
        self.entries.append((kind, what))

    def kinds(self) -> list[str]:
        return [kind for kind, _ in self.entries]

    def of(self, kind: str) -> list[object]:
        return [what for each, what in self.entries if each == kind]


class RecordingDisplay:
    """Shows nothing, and remembers every view and message."""

    def __init__(self, log: Log) -> None:
        self._log = log
        self.views: list[View] = []
        self.told: list[Words] = []
        self.lines: list[str] = []

    def show(self, view: View) -> None:
        self._log.add("shown", view)
        self.views.append(view)
        self.lines.extend(line for line in (view.notice, view.sentence) if line)

    def tell(self, words: Words) -> None:
        self._log.add("told", words)
        self.told.append(words)
        self.lines.append(words.full)

    @property
    def view(self) -> View:
        """The view that stands there now."""
        return self.views[-1]


class RecordingSpeaker:
    """Makes no sound, and remembers what it was to say."""

    def __init__(self, log: Log) -> None:
        self._log = log
        self.said: list[str] = []
        self.tones: list[str] = []
        self.prepared: list[str] = []
        self.rate = 0
        self.loudness = 0
        self.closed = False

    def say(self, words: Words) -> None:
        self._log.add("said", words)
        self.said.append(words.full)

    def prepare(self, likely: Sequence[Words]) -> None:
        self._log.add("prepared", tuple(likely))
        self.prepared = [words.full for words in likely]

    def tone(self, kind: str) -> None:
        self._log.add("tone", kind)
        self.tones.append(kind)

    def stop(self) -> None:
        self._log.add("stopped")

    def hold(self) -> None:
        self._log.add("held")

    def set_rate(self, words_per_minute: int) -> None:
        self.rate = words_per_minute

    def set_loudness(self, percent: int) -> None:
        self.loudness = percent

    def close(self) -> None:
        self.closed = True


class RecordingEar:
    """Hears what a test says with `say`, if it was started."""

    def __init__(self, log: Log) -> None:
        self._log = log
        self.hears: Callable[[Heard], None] | None = None
        self.tells: Callable[[Words], None] | None = None
        self.phrases: tuple[str, ...] = ()
        self.own_words: dict[str, str] = {}
        self.learns = False
        self.muted = False
        self.closed = False

    def start(self, hears: Callable[[Heard], None], tells: Callable[[Words], None]) -> None:
        self.hears, self.tells = hears, tells

    def listen_for(self, phrases: Sequence[str]) -> None:
        self.phrases = tuple(phrases)

    def take_words(self, own_words: Mapping[str, str]) -> None:
        self.own_words = dict(own_words)

    def learn(self, learns: bool) -> None:
        self.learns = learns

    def mute(self, muted: bool) -> None:
        self.muted = muted

    def coach_speaks(self, text: str, seconds: float) -> None:
        self._log.add("coach speaks", text)

    def coach_says(self, words: Sequence[SaidWord]) -> None:
        self._log.add("coach says", tuple(words))

    def coach_silent(self) -> None:
        self._log.add("coach silent")

    def close(self) -> None:
        self.closed = True

    def make_out(self, *readings: str) -> None:
        """Let the ear make these readings of a saying, in a lesson."""
        assert self.hears is not None, "the ear was not started"
        assert self.learns, "no lesson goes on"
        self.hears(Heard("", 1.0, 0, readings=readings))

    def say(
        self, text: str, confidence: float = 0.95, ms: int = 150, *, interrupts: bool = False
    ) -> None:
        """Let the ear hear *text*."""
        assert self.hears is not None, "the ear was not started"
        self.hears(Heard(text, confidence, ms, interrupts=interrupts))


class MemoryProgress:
    """Keeps progress in memory. full: the disk takes nothing more."""

    def __init__(self, log: Log | None = None) -> None:
        self.log = log or Log()
        self._events: dict[str, list[Event]] = {}
        self._states: dict[str, list[str]] = {}
        self.full = False

    def save(self, piece: str, event: Event, state: str) -> None:
        if self.full:
            raise OSError(28, "No space left on device")
        self.log.add("saved", event)
        self._events.setdefault(piece, []).append(event)
        self._states.setdefault(piece, []).append(state)

    def state(self, piece: str) -> str | None:
        states = self._states.get(piece)
        return states[-1] if states else None

    def events(self, piece: str) -> Sequence[Event]:
        return tuple(self._events.get(piece, ()))

    def states(self, piece: str) -> Sequence[str]:
        return tuple(self._states.get(piece, ()))

    def spoil(self, piece: str, state: str) -> None:
        """Put something that is no state in the place of the last one."""
        self._states[piece][-1] = state


class SetClock:
    """Tells the time that a test has set."""

    def __init__(self, now: float = 1_000_000.0) -> None:
        self.time = now

    def now(self) -> float:
        return self.time

    def wait(self, seconds: float) -> None:
        """Let *seconds* pass."""
        self.time += seconds
