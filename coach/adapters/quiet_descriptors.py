"""Keeps what native sound libraries write to standard error off the terminal.

ALSA and PortAudio write lines of their own to descriptor 2 when a device is missing or goes;
a full-screen terminal is ruined by them. Python's own `sys.stderr` is not touched beyond that.
"""

from __future__ import annotations

import os
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

_LOCK = threading.Lock()
_depth = 0
_kept: int | None = None


@contextmanager
def quiet_descriptors(log: Path | None = None) -> Iterator[None]:
    """Send descriptor 2 to *log* (or nowhere) while the block runs; may be nested and shared.

    The log of the first one in serves all: there is but one descriptor 2 in a process.
    """
    _enter(log)
    try:
        yield
    finally:
        _leave()


def _enter(log: Path | None) -> None:
    global _depth, _kept  # noqa: PLW0603 - the descriptor is the process's own single state
    with _LOCK:
        _depth += 1
        if _depth > 1:
            return
        try:
            kept = os.dup(2)
        except OSError:  # started without a standard error: nothing to keep quiet
            return
        try:
            target = os.open(log or os.devnull, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o600)
        except OSError:
            target = os.open(os.devnull, os.O_WRONLY)
        os.dup2(target, 2)
        os.close(target)
        _kept = kept


def _leave() -> None:
    global _depth, _kept  # noqa: PLW0603
    with _LOCK:
        _depth -= 1
        if _depth or _kept is None:
            return
        os.dup2(_kept, 2)
        os.close(_kept)
        _kept = None
