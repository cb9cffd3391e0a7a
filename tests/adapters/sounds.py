"""Sounds for the ear's tests, made here: silence, noise, and the phrase that the coach carries."""

from __future__ import annotations

import wave
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

import coach.adapters

RATE = 16_000
Samples = NDArray[np.int16]


def silence(seconds: float) -> Samples:
    return np.zeros(round(seconds * RATE), np.int16)


def noise(seconds: float, level: float, seed: int = 7) -> Samples:
    """White noise with *level* as its root mean square."""
    made = np.random.default_rng(seed).standard_normal(round(seconds * RATE))
    return (made * level).astype(np.int16)


def spoken() -> Samples:
    """ "Where am I", in a synthetic voice: the recording of the self-test."""
    file = Path(coach.adapters.__path__[0]) / "self_test.wav"
    with wave.open(str(file)) as opened:
        return np.frombuffer(opened.readframes(opened.getnframes()), np.int16)


def write_wav(file: Path, samples: Samples, *, rate: int = RATE, channels: int = 1) -> Path:
    """Write *samples* as a 16-bit WAV, the same in every channel; *rate* is only what it says."""
    with wave.open(str(file), "wb") as opened:
        opened.setnchannels(channels)
        opened.setsampwidth(2)
        opened.setframerate(rate)
        opened.writeframes(np.repeat(samples, channels).tobytes())
    return file
