"""Finished speech that is kept, so that a repeat or a likely next step sounds at once."""

from __future__ import annotations

from collections import OrderedDict

from coach.adapters.speech_samples import Speech

ROOM = 48_000_000  # bytes: about 18 minutes

Key = tuple[str, int, str]  # voice, engine's rate, text


class KeptSpeech:
    """Speech by voice, rate and text; what was longest unused goes first when room runs out."""

    def __init__(self, room: int = ROOM) -> None:
        self._room = room
        self._kept: OrderedDict[Key, Speech] = OrderedDict()
        self._bytes = 0

    def __contains__(self, key: Key) -> bool:
        return key in self._kept

    def get(self, key: Key) -> Speech | None:
        """Return the speech of *key*, which now counts as just used, or None."""
        speech = self._kept.get(key)
        if speech is not None:
            self._kept.move_to_end(key)
        return speech

    def keep(self, key: Key, speech: Speech) -> None:
        """Keep *speech*; the newest always has room."""
        if key in self._kept:
            return
        self._kept[key] = speech
        self._bytes += speech.samples.nbytes
        while self._bytes > self._room and len(self._kept) > 1:
            _, oldest = self._kept.popitem(last=False)
            self._bytes -= oldest.samples.nbytes
