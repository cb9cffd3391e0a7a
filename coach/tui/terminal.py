"""A terminal that belongs to the screen alone, whatever sound libraries write to it.

Sound and speech libraries write lines to descriptor 2 that would break the picture. While the
screen is up, descriptor 2 (and 1, unless plain lines go there) leads to a log instead.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


@contextmanager
def own_terminal(log: Path | None, *, keep_stdout: bool = False) -> Iterator[None]:
    """Draw on the terminal while all else that is written goes to *log* (None: nowhere).

    keep_stdout: plain lines are written to standard output beside the screen; they must lead
    to a pipe, a file or another terminal, and are left alone.
    Raises OSError if there is no terminal to draw on, or the log can't be opened.
    """
    screen = os.dup(2) if os.isatty(2) else os.open("/dev/tty", os.O_RDWR)
    saved_error, saved_output = os.dup(2), os.dup(1)
    drawn_on, measured = sys.__stderr__, sys.__stdout__
    sink = os.open(log or os.devnull, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
    try:
        with os.fdopen(screen, "w", encoding="utf-8", errors="replace") as drawing:
            sys.__stderr__ = drawing  # type: ignore[misc]  # where Textual draws
            sys.__stdout__ = drawing  # type: ignore[misc]  # where the window's size is asked
            os.dup2(sink, 2)
            if not keep_stdout:
                sys.stdout.flush()
                os.dup2(sink, 1)
            try:
                yield
            finally:
                drawing.write("\x1b[0 q")  # the terminal's own cursor shape again
                drawing.flush()
    finally:
        sys.__stderr__, sys.__stdout__ = drawn_on, measured  # type: ignore[misc]
        os.dup2(saved_error, 2)
        os.dup2(saved_output, 1)
        for handle in (saved_error, saved_output, sink):
            os.close(handle)
