"""What goes to the loudspeaker, block by block, on no clock at all."""

from __future__ import annotations

import numpy as np

from coach.adapters.sound_stream import HUSH, SoundStream
from coach.adapters.tones import tone_samples

RATE = 22_050
BLOCK = 220


class Listener:
    """A stream and what it told."""

    def __init__(self) -> None:
        self.news: list[tuple[str, int]] = []
        self.stream = SoundStream(RATE, lambda what, line: self.news.append((what, line)))

    def line(self, number: int, *levels: int, samples: int = 1000) -> None:
        self.stream.begin(number)
        for level in levels:
            self.stream.feed(number, np.full(samples, level, np.int16))
        self.stream.finish(number)

    def hear(self, blocks: int) -> np.ndarray:
        return np.concatenate([self.stream.fill(BLOCK) for _ in range(blocks)]).astype(np.int32)


def test_between_sounds_there_is_a_hush_and_never_digital_silence() -> None:
    heard = Listener().hear(100)

    assert np.abs(heard).max() <= HUSH
    assert (heard != 0).mean() > 0.9


def test_every_sample_of_a_line_sounds_once() -> None:
    listener = Listener()
    listener.line(1, 4000, 8000)

    heard = listener.hear(20)

    assert (np.abs(heard - 4000) <= HUSH).sum() == 1000
    assert (np.abs(heard - 8000) <= HUSH).sum() == 1000
    assert listener.news == [("started", 1), ("ended", 1)]


def test_a_cut_line_is_gone_after_5_ms_without_a_click() -> None:
    listener = Listener()
    listener.line(1, 8000, samples=5000)
    listener.hear(3)

    listener.stream.cut()
    heard = listener.hear(5)

    assert np.abs(heard[RATE * 5 // 1000 + 1 :]).max() <= HUSH
    assert np.abs(np.diff(heard)).max() < 200
    assert listener.news == [("started", 1), ("cut", 1)]


def test_a_line_cut_before_it_began_leaves_no_sound() -> None:
    listener = Listener()
    listener.line(1, 8000)

    listener.stream.cut()

    assert np.abs(listener.hear(5)).max() <= HUSH
    assert listener.news == [("cut", 1)]


def test_samples_for_a_line_that_was_cut_are_dropped() -> None:
    listener = Listener()
    listener.line(1, 8000)
    listener.line(2, 4000)
    listener.stream.feed(1, np.full(500, 9000, np.int16))
    listener.stream.finish(1)

    heard = listener.hear(20)

    assert np.abs(heard).max() <= 4000 + HUSH
    assert listener.news == [("cut", 1), ("started", 2), ("ended", 2)]


def test_a_tone_sounds_before_speech_and_never_under_it() -> None:
    listener = Listener()
    listener.stream.tone("forward")
    listener.line(1, 8000)
    tone = tone_samples("forward", RATE)

    heard = listener.hear(30)

    assert np.abs(heard[: len(tone)] - tone).max() <= HUSH
    after = heard[len(tone) : len(tone) + 1000]
    assert np.abs(after - 8000).max() <= HUSH


def test_a_line_that_waits_for_its_next_piece_goes_on_when_it_comes() -> None:
    listener = Listener()
    listener.stream.begin(1)
    listener.stream.feed(1, np.full(300, 5000, np.int16))
    listener.hear(10)
    assert listener.news == [("started", 1)]

    listener.stream.feed(1, np.full(300, 6000, np.int16))
    listener.stream.finish(1)
    heard = listener.hear(10)

    assert (np.abs(heard - 6000) <= HUSH).sum() == 300
    assert listener.news == [("started", 1), ("ended", 1)]


def test_a_pause_holds_the_line_and_loses_nothing() -> None:
    listener = Listener()
    listener.line(1, 8000, samples=2000)
    first = listener.hear(3)
    listener.stream.pause(True)
    held = listener.hear(10)
    listener.stream.pause(False)
    rest = listener.hear(20)

    sounded = [(np.abs(part - 8000) <= HUSH).sum() for part in (first, held, rest)]
    assert sounded == [660, 0, 1340]


def test_loudness_scales_speech_and_keeps_loud_speech_whole() -> None:
    listener = Listener()
    listener.stream.set_gain(0.5)
    listener.line(1, 30_000)
    assert np.abs(listener.hear(2) - 15_000).max() <= HUSH

    listener.stream.set_gain(1.0)
    listener.line(2, 32_767)
    assert listener.hear(2).max() == 32_767  # the hush never wraps it round
