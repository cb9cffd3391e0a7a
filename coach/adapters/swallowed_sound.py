"""Whether a loudspeaker takes sound faster than it can be heard, so that nobody hears it.

A busy machine's loudspeaker falls behind and then takes at once what fits into its buffer: that is
ahead of the clock as well, but once, and by no more. Pure: seconds come in.
"""

from __future__ import annotations

AHEAD = 0.5  # seconds by which sound may run ahead of the clock, over the device's own buffer
GROWS = 0.5  # seconds of sound a second of the clock, beyond what is heard: it is still running off


class SwallowedSound:
    """Compares what was taken of a line with the clock, look by look."""

    def __init__(self) -> None:
        self._latency = 0.0
        self._started = (0, 0.0)  # the line that sounds and since when: one value, for two threads
        self._ahead: tuple[float, float] | None = None  # by how much, and when that was seen
        self._told = 0

    def opened(self, latency: float) -> None:
        """Take the seconds of sound that the device keeps before they are heard."""
        self._latency = max(latency, 0.0)

    def started(self, line: int, at: float) -> None:
        self._started = (line, at)

    def look(self, line: int, taken: float, at: float) -> bool:
        """Return whether *line*, of which *taken* seconds are gone at *at*, is swallowed; once."""
        started, since = self._started
        if started != line or line == self._told:
            return False  # another line has just begun, and its beginning isn't this one's
        ahead = taken - (at - since)
        before, self._ahead = self._ahead, None
        if ahead <= AHEAD + self._latency:
            return False
        self._ahead = (ahead, at)
        if before is None or ahead - before[0] <= GROWS * (at - before[1]):
            return False
        self._told = line
        return True
