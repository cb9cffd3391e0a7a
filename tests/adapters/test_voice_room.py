"""The real voice through the real PortAudio into a sound server: heard, cut, lost and back."""

from __future__ import annotations

import os
import random
import signal
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from coach.adapters.mouth import Mouth
from coach.adapters.sound_out import PlayedBlock
from coach.adapters.speaking import list_voices, open_speaker
from coach.adapters.voice_settings import Hooks, VoiceSettings
from coach.ports import Missing
from coach.wording.words import Words
from tests.room.audio_room import AudioRoom

pytestmark = pytest.mark.room

ROW = "Row 6. Front post double crochet around each of the next 3 stitches. That makes 77."
LOUD = 500  # of 32767: speech, not the hush


class Listener:
    """Everything the mouth tells, with its time, and every block it plays."""

    def __init__(self) -> None:
        self.events: list[tuple[float, str, str]] = []
        self.blocks: list[tuple[float, int]] = []
        self._changed = threading.Condition()

    def hooks(self) -> Hooks:
        return Hooks(
            tells=lambda words: self._take("told", words.full),
            speaking=lambda text, _seconds: self._take("speaking", text),
            silent=lambda: self._take("silent", ""),
            played=self._played,
        )

    def wait_for(
        self, kind: str, part: str = "", *, seconds: float = 20, after: float = 0
    ) -> float:
        """Return when *kind* was told after the time *after*."""
        limit = time.monotonic() + seconds
        with self._changed:
            while True:
                for at, what, text in self.events:
                    if at >= after and what == kind and part in text:
                        return at
                left = limit - time.monotonic()
                assert left > 0, f"{kind} {part!r} never came: {self.events}"
                self._changed.wait(left)

    def wait_for_sound(self, after: float, seconds: float = 20) -> float:
        limit = time.monotonic() + seconds
        while time.monotonic() < limit:
            for at, level in list(self.blocks):
                if at >= after and level > LOUD:
                    return at
            time.sleep(0.02)
        raise AssertionError("no sound came")

    def last_sound(self) -> float:
        return max((at for at, level in list(self.blocks) if level > LOUD), default=0.0)

    def _take(self, kind: str, text: str) -> None:
        with self._changed:
            self.events.append((time.monotonic(), kind, text))
            self._changed.notify_all()

    def _played(self, block: PlayedBlock) -> None:
        samples = np.frombuffer(block.samples, np.int16).astype(np.int32)
        self.blocks.append((block.at, int(np.abs(samples).max())))


@pytest.fixture
def room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[AudioRoom]:
    opened = AudioRoom(tmp_path)
    for name, value in opened.environment.items():
        if os.environ.get(name) != value:
            monkeypatch.setenv(name, value)
    yield opened
    opened.close()


@pytest.fixture
def opened(room: AudioRoom) -> Iterator[tuple[Mouth, Listener]]:
    listener = Listener()
    mouth = open_speaker(VoiceSettings(loudness=100), hooks=listener.hooks())
    assert not isinstance(mouth, Missing)
    yield mouth, listener
    mouth.close()


def words(text: str) -> Words:
    return Words(text, text)


def test_what_is_said_is_heard_at_the_loudspeaker(
    room: AudioRoom, opened: tuple[Mouth, Listener]
) -> None:
    mouth, listener = opened
    recorder = room.loudspeaker()

    mouth.tone("forward")
    mouth.say(words(ROW))
    listener.wait_for("speaking", ROW)
    recorder.wait_for_speech(0.0)
    listener.wait_for("silent")
    recorder.wait_for_hush()

    # 16 words at 150 a minute are 6.4 s; a new stream may lose its first two seconds here
    assert recorder.seconds_heard > 3.0


def test_stop_and_a_new_utterance_cut_within_a_few_blocks(
    opened: tuple[Mouth, Listener],
) -> None:
    """User need L08: a long utterance, cut five times over."""
    mouth, listener = opened
    for _ in range(5):
        start = time.monotonic()
        mouth.say(words(" ".join([ROW] * 3)))
        listener.wait_for_sound(start)
        time.sleep(0.3)

        stopped = time.monotonic()
        mouth.stop()
        listener.wait_for("silent", after=stopped)
        time.sleep(0.5)

        assert listener.last_sound() < listener.wait_for("silent", after=stopped) + 0.05


