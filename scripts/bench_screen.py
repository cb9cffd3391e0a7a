"""Time from a key to the repainted window, on a real pseudo-terminal, and for the parts of it.

Used by scripts/bench; alone: python scripts/bench_screen.py [presses]. Prints one JSON line a size.
"""

from __future__ import annotations

import json
import os
import pty
import select
import statistics
import struct
import sys
import termios
import time
from collections.abc import Sequence
from fcntl import ioctl
from pathlib import Path
from subprocess import Popen

ROOT = Path(__file__).resolve().parent.parent
SIZES = ((40, 12), (80, 24), (200, 60), (300, 100))

_PROGRAM = """
import sys
sys.path.insert(0, sys.argv[1])
from coach.guide.commands import Command
from coach.ports import View
from coach.tui.app import CoachApp
from coach.tui.keys import PEDALS, Guard

NAMES = ("front post double", "single crochet", "half double", "chain", "back post treble")

class Steps:
    over = False
    def __init__(self, display):
        self.display, self.at = display, 0
    def begin(self):
        self.receive(None)
    def receive(self, order):
        at = self.at = self.at + 1
        name, number = NAMES[at % 5], str(at % 37 + 1)
        self.display.show(View(
            sentence=f"Step {at} end. {name} crochet in the next {number} stitches.",
            headline=f"Row {at // 6 + 1}", big=(number, name), group=f"group {at % 6 + 1} of 6",
            count="60 stitches", side="right side", signs=("microphone off",)))
    def typed(self, line): pass
    def choose(self, number): pass

app = CoachApp(guard=Guard(lock_out=0, held=0))
app.conversation = Steps(app)
app.run()
"""


def key_to_repaint(columns: int, rows: int, presses: int = 60) -> dict[str, float | int]:
    """Return milliseconds from the key to the last byte of the repaint (median, p95), and bytes."""
    leader, follower = pty.openpty()
    ioctl(follower, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
    environment = {**os.environ, "TERM": "xterm-256color", "COLORTERM": "truecolor"}
    command = [sys.executable, "-c", _PROGRAM, str(ROOT)]
    process = Popen(command, stdin=follower, stdout=follower, stderr=follower, env=environment)
    os.close(follower)
    try:
        _wait_for(leader, b"Step 1 end", 30)
        times, sizes, spent = [], [], _processor_seconds(process.pid)
        for press in range(presses):
            start = time.perf_counter()
            os.write(leader, b" ")
            written, last = _wait_for(leader, f"Step {press + 2} end".encode(), 10)
            times.append((last - start) * 1000)
            sizes.append(written)
        spent = _processor_seconds(process.pid) - spent
    finally:
        process.terminate()
        process.wait(10)
        os.close(leader)
    return {
        "columns": columns,
        "rows": rows,
        "presses": presses,
        "median_ms": round(statistics.median(times), 2),
        "p95_ms": round(_percentile(times, 95), 2),
        "most_ms": round(max(times), 2),
        "processor_ms": round(spent / presses * 1000, 2),
        "bytes": round(statistics.mean(sizes)),
    }


def _wait_for(leader: int, text: bytes, seconds: float) -> tuple[int, float]:
    """Read until *text* has come and nothing follows for 30 ms; return bytes and the last's time."""
    end, seen, count = time.perf_counter() + seconds, b"", 0
    last = time.perf_counter()
    while time.perf_counter() < end:
        quiet = 0.03 if text in seen else 0.5
        if select.select([leader], [], [], quiet)[0]:
            piece = os.read(leader, 1 << 16)
            last = time.perf_counter()
            count += len(piece)
            seen = seen[-4096:] + piece
        elif text in seen:
            return count, last
    raise TimeoutError(f"{text!r} never came")


def _processor_seconds(process: int) -> float:
    """Return the processor time *process* has used, or 0 where the system doesn't tell (Linux does)."""
    try:
        fields = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    except OSError:
        return 0.0
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def _percentile(times: Sequence[float], percent: int) -> float:
    return sorted(times)[min(len(times) - 1, round(len(times) * percent / 100))]


def main() -> None:
    """Measure every size and print it."""
    presses = int(sys.argv[1]) if len(sys.argv) > 1 else 60
    for columns, rows in SIZES:
        print(json.dumps(key_to_repaint(columns, rows, presses)))


if __name__ == "__main__":
    main()
