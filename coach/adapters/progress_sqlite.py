"""Progress in one SQLite file: each command an event, durable before anything is shown.

A rollback journal with full sync is used: a power cut at any instant loses at most the command
that was being given. A damaged file is set aside under another name and told, never overwritten;
a second coach on the same piece is noticed. It knows nothing of what a state means.
"""

from __future__ import annotations

import contextlib
import os
import sqlite3
import uuid
from collections.abc import Iterator, Sequence
from pathlib import Path

from coach.ports import Event, KeptPiece, OvertakenError
from coach.wording.words import Words

FILE_NAME = "progress.sqlite"
FORM = 1
_PATIENCE = 5.0  # seconds to wait for another coach that is just storing

_TABLES = """
CREATE TABLE IF NOT EXISTS events (
    number INTEGER PRIMARY KEY,
    piece TEXT NOT NULL,
    command TEXT NOT NULL,
    given INTEGER,
    at TEXT NOT NULL,
    row INTEGER NOT NULL,
    step INTEGER NOT NULL,
    state TEXT NOT NULL,
    writer TEXT NOT NULL
);
CREATE TABLE IF NOT EXISTS patterns (
    piece TEXT PRIMARY KEY,
    title TEXT NOT NULL,
    source TEXT NOT NULL,
    text TEXT NOT NULL
);
CREATE INDEX IF NOT EXISTS events_of_piece ON events (piece, number);
"""


def _columns(event: Event) -> tuple[str, int | None, str, int, int]:
    return event.command, event.number, event.at, event.row, event.step


