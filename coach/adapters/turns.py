"""One thing at a time: whatever arrives on other threads waits here for its turn.

The plain front end has no event loop of its own; this is it. Decides nothing.
"""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable
from typing import TextIO

Act = Callable[[], None]


class Turns:
    """A line of acts, done one after another on the thread that calls `run`."""

    def __init__(self) -> None:
        self._waiting: queue.SimpleQueue[Act | None] = queue.SimpleQueue()

    def put(self, act: Act) -> None:
        """Add *act* to the end of the line; from any thread."""
        self._waiting.put(act)

    def end(self) -> None:
        """Let `run` return once everything put before is done; from any thread."""
        self._waiting.put(None)

    def run(self, over: Callable[[], bool]) -> None:
        """Do the acts in turn until one of them makes it *over*, or `end` was called."""
        while not over():
            act = self._waiting.get()
            if act is None:
                return
            act()


def read_lines(stream: TextIO, each: Callable[[str], None], ended: Act) -> threading.Thread:
    """Hand each line of *stream* to *each*, then call *ended*, on a thread of its own."""

    def read() -> None:
        try:
            for line in stream:
                each(line.rstrip("\r\n"))
        except (OSError, ValueError):
            pass  # the stream was closed under us: that is its end
        ended()

    thread = threading.Thread(target=read, name="typed lines", daemon=True)
    thread.start()
    return thread
