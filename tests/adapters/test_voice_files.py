"""Sound files are told by their content, whole or not at all; silence is told from speech."""

from __future__ import annotations

import io
import struct
import wave

import numpy as np
import pytest

from coach.adapters.sound_file import NotSoundError
from coach.adapters.speech_samples import (
    Speech,
    from_file_bytes,
    is_silent,
    resampled,
    silence,
    trimmed,
)

RAMP = np.array([0, 1000, -1000, 32767, -32768, 5], np.int16)


def wav(samples: np.ndarray, rate: int = 22_050, channels: int = 1) -> bytes:
    out = io.BytesIO()
    with wave.open(out, "wb") as file:
        file.setnchannels(channels)
        file.setsampwidth(samples.dtype.itemsize)
        file.setframerate(rate)
        file.writeframes(samples.tobytes())
    return out.getvalue()


def aiff(samples: np.ndarray, rate: int = 22_050, kind: bytes = b"AIFF") -> bytes:
    """Build the file by the published layout: Apple, "Audio Interchange File Format", 1989."""
    mantissa = rate << (64 - rate.bit_length())
    extended = struct.pack(">HQ", 16383 + rate.bit_length() - 1, mantissa)
    little = kind == b"AIFC"
    common = struct.pack(">hIh", 1, len(samples), 16) + extended + (b"sowt\0\0" if little else b"")
    data = samples.astype("<i2" if little else ">i2").tobytes()
    chunks = b"COMM" + struct.pack(">I", len(common)) + common
    chunks += b"SSND" + struct.pack(">III", len(data) + 8, 0, 0) + data
    return b"FORM" + struct.pack(">I", len(chunks) + 4) + kind + chunks


@pytest.mark.parametrize(
    "content", [wav(RAMP), aiff(RAMP), aiff(RAMP, kind=b"AIFC")], ids=["WAV", "AIFF", "AIFF-C"]
)
def test_each_kind_of_file_gives_the_same_samples(content: bytes) -> None:
    """macOS writes AIFF into a file that is called .wav."""
    speech = from_file_bytes(content)

    assert speech.samples.tolist() == RAMP.tolist()
    assert speech.rate == 22_050


def test_two_channels_become_one() -> None:
    both = np.array([[100, 300], [-50, 50]], np.int16)

    assert from_file_bytes(wav(both, channels=2)).samples.tolist() == [200, 0]


def test_eight_bits_become_sixteen() -> None:
    assert from_file_bytes(wav(np.array([128, 255, 0], np.uint8))).samples.tolist() == [
        0,
        127 * 256,
        -128 * 256,
    ]


@pytest.mark.parametrize("kept", range(0, len(wav(RAMP)), 3))
def test_a_file_cut_anywhere_is_no_sound(kept: int) -> None:
    with pytest.raises(NotSoundError):
        from_file_bytes(wav(RAMP)[:kept])


@pytest.mark.parametrize("kept", range(0, len(aiff(RAMP)), 3))
def test_an_aiff_cut_anywhere_is_no_sound(kept: int) -> None:
    with pytest.raises(NotSoundError):
        from_file_bytes(aiff(RAMP)[:kept])


@pytest.mark.parametrize("content", [b"", b"MZ\x90\0" * 99, b"ID3" + bytes(99), wav(RAMP[:0])])
def test_what_is_no_speech_is_refused(content: bytes) -> None:
    with pytest.raises(NotSoundError):
        from_file_bytes(content)


def test_silence_around_speech_is_taken_off_and_pauses_within_are_kept() -> None:
    hum = np.full(2000, 5000, np.int16)
    quiet = np.zeros(3000, np.int16)
    speech = trimmed(Speech(np.concatenate([quiet, hum, quiet, hum, quiet]), 20_000))

    assert len(speech.samples) == 2000 + 3000 + 2000 + 2 * 100  # 5 ms of breath at each end


@pytest.mark.parametrize(("level", "silent"), [(0, True), (16, True), (99, True), (3000, False)])
def test_a_hush_is_silence_and_a_soft_voice_is_not(level: int, silent: bool) -> None:
    assert is_silent(Speech(np.full(20_000, level, np.int16), 20_000)) is silent


def test_a_click_is_no_speech() -> None:
    samples = np.zeros(20_000, np.int16)
    samples[500:520] = 30_000

    assert is_silent(Speech(samples, 20_000))


def test_another_rate_keeps_the_length_and_the_pitch() -> None:
    tone = (10_000 * np.sin(2 * np.pi * 440 * np.arange(22_050) / 22_050)).astype(np.int16)
    other = resampled(Speech(tone, 22_050), 48_000)

    assert other.seconds == pytest.approx(1.0, abs=0.001)
    spectrum = np.abs(np.fft.rfft(other.samples))
    assert int(spectrum.argmax()) == 440


def test_a_pause_has_its_length() -> None:
    assert silence(0.25, 22_050).seconds == pytest.approx(0.25, abs=0.001)
