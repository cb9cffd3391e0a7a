"""The coach's side of the loudspeaker: orders to the sound worker, news from it, and its watch.

No call here waits: orders go down a queue. A worker that ends or falls silent is replaced.
"""

from __future__ import annotations

import queue
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from coach.adapters.heartbeat import Heartbeat
from coach.adapters.speech_samples import Speech
from coach.adapters.worker_pipe import Message, WorkerPipe, module_command

SILENT_FOR = 1.0  # seconds without a beat from a worker whose loudspeaker is open
LOOK = 0.2  # seconds between looks at its beats
STARTING_FOR = 8.0  # seconds for a worker to start and to look at the devices

NO_START = "The sound system doesn't start here, so nothing can be spoken."
CHECK_SOUND = "Check the machine's sound settings, then start the coach again."


@dataclass(frozen=True, slots=True)
class SoundNews:
    """What became of the sound.

    what: "opened", "missing", "lost", "swallowed", "started", "ended" or "cut". line: the
    utterance it is about, or 0. detail: the loudspeaker's name, or why there is none. remedy:
    what would bring it. at: when it came about, in monotonic seconds, where that is told.
    """

    what: str
    line: int = 0
    detail: str = ""
    remedy: str = ""
    at: float | None = None


@dataclass(frozen=True, slots=True)
class PlayedBlock:
    """The exact samples handed to the loudspeaker at *at*, on the clock of time.monotonic()."""

    samples: bytes  # 16-bit mono in the machine's own order
    rate: int
    at: float


class Sound(Protocol):
    """Plays lines of samples, one at a time. No call waits for the loudspeaker."""

    @property
    def pid(self) -> int | None:
        """The id of the process that plays, while there is one."""

    def begin(self, line: int) -> None:
        """Begin a line; the one before is cut within a block."""

    def feed(self, line: int, speech: Speech) -> None: ...

    def finish(self, line: int) -> None: ...

    def cut(self) -> None: ...

    def tone(self, kind: str) -> None: ...

    def pause(self, paused: bool) -> None: ...

    def set_gain(self, gain: float) -> None: ...

    def restart(self) -> None:
        """Give up the present loudspeaker worker and start another."""

    def close(self) -> None: ...


class SoundOut:
    """A `Sound` in a worker process.

    news: called for each SoundNews, from a thread of this object. played: called for every
    block that goes out, for an echo canceller; must return at once.
    """

    def __init__(
        self,
        news: Callable[[SoundNews], None],
        *,
        device: str | None = None,
        played: Callable[[PlayedBlock], None] | None = None,
        command: Sequence[str] | None = None,
        log: Path | None = None,
    ) -> None:
        arguments = (["--device", device] if device else []) + (["--tap"] if played else [])
        self._command = [
            *(command or module_command("coach.adapters.sound_worker")),
            *arguments,
        ]
        self._news = news
        self._played = played
        self._log = log
        self._gain = 1.0
        self._closed = threading.Event()
        self._opened = self._answered = self._has_opened = False
        self._beats = Heartbeat(LOOK)
        self._started_at = time.monotonic()
        self._breath = 0.1
        self._orders: queue.SimpleQueue[tuple[Message, bytes] | None] = queue.SimpleQueue()
        self._pipe: WorkerPipe | None = None
        threading.Thread(target=self._serve, name="sound orders", daemon=True).start()
        threading.Thread(target=self._watch, name="sound watch", daemon=True).start()

    @property
    def pid(self) -> int | None:
        """The worker's process id, while there is one."""
        return self._pipe.pid if self._pipe else None

    def begin(self, line: int) -> None:
        self._orders.put(({"do": "begin", "line": line}, b""))

    def feed(self, line: int, speech: Speech) -> None:
        order: Message = {"do": "feed", "line": line, "rate": speech.rate}
        self._orders.put((order, speech.samples.tobytes()))

    def finish(self, line: int) -> None:
        self._orders.put(({"do": "finish", "line": line}, b""))

    def cut(self) -> None:
        self._orders.put(({"do": "cut"}, b""))

    def tone(self, kind: str) -> None:
        self._orders.put(({"do": "tone", "kind": kind}, b""))

    def pause(self, paused: bool) -> None:
        self._orders.put(({"do": "pause", "paused": paused}, b""))

    def set_gain(self, gain: float) -> None:
        self._gain = gain
        self._orders.put(({"do": "gain", "gain": gain}, b""))

    def restart(self) -> None:
        pipe = self._pipe
        if pipe is not None:
            pipe.end()  # its end is noticed like any other

    def close(self) -> None:
        self._closed.set()
        self._orders.put(None)
        pipe = self._pipe
        if pipe is not None:
            pipe.end()

    def _serve(self) -> None:
        self._start()
        while (order := self._orders.get()) is not None:
            pipe = self._pipe
            if pipe is not None:
                pipe.order(*order)

    def _start(self) -> None:
        if self._closed.is_set():
            return
        self._started_at = time.monotonic()
        self._beats.begin()
        self._opened = self._answered = self._has_opened = False
        try:
            self._pipe = WorkerPipe(
                self._command, reports=self._report, gone=self._gone, log=self._log
            )
        except OSError:
            self._pipe = None
            self._news(SoundNews("missing", detail=NO_START, remedy=CHECK_SOUND))
            return
        self._pipe.order({"do": "gain", "gain": self._gain})

    def _gone(self) -> None:
        if self._closed.is_set():
            return
        if self._answered:
            self._news(SoundNews("lost"))
        else:
            self._news(SoundNews("missing", detail=NO_START, remedy=CHECK_SOUND))
        # A worker that dies at once is not started in a rush; one that goes with its device, as
        # with some sound libraries, is: the maker waits for the device's return.
        lived = time.monotonic() - self._started_at
        self._breath = 0.1 if lived > 10 or self._has_opened else min(self._breath * 2, 5.0)
        self._closed.wait(self._breath)
        self._start()

    def _watch(self) -> None:
        while not self._closed.wait(LOOK):
            if self._beats.is_missing(SILENT_FOR if self._opened else STARTING_FOR):
                self._beats.begin()
                self.restart()

    def _report(self, message: Message, payload: bytes) -> None:
        self._beats.beat()
        self._answered = True
        if "played" in message:
            if self._played is not None:
                at, rate = float(str(message["played"])), int(str(message["rate"]))
                self._played(PlayedBlock(payload, rate, at))
            return
        for what in ("started", "ended", "cut", "swallowed"):
            if what in message:
                line, since = int(str(message[what])), message.get("at")
                self._news(SoundNews(what, line, at=None if since is None else float(str(since))))
        for what in ("opened", "lost", "missing"):
            if what in message:
                self._opened = what == "opened"
                self._has_opened |= self._opened
                remedy = str(message.get("remedy", ""))
                self._news(SoundNews(what, detail=str(message[what]), remedy=remedy))
