"""The sound features: shapes, and figures worked out by hand from their definition."""

from __future__ import annotations

import numpy as np

from scripts.ear import features


def test_frames_are_25_ms_long_every_10_ms() -> None:
    assert features.frame_count(399) == 0
    assert features.frame_count(400) == 1
    assert features.frame_count(16_000) == 98
    assert features.cepstra(np.zeros(16_000)).shape == (98, 40)


def test_digital_silence_lies_at_the_floor() -> None:
    # 40 equal log energies: the first cepstrum is sqrt(40) times their value, the rest are 0.
    found = features.cepstra(np.zeros(800), dither=0.0)

    assert np.allclose(found[:, 0], np.sqrt(40) * np.log(features.FLOOR), atol=1e-3)
    assert np.allclose(found[:, 1:], 0.0, atol=1e-3)


def test_twice_as_loud_lifts_only_the_first_cepstrum() -> None:
    # Power grows by 4 in each band: log 4 in each of 40 bands, sqrt(40) log 4 in the first.
    sound = np.random.default_rng(1).standard_normal(4000) * 500
    quiet, loud = features.cepstra(sound, dither=0.0), features.cepstra(2 * sound, dither=0.0)

    assert np.allclose(loud[:, 0] - quiet[:, 0], np.sqrt(40) * np.log(4), atol=1e-3)
    assert np.allclose(loud[:, 1:], quiet[:, 1:], atol=1e-3)


def test_a_tone_is_loudest_in_its_own_band() -> None:
    # Mel of 1000 Hz by 1127 ln(1 + f/700) is 1000; the 40 bands are spread from 20 to 7600 Hz.
    bank = features.mel_bank()
    low, high = 1127 * np.log(1 + 20 / 700), 1127 * np.log(1 + 7600 / 700)
    expected = round((1127 * np.log(1 + 1000 / 700) - low) / ((high - low) / 41)) - 1

    assert int(bank[:, 32].argmax()) == expected  # bin 32 of 512 at 16 kHz is 1000 Hz
