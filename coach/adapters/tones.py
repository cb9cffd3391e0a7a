"""The few short tones that answer a command before any word: told apart by rhythm and direction.

A rising pair goes forward, a falling pair goes back, one long note is done, two low knocks are
not understood. All lie between 500 and 2000 Hz and last no more than 150 ms, so that an older
ear gets them and no speech is held up (common practice, no source). Colour of sound carries
nothing: a clean sine with soft edges.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from coach.adapters.speech_samples import Samples

LEVEL = 0.35  # of full scale, near the loudness of the voice
EDGE = 0.006  # seconds of fade at both ends of a note, so that it doesn't click

# Each note: hertz (0 is a rest) and milliseconds.
TONES: Mapping[str, tuple[tuple[int, int], ...]] = {
    "forward": ((660, 60), (990, 80)),
    "back": ((990, 60), (660, 80)),
    "done": ((784, 140),),
    "not understood": ((520, 50), (0, 40), (520, 50)),
}


def tone_samples(kind: str, rate: int) -> Samples:
    """Return the tone *kind* at *rate* samples a second; an unknown kind gets "done"."""
    notes = TONES.get(kind, TONES["done"])
    return np.concatenate([_note(hertz, ms, rate) for hertz, ms in notes])


def _note(hertz: int, milliseconds: int, rate: int) -> Samples:
    count = rate * milliseconds // 1000
    wave = np.sin(2 * np.pi * hertz * np.arange(count) / rate)
    edge = min(round(EDGE * rate), count // 2)
    shape = np.ones(count)
    ramp = np.linspace(0, 1, edge, endpoint=False)
    shape[:edge], shape[count - edge :] = ramp, ramp[::-1]
    return (wave * shape * LEVEL * 32767).astype(np.int16)
