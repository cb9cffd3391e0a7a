"""The coach is interrupted in the room, its loudspeaker heard in the microphone, echo cancelled."""

from __future__ import annotations

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


def test_the_coach_is_stopped_by_voice_and_never_by_its_own(
    room: AudioRoom, tmp_path: Path
) -> None:
    """Its help names nearly every command. Some stops are missed; none is made up."""
    home = tmp_path / "home"
    home.mkdir()
    (home / "settings.toml").write_text(SETTINGS, encoding="utf-8")
    loudspeaker = room.loudspeaker()
    session = Session(home, dict(room.environment))
    session.lines.wait_for("listening", 40)
    for across in (False, False, True, True, True, True, True):
        loudspeaker.wait_for_hush(1.2)
        spoken = loudspeaker.seconds_heard
        session.type("help")
        loudspeaker.wait_for_speech(spoken)
        if across:
            room.say("stop talking", VISITOR)
        loudspeaker.wait_for_hush()
    heard = session.heard()
    assert session.close() == 0

    assert heard.count("stop talking") >= 2  # of 5; measured: 7 of 10
    assert set(heard) == {"stop talking"}
    assert len(session.places()) == 1, "nothing moved"
