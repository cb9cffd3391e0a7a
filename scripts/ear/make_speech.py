"""Makes the synthetic training speech: one raw sound file and one line of facts an utterance.

Run: python -m scripts.ear.make_speech FOLDER --hours 30 --seed 1
The held-out voices (flite awb, Kokoro's jf_nezumi, Piper joe, the human prompts) are refused here.
"""

# ruff: noqa: S311 - draws of training speech, no secrets

from __future__ import annotations

import argparse
import json
import random
import re
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np

from . import engines
from .engines import RATE, Spoken
from .programs import status_of
from .utterances import SHARES, utterance

Batch = Callable[[list[str], random.Random], list[Spoken]]

BATCH = 120

# Part of the training speech by each voice; Kokoro's part is made by kokoro_batch.py.
VOICE_SHARES = {
    "espeak-ng": 0.36,
    "rhvoice slt": 0.10,
    "flite rms": 0.18,
    "flite slt": 0.08,
    "flite kal16": 0.07,
    "flite kal": 0.02,
    "festival ked_diphone": 0.11,
    "festival kal_diphone": 0.03,
    "festival cmu_us_slt_arctic_hts": 0.05,
}
HELD_OUT = ("awb", "nezumi", "joe", "alan")


def hesitating(text: str, rng: random.Random) -> str:
    """Return the text as it may be read out: a pause inside now and then, and an end of some kind.

    A comma makes the engines pause; ".", "," "?" and "!" at the end bend the last word's tune.
    """
    words = text.split()
    if len(words) > 1 and rng.random() < 0.12:
        place = rng.randrange(1, len(words))
        words[place - 1] += ","
    return " ".join(words) + rng.choices(("", ".", ",", "?", "!"), (50, 20, 12, 12, 6))[0]


def plain(text: str) -> str:
    """Return the words alone, without the signs that *hesitating* adds."""
    return text.translate(str.maketrans("", "", ",.?!"))


# People who take care, and prompt speakers, say a strong "ty": the engines only a weak "dy".
STRONG_TY = {
    "twenty": "twen tea", "thirty": "thurr tea", "forty": "for tea", "fifty": "fif tea",
    "sixty": "six tea", "seventy": "seven tea", "eighty": "ay tea", "ninety": "nine tea",
}  # fmt: skip


def careful(text: str, rng: random.Random, share: float = 0.3) -> str:
    """Return the text with some numbers in -ty respelt so that an engine says a strong "tee"."""
    strong = rng.random() < share
    return " ".join(
        re.sub(r"^[a-z]+", lambda found: STRONG_TY.get(found[0], found[0]), word)
        if strong
        else word
        for word in text.split()
    )


def uncareful(text: str) -> str:
    """Return the text as it was before *careful*."""
    for word, said in STRONG_TY.items():
        text = text.replace(said, word)
    return text


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
    if engine == "rhvoice":
        return one_by_one(engines.rhvoice(voice))
    if engine == "flite":
        return one_by_one(engines.flite(voice))
    return lambda texts, rng: engines.festival_batch(voice, texts, rng)


def make(
    folder: Path,
    hours: float,
    seed: int,
    voices: Sequence[str] = (),
    kinds: Sequence[str] = tuple(SHARES),
) -> None:
    """Write speech.s16 and speech.jsonl until *hours* of speech are there; voices take turns."""
    folder.mkdir(parents=True, exist_ok=True)
    rng = random.Random(seed)
    shares = {name: VOICE_SHARES[name] for name in voices or VOICE_SHARES}
    whole = hours * 3600 / sum(shares.values())
    wanted = {name: share * whole for name, share in shares.items()}
    made = dict.fromkeys(wanted, 0.0)
    at = 0
    with (
        (folder / "speech.s16").open("wb") as sound,
        (folder / "speech.jsonl").open("w", encoding="utf-8") as facts,
    ):
        while any(made[name] < wanted[name] for name in wanted):
            name = min(wanted, key=lambda each: made[each] / wanted[each])
            texts = [careful(hesitating(utterance(rng, kinds)[1], rng), rng) for _ in range(BATCH)]
            for spoken in speaker(name)(texts, rng):
                said = (spoken.samples * 32767).astype("<i2")
                if len(said) < RATE // 5 or len(said) > 12 * RATE:
                    continue
                sound.write(said.tobytes())
                fact = {"at": at, "samples": len(said), "engine": spoken.engine}
                fact |= {"voice": spoken.voice, "text": uncareful(plain(spoken.text))}
                fact |= {"licence": engines.LICENCES[spoken.engine]}
                facts.write(json.dumps(fact) + "\n")
                at += len(said)
                made[name] += len(said) / RATE
            sound.flush()
            facts.flush()
    np.asarray([at / RATE / 3600]).tofile(folder / "hours.txt", sep="\n")


def main() -> int:
    """Read the command line and make the speech. Returns the exit status."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--hours", type=float, default=7.0)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--voices", nargs="+", default=list(VOICE_SHARES), help="only these")
    parser.add_argument("--kinds", nargs="+", default=list(SHARES), help="only these utterances")
    given = parser.parse_args()
    return status_of(
        lambda: make(given.folder, given.hours, given.seed, given.voices, given.kinds),
        "The speech was not made.",
    )


if __name__ == "__main__":
    sys.exit(main())
