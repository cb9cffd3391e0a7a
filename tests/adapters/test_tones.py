"""Four tones, told apart by rhythm and direction, short enough to hold up no speech."""

from __future__ import annotations

import numpy as np
import pytest

from coach.adapters.tones import TONES, tone_samples

RATE = 22_050
KINDS = ["forward", "back", "done", "not understood"]


def pitches(kind: str) -> list[float]:
    """Return the strongest frequency of each note, by its spectrum, in the order they sound."""
    samples = tone_samples(kind, RATE).astype(np.float64)
    notes = [part for part in np.split(samples, _changes(kind)) if np.abs(part).max() > 1000]
    return [
        float(np.fft.rfftfreq(1 << 14, 1 / RATE)[np.abs(np.fft.rfft(note, 1 << 14)).argmax()])
        for note in notes
    ]


def _changes(kind: str) -> list[int]:
    return list(np.cumsum([RATE * ms // 1000 for _, ms in TONES[kind]]))[:-1]


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("rate", [8_000, 22_050, 48_000])
def test_a_tone_lasts_150_ms_at_most(kind: str, rate: int) -> None:
    assert len(tone_samples(kind, rate)) <= 0.150 * rate


@pytest.mark.parametrize("kind", KINDS)
def test_every_note_lies_where_an_older_ear_hears_it(kind: str) -> None:
    """500 to 2000 Hz: common practice, no source."""
    assert all(500 <= pitch <= 2000 for pitch in pitches(kind))


def test_forward_rises_and_back_falls() -> None:
    low, high = pitches("forward")
    assert low < high
    high, low = pitches("back")
    assert high > low


def test_the_four_kinds_differ_in_their_rhythm_or_direction() -> None:
    shapes = {(*np.sign(np.diff(pitches(kind))), len(TONES[kind])) for kind in KINDS}
    assert len(shapes) == 4


@pytest.mark.parametrize("kind", KINDS)
def test_a_tone_neither_clicks_nor_clips(kind: str) -> None:
    samples = tone_samples(kind, RATE).astype(np.int32)

    assert np.abs(samples).max() < 20_000
    assert np.abs(np.diff(samples)).max() < 6_000
    assert abs(samples[0]) < 300
    assert abs(samples[-1]) < 3_000


def test_an_unknown_kind_still_sounds() -> None:
    assert len(tone_samples("of a kind to come", RATE)) > 0
