"""What was played and what is heard are brought in step; then the canceller takes the echo out."""

from __future__ import annotations

from importlib.util import find_spec

import numpy as np
import pytest

from coach.adapters.echo_canceller import FRAME, LAG, EchoCanceller, WebRtcFrames
from coach.adapters.speech_samples import Samples
from coach.adapters.voice_activity import RATE

BLOCK = 320  # samples: 20 ms


class Writing:
    """Takes nothing out, and notes what it is given together."""

    def __init__(self) -> None:
        self.played_frames: list[int] = []
        self.heard_frames: list[int] = []

    def played(self, frame: Samples) -> None:
        assert len(frame) == FRAME
        self.played_frames.append(int(frame[0]))

    def cleaned(self, frame: Samples) -> Samples:
        assert len(frame) == FRAME
        self.heard_frames.append(int(frame[0]))
        return frame


def level(value: int, samples: int = BLOCK) -> Samples:
    return np.full(samples, value, np.int16)


def test_each_hundredth_that_is_heard_meets_what_was_played_three_hundredths_before() -> None:
    frames = Writing()
    canceller = EchoCanceller(frames)
    assert LAG == 0.03
    for block in range(10):  # block n is played from 50 + n/50 s on, and heard until 50 + (n+1)/50
        canceller.play(level(100 + block), RATE, 50 + block / 50)
        canceller.clean(level(200 + block), 50 + (block + 1) / 50)

    # Heard frame 2n and 2n+1 belong to block n; the frame three before it was played.
    assert frames.heard_frames == [200 + at // 2 for at in range(20)]
    assert frames.played_frames == [0, 0, 0, *(100 + at // 2 for at in range(17))]


def test_blocks_that_come_late_and_in_heaps_keep_their_step_by_being_counted() -> None:
    frames = Writing()
    canceller = EchoCanceller(frames)
    for block in range(10):
        late = 0.3 if block % 3 == 2 else 0.0  # a busy machine
        canceller.play(level(100 + block), RATE, 50 + block / 50 + late)
        canceller.clean(level(200 + block), 50 + (block + 1) / 50 + late)

    assert frames.played_frames == [0, 0, 0, *(100 + at // 2 for at in range(17))]


def test_a_loudspeaker_that_goes_on_elsewhere_in_time_is_believed_after_half_a_second() -> None:
    frames = Writing()
    canceller = EchoCanceller(frames)
    for block in range(100):  # from block 30 on everything is played 0.3 s later than counted
        jump = 0.3 if block >= 30 else 0.0
        canceller.play(level(100 + block), RATE, 50 + block / 50 + jump)
        canceller.clean(level(0), 50 + (block + 1) / 50)

    # At last what is heard at a time meets what was played 0.03 s before it: 16 blocks earlier.
    assert frames.played_frames[-1] == 100 + 99 - 15 - 1


def test_after_a_gap_the_clock_is_right_again() -> None:
    frames = Writing()
    canceller = EchoCanceller(frames)
    canceller.play(level(100), RATE, 50.0)
    canceller.clean(level(200), 50.02)
    canceller.play(level(110), RATE, 60.0)
    canceller.play(level(111), RATE, 60.02)
    canceller.clean(level(210), 60.02)
    canceller.clean(level(211), 60.04)

    assert frames.played_frames == [0, 0, 0, 0, 0, 110]


def test_what_is_no_whole_hundredth_waits_for_the_next_block() -> None:
    frames = Writing()
    canceller = EchoCanceller(frames)

    assert len(canceller.clean(level(1, 250), 50.0)) == 160
    assert len(canceller.clean(level(1, 250), 50.0156)) == 320


def test_a_loudspeaker_of_another_rate_is_brought_to_the_ears() -> None:
    frames = Writing()
    canceller = EchoCanceller(frames)
    for block in range(50):  # a second at 48 kHz, in blocks of 20 ms
        canceller.play(level(1_000, 960), 48_000, 50 + block / 50)
    canceller.clean(level(0, 16_000), 51.0)

    assert frames.played_frames[20:90] == pytest.approx([1_000] * 70, abs=2)


@pytest.mark.skipif(
    find_spec("livekit") is None, reason="LEFT OUT: the optional package livekit is not installed"
)
def test_the_webrtc_module_takes_the_echo_out_and_leaves_the_near_voice() -> None:
    """Noise stands for the coach; its echo comes 60 ms later at half its strength."""
    random = np.random.default_rng(5)
    seconds = 8
    played = (random.standard_normal(seconds * RATE) * 3_000).astype(np.int16)
    bursts = np.repeat(random.uniform(0.1, 1.0, seconds * 10), RATE // 10)
    played = (played * bursts).astype(np.int16)
    echo = np.zeros_like(played)
    echo[960:] = played[:-960] // 2
    near = np.zeros(len(played))
    tone = np.sin(2 * np.pi * 440 * np.arange(RATE) / RATE) * 3_000
    near[6 * RATE : 7 * RATE] = tone
    canceller = EchoCanceller(WebRtcFrames())
    cleaned = []
    for at in range(0, len(played), BLOCK):
        now = 50 + at / RATE
        canceller.play(played[at : at + BLOCK], RATE, now)
        heard = (echo[at : at + BLOCK] + near[at : at + BLOCK]).astype(np.int16)
        cleaned.append(canceller.clean(heard, now + BLOCK / RATE))
    whole = np.concatenate(cleaned).astype(np.float64)

    def decibels(samples: np.ndarray) -> float:
        return 10 * float(np.log10(np.mean(samples**2) + 1e-3))

    alone = slice(4 * RATE, 6 * RATE)
    assert decibels(whole[alone]) < decibels(echo[alone].astype(np.float64)) - 20
    assert decibels(whole[6 * RATE : 7 * RATE]) > decibels(tone) - 6