class SqliteProgress:
    """Keeps the progress of every piece in *folder*.

    notices: what to tell the maker about the file, if anything was wrong with it.
    """

    def __init__(self, folder: Path) -> None:
        self.path = folder / FILE_NAME
        self.notices: list[Words] = []
        self._writer = uuid.uuid4().hex
        self._seen: dict[str, int] = {}
        self._connection: sqlite3.Connection | None = None
        with contextlib.suppress(OSError):  # told when something is to be stored
            self._open()

    def save(self, piece: str, event: Event, state: str) -> None:
        """Store the event and the state after it; durable when this returns.

        Raises:
            OvertakenError: another coach has stored something for this piece since it was read.
            OSError: the disk could not take it.
        """
        with self._writing() as connection:
            last = connection.execute(
                "SELECT number, writer FROM events WHERE piece = ? ORDER BY number DESC LIMIT 1",
                (piece,),
            ).fetchone()
            known = self._seen.get(piece)
            if last and known is not None and last[1] != self._writer and last[0] > known:
                raise OvertakenError("another coach is at work on this piece")
            cursor = connection.execute(
                "INSERT INTO events (piece, command, given, at, row, step, state, writer)"
                " VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                (piece, *_columns(event), state, self._writer),
            )
            self._seen[piece] = cursor.lastrowid or 0

    def state(self, piece: str) -> str | None:
        """Return the last state stored for *piece*, or None.

        Raises:
            OSError: the file can't be read.
        """
        with self._reading() as connection:
            found = connection.execute(
                "SELECT number, state FROM events WHERE piece = ? ORDER BY number DESC LIMIT 1",
                (piece,),
            ).fetchone()
        self._seen[piece] = found[0] if found else 0
        return str(found[1]) if found else None

    def events(self, piece: str) -> Sequence[Event]:
        """Return every event of *piece*, oldest first.

        Raises:
            OSError: the file can't be read.
        """
        with self._reading() as connection:
            found = connection.execute(
                "SELECT command, given, at, row, step FROM events WHERE piece = ? ORDER BY number",
                (piece,),
            ).fetchall()
        return [Event(*row) for row in found]

    def states(self, piece: str) -> Sequence[str]:
        """Return the state after each event of *piece*, oldest first.

        Raises:
            OSError: the file can't be read.
        """
        with self._reading() as connection:
            found = connection.execute(
                "SELECT state FROM events WHERE piece = ? ORDER BY number", (piece,)
            ).fetchall()
        return [str(row[0]) for row in found]

    def keep_pattern(self, piece: str, title: str, source: str, text: str) -> None:
        """Keep a copy of the pattern, so that the piece can be taken up without its file.

        Raises:
            OSError: the disk could not take it.
        """
        with self._writing() as connection:
            connection.execute(
                "INSERT INTO patterns (piece, title, source, text) VALUES (?, ?, ?, ?)"
                " ON CONFLICT (piece) DO UPDATE SET"
                " title = excluded.title, source = excluded.source, text = excluded.text",
                (piece, title, source, text),
            )

    def pieces(self) -> Sequence[KeptPiece]:
        """Return every piece with a place, the one touched last first.

        Raises:
            OSError: the file can't be read.
        """
        with self._reading() as connection:
            found = connection.execute(
                "SELECT piece, state, at, coalesce(title, ''), coalesce(source, ''),"
                " coalesce(text, '') FROM events LEFT JOIN patterns USING (piece)"
                " WHERE number IN (SELECT max(number) FROM events GROUP BY piece)"
                " ORDER BY number DESC"
            ).fetchall()
        return [KeptPiece(*row) for row in found]

    def close(self) -> None:
        """Let the file go."""
        if self._connection is not None:
            self._connection.close()
            self._connection = None

    @contextlib.contextmanager
    def _reading(self) -> Iterator[sqlite3.Connection]:
        try:
            yield self._open()
        except sqlite3.Error as fault:
            self.close()
            raise OSError(f"the file of your places can't be used ({fault})") from fault

    @contextlib.contextmanager
    def _writing(self) -> Iterator[sqlite3.Connection]:
        with self._reading() as connection:
            connection.execute("BEGIN IMMEDIATE")
            try:
                yield connection
            except BaseException:
                with contextlib.suppress(sqlite3.Error):
                    connection.execute("ROLLBACK")
                raise
            connection.execute("COMMIT")

    def _open(self) -> sqlite3.Connection:
        """Return the open file; set a damaged one aside.

        Raises:
            OSError: there can be no such file here.
        """
        if self._connection is not None and self.path.exists():
            return self._connection
        self.close()
        self.path.parent.mkdir(parents=True, exist_ok=True)
        try:
            self._connection = self._connected()
        except sqlite3.DatabaseError as fault:
            if isinstance(fault, sqlite3.OperationalError):
                raise OSError(f"the file of your places can't be opened ({fault})") from fault
            self._set_aside(str(fault))
            self._connection = self._connected()
        return self._connection

    def _connected(self) -> sqlite3.Connection:
        connection = sqlite3.connect(self.path, timeout=_PATIENCE, isolation_level=None)
        try:
            connection.execute("PRAGMA journal_mode = DELETE")
            connection.execute("PRAGMA synchronous = EXTRA")
            form = connection.execute("PRAGMA user_version").fetchone()[0]
            if form not in {0, FORM}:
                raise sqlite3.DatabaseError(f"it is of a later form ({form})")
            damage = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
            if damage != "ok":
                raise sqlite3.DatabaseError(str(damage))
            connection.executescript(_TABLES)
            connection.execute(f"PRAGMA user_version = {FORM}")
        except BaseException:
            connection.close()
            raise
        return connection

    def _set_aside(self, reason: str) -> None:
        """Move the damaged file, and what belongs to it, to a name of its own; nothing is lost."""
        number = 1
        while (aside := self.path.with_name(f"progress-damaged-{number}.sqlite")).exists():
            number += 1
        os.replace(self.path, aside)
        for ending in ("-journal", "-wal", "-shm"):
            beside = self.path.with_name(self.path.name + ending)
            if beside.exists():
                os.replace(beside, aside.with_name(aside.name + ending))
        self.notices.append(
            Words(
                f"The file of your places can't be used: {reason}. It is kept as {aside}. "
                "A new one was begun; say take me to row, and the number, to find your place.",
                "Places damaged: begun anew",
            )
        )
