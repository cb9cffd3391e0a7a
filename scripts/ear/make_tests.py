"""Makes the test speech of voices that never speak in training, one folder entry a voice.

Run: python -m scripts.ear.make_tests FOLDER VOICE...   VOICE: alan, awb, nezumi, joe, rms, espeak, human-16k, human-8k
alan decides when training stops; awb, nezumi, joe and the human prompts are for the final report.
"""

# ruff: noqa: PLC0415 - torch and the engines are heavy and may be absent: imported where used
# ruff: noqa: S311 - draws of training speech, no secrets

from __future__ import annotations

import argparse
import gzip
import json
import random
import re
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy as np

from . import engines, phrases
from .engines import RATE, Samples, Spoken, at_16k
from .numbers import digit_by_digit, in_words
from .programs import output_of, status_of

TEST_NUMBERS = (
    0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 30, 40, 50, 60, 70,
    80, 90, 100, 21, 34, 42, 57, 68, 74, 86, 99, 113, 121, 145, 167, 178, 189, 200, 216, 350, 999,
)  # fmt: skip
TEST_ROWS = (1, 2, 5, 8, 12, 14, 19, 23, 31, 47, 60, 72, 104, 116, 130, 158)
SOUNDS = Path("/usr/share/asterisk/sounds/en_US_f_Allison")
SCRIPT = Path("/usr/share/doc/asterisk-core-sounds-en/core-sounds-en.txt.gz")
LONGEST_PROMPT = 8.0