def test_many_orders_in_any_order_end_in_the_last_thing_said(
    opened: tuple[Mouth, Listener],
) -> None:
    mouth, listener = opened
    chance = random.Random(8)  # noqa: S311 - the same orders every time
    for number in range(60):
        kind = chance.choice(["say", "say", "stop", "prepare", "tone"])
        if kind == "say":
            mouth.say(words(f"Group {number} of 60. Single crochet."))
        elif kind == "stop":
            mouth.stop()
        elif kind == "prepare":
            mouth.prepare([words(f"Group {number + more} of 60.") for more in range(3)])
        else:
            mouth.tone(chance.choice(["forward", "back", "done", "not understood"]))
        time.sleep(chance.random() * 0.05)

    last = time.monotonic()
    mouth.say(words("That makes 77."))

    listener.wait_for("speaking", "That makes 77.", after=last)
    listener.wait_for_sound(last)
    listener.wait_for("silent", after=listener.wait_for("speaking", "77", after=last) + 0.5)
    assert [text for _, what, text in listener.events if what == "told"] == []


def test_a_loudspeaker_that_goes_is_told_and_speech_goes_on_when_it_is_back(
    room: AudioRoom, opened: tuple[Mouth, Listener]
) -> None:
    mouth, listener = opened
    mouth.say(words(ROW))
    listener.wait_for_sound(0.0)

    gone = time.monotonic()
    room.unplug_microphone()  # the whole sound server, the loudspeaker with it
    listener.wait_for("told", "The loudspeaker is gone", after=gone)
    room.plug_in_again()
    back = listener.wait_for("told", "The loudspeaker is back", after=gone)

    listener.wait_for("speaking", ROW, after=back - 0.5)
    listener.wait_for_sound(back)


def test_a_loudspeaker_that_hangs_is_told_within_the_utterance(
    room: AudioRoom, opened: tuple[Mouth, Listener]
) -> None:
    """No error comes here: the sound server just takes no more."""
    mouth, listener = opened
    mouth.say(words(ROW))
    listener.wait_for_sound(0.0)
    time.sleep(4.5)  # a new stream is given time to settle
    mouth.say(words(ROW))
    listener.wait_for_sound(time.monotonic())
    server = int((Path(room.environment["AUDIO_ROOM"]) / "pid").read_text())

    stopped = time.monotonic()
    os.kill(server, signal.SIGSTOP)
    try:
        listener.wait_for("told", "The loudspeaker is gone", after=stopped, seconds=5)
    finally:
        os.kill(server, signal.SIGCONT)
    back = listener.wait_for("told", "The loudspeaker is back", after=stopped, seconds=30)

    listener.wait_for_sound(back)


def test_a_voice_that_is_ended_from_outside_is_told_and_speaks_again(
    opened: tuple[Mouth, Listener],
) -> None:
    mouth, listener = opened
    mouth.say(words("Row 6."))
    listener.wait_for("silent")
    pids = mouth.worker_pids()
    os.kill(pids[0], signal.SIGKILL)

    start = time.monotonic()
    mouth.say(words("Row 7, never said before."))

    listener.wait_for("told", "Speech is off for a moment", after=start)
    listener.wait_for("told", "Speech is back", after=start)
    listener.wait_for_sound(start)


def test_a_sound_process_that_is_ended_from_outside_is_replaced(
    opened: tuple[Mouth, Listener],
) -> None:
    mouth, listener = opened
    mouth.say(words(ROW))
    listener.wait_for_sound(0.0)
    os.kill(mouth.worker_pids()[1], signal.SIGKILL)

    back = listener.wait_for("told", "The loudspeaker is back")
    listener.wait_for_sound(back)


def test_no_sound_server_is_told_in_words(room: AudioRoom) -> None:
    """User need L10: an engine that reports success without a sound server."""
    room.unplug_microphone()

    missing = open_speaker()

    assert isinstance(missing, Missing)
    assert "nothing can be spoken" in missing.reason
    assert missing.remedy
    room.plug_in_again()


def test_the_voices_can_be_listed_without_a_loudspeaker() -> None:
    assert any(voice.id == "gmw/en-us" for voice in list_voices())


def test_nothing_is_left_running_after_closing(room: AudioRoom) -> None:
    mouth = open_speaker()
    assert not isinstance(mouth, Missing)
    mouth.say(words(ROW))
    pids = mouth.worker_pids()

    mouth.close()

    for pid in pids:
        with pytest.raises(OSError, match="No such process"):
            os.kill(pid, 0)
