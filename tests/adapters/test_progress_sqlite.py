"""Progress survives a killed process, a full disk, a damaged file and a second coach."""

from __future__ import annotations

import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

import pytest

from coach.adapters.clock import SystemClock
from coach.adapters.progress_sqlite import SqliteProgress
from coach.ports import Event, OvertakenError

ROOT = Path(__file__).parents[2]


def event(number: int, command: str = "next") -> Event:
    return Event(command, number, f"2026-01-01T00:00:{number % 60:02}.000+00:00", number + 1, 1)


def test_what_was_stored_is_there_for_the_next_process(tmp_path: Path) -> None:
    first = SqliteProgress(tmp_path)
    for number in range(5):
        first.save("cloth", event(number), f"state {number}")
    first.save("hat", event(0, "begin"), "of the hat")
    first.close()

    later = SqliteProgress(tmp_path)

    assert later.state("cloth") == "state 4"
    assert later.state("hat") == "of the hat"
    assert later.state("scarf") is None
    assert later.events("cloth") == [event(number) for number in range(5)]
    assert later.states("cloth") == [f"state {number}" for number in range(5)]
    assert later.notices == []


WRITER = """
import sys
from pathlib import Path
from coach.adapters.progress_sqlite import SqliteProgress
from coach.ports import Event

progress = SqliteProgress(Path(sys.argv[1]))
progress.state("cloth")
number = int(sys.argv[2])
while True:
    at = "2026-01-01T00:00:00.000+00:00"
    progress.save("cloth", Event("next", number, at, number, 1), f"state {number}")
    sys.stdout.write(f"{number}\\n")  # spoken only now
    sys.stdout.flush()
    number += 1
"""


def test_killed_at_any_instant_nothing_that_was_spoken_is_lost(tmp_path: Path) -> None:
    """A real process, killed by SIGKILL at random moments while it stores."""
    chance = random.Random(7)  # noqa: S311 - the moments of the kills, the same each time
    number = 0
    for _ in range(6):
        child = subprocess.Popen(
            [sys.executable, "-c", WRITER, str(tmp_path), str(number)],
            stdout=subprocess.PIPE,
            cwd=ROOT,
            text=True,
        )
        assert child.stdout is not None
        child.stdout.readline()
        time.sleep(chance.uniform(0.0, 0.15))
        child.send_signal(signal.SIGKILL)
        spoken = [int(line) for line in child.stdout.read().split("\n")[:-1] if line]
        child.wait()
        child.stdout.close()
        last = spoken[-1] if spoken else number

        progress = SqliteProgress(tmp_path)
        state = progress.state("cloth")
        assert state is not None
        kept = int(state.split()[1])
        assert kept in {last, last + 1}, "at most the command that was being given"
        assert progress.states("cloth") == [f"state {each}" for each in range(kept + 1)]
        assert progress.notices == []
        progress.close()
        number = kept + 1


def test_a_second_coach_on_the_same_piece_overwrites_nothing(tmp_path: Path) -> None:
    first, second = SqliteProgress(tmp_path), SqliteProgress(tmp_path)
    first.state("cloth")
    second.state("cloth")
    first.save("cloth", event(1), "first")

    with pytest.raises(OvertakenError):
        second.save("cloth", event(2), "second")
    second.save("hat", event(3), "another piece is its own")
    first.save("cloth", event(4), "first goes on")

    assert SqliteProgress(tmp_path).states("cloth") == ["first", "first goes on"]


def test_a_coach_that_takes_the_piece_up_later_goes_on_and_the_old_one_is_told(
    tmp_path: Path,
) -> None:
    first = SqliteProgress(tmp_path)
    first.state("cloth")
    first.save("cloth", event(1), "first")
    second = SqliteProgress(tmp_path)
    assert second.state("cloth") == "first"
    second.save("cloth", event(2), "second")

    with pytest.raises(OvertakenError):
        first.save("cloth", event(3), "first again")


@pytest.mark.parametrize("damage", ["text", "cut", "zeros", "middle"])
def test_a_damaged_file_is_set_aside_and_told_and_nothing_is_thrown_away(
    tmp_path: Path, damage: str
) -> None:
    progress = SqliteProgress(tmp_path)
    for number in range(25):
        progress.save("cloth", event(number), "state " * 400)
    progress.close()
    whole = progress.path.read_bytes()
    damaged = {
        "text": b"this is no database at all\n" * 100,
        "cut": whole[: len(whole) // 2],
        "zeros": bytes(len(whole)),
        "middle": whole[:4096] + os.urandom(8192) + whole[12288:],
    }[damage]
    progress.path.write_bytes(damaged)

    later = SqliteProgress(tmp_path)

    assert later.state("cloth") is None
    aside = tmp_path / "progress-damaged-1.sqlite"
    assert aside.read_bytes() == damaged
    assert len(later.notices) == 1
    assert str(aside) in later.notices[0].full
    later.save("cloth", event(1), "goes on")
    assert SqliteProgress(tmp_path).state("cloth") == "goes on"


def test_a_second_damaged_file_does_not_overwrite_the_first(tmp_path: Path) -> None:
    for _ in range(2):
        (tmp_path / "progress.sqlite").write_bytes(b"no database\n" * 50)
        SqliteProgress(tmp_path).close()

    assert (tmp_path / "progress-damaged-1.sqlite").exists()
    assert (tmp_path / "progress-damaged-2.sqlite").exists()


def test_a_file_of_a_later_coach_is_not_touched(tmp_path: Path) -> None:
    SqliteProgress(tmp_path).close()
    with sqlite3.connect(tmp_path / "progress.sqlite") as connection:
        connection.execute("PRAGMA user_version = 99")
    connection.close()

    later = SqliteProgress(tmp_path)

    assert "later form" in later.notices[0].full
    assert (tmp_path / "progress-damaged-1.sqlite").exists()


def test_a_folder_that_takes_nothing_is_an_error_to_be_told(tmp_path: Path) -> None:
    (tmp_path / "home").write_text("a file where the folder should be", encoding="utf-8")
    progress = SqliteProgress(tmp_path / "home")

    with pytest.raises(OSError, match=r"exists|directory|places"):
        progress.save("cloth", event(1), "state")
    with pytest.raises(OSError, match=r"exists|directory|places"):
        progress.state("cloth")


def test_a_file_that_is_taken_away_meanwhile_is_begun_anew(tmp_path: Path) -> None:
    progress = SqliteProgress(tmp_path)
    progress.save("cloth", event(1), "one")
    progress.path.unlink()

    progress.save("cloth", event(2), "two")

    assert SqliteProgress(tmp_path).states("cloth") == ["two"]


def test_pieces_stand_with_the_one_touched_last_first(tmp_path: Path) -> None:
    progress = SqliteProgress(tmp_path)
    progress.keep_pattern("cloth", "Learning cloth", "cloth.txt", "Ch 17.")
    progress.save("cloth", event(1), "cloth 1")
    progress.save("hat", event(2), "hat 1")
    progress.keep_pattern("cloth", "Learning cloth", "cloth.txt", "Ch 19.")
    progress.save("cloth", event(3), "cloth 2")

    pieces = progress.pieces()

    assert [(each.piece, each.title, each.state) for each in pieces] == [
        ("cloth", "Learning cloth", "cloth 2"),
        ("hat", "", "hat 1"),
    ]
    assert pieces[0].text == "Ch 19."


def test_the_machine_s_clock_goes_forward() -> None:
    clock = SystemClock()

    assert 0 <= clock.now() - time.time() < 60 or clock.now() > 1_700_000_000
