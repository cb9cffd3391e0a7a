"""The recogniser's sound features in numpy: 40 cepstra every 10 ms, as conf/mfcc.conf sets them.

Method and constants are those that the Kaldi toolkit publishes for its MFCC (25 ms frames, window
(0.5 - 0.5 cos)^0.85, pre-emphasis 0.97, lifter 22). `tests/ear` holds the numbers to the engine's.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import numpy.typing as npt

RATE = 16_000
FRAME = 400
STEP = 160
CEPSTRA = 40
FFT = 512
LOW_HZ, HIGH_HZ = 20.0, 7600.0
PRE_EMPHASIS = 0.97
FLOOR = 1.1920929e-07

Table = npt.NDArray[np.float64]


def _mel(hertz: npt.NDArray[np.floating[Any]] | float) -> Table:
    return np.asarray(1127.0 * np.log(1.0 + np.asarray(hertz) / 700.0))


def mel_bank(warp: float = 1.0) -> Table:
    """Return the filters, (40, 257). *warp* above 1 hears a shorter vocal tract, below 1 a longer."""
    half = FFT // 2
    low, high = float(_mel(LOW_HZ)), float(_mel(HIGH_HZ))
    width = (high - low) / (CEPSTRA + 1)
    bins = _mel(RATE / FFT * np.arange(half) / warp)
    filters = np.zeros((CEPSTRA, half + 1))
    for band in range(CEPSTRA):
        left = low + band * width
        rising, falling = (bins - left) / width, (left + 2 * width - bins) / width
        filters[band, :half] = np.maximum(np.minimum(rising, falling), 0.0)
    return filters


def cosine_transform() -> Table:
    """Return the liftered cosine transform, (40, 40)."""
    place = np.arange(CEPSTRA) + 0.5
    table = np.zeros((CEPSTRA, CEPSTRA))
    table[0] = math.sqrt(1 / CEPSTRA)
    for row in range(1, CEPSTRA):
        table[row] = math.sqrt(2 / CEPSTRA) * np.cos(math.pi / CEPSTRA * place * row)
    lifter = 1 + 0.5 * 22 * np.sin(math.pi * np.arange(CEPSTRA) / 22)
    return table * lifter[:, None]


def window() -> Table:
    """Return the frame window, (400,)."""
    turns = 2 * math.pi * np.arange(FRAME) / (FRAME - 1)
    return np.asarray((0.5 - 0.5 * np.cos(turns)) ** 0.85)


def frame_count(samples: int) -> int:
    """Return how many whole frames fit into a number of samples."""
    return 0 if samples < FRAME else 1 + (samples - FRAME) // STEP


def cepstra(
    samples: npt.NDArray[np.number], *, dither: float = 1.0, seed: int = 0
) -> npt.NDArray[np.float32]:
    """Return (frames, 40) cepstra of 16 kHz samples on the 16-bit scale."""
    sound = np.asarray(samples, np.float64)
    count = frame_count(sound.size)
    if not count:
        return np.zeros((0, CEPSTRA), np.float32)
    frames = np.lib.stride_tricks.sliding_window_view(sound, FRAME)[::STEP][:count].copy()
    frames += np.random.default_rng(seed).standard_normal(frames.shape) * dither
    frames -= frames.mean(axis=1, keepdims=True)
    before = np.concatenate([frames[:, :1], frames[:, :-1]], axis=1)
    power = np.abs(np.fft.rfft((frames - PRE_EMPHASIS * before) * window(), FFT, axis=1)) ** 2
    energies = np.log(np.maximum(power @ mel_bank().T, FLOOR))
    return np.asarray(energies @ cosine_transform().T, np.float32)
