"""The real microphone path in the real sound server: heard, deaf to itself, mute, unplugged."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.room.audio_room import ROOT, AudioRoom, Lines, same_order

pytestmark = pytest.mark.room


@pytest.fixture
def room(tmp_path: Path) -> Iterator[AudioRoom]:
    opened = AudioRoom(tmp_path)
    yield opened
    opened.close()


class Listener:
    """The ear as a program of its own in the room."""

    def __init__(self, room: AudioRoom) -> None:
        self.program = subprocess.Popen(
            [sys.executable, "-m", "tests.room.hear_aloud"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env=room.environment,
            cwd=ROOT,
        )
        self.lines = Lines(self.program)

    def order(self, line: str) -> None:
        assert self.program.stdin is not None
        self.program.stdin.write(f"{line}\n")
        self.program.stdin.flush()

    def heard(self) -> list[str]:
        said = (line for line in self.lines.all() if line.startswith("heard: "))
        return [line[7 : line.index(" (")] for line in said]

    def close(self) -> None:
        assert self.program.stdin is not None
        assert self.program.stdout is not None
        self.program.stdin.close()
        self.program.wait(10)
        self.lines.join()
        self.program.stdout.close()


@pytest.fixture
def ear(room: AudioRoom) -> Iterator[Listener]:
    listener = Listener(room)
    listener.lines.wait_for("told: I'm listening.", 30)
    yield listener
    listener.close()


def test_five_commands_are_heard_in_turn(room: AudioRoom, ear: Listener) -> None:
    said = ("next row", "carry on", "go back", "repeat that", "where am i")
    for each in said:
        before = ear.lines.count()
        room.say(each)
        ear.lines.wait_for("heard: ", 5, after=before)

    assert [same_order(heard) for heard in ear.heard()] == [same_order(each) for each in said]


def test_nothing_is_heard_while_the_coach_speaks_and_just_after(
    room: AudioRoom, ear: Listener
) -> None:
    ear.order("speaks 4")
    room.say("next row")
    room.say("go back")
    ear.order("silent")
    room.say("where am i")  # begins within the tail: it may be lost, but is never another word
    before = ear.lines.count()
    room.say("say again")
    ear.lines.wait_for("heard: say again", 5, after=before)

    assert set(ear.heard()) <= {"where am i", "say again"}


def test_a_muted_ear_takes_no_word(room: AudioRoom, ear: Listener) -> None:
    ear.order("mute on")
    room.say("next row")
    room.say("where am i")
    ear.order("mute off")
    room.say("say again")
    ear.lines.wait_for("heard: say again", 5)

    assert ear.heard() == ["say again"]


def test_a_microphone_that_vanishes_is_told_once_and_taken_again(
    room: AudioRoom, ear: Listener
) -> None:
    room.unplug_microphone()
    ear.lines.wait_for("is gone", 3)
    room.plug_in_again()
    ear.lines.wait_for("listening again", 10)
    room.say("where am i")
    ear.lines.wait_for("heard: where am i", 5)

    assert len([line for line in ear.lines.all() if "is gone" in line]) == 1
