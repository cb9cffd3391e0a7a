"""The machine's clock: the only place where the time is asked for."""

from __future__ import annotations

import time


class SystemClock:
    """Tells the time of the machine."""

    def now(self) -> float:
        """Seconds since the epoch."""
        return time.time()
