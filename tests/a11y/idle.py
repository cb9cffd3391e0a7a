"""How many bytes each kind of screen writes without input: python -m tests.a11y.idle SECONDS."""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path

from tests.tui.terminal import Terminal

FOLLOW = ("follow", "pebble-cloth")
SILENT = ("--no-speech", "--no-ear")


@dataclass(frozen=True, slots=True)
class Screen:
    """A kind of screen: how the coach is started, and the keys that lead there.

    kept: what stands in the settings file. keys: each is one press, a moment apart.
    """

    kind: str
    words: tuple[str, ...] = (*FOLLOW, *SILENT)
    keys: tuple[str, ...] = (" ",)
    kept: str = ""
    window: tuple[int, int] = (80, 24)
    environment: Mapping[str, str] = field(default_factory=dict)


SCREENS = (
    Screen("a step"),
    Screen("a step, with the voice and the ear on", FOLLOW),
    Screen("an answer over the step", keys=(" ", "w")),
    Screen("a stitch explained", keys=(" ", "e")),
    Screen("help", keys=("?",)),
    Screen("a pause", keys=(" ", "p")),
    Screen("a number half typed", keys=(" ", "7")),
    Screen("a line half typed", keys=("/", "g", "o")),
    Screen("a question", keys=(" ", "g", "6", "\r")),
    Screen("a fault in the count", keys=(" ", " ", "7", "\r")),
    Screen("the smallest window", window=(20, 8)),
    Screen("a huge window", window=(300, 100)),
    Screen("a tall window", window=(40, 60)),
    Screen("no colours", environment={"NO_COLOR": "1"}),
    Screen("one switch, between scans", kept="scan_seconds = 0.5\n", keys=(" ",)),
    Screen("the first start", (*SILENT,), keys=()),
    Screen("the shelf", (*SILENT,), kept="size = 8\n", keys=()),
    Screen("an order not understood", keys=(" ", "/", "x", "y", "z", "\r")),
)
SETTLED = 3.0  # seconds; the longest that the screen writes after a key
SCANNED = 30.0  # seconds; a scan goes through its items and ends


def bytes_when_idle(seconds: float, screen: Screen = SCREENS[0]) -> int:
    """Lead the coach to a screen, and count what is written in the time after it."""
    with tempfile.TemporaryDirectory() as home:
        if screen.kept:
            Path(home, "settings.toml").write_text(screen.kept, encoding="utf-8")
        command = [sys.executable, "-m", "coach", *screen.words]
        environment = {"COACH_HOME": home, **screen.environment}
        with Terminal(command, *screen.window, environment) as terminal:
            while not terminal.text:
                terminal.read(1)
            terminal.read(SETTLED)
            for key in screen.keys:
                terminal.type(key)
                terminal.read(SETTLED)
            if screen.kept.startswith("scan"):
                terminal.read(SCANNED)
            return len(terminal.read(seconds))


def measured(seconds: float) -> Iterator[tuple[str, int]]:
    """Leave all kinds of screen alone at once; yield each one's kind and its bytes."""
    with ThreadPoolExecutor(len(SCREENS)) as beside:
        counts = beside.map(lambda screen: bytes_when_idle(seconds, screen), SCREENS)
        yield from zip((screen.kind for screen in SCREENS), counts, strict=True)


if __name__ == "__main__":
    SECONDS = float(sys.argv[1]) if len(sys.argv) > 1 else 600
    for KIND, COUNT in measured(SECONDS):
        print(f"{COUNT:6} bytes in {SECONDS:g} seconds: {KIND}")  # noqa: T201
