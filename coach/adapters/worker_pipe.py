"""A worker process and the two pipes to it: orders down, reports up, each with its samples.

An order or a report is one JSON line; its "bytes" says how many raw bytes follow. The worker is
a fresh interpreter, never a fork (speech engines hang after one), and it ends itself when its
order pipe closes, so none outlives the coach. Knows nothing of what is ordered.
"""

from __future__ import annotations

import contextlib
import json
import os
import subprocess
import sys
import threading
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import BinaryIO

Message = dict[str, object]


def write_message(pipe: BinaryIO, message: Message, payload: bytes = b"") -> None:
    """Write one message and the raw bytes that go with it, and flush."""
    head = json.dumps({**message, "bytes": len(payload)}).encode("ascii")
    pipe.write(head + b"\n" + payload)
    pipe.flush()


def read_message(pipe: BinaryIO) -> tuple[Message, bytes] | None:
    """Return the next message with its raw bytes; None at the end of the pipe."""
    head = pipe.readline()
    if not head.endswith(b"\n"):
        return None
    message: Message = json.loads(head)
    length = int(str(message.get("bytes", 0)))
    payload = pipe.read(length) if length else b""
    return (message, payload) if len(payload) == length else None


def take_the_pipes() -> tuple[BinaryIO, BinaryIO]:
    """In a worker: return (orders, reports) and keep descriptors 0 and 1 from all others.

    Speech and sound libraries print. What they write to standard output goes where standard
    error goes: the coach's log, never the terminal and never into the reports.
    """
    orders, reports = os.fdopen(os.dup(0), "rb"), os.fdopen(os.dup(1), "wb")
    nothing = os.open(os.devnull, os.O_RDONLY)
    os.dup2(nothing, 0)
    os.close(nothing)
    os.dup2(2, 1)
    return orders, reports


class WorkerPipe:
    """One running worker. Reports come on a thread of their own; `gone` after the last."""

    def __init__(
        self,
        command: Sequence[str],
        *,
        reports: Callable[[Message, bytes], None],
        gone: Callable[[], None],
        environment: Mapping[str, str] | None = None,
        log: Path | None = None,
    ) -> None:
        self._reports = reports
        self._gone = gone
        self._lock = threading.Lock()
        with contextlib.ExitStack() as stack:
            noise: int | BinaryIO = subprocess.DEVNULL
            if log is not None:
                noise = stack.enter_context(log.open("ab"))
            self._process = subprocess.Popen(  # noqa: S603 - our own module, no shell
                list(command),
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=noise,
                env=environment,
                start_new_session=sys.platform != "win32",  # Ctrl+C is for the coach alone
            )
        self._reader = threading.Thread(target=self._read, name="worker reports", daemon=True)
        self._reader.start()

    @property
    def pid(self) -> int:
        return self._process.pid

    def order(self, message: Message, payload: bytes = b"") -> bool:
        """Send an order; return whether the worker was there to take it."""
        pipe = self._process.stdin
        if pipe is None:
            return False
        with self._lock:
            try:
                write_message(pipe, message, payload)  # type: ignore[arg-type]  # IO[bytes]
            except (OSError, ValueError):
                return False
        return True

    def end(self) -> None:
        """End the worker at once and wait for it: it holds nothing worth keeping."""
        self._process.kill()
        if threading.current_thread() is not self._reader:
            self._reader.join(timeout=5)

    def _read(self) -> None:
        pipe = self._process.stdout
        if pipe is None:
            return
        with contextlib.suppress(OSError, ValueError):
            while (read := read_message(pipe)) is not None:  # type: ignore[arg-type]  # IO[bytes]
                self._reports(*read)
        self._bury()
        self._gone()

    def _bury(self) -> None:
        """Wait for the ended worker and close both pipes, or they stay open until the end."""
        self._process.kill()
        self._process.wait()
        for pipe in (self._process.stdin, self._process.stdout):
            with contextlib.suppress(OSError, ValueError):
                if pipe is not None:
                    pipe.close()


def module_command(module: str, *arguments: str) -> list[str]:
    """Return the command line that runs one of the coach's own modules as a worker."""
    return [sys.executable, "-m", module, *arguments]
