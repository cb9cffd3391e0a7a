"""Speech as samples: made of a sound file, trimmed, checked for sound, brought to a rate.

Makes no speech and plays none. Every sample here is one 16-bit mono number.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from coach.adapters.sound_file import RawSound, take_apart

Samples = NDArray[np.int16]
FAINT = 100  # of 32767 (-50 dB): below this a sample counts as silence; espeak-ng peaks at 25,000


@dataclass(frozen=True, slots=True)
class Speech:
    """Samples of one voice, with the number of them a second."""

    samples: Samples
    rate: int

    @property
    def seconds(self) -> float:
        return len(self.samples) / self.rate


def from_file_bytes(content: bytes) -> Speech:
    """Return the speech in *content*, a whole WAV or AIFF file, as mono.

    Raises:
        NotSoundError: not such a file, cut short, or empty.
    """
    raw = take_apart(content)
    whole = _whole_numbers(raw)
    frames = len(whole) // raw.channels
    by_channel = whole[: frames * raw.channels].reshape(frames, raw.channels)
    return Speech(by_channel.mean(axis=1).astype(np.int16), raw.rate)


def _whole_numbers(raw: RawSound) -> Samples:
    """Return the samples of all channels, in turn, as 16-bit numbers."""
    data = raw.data[: len(raw.data) // (raw.bits // 8) * (raw.bits // 8)]
    if raw.floating:
        numbers: NDArray[np.float64] = np.frombuffer(data, f"{raw.order}f{raw.bits // 8}")
        return (np.clip(np.nan_to_num(numbers), -1.0, 1.0) * 32767).astype(np.int16)
    if (
        raw.bits == 8 and raw.order == "<"
    ):  # the bytes of a WAV are unsigned, those of an AIFF signed
        return (np.frombuffer(data, "u1").astype(np.int16) - 128) * 256
    if raw.bits == 8:
        return np.frombuffer(data, "i1").astype(np.int16) * 256
    # Of 24 and 32 bits the two highest bytes are kept: 16 bits are all that an ear needs.
    parts = np.frombuffer(data, "u1").reshape(-1, raw.bits // 8)
    highest = parts[:, -2:] if raw.order == "<" else parts[:, :2]
    return np.frombuffer(np.ascontiguousarray(highest).tobytes(), f"{raw.order}i2").astype(np.int16)


def trimmed(speech: Speech) -> Speech:
    """Return *speech* without the silence before and after it, a breath of 5 ms left."""
    loud = np.flatnonzero(_level(speech) > FAINT)
    if not len(loud):
        return Speech(speech.samples[:0], speech.rate)
    breath = speech.rate // 200
    first, last = max(0, int(loud[0]) - breath), int(loud[-1]) + breath + 1
    return Speech(speech.samples[first:last], speech.rate)


def is_silent(speech: Speech) -> bool:
    """Return whether nothing would be heard: under 10 ms of sound in all."""
    return int((_level(speech) > FAINT).sum()) < speech.rate // 100


def silence(seconds: float, rate: int) -> Speech:
    """Return *seconds* of nothing; the stream lays its hush over it."""
    return Speech(np.zeros(round(seconds * rate), np.int16), rate)


def resampled(speech: Speech, rate: int) -> Speech:
    """Return *speech* at *rate* samples a second."""
    if rate == speech.rate or not len(speech.samples):
        return Speech(speech.samples, rate)
    import soxr  # loads a library, and most devices take the voice's own rate

    return Speech(np.asarray(soxr.resample(speech.samples, speech.rate, rate), np.int16), rate)


def _level(speech: Speech) -> NDArray[np.int32]:
    return np.abs(speech.samples.astype(np.int32))
