"""The recogniser, held so that none of its fatal calls can be made: used only in the ear's worker.

vosk 0.3.44 and 0.3.45 end the process on an empty or malformed list, on a list changed in the
middle of a word, and hang on a rate of zero. Here the list is built and checked, changed only
after a reset, and the rate is a constant. Sound comes in at 16 kHz, as bytes.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path
from types import ModuleType
from typing import Any

import numpy as np

from coach.adapters.ear_grammar import grammar
from coach.adapters.ear_readings import READINGS, Part, Reading, Word, joined
from coach.adapters.speech_samples import Samples, from_file_bytes, resampled
from coach.adapters.voice_activity import RATE
from coach.ports import Missing

STEP = 1_600  # samples handed over at a time: a tenth of a second
GRAPH = ("graph/HCLr.fst", "graph/Gr.fst", "graph/disambig_tid.int")  # what a run-time list needs
FIXED_GRAPH = "graph/HCLG.fst"  # of a model with a list of its own
SELF_TEST = "where am i"  # what is said in self_test.wav, in a voice made for it
_SELF_TEST_FILE = Path(__file__).with_name("self_test.wav")


class BadModelError(Exception):
    """The folder holds no model that works; *missing* says so in words."""

    def __init__(self, missing: Missing) -> None:
        super().__init__(missing.reason)
        self.missing = missing


class Recogniser:
    """Turns the sound of one utterance into words of the closed list."""

    def __init__(self, folder: Path) -> None:
        """Load the model in *folder*.

        Raises:
            BadModelError: it doesn't load.
        """
        self._vosk = _vosk()
        self._vosk.SetLogLevel(-1)
        self._folder = folder
        _check_graph(folder)
        try:
            self._model = self._vosk.Model(str(folder))
        except Exception as fault:
            raise BadModelError(_unusable(folder)) from fault
        self._recogniser: Any = None
        self._closed_list = False
        self._parts: list[tuple[Reading, ...]] = []
        self._fed = 0  # samples ever fed: vosk counts its times from there
        self._offset = 0.0  # what turns vosk's times into ours

    def knows(self, word: str) -> bool:
        """Return whether the model has *word* (the empty word, number 0, is none)."""
        return bool(self._model.vosk_model_find_word(word) > 0)

    def listen_for(self, phrases: Sequence[str], *, decoys: bool = True) -> tuple[str, ...]:
        """Take these phrases from now on; return those that the model has no words for.

        Raises:
            BadModelError: not one phrase can be heard with this model, or it doesn't decode.
        """
        listed, lacking = grammar(phrases, self.knows, decoys=decoys)
        if len(lacking) == len(phrases):
            raise BadModelError(
                Missing(
                    f"The speech model in {self._folder} has none of the coach's words.",
                    "Choose an English model: unset COACH_MODEL, or run: coach ear get",
                )
            )
        try:
            if not self._closed_list:
                self._make(listed)
            else:
                self._recogniser.Reset()
                self._recogniser.SetGrammar(listed)
        except Exception as fault:
            raise BadModelError(_unusable(self._folder)) from fault
        self._parts = []
        return lacking

    def _make(self, *listed: str) -> None:
        """Make the recogniser, with a closed list where one is given."""
        try:
            self._recogniser = self._vosk.KaldiRecognizer(self._model, RATE, *listed)
        except Exception as fault:
            raise BadModelError(_unusable(self._folder)) from fault
        self._recogniser.SetWords(True)
        self._recogniser.SetMaxAlternatives(READINGS)
        self._closed_list, self._fed, self._parts = bool(listed), 0, []

    def begin(self, at: float, samples: Samples) -> None:
        """Take an utterance whose first sample lies at *at* seconds."""
        self._recogniser.Reset()
        self._parts, self._offset = [], at - self._fed / RATE
        for start in range(0, len(samples), STEP):
            step = samples[start : start + STEP]
            self._fed += len(step)
            if self._recogniser.AcceptWaveform(step.tobytes()):
                self._collect(self._recogniser.Result())  # a pause: its own end of speech

    def end(self) -> tuple[Reading, ...]:
        """End the utterance; return its readings, best first, timed in seconds as in `begin`.

        Empty when nothing was heard.
        """
        self._collect(self._recogniser.FinalResult())
        parts = [Part(readings, 0.0, 0.0) for readings in self._parts]
        self._parts = []
        return joined(parts) if parts else ()

    def _collect(self, result: str) -> None:
        best: dict[str, Reading] = {}
        for each in json.loads(result).get("alternatives", ()):
            words = tuple(
                Word(
                    str(word["word"]),
                    self._offset + float(word["start"]),
                    self._offset + float(word["end"]),
                )
                for word in each.get("result", ())
            )
            reading = Reading(words, float(each["confidence"]))
            if words and reading.text not in best:
                best[reading.text] = reading
        if best:
            self._parts.append(tuple(best.values()))

    def self_test(self) -> None:
        """Decode a recording whose words are known.

        Raises:
            BadModelError: nothing, or something else, was heard.
        """
        speech = resampled(from_file_bytes(_SELF_TEST_FILE.read_bytes()), RATE)
        silence = np.zeros(RATE // 2, np.int16)
        english = all(self.knows(word) for word in SELF_TEST.split())
        if english:
            self.listen_for((SELF_TEST, "go back", "carry on"), decoys=False)
        else:  # another language: what it hears can't be known, but it must not break
            self._make()
        self.begin(0.0, np.concatenate((silence, speech.samples, silence)))
        readings = self.end()
        heard = readings[0].text if readings else ""
        if english and heard != SELF_TEST:
            raise BadModelError(
                Missing(
                    f"The speech model in {self._folder} doesn't hear what it should "
                    f'("{heard}" for "{SELF_TEST}").',
                    "Fetch it anew: coach ear get",
                )
            )


def _vosk() -> Any:
    """Load vosk without its downloader, which opens a socket at its mere import."""
    sys.modules.setdefault("requests", ModuleType("requests"))
    import vosk

    return vosk


def _check_graph(folder: Path) -> None:
    """Refuse a model that can't be given the coach's list, which vosk itself may take.

    0.3.44 loads a model without the unused numbers; both versions load one with a fixed graph,
    and then hear every word of the language in place of the list.

    Raises:
        BadModelError: it can't.
    """
    lacking = [name for name in GRAPH if not (folder / name).is_file()]
    if not lacking:
        return
    if (folder / FIXED_GRAPH).is_file():
        raise BadModelError(
            Missing(
                f"The speech model in {folder} has a fixed list of words and can't take the "
                "coach's own.",
                'Choose a small model, or one with "lgraph" in its name: coach ear get',
            )
        )
    raise BadModelError(_unusable(folder))


def _unusable(folder: Path) -> Missing:
    return Missing(
        f"The folder {folder} holds no speech model that works, so the coach can't hear.",
        "Keys go on working. Fetch a model: coach ear get, or unset COACH_MODEL.",
    )
