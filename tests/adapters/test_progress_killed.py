"""The whole coach, killed at any moment, takes the piece up at the block that was told last."""

from __future__ import annotations

import contextlib
import json
import os
import random
import subprocess
import sys
import threading
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
COMMAND = [
    sys.executable,
    "-m",
    "coach",
    "follow",
    "orchard-gate-cushion",
    "--plain",
    "--json",
    "--no-speech",
    "--no-ear",
]

KILLS = 4
STEPS = 60  # asked for before each kill: more than are told in the time

Address = tuple[int, int, int, int]


def start(home: Path) -> subprocess.Popen[str]:
    environment = {**os.environ, "COACH_HOME": str(home)}
    return subprocess.Popen(
        COMMAND,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        cwd=ROOT,
        env=environment,
        text=True,
    )


def address(line: str) -> Address | None:
    at = json.loads(line).get("at")
    return (at["row"], at["block"], at["repeat"], at["stitch"]) if at else None


def all_steps(home: Path) -> list[Address]:
    """Every address in working order, from a run that is left alone."""
    coach = start(home)
    told, _ = coach.communicate("next\n" * (KILLS * STEPS + 5), timeout=60)
    return [found for line in told.splitlines() if (found := address(line)) is not None]


def killed_after(home: Path, seconds: float) -> list[Address]:
    """Walk on by next, and be killed *seconds* after the first step was told."""
    coach = start(home)
    assert coach.stdin is not None
    assert coach.stdout is not None
    told: list[Address] = []
    first = threading.Event()

    def read() -> None:
        assert coach.stdout is not None
        for line in coach.stdout:
            if not line.endswith("\n"):
                return  # the kill came in the middle of this one
            found = address(line)
            if found is not None:
                told.append(found)
                first.set()

    reader = threading.Thread(target=read)
    reader.start()
    assert first.wait(60)
    with contextlib.suppress(BrokenPipeError):
        coach.stdin.write("next\n" * STEPS)
        coach.stdin.flush()
    time.sleep(seconds)
    coach.kill()
    reader.join(60)
    coach.stdout.close()
    with contextlib.suppress(BrokenPipeError):
        coach.stdin.close()
    coach.wait(60)
    return told


def test_a_killed_coach_goes_on_at_the_block_that_was_told_last(tmp_path: Path) -> None:
    order = all_steps(tmp_path / "left alone")
    chance = random.Random(11)  # noqa: S311 - the moments of the kills, the same each time
    home = tmp_path / "killed"
    last: Address | None = None
    for _ in range(KILLS):
        told = killed_after(home, chance.uniform(0.0, 0.12))
        if last is not None:
            at = order.index(last)
            assert told[0] in order[at : at + 2], "at most the command that was being given"
        last = told[-1]
    assert last is not None
    assert order.index(last) > 4, "it did walk on"
