"""Tells what has stopped from a machine that is late itself.

Whoever looks for signs of life on a busy machine is woken late, and those that should have given
them were just as late. So a look that comes late proves nothing: patience begins anew with it.
"""

from __future__ import annotations

import time
from collections.abc import Callable

LATE = 2.0  # times the usual span between two looks, after which a look is late


class Heartbeat:
    """Signs of life, looked for every so many seconds."""

    def __init__(self, every: float, clock: Callable[[], float] = time.monotonic) -> None:
        self._every = every
        self._clock = clock
        self._since = self._looked = clock()

    @property
    def last(self) -> float:
        """When the last sign came, in monotonic seconds."""
        return self._since

    def begin(self, grace: float = 0.0) -> None:
        """Begin to wait for signs; the first may come *grace* seconds later than the others."""
        self._looked = self._clock()
        self._since = self._looked + grace

    def beat(self) -> None:
        """Note a sign of life; from any thread."""
        self._since = self._clock()

    def is_missing(self, patience: float) -> bool:
        """Return whether the last sign is more than *patience* seconds old. Call it regularly."""
        now = self._clock()
        if now - self._looked > LATE * self._every:
            self._since = max(self._since, now)
        self._looked = now
        return now - self._since > patience
