"""A terminal to run a program in, that counts its bytes and reads its screen."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Mapping, Sequence
from types import TracebackType

import pyte


class Terminal:
    """Runs a command under a pseudo-terminal of *columns* x *rows* and keeps what it writes."""

    def __init__(
        self,
        command: Sequence[str],
        columns: int = 80,
        rows: int = 24,
        environment: Mapping[str, str] | None = None,
    ) -> None:
        self.screen = pyte.Screen(columns, rows)
        self._stream = pyte.ByteStream(self.screen)
        self.written = b""
        self._leader, follower = pty.openpty()
        fcntl.ioctl(follower, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
        kept = {name: os.environ[name] for name in ("PATH", "HOME", "LANG") if name in os.environ}
        self._process = subprocess.Popen(
            command,
            stdin=follower,
            stdout=follower,
            stderr=follower,
            env={**kept, "TERM": "xterm-256color", **(environment or {})},
            start_new_session=True,
        )
        os.close(follower)

    def __enter__(self) -> Terminal:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._process.terminate()
        self._process.wait(10)
        os.close(self._leader)

    def type(self, keys: str) -> None:
        """Send *keys* as a keyboard would."""
        os.write(self._leader, keys.encode())

    def read(self, seconds: float) -> bytes:
        """Return what is written within *seconds*, and show it on the screen."""
        end = time.monotonic() + seconds
        got = b""
        while (left := end - time.monotonic()) > 0:
            if select.select([self._leader], [], [], left)[0]:
                try:
                    piece = os.read(self._leader, 65536)
                except OSError:  # the program has ended
                    break
                got += piece
        self.written += got
        self._stream.feed(got)
        return got

    def read_until(self, text: str, seconds: float = 20) -> None:
        """Read until *text* stands on the screen and nothing more comes."""
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if not self.read(0.3) and text in self.text:
                return
        raise AssertionError(f"{text!r} never came; on the screen: {self.text!r}")

    @property
    def text(self) -> str:
        """All that stands on the screen, white space folded."""
        return " ".join(" ".join(self.screen.display).split())

    @property
    def at_cursor(self) -> str:
        """The text from the cursor on, white space folded."""
        row, column = self.screen.cursor.y, self.screen.cursor.x
        lines = self.screen.display
        return " ".join(" ".join([lines[row][column:], *lines[row + 1 :]]).split())


def python(program: str) -> list[str]:
    """Return the command that runs *program* in this Python."""
    return [sys.executable, "-c", program]
