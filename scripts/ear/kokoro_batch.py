"""Speaks many utterances with the Kokoro neural engine, on as many cores as there are.

Two steps, since the second suits a bigger machine that has no espeak-ng:
  python -m scripts.ear.kokoro_batch plan FOLDER --count 4000   tokens and styles to FOLDER/plan.npz
  python -m scripts.ear.kokoro_batch speak FOLDER --seconds 400   speech.s16 and speech.jsonl
A speaker is a random blend of four of the engine's voices with a little jitter. The fifth is held out.
"""

# ruff: noqa: PLC0415 - torch and the engines are heavy and may be absent: imported where used
# ruff: noqa: S311 - draws of training speech, no secrets

from __future__ import annotations

import argparse
import json
import multiprocessing
import random
import sys
import time
from pathlib import Path
from typing import Any

import numpy as np

from . import engines
from .programs import status_of

RATE_OUT = 24_000
SPEED_LOW, SPEED_HIGH = 0.75, 1.35


def plan(folder: Path, count: int, seed: int) -> None:
    """Write tokens, style and speed of *count* utterances; needs espeak-ng and the voices."""
    from .make_speech import careful, hesitating, plain, uncareful
    from .utterances import utterance

    rng, blend = random.Random(seed), np.random.default_rng(seed)
    styles, letters = engines.kokoro_styles(), engines.kokoro_vocabulary()
    tokens: list[list[int]] = []
    vectors, speeds, facts = [], [], []
    for _ in range(count):
        text = careful(hesitating(utterance(rng)[1], rng), rng)
        accent = rng.choice(("en-us", "en-us", "en-us", "en-gb"))
        said = engines.kokoro_phonemes(text, accent)
        row = [letters[letter] for letter in said if letter in letters][:200]
        if not row:
            continue
        weights = blend.dirichlet([0.5] * len(engines.KOKORO_TRAINING_VOICES))
        if blend.random() < 0.35:  # three of the four voices are women's: lean on the man's
            weights = 0.3 * weights + 0.7 * np.eye(len(weights))[-1]
        if blend.random() < 0.3:  # a little beyond the blend: voices that none of the four has
            weights = weights * 1.5 - 0.5 / len(weights)
        mixed = sum(
            weight * styles[voice][len(row) - 1]
            for weight, voice in zip(weights, engines.KOKORO_TRAINING_VOICES, strict=True)
        )
        jitter = blend.standard_normal((1, 256)) * 0.03 * (blend.random() < 0.6)
        tokens.append([0, *row, 0])
        vectors.append(np.asarray(mixed + jitter, np.float16))
        speeds.append(rng.uniform(SPEED_LOW, SPEED_HIGH))
        facts.append({"engine": "kokoro", "voice": "blend", "text": uncareful(plain(text))})
    lengths = np.asarray([len(row) for row in tokens], np.int32)
    folder.mkdir(parents=True, exist_ok=True)
    np.savez_compressed(
        folder / "plan.npz",
        tokens=np.concatenate([np.asarray(row, np.int16) for row in tokens]),
        lengths=lengths,
        styles=np.concatenate(vectors),
        speeds=np.asarray(speeds, np.float32),
    )
    (folder / "plan.json").write_text(json.dumps(facts), encoding="utf-8")


_session: Any = None


def _open(model: str) -> None:
    global _session  # noqa: PLW0603 - one engine a process
    import onnxruntime  # type: ignore[import-untyped]

    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1
    _session = onnxruntime.InferenceSession(model, options, providers=["CPUExecutionProvider"])


def _say(work: tuple[int, list[int], Any, float]) -> tuple[int, bytes]:
    from scipy.signal import resample_poly  # type: ignore[import-untyped]

    index, tokens, style, speed = work
    given = {
        "tokens": np.asarray([tokens], np.int64),
        "style": np.asarray(style, np.float32).reshape(1, 256),
        "speed": np.asarray([speed], np.float32),
    }
    samples = resample_poly(np.asarray(_session.run(None, given)[0]).ravel(), 2, 3)
    scaled = samples / (np.abs(samples).max() + 1e-9) * 0.5
    return index, (scaled * 32767).astype("<i2").tobytes()


def speak(folder: Path, model: Path, seconds: float, processes: int) -> float:
    """Speak the plan until *seconds* have gone by. Returns the hours of speech made."""
    planned = np.load(folder / "plan.npz")
    facts = json.loads((folder / "plan.json").read_text(encoding="utf-8"))
    ends = np.cumsum(planned["lengths"])
    work = (
        (i, planned["tokens"][end - size : end].tolist(), planned["styles"][i], float(speed))
        for i, (end, size, speed) in enumerate(
            zip(ends, planned["lengths"], planned["speeds"], strict=True)
        )
    )
    started, at = time.monotonic(), 0
    with (
        multiprocessing.get_context("spawn").Pool(processes, _open, (str(model),)) as pool,
        (folder / "speech.s16").open("wb") as sound,
        (folder / "speech.jsonl").open("w", encoding="utf-8") as lines,
    ):
        for index, spoken in pool.imap_unordered(_say, work):
            sound.write(spoken)
            fact = {"at": at, "samples": len(spoken) // 2, **facts[index]}
            lines.write(json.dumps(fact) + "\n")
            at += len(spoken) // 2
            if time.monotonic() - started > seconds:
                pool.terminate()
                break
    return at / 16_000 / 3600


def main() -> int:
    """Read the command line; plan or speak. Returns the exit status."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("step", choices=("plan", "speak"))
    parser.add_argument("folder", type=Path)
    parser.add_argument("--model", type=Path, help="its ONNX file, where its packages are absent")
    parser.add_argument("--count", type=int, default=4000)
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--seconds", type=float, default=400)
    parser.add_argument("--processes", type=int, default=multiprocessing.cpu_count())
    given = parser.parse_args()

    def work() -> None:
        if given.step == "plan":
            plan(given.folder, given.count, given.seed)
            return
        model = given.model or engines.kokoro_model()
        hours = speak(given.folder, model, given.seconds, given.processes)
        print(f"{hours:.2f} hours of speech")

    return status_of(work, "Nothing was spoken.")


if __name__ == "__main__":
    sys.exit(main())
