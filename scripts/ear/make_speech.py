"""Makes the synthetic training speech: one raw sound file and one line of facts an utterance.

Run: python -m scripts.ear.make_speech FOLDER --hours 7 --seed 1
The held-out voices (flite awb, Kokoro's jf_nezumi, Piper joe, the human prompts) are refused here.
"""

# ruff: noqa: S311 - draws of training speech, no secrets

from __future__ import annotations

import argparse
import json
import random
import subprocess
from collections.abc import Callable
from pathlib import Path

import numpy as np

from . import engines
from .engines import RATE, Spoken
from .utterances import utterance

Batch = Callable[[list[str], random.Random], list[Spoken]]

BATCH = 120

# Part of the training speech by each voice; Kokoro's part is made by kokoro_batch.py.
VOICE_SHARES = {
    "espeak-ng": 0.30,
    "flite rms": 0.17,
    "flite slt": 0.14,
    "flite kal16": 0.09,
    "flite kal": 0.04,
    "festival ked_diphone": 0.09,
    "festival kal_diphone": 0.05,
    "festival cmu_us_slt_arctic_hts": 0.12,
}
HELD_OUT = ("awb", "nezumi", "joe")


def hesitating(text: str, rng: random.Random) -> str:
    """Return the text with a comma inside now and then, where the engines make a short pause."""
    words = text.split()
    if len(words) > 1 and rng.random() < 0.12:
        place = rng.randrange(1, len(words))
        words[place - 1] += ","
    return " ".join(words)


def one_by_one(speak: Callable[[str, random.Random], Spoken]) -> Batch:
    """Return a batch speaker from one that takes a single text; a text that fails is left out."""

    def batch(texts: list[str], rng: random.Random) -> list[Spoken]:
        spoken = []
        for text in texts:
            try:
                spoken.append(speak(text, rng))
            except (subprocess.CalledProcessError, RuntimeError, ValueError):
                continue
        return spoken

    return batch


def speaker(name: str) -> Batch:
    """Return the batch speaker of a voice in VOICE_SHARES. Refuses the held-out voices."""
    if any(voice in name for voice in HELD_OUT):
        raise ValueError(f"{name} is held out for tests and may not speak training data")
    engine, _, voice = name.partition(" ")
    if engine == "espeak-ng":
        return one_by_one(engines.espeak)
    if engine == "flite":
        return one_by_one(engines.flite(voice))
    return lambda texts, rng: engines.festival_batch(voice, texts, rng)


def make(folder: Path, hours: float, seed: int) -> None:
    """Write speech.s16 and speech.jsonl until *hours* of speech are there; voices take turns."""
    folder.mkdir(parents=True, exist_ok=True)
    rng = random.Random(seed)
    wanted = {name: share * hours * 3600 for name, share in VOICE_SHARES.items()}
    made = dict.fromkeys(wanted, 0.0)
    at = 0
    with (
        (folder / "speech.s16").open("wb") as sound,
        (folder / "speech.jsonl").open("w", encoding="utf-8") as facts,
    ):
        while any(made[name] < wanted[name] for name in wanted):
            name = min(wanted, key=lambda each: made[each] / wanted[each])
            texts = [hesitating(utterance(rng)[1], rng) for _ in range(BATCH)]
            for spoken in speaker(name)(texts, rng):
                whole = (spoken.samples * 32767).astype("<i2")
                if len(whole) < RATE // 5 or len(whole) > 12 * RATE:
                    continue
                sound.write(whole.tobytes())
                fact = {"at": at, "samples": len(whole), "engine": spoken.engine}
                fact |= {"voice": spoken.voice, "text": spoken.text.replace(",", "")}
                fact |= {"licence": engines.LICENCES[spoken.engine]}
                facts.write(json.dumps(fact) + "\n")
                at += len(whole)
                made[name] += len(whole) / RATE
            sound.flush()
            facts.flush()
    np.asarray([at / RATE / 3600]).tofile(folder / "hours.txt", sep="\n")


def main() -> None:
    """Read the command line and make the speech."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--hours", type=float, default=7.0)
    parser.add_argument("--seed", type=int, default=1)
    given = parser.parse_args()
    make(given.folder, given.hours, given.seed)


if __name__ == "__main__":
    main()
