"""Sound files of every usual coding give the same samples.

The codings are those of the WAVE format (Multimedia Programming Interface 1.0 and its extensible
form): 1 whole numbers, 3 floating point, 0xFFFE "see below". Written here by hand from memory.
"""

from __future__ import annotations

import struct

import numpy as np
import pytest

from coach.adapters.sound_file import NotSoundError
from coach.adapters.speech_samples import from_file_bytes

WAVE = np.array([0, 1000, -1000, 32000, -32000, 256], np.int16)


def wav(
    data: bytes, bits: int, *, coding: int = 1, channels: int = 1, extensible: bool = False
) -> bytes:
    """A WAV file at 16 kHz."""
    frame = channels * bits // 8
    named = 0xFFFE if extensible else coding
    described = struct.pack("<HHIIHH", named, channels, 16000, 16000 * frame, frame, bits)
    if extensible:
        described += struct.pack("<HHIH", 22, bits, 0, coding) + b"\0" * 14
    body = b"WAVEfmt " + struct.pack("<I", len(described)) + described
    body += b"data" + struct.pack("<I", len(data)) + data
    return b"RIFF" + struct.pack("<I", len(body)) + body


def as_24_bits() -> bytes:
    return b"".join(struct.pack("<i", int(each) * 256)[:3] for each in WAVE)


@pytest.mark.parametrize("extensible", [False, True])
@pytest.mark.parametrize(
    ("data", "bits", "coding"),
    [
        (WAVE.tobytes(), 16, 1),
        (as_24_bits(), 24, 1),
        ((WAVE.astype(np.int32) * 65536).tobytes(), 32, 1),
        ((WAVE / np.float32(32767)).astype(np.float32).tobytes(), 32, 3),
        ((WAVE / 32767).astype(np.float64).tobytes(), 64, 3),
    ],
    ids=["16 bits", "24 bits", "32 bits", "float", "double"],
)
def test_every_coding_gives_the_same_samples(
    data: bytes, bits: int, coding: int, extensible: bool
) -> None:
    speech = from_file_bytes(wav(data, bits, coding=coding, extensible=extensible))

    assert speech.rate == 16000
    assert np.abs(speech.samples.astype(int) - WAVE).max() <= 1


def test_eight_bits_are_unsigned_round_128() -> None:
    assert list(from_file_bytes(wav(bytes([128, 0, 255]), 8)).samples) == [0, -32768, 32512]


def test_two_channels_become_their_mean() -> None:
    both = np.array([[100, 300], [-50, 50]], np.int16)

    assert list(from_file_bytes(wav(both.tobytes(), 16, channels=2)).samples) == [200, 0]


def test_a_coding_that_is_compressed_is_refused() -> None:
    with pytest.raises(NotSoundError, match="coded in a way"):
        from_file_bytes(wav(b"\0" * 64, 4, coding=2))
