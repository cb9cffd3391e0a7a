"""Nothing leaves the machine and nothing that was said is kept: watched at the system calls.

User need R62: what reassures people in a shared room is that this can be shown.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from tests.adapters.sounds import noise, silence, spoken, write_wav

pytestmark = pytest.mark.mic

ROOT = Path(__file__).resolve().parents[2]
WRITES = re.compile(r'open(?:at)?\((?:AT_FDCWD, )?"([^"]+)", [^)]*(?:O_WRONLY|O_RDWR|O_CREAT)')
ITS_OWN = re.compile(r"(?:progress|settings|coach|ear|speech)[\w.-]*(?:-journal|-wal|-shm)?$")


def allowed(tracer: str) -> bool:
    tried = subprocess.run([tracer, "-o", os.devnull, "true"], check=False, capture_output=True)
    return tried.returncode == 0


def test_a_session_opens_no_network_socket_and_keeps_no_sound(tmp_path: Path) -> None:
    tracer = shutil.which("strace")
    assert tracer, "this check needs strace (scripts/setup test installs it)"
    if not allowed(tracer):
        pytest.skip("LEFT OUT: this machine doesn't let strace watch another process")
    home, trace = tmp_path / "home", tmp_path / "trace"
    said = np.concatenate((silence(1), spoken(), noise(2, 200), spoken(), silence(1)))
    recording = write_wav(tmp_path / "said.wav", said)

    done = subprocess.run(
        [
            *(tracer, "-f", "-qq", "-o", str(trace)),
            *("-e", "trace=socket,connect,open,openat,creat,sendto"),
            *(sys.executable, "-m", "coach", "follow", "pebble-cloth", "--plain"),
            *("--no-speech", "--hear", str(recording)),
        ],
        input="",
        capture_output=True,
        text=True,
        cwd=ROOT,
        env={**os.environ, "COACH_HOME": str(home), "PYTHONDONTWRITEBYTECODE": "1"},
        timeout=240,
        check=False,
    )

    assert done.returncode == 0, done.stderr
    assert "heard: where am i" in done.stdout
    calls = trace.read_text(encoding="utf-8", errors="replace")
    assert "ear_worker" in calls or "self_test.wav" in calls, "the ear was not watched"
    assert not re.search(r"AF_INET6?\b|AF_PACKET|AF_NETLINK", calls)
    written = {Path(name) for name in WRITES.findall(calls) if not name.startswith("/dev/")}
    strange = {each for each in written if home not in each.parents or not ITS_OWN.match(each.name)}
    assert strange == set()
    for file in home.rglob("*"):
        if file.is_file():
            kept = file.read_bytes()
            assert b"RIFF" not in kept, file
            assert len(kept) < 200_000, file
