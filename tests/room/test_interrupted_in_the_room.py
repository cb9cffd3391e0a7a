"""The coach is interrupted in the room, its loudspeaker heard in the microphone, echo cancelled."""

from __future__ import annotations

import time
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path

import pytest

from tests.room.audio_room import AudioRoom
from tests.room.test_coach_in_the_room import VISITOR, Session

pytestmark = [
    pytest.mark.room,
    pytest.mark.slow,
    pytest.mark.skipif(
        find_spec("livekit") is None,
        reason="LEFT OUT: the optional package livekit isn't installed",
    ),
]
SETTINGS = 'while_speaking = "stop words"\ncancel_echo = true\n'


@pytest.fixture
def room(tmp_path: Path) -> Iterator[AudioRoom]:
    opened = AudioRoom(tmp_path, leak_db=-10)
    yield opened
    opened.close()


def test_across_the_coachs_voice_nothing_is_taken_but_what_was_said(
    room: AudioRoom, tmp_path: Path
) -> None:
    """Its help names many commands. How many of the stops are heard depends on the machine's load."""
    home = tmp_path / "home"
    home.mkdir()
    (home / "settings.toml").write_text(SETTINGS, encoding="utf-8")
    loudspeaker = room.loudspeaker()
    session = Session(home, dict(room.environment))
    session.lines.wait_for("listening", 40)
    for number, across in enumerate((False, False, *[True] * 6)):
        loudspeaker.wait_for_hush(1.2)
        spoken = loudspeaker.seconds_heard
        session.type("repeat" if number % 2 else "help")  # "help" twice at once is the whole list
        loudspeaker.wait_for_speech(spoken)
        if across:
            time.sleep(1.0)  # well into its speech
            room.say("stop talking", VISITOR)
        loudspeaker.wait_for_hush()
    heard = session.heard()
    assert session.close() == 0

    assert set(heard) <= {"stop talking"}, "some are missed; never is it another word"
    assert len(session.places()) == 1, "nothing moved"