def other_speech(count: int, seed: int = 99) -> list[str]:
    """Return talk that holds no phrase of the commands: rhymes, household talk, common words."""
    rng = random.Random(seed)
    keep = phrases.spoken_to_the_coach()
    rhymes = [word for word in phrases.RHYMES if word not in keep]
    common = [word for word in phrases.common_words() if word not in keep]
    home = [line for line in phrases.HOUSEHOLD if len(set(line.split()) & keep) < 3]
    found = rng.sample(rhymes, count // 3)
    found += rng.sample(home, min(len(home), count // 3))
    while len(found) < count:
        found.append(" ".join(rng.choice(common) for _ in range(rng.randint(1, 4))))
    return found


def texts_to_say(size: float) -> list[tuple[str, str]]:
    """Return (kind, text) of the whole test: commands, numbers, rows by digit, trade, other."""
    texts = [("command", phrase) for phrase in phrases.coach_phrases()]
    texts += [("number", in_words(number)) for number in TEST_NUMBERS]
    texts += [("number", f"row {digit_by_digit(number)}") for number in TEST_ROWS]
    texts += [("number", f"row {in_words(number)}") for number in TEST_ROWS]
    texts += [("trade", phrase) for phrase in phrases.TRADE_PHRASES[::4]]
    texts += [("other", text) for text in other_speech(90)]
    if size < 1:
        texts = random.Random(5).sample(texts, int(len(texts) * size))
    return texts


def _kokoro_held_out() -> Callable[[str, random.Random], Spoken]:
    import onnxruntime  # type: ignore[import-untyped]

    from .kokoro_batch import RATE_OUT

    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 1
    session = onnxruntime.InferenceSession(str(engines.kokoro_model()), options)
    letters, styles = engines.kokoro_vocabulary(), engines.kokoro_styles()
    voice = engines.KOKORO_HELD_OUT_VOICE

    def speak(text: str, rng: random.Random) -> Spoken:
        row = [letters[c] for c in engines.kokoro_phonemes(text, "en-us") if c in letters]
        given = {
            "tokens": np.asarray([[0, *row, 0]], np.int64),
            "style": styles[voice][len(row) - 1].reshape(1, 256).astype(np.float32),
            "speed": np.asarray([rng.uniform(0.8, 1.2)], np.float32),
        }
        samples = np.asarray(session.run(None, given)[0]).ravel()
        return Spoken(at_16k(samples, RATE_OUT), "kokoro", voice, text)

    return speak


def human_prompts(coding: str) -> Iterator[tuple[str, str, Samples]]:
    """Yield (kind, text, samples) of Debian's recorded prompts: one woman, US English.

    coding: "g722" (16 kHz) or "wav" (8 kHz). Licence of the recordings: CC BY-SA 3.0.
    """
    if not SCRIPT.exists() or not SOUNDS.is_dir():
        raise FileNotFoundError(
            "The recorded prompts are missing: "
            "apt-get install asterisk-core-sounds-en-wav asterisk-core-sounds-en-g722."
        )
    script: dict[str, str] = {}
    with gzip.open(SCRIPT, "rt", encoding="latin-1") as lines:
        for line in lines:
            if ": " in line and not line.startswith(";"):
                name, said = line.split(": ", 1)
                script[name.strip()] = said.strip()
    commands = set(phrases.coach_phrases())
    keep = phrases.spoken_to_the_coach()
    numbers = {in_words(number) for number in range(1000)}
    for name, said in script.items():
        path = SOUNDS / f"{name}.{coding}"
        if not path.exists() or "[" in said:
            continue
        digits = re.fullmatch(r"(?:digits/)?(\d+)\.?", name if "digits/" in name else said)
        text = re.sub(r"\s+", " ", re.sub(r"[^a-z' ]", " ", said.lower())).strip()
        if digits and int(digits[1]) <= 999:
            text = in_words(int(digits[1]))
        if not text:
            continue
        samples = _decoded(path)
        if len(samples) > LONGEST_PROMPT * RATE:
            continue
        kind = "other"
        if text in commands:
            kind = "command"
        elif text in numbers or text == "hundred":
            kind = "number"
        elif set(text.split()) & keep:
            kind = "mixed"  # other talk that holds words of commands
        yield kind, text, samples


def _decoded(path: Path) -> Samples:
    sound = output_of(
        ["ffmpeg", "-v", "error", "-i", str(path), "-ar", str(RATE), "-ac", "1", "-f", "s16le", "-"]
    )
    samples = np.asarray(np.frombuffer(sound, "<i2") / 32768, np.float32)
    return at_16k(samples, RATE)


def speaker_of(voice: str) -> Callable[[str, random.Random], Spoken]:
    """Return the speaker of a test voice; a name not known here is a voice of flite."""
    speakers: dict[str, Callable[[], Callable[[str, random.Random], Spoken]]] = {
        "nezumi": _kokoro_held_out,
        "joe": lambda: engines.piper,
        "espeak": lambda: engines.espeak,
        "alan": lambda: engines.rhvoice("alan"),
    }
    return speakers.get(voice, lambda: engines.flite(voice))()


def write_voice(folder: Path, voice: str) -> int:
    """Write the test of one voice as FOLDER/VOICE.s16 and .jsonl. Returns the utterances."""
    rng = random.Random(17)
    items: list[tuple[str, str, Samples]] = []
    if voice.startswith("human"):
        items = list(human_prompts("g722" if voice.endswith("16k") else "wav"))
    else:
        speak = speaker_of(voice)
        for kind, text in texts_to_say(0.45 if voice == "nezumi" else 1.0):
            items.append((kind, text, speak(text, rng).samples))
    folder.mkdir(parents=True, exist_ok=True)
    at = 0
    with (
        (folder / f"{voice}.s16").open("wb") as sound,
        (folder / f"{voice}.jsonl").open("w", encoding="utf-8") as lines,
    ):
        for kind, text, samples in items:
            whole = (samples * 0.8 * 32767).astype("<i2")
            sound.write(whole.tobytes())
            fact: dict[str, Any] = {"at": at, "samples": len(whole), "engine": "test"}
            lines.write(json.dumps(fact | {"voice": voice, "kind": kind, "text": text}) + "\n")
            at += len(whole)
    return len(items)


def main() -> int:
    """Read the command line and make the tests. Returns the exit status."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("voices", nargs="+")
    given = parser.parse_args()

    def work() -> None:
        for voice in given.voices:
            print(voice, write_voice(given.folder, voice), "utterances")

    return status_of(work, "The tests were not made.")


if __name__ == "__main__":
    sys.exit(main())
