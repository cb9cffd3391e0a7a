"""A voice and a loudspeaker without sound: every text is one steady level, so a block tells what sounds.

The loudspeaker is the real mixing of `SoundStream`, driven by a clock that the test moves.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence

import numpy as np

from coach.adapters.mouth import Mouth
from coach.adapters.sound_out import SoundNews
from coach.adapters.sound_stream import HUSH, SoundStream
from coach.adapters.speech_samples import Speech
from coach.adapters.voice_pyttsx3 import SpeechLostError, VoiceChoice
from coach.adapters.voice_settings import Hooks, VoiceSettings
from coach.ports import SaidWord
from coach.wording.words import Words

RATE = 1000  # samples a second: enough for levels
STEP = 40  # between the levels of two texts; the hush is 16 at most
BLOCK = 10  # samples: 10 ms, as on a real loudspeaker


class FakeVoice:
    """Says every text as a level of its own for 60 ms a word; fails when it is told to."""

    def __init__(self) -> None:
        self.made: list[str] = []
        self.asked: list[tuple[str, int, str]] = []
        self.faults: deque[SpeechLostError | None] = deque()
        self.closed = False
        self._levels: dict[str, int] = {}

    @property
    def pid(self) -> int | None:
        return None

    def level(self, text: str) -> int:
        return self._levels.setdefault(text, 200 + STEP * len(self._levels))

    def knows(self, level: int) -> bool:
        """Return whether some text has this level; two at once have none."""
        return level in self._levels.values()

    def text_at(self, level: int) -> str:
        return next(text for text, own in self._levels.items() if own == level)

    def make(self, text: str, rate: int, voice: str) -> Speech:
        self.asked.append((text, rate, voice))
        fault = self.faults.popleft() if self.faults else None
        if fault is not None:
            raise fault
        self.made.append(text)
        length = len(text.split()) * RATE * 6 // 100
        return Speech(np.full(length, self.level(text), np.int16), RATE)

    def voices(self) -> tuple[VoiceChoice, ...]:
        return ()

    def close(self) -> None:
        self.closed = True


class FakeSound:
    """A loudspeaker whose time passes only in `pass_time`; keeps what sounded, block by block."""

    def __init__(self) -> None:
        self.mouth: Mouth | None = None
        self.stream = SoundStream(RATE, self._news)
        self.blocks: list[int] = []
        self.restarts = 0
        self.tones: list[str] = []
        self.gain = 1.0
        self.deaf = False  # takes everything, plays nothing, says nothing

    @property
    def pid(self) -> int | None:
        return None

    def begin(self, line: int) -> None:
        self.stream.begin(line)

    def feed(self, line: int, speech: Speech) -> None:
        self.stream.feed(line, speech.samples)

    def finish(self, line: int) -> None:
        self.stream.finish(line)

    def cut(self) -> None:
        self.stream.cut()

    def tone(self, kind: str) -> None:
        self.tones.append(kind)

    def pause(self, paused: bool) -> None:
        self.stream.pause(paused)

    def set_gain(self, gain: float) -> None:
        self.gain = gain  # the levels stay readable

    def restart(self) -> None:
        self.restarts += 1

    def close(self) -> None:
        pass

    def lose(self) -> None:
        self.stream.cut()
        self.tell(SoundNews("lost", detail="headphones"))

    def come_back(self) -> None:
        self.tell(SoundNews("opened", detail="headphones"))

    def pass_time(self, seconds: float) -> None:
        for _ in range(0 if self.deaf else round(seconds * RATE / BLOCK)):
            self.blocks.append(self.level_of(self.stream.fill(BLOCK)))

    @staticmethod
    def level_of(block: np.ndarray) -> int:
        """Return the level of a steady block, hush taken off; 0 for a pause, -1 where it changes."""
        if int(block.max()) - int(block.min()) > 2 * HUSH:
            return -1
        return round(float(np.median(block)) / STEP) * STEP

    def tell(self, news: SoundNews) -> None:
        if self.mouth is not None:
            self.mouth.take(news)

    def _news(self, what: str, line: int) -> None:
        self.tell(SoundNews(what, line=line))


class Room:
    """A mouth with its fakes, worked by hand: nothing happens but what the test lets happen."""

    def __init__(self, settings: VoiceSettings | None = None, *, opened: bool = True) -> None:
        self.time = 0.0
        self.told: list[str] = []
        self.heard: list[str] = []  # "say TEXT" and "silent", as the ear is told
        self.saying: list[SaidWord] = []
        self.voice = FakeVoice()
        self.sound = FakeSound()
        hooks = Hooks(
            tells=lambda words: self.told.append(words.full),
            speaking=lambda text, _seconds: self.heard.append(text),
            saying=self.saying.extend,
            silent=lambda: self.heard.append(""),
        )
        self.mouth = Mouth(
            voice=self.voice,
            settings=settings or VoiceSettings(),
            hooks=hooks,
            clock=lambda: self.time,
        )
        self.sound.mouth = self.mouth
        self.mouth.start(self.sound, threads=False)
        if opened:
            self.sound.come_back()

    def say(self, text: str) -> None:
        self.mouth.say(Words(text, text))

    def prepare(self, *texts: str) -> None:
        self.mouth.prepare([Words(text, text) for text in texts])

    def work(self, pieces: int = 1_000) -> None:
        """Let the voice make up to *pieces* pieces."""
        for _ in range(pieces):
            if not self.mouth.work():
                break
        while self.mouth.call():
            pass

    def pass_time(self, seconds: float) -> None:
        began, blocks = self.time, round(seconds * RATE / BLOCK)
        for block in range(blocks):
            self.time = began + (block + 1) * BLOCK / RATE
            self.sound.pass_time(BLOCK / RATE)
        self.time = began + seconds
        while self.mouth.call():
            pass

    def listen(self, seconds: float = 30.0) -> Sequence[str]:
        """Return the texts that sound within *seconds*, in order, each once a time it sounds."""
        before = len(self.sound.blocks)
        self.pass_time(seconds)
        return self.sounded(self.sound.blocks[before:])

    def sounded(self, blocks: Sequence[int]) -> Sequence[str]:
        texts: list[str] = []
        last = 0
        for level in blocks:
            if level > 0 and level != last:
                assert self.voice.knows(level), "two texts sounded at once"
                texts.append(self.voice.text_at(level))
            last = last if level < 0 else level
        return texts
