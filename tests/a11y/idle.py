"""How many bytes the giant screen writes without input: python -m tests.a11y.idle SECONDS [PATTERN]."""

from __future__ import annotations

import sys
import tempfile

from tests.tui.terminal import Terminal

FIRST_WORDS = "Chain"


def bytes_when_idle(seconds: float, pattern: str = "pebble-cloth") -> int:
    """Open a built-in pattern, take one step, and count what is written in the time after it."""
    with tempfile.TemporaryDirectory() as home:
        command = [sys.executable, "-m", "coach", "follow", pattern, "--no-speech", "--no-ear"]
        with Terminal(command, environment={"COACH_HOME": home}) as terminal:
            terminal.read_until(FIRST_WORDS)
            terminal.type(" ")
            terminal.read(3)
            return len(terminal.read(seconds))


if __name__ == "__main__":
    SECONDS = float(sys.argv[1]) if len(sys.argv) > 1 else 600
    print(f"{bytes_when_idle(SECONDS, *sys.argv[2:3])} bytes in {SECONDS:g} seconds")  # noqa: T201
