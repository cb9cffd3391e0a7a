"""The whole coach in the room: it hears, moves and answers aloud, and never obeys itself.

The visitors are synthetic (flite, not the coach's espeak-ng); how well real people are heard
can't be shown here.
"""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.room.audio_room import ROOT, AudioRoom, Lines, same_order

pytestmark = pytest.mark.room
PATTERN = "pebble-cloth"
VISITOR = "rms"
# Five long sentences, then many short ones, each with the command word "next" in it.
TWENTY_STEPS = (*(["next"] * 5), "stitch by stitch", *(["next"] * 15))


class Session:
    """`coach follow` as its maker meets it, in a room or without one."""

    def __init__(self, home: Path, environment: dict[str, str], *options: str) -> None:
        self.program = subprocess.Popen(
            [sys.executable, "-m", "coach", "follow", PATTERN, "--plain", "--json", *options],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env={**environment, "COACH_HOME": str(home)},
            cwd=ROOT,
        )
        self.lines = Lines(self.program)

    def type(self, line: str) -> None:
        assert self.program.stdin is not None
        self.program.stdin.write(f"{line}\n")
        self.program.stdin.flush()

    def talk_fast(self) -> None:
        """Let the coach talk as fast as it can: the test takes less time, and the words stay."""
        for _ in range(6):
            self.type("faster")

    def messages(self, kind: str) -> list[dict[str, object]]:
        told = (json.loads(line) for line in self.lines.all())
        return [message for message in told if message["type"] == kind]

    def heard(self) -> list[str]:
        return [str(message["text"]) for message in self.messages("heard")]

    def places(self) -> list[object]:
        """Return the places that were told, in order, each only where it changed."""
        told = [message["at"] for message in self.messages("say") if message.get("at")]
        return [at for before, at in zip([None, *told], told, strict=False) if at != before]

    def close(self) -> int:
        assert self.program.stdin is not None
        assert self.program.stdout is not None
        self.program.stdin.close()
        status = self.program.wait(20)
        self.lines.join()
        self.program.stdout.close()
        return status


@pytest.fixture
def room(tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[AudioRoom]:
    opened = AudioRoom(tmp_path, leak_db=getattr(request, "param", None))
    yield opened
    opened.close()


@pytest.mark.parametrize("room", [-10], indirect=True)
def test_a_maker_is_led_by_voice_alone(room: AudioRoom, tmp_path: Path) -> None:
    loudspeaker = room.loudspeaker()
    session = Session(tmp_path / "home", dict(room.environment))
    session.lines.wait_for("listening", 40)
    session.talk_fast()
    answered = []
    orders = ("next row", "carry on", "go back", "repeat that", "where am i")
    for said in orders:
        loudspeaker.wait_for_hush(0.9)
        before, spoken = session.lines.count(), loudspeaker.seconds_heard
        room.say(said, VISITOR)
        session.lines.wait_for('"heard"', 5, after=before)
        loudspeaker.wait_for_speech(spoken)
        answered.append(session.heard()[-1])
    loudspeaker.wait_for_hush()

    assert [same_order(heard) for heard in answered] == [same_order(said) for said in orders]
    assert session.heard() == answered
    assert loudspeaker.seconds_heard > 10
    assert session.close() == 0
    assert len(session.places()) == 4  # the start, two on, one back


@pytest.mark.slow
@pytest.mark.parametrize("room", [-10], indirect=True)
def test_twenty_steps_with_the_loudspeaker_in_the_microphone_and_never_a_move_of_its_own(
    room: AudioRoom, tmp_path: Path
) -> None:
    silent = Session(tmp_path / "silent", dict(room.environment), "--no-speech", "--no-ear")
    for typed in TWENTY_STEPS:
        silent.type(typed)
    assert silent.close() == 0

    loudspeaker = room.loudspeaker()
    session = Session(tmp_path / "home", dict(room.environment))
    session.lines.wait_for("listening", 40)
    session.talk_fast()
    for typed in TWENTY_STEPS:
        loudspeaker.wait_for_hush(0.9)
        spoken = loudspeaker.seconds_heard
        session.type(typed)
        loudspeaker.wait_for_speech(spoken)
    loudspeaker.wait_for_hush()
    heard, spoken = session.heard(), loudspeaker.seconds_heard
    assert session.close() == 0

    assert heard == []
    assert session.places() == silent.places()
    assert spoken > 30
