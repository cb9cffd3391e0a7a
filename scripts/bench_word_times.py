"""How well it is known when each word of the coach sounds, beside the synthesiser's own marks.

The coach shares a sentence's time out among its words by their letters, for any voice. espeak-ng
tells, of its own voice, when each word really begins. usage, from the repository's root:

    .venv/bin/python -m scripts.bench_word_times
"""

from __future__ import annotations

import ctypes
from collections.abc import Iterator
from pathlib import Path

import espeakng_loader
import numpy as np

from coach.adapters.speech_pace import plan
from coach.adapters.utterance import word_times
from coach.adapters.voice_settings import BUNDLED_VOICE, ESPEAK_CURVE
from scripts.bench_interrupting import texts_of_the_coach

SYNCHRONOUS, DONT_EXIT, WORD, RATE = 2, 0x8000, 1, 1  # from espeak-ng's speak_lib.h


class _Identity(ctypes.Union):
    _fields_ = (
        ("number", ctypes.c_int),
        ("name", ctypes.c_char_p),
        ("string", ctypes.c_char * 8),
    )


class _Event(ctypes.Structure):
    _fields_ = (
        ("type", ctypes.c_int),
        ("unique_identifier", ctypes.c_uint),
        ("text_position", ctypes.c_int),
        ("length", ctypes.c_int),
        ("audio_position", ctypes.c_int),
        ("sample", ctypes.c_int),
        ("user_data", ctypes.c_void_p),
        ("id", _Identity),
    )


class Synthesiser:
    """espeak-ng by itself, in the bundled voice, for the times of its words."""

    def __init__(self) -> None:
        data = Path(espeakng_loader.get_data_path()).parent
        self._library = ctypes.CDLL(espeakng_loader.get_library_path())
        self._rate = self._library.espeak_Initialize(SYNCHRONOUS, 0, str(data).encode(), DONT_EXIT)
        self._begins: dict[int, float] = {}
        self._samples = 0
        kind = ctypes.CFUNCTYPE(
            ctypes.c_int, ctypes.POINTER(ctypes.c_short), ctypes.c_int, ctypes.POINTER(_Event)
        )
        self._callback = kind(self._take)
        self._library.espeak_SetSynthCallback(self._callback)
        self._library.espeak_SetVoiceByName(BUNDLED_VOICE.replace("gmw/", "").encode())

    def times(self, text: str, rate: int) -> tuple[dict[int, float], float]:
        """Return when the word at each place of *text* begins, and the seconds of it all."""
        self._begins, self._samples = {}, 0
        written = text.encode()
        self._library.espeak_SetParameter(RATE, rate, 0)
        self._library.espeak_Synth(written, len(written) + 1, 0, 0, 0, 1, None, None)
        self._library.espeak_Synchronize()
        return self._begins, self._samples / self._rate

    def _take(self, _wave: object, count: int, events: ctypes.Array[_Event]) -> int:
        self._samples += count
        at = 0
        while events[at].type:
            if events[at].type == WORD:
                place = events[at].text_position - 1
                self._begins.setdefault(place, events[at].audio_position / 1000)
            at += 1
        return 0


def errors(synthesiser: Synthesiser) -> Iterator[float]:
    """Yield, for each word, by how many seconds its beginning is thought to be later than it is."""
    pieces = {piece for text in texts_of_the_coach() for piece in plan(text, 150, ESPEAK_CURVE)}
    for piece in sorted(pieces, key=lambda each: each.text):
        begins, seconds = synthesiser.times(piece.text, piece.engine_rate)
        at = 0
        for word in word_times(piece.text, 0.0, seconds):
            at = piece.text.index(word.text, at)
            if at in begins:
                yield word.began - begins[at]
            at += len(word.text)


def main() -> None:
    """Measure and print."""
    found = np.array(list(errors(Synthesiser())))
    away = np.abs(found)
    print(
        f"{len(found)} words: {np.median(away):.3f} s off at the median, "
        f"{np.percentile(away, 95):.3f} s at 95 percent, {away.max():.3f} s at most"
    )


if __name__ == "__main__":
    main()
