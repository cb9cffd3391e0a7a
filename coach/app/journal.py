"""The journal of one piece: every command stored, the last place read, the past for undo.

Trouble with the store is told in words, once for each trouble, and never stops the work.
"""

from __future__ import annotations

from datetime import UTC, datetime

from coach.app import keeping, pacing
from coach.guide.place import Guide, Piece
from coach.ports import Clock, Event, OvertakenError, Progress
from coach.wording import conversation, replies
from coach.wording.words import Words


class Journal:
    """Stores the states of the piece called *name*, and reads what was stored."""

    def __init__(self, name: str, progress: Progress, clock: Clock, fingerprint: str) -> None:
        self._name, self._progress, self._clock = name, progress, clock
        self._fingerprint = fingerprint
        self._piece: Piece | None = None
        self._keeper: keeping.Keeper | None = None
        self._in_trouble = False
        self._recalled = False

    def lay_out(self, piece: Piece) -> None:
        """Store states of *piece* from now on."""
        self._piece, self._keeper = piece, keeping.Keeper(piece, self._fingerprint)

    def save(self, command: str, number: int | None, guide: Guide) -> Words | None:
        """Store a command and the state after it; return what to tell if that failed."""
        if self._keeper is None:
            raise ValueError("there is no piece yet whose states could be stored")
        at = datetime.fromtimestamp(self._clock.now(), UTC).isoformat(timespec="milliseconds")
        event = Event(command, number, at, guide.stage + 1, guide.step + 1)
        try:
            self._progress.save(self._name, event, self._keeper.stored(guide))
        except OSError as fault:
            told_before, self._in_trouble = self._in_trouble, True
            if told_before:
                return None
            overtaken = isinstance(fault, OvertakenError)
            return conversation.OVERTAKEN if overtaken else replies.NOT_SAVED
        self._in_trouble = False
        return None

    def kept(self) -> keeping.Kept | Words | None:
        """Return the last state, or what to tell if it can't be read; None if there is none."""
        try:
            state = self._progress.state(self._name)
            return keeping.read(state) if state is not None else None
        except (OSError, ValueError) as fault:
            reason = str(fault) or type(fault).__name__
            return conversation.place_not_read(reason)

    def with_past(self, guide: Guide) -> Guide:
        """Return *guide* with what the journal remembers of days before, read once."""
        if self._recalled:
            return guide
        self._recalled = True
        try:
            commands = [event.command for event in self._progress.events(self._name)]
            states = self._progress.states(self._name)
            return keeping.with_past(guide, self._fingerprint, commands, states)
        except (OSError, ValueError):
            return guide

    def time_left(self, guide: Guide) -> Words:
        """Return the maker's pace by the journal, and the time left at it."""
        if self._piece is None:
            raise ValueError("there is no piece yet to tell the time of")
        try:
            events = self._progress.events(self._name)
        except OSError:
            events = ()
        return pacing.time_left(events, guide, self._piece)
