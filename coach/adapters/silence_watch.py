"""When speech that was sent out and doesn't sound is silence, and when it is only late.

A machine under load makes speech late, opens a loudspeaker late, and looks late: none of these
is a loudspeaker's fault, and nobody is told to check one for it. Pure: seconds come in.
"""

from __future__ import annotations

from coach.adapters.utterance import Utterance

LATE = 2.0  # seconds after which sound that should have come counts as lost
SLOW_DEVICE = 2.0  # seconds more for an utterance to end: a device may be slow to start
SETTLES = 3.5  # seconds that a loudspeaker just opened may take no sound; its worker bears 3.0
LOOK = 0.25  # seconds between two looks
LATE_LOOK = 2 * LOOK  # a look that comes so much later proves nothing: the news may be late too


class SilenceWatch:
    """Looks at the utterance under way. Call `is_silent` every `LOOK` seconds while there is one."""

    def __init__(self) -> None:
        self._opened_at = float("inf")
        self._looked = float("-inf")

    def loudspeaker_opened(self, at: float) -> None:
        self._opened_at = at

    def loudspeaker_gone(self) -> None:
        """Without one nothing can sound, and its own worker tells so."""
        self._opened_at = float("inf")

    def is_silent(self, now: Utterance, at: float) -> bool:
        """Return whether *now* ought to sound, or to be over, and isn't at *at*."""
        if at - self._looked > LATE_LOOK:
            now.due = max(now.due, at + LATE)
        self._looked = at
        # What is still being made can't sound; the voice has its own watch.
        waits_for_voice = now.sent == 0 or (now.sounds_since is not None and not now.is_all_sent())
        return at >= max(now.due, self._opened_at + SETTLES) and not waits_for_voice


def due_after(seconds: float, at: float) -> float:
    """Return by when *seconds* of sound, handed over at *at*, must be over."""
    return at + seconds + LATE + SLOW_DEVICE
