"""Calls the hooks of a mouth one after another, from one thread, so that no hook holds it up."""

from __future__ import annotations

import queue
import threading
from collections.abc import Callable, Sequence

from coach.adapters.voice_settings import Hooks
from coach.ports import SaidWord
from coach.wording.words import Words


class HookCalls:
    """A line of calls to *hooks*; `run` makes them, on a thread of its own."""

    def __init__(self, hooks: Hooks) -> None:
        self._hooks = hooks
        self._waiting: queue.SimpleQueue[Callable[[], None] | None] = queue.SimpleQueue()
        self.thread = threading.Thread(target=self.run, name="mouth hooks", daemon=True)

    def tell(self, words: Words) -> None:
        self._waiting.put(lambda: self._hooks.tells(words))

    def speaking(self, text: str, seconds: float) -> None:
        self._waiting.put(lambda: self._hooks.speaking(text, seconds))

    def saying(self, words: Sequence[SaidWord]) -> None:
        if words:
            self._waiting.put(lambda: self._hooks.saying(words))

    def silent(self) -> None:
        self._waiting.put(self._hooks.silent)

    def end(self) -> None:
        """Let `run` return once all calls before are made."""
        self._waiting.put(None)

    def call(self) -> bool:
        """Make the next call, if one waits; return whether one did."""
        try:
            call = self._waiting.get_nowait()
        except queue.Empty:
            return False
        if call is not None:
            call()
        return True

    def run(self) -> None:
        while (call := self._waiting.get()) is not None:
            call()
