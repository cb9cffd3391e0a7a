"""Counts what the recognisers do with test voices: right, wrong, rejected, falsely accepted.

Run: python -m scripts.ear.evaluate TESTS --voices awb nezumi --model new=FOLDER --model old=FOLDER --out report.json
Noise is pink, laid over the whole clip at the stated decibels below the speech's active level.
"""

from __future__ import annotations

import argparse
import json
import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import asdict, dataclass, field
from pathlib import Path

import numpy as np
import numpy.typing as npt

from coach.guide.bindings import BINDINGS

from . import phrases
from .listeners import Listener, pocketsphinx_listener, vosk_listener, whisper_listener
from .make_tests import TEST_NUMBERS, TEST_ROWS
from .numbers import digit_by_digit, in_words

RATE = 16_000
SURE = 0.5
LEAD, TAIL = 4800, 12_800
CLEAN = 99


@dataclass(frozen=True, slots=True)
class Clip:
    """One test utterance; kind: command, number, trade, mixed or other."""

    voice: str
    kind: str
    text: str
    samples: npt.NDArray[np.int16] = field(repr=False)


@dataclass(slots=True)
class Tally:
    """What one listener did with one kind of clip of one voice at one noise level."""

    clips: int = 0
    right: int = 0
    wrong: int = 0
    rejected: int = 0

    def add(self, wanted: str, heard: str) -> None:
        """Count one clip; *wanted* is "" for speech that must not act."""
        self.clips += 1
        if not heard:
            self.rejected += 1
        elif heard == wanted:
            self.right += 1
        else:
            self.wrong += 1


def read_clips(folder: Path, voices: Sequence[str]) -> list[Clip]:
    """Return the test clips of some voices."""
    clips = []
    for voice in voices:
        sound = np.fromfile(folder / f"{voice}.s16", "<i2")
        for line in (folder / f"{voice}.jsonl").read_text(encoding="utf-8").splitlines():
            fact = json.loads(line)
            samples = sound[fact["at"] : fact["at"] + fact["samples"]]
            clips.append(Clip(voice, fact["kind"], fact["text"], samples))
    return clips


def in_room(clip: Clip, decibels: int, seed: int) -> npt.NDArray[np.int16]:
    """Return the clip with quiet before and after it, in pink noise unless *decibels* is CLEAN."""
    rng = np.random.default_rng(seed)
    sound = np.concatenate([np.zeros(LEAD), clip.samples.astype(np.float64), np.zeros(TAIL)])
    sound += rng.standard_normal(sound.size) * 3
    if decibels != CLEAN:
        spectrum = np.fft.rfft(rng.standard_normal(sound.size))
        spectrum /= np.sqrt(np.arange(1, spectrum.size + 1))
        noise = np.fft.irfft(spectrum, sound.size)
        loud = np.abs(clip.samples) > 0.02 * np.abs(clip.samples.astype(np.int32)).max()
        level = np.sqrt((clip.samples[loud].astype(np.float64) ** 2).mean())
        sound += noise / np.sqrt((noise**2).mean()) * level * 10 ** (-decibels / 20)
    return np.clip(sound, -32768, 32767).astype(np.int16)


def grammar_for(kind: str) -> list[str]:
    """Return the phrases that may be said: the commands, or the test's numbers and rows."""
    if kind == "number":
        numbers = [in_words(number) for number in range(200)]
        numbers += [in_words(number) for number in TEST_NUMBERS if number >= 200]
        rows = sorted({*range(1, 161), *TEST_ROWS})
        spoken = [f"row {in_words(n)}" for n in rows] + [f"row {digit_by_digit(n)}" for n in rows]
        return [*numbers, *spoken]
    if kind == "trade":
        return [*phrases.TRADE_PHRASES]
    return list(phrases.coach_phrases())


def same_command(heard: str, wanted: str) -> str:
    """Return *wanted* when both phrases give the same command, else *heard*."""
    groups = [set(binding.spoken) for binding in BINDINGS]
    return wanted if any({heard, wanted} <= group for group in groups) else heard


@dataclass(slots=True)
class Report:
    """All figures of one run, ready for JSON."""

    tallies: dict[str, Tally] = field(default_factory=dict)
    phrases: dict[str, dict[str, list[int]]] = field(default_factory=dict)
    confusions: dict[str, Counter[str]] = field(default_factory=dict)
    seconds: dict[str, list[float]] = field(default_factory=dict)

    def as_json(self) -> str:
        """Return all figures as JSON text."""
        tallies = {key: asdict(tally) for key, tally in self.tallies.items()}
        rest = {"phrases": self.phrases, "confusions": self.confusions, "seconds": self.seconds}
        return json.dumps({"tallies": tallies, **rest}, indent=1)

    def add(self, name: str, clip: Clip, decibels: int, heard: str) -> None:
        """Count what listener *name* heard in a clip."""
        wanted = "" if clip.kind in {"other", "mixed"} else clip.text
        heard = same_command(heard, wanted) if wanted else heard
        key = f"{name}|{clip.voice}|{clip.kind}|{decibels}"
        self.tallies.setdefault(key, Tally()).add(wanted, heard)
        if wanted:
            row = self.phrases.setdefault(name, {}).setdefault(wanted, [0, 0, 0])
            row[0] += heard == wanted
            row[1] += bool(heard) and heard != wanted
            row[2] += not heard
        if heard and heard != wanted:
            self.confusions.setdefault(name, Counter())[f"{clip.text} -> {heard}"] += 1


def run(
    clips: Sequence[Clip], makers: dict[str, dict[str, Listener]], noises: Sequence[int]
) -> Report:
    """Let every listener hear every clip at every noise level."""
    report = Report()
    for number, clip in enumerate(clips):
        kind = clip.kind if clip.kind in {"number", "trade"} else "command"
        for decibels in noises:
            sound = in_room(clip, decibels, number)
            for name, listeners in makers.items():
                started = time.process_time()
                heard, sure = listeners[kind](sound)
                spent = report.seconds.setdefault(name, [0.0, 0.0])
                spent[0] += time.process_time() - started
                spent[1] += len(sound) / RATE
                report.add(name, clip, decibels, heard if sure >= SURE else "")
    return report


def summary(report: Report, names: Sequence[str], noises: Sequence[int]) -> str:
    """Return a table: one line a listener, voice and kind; right/wrong/rejected in percent."""
    lines = []
    keys = sorted({tuple(key.split("|")[1:3]) for key in report.tallies})
    for voice, kind in keys:
        for name in names:
            cells = []
            tally = Tally()
            for decibels in noises:
                tally = report.tallies.get(f"{name}|{voice}|{kind}|{decibels}", Tally())
                share = 100 / max(1, tally.clips)
                if kind in {"other", "mixed"}:
                    cells.append(f"{tally.wrong * share:5.1f} accepted")
                else:
                    cells.append(f"{tally.right * share:5.1f}/{tally.wrong * share:4.1f}")
            lines.append(f"{voice:10} {kind:8} {name:12} {tally.clips:4}  " + "  ".join(cells))
    for name in names:
        spent, heard = report.seconds[name]
        lines.append(f"{name}: real-time factor {spent / heard:.3f}")
    return "\n".join(lines)


def main() -> None:
    """Read the command line, run, print and write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("tests", type=Path)
    parser.add_argument("--voices", nargs="+", required=True)
    parser.add_argument(
        "--kinds", nargs="+", default=["command", "number", "trade", "other", "mixed"]
    )
    parser.add_argument("--model", action="append", default=[], help="NAME=FOLDER")
    parser.add_argument("--pocketsphinx", action="store_true")
    parser.add_argument("--whisper", action="store_true")
    parser.add_argument("--decoys", action="store_true", help="also give the rhymes as decoys")
    parser.add_argument("--noise", type=int, nargs="+", default=[CLEAN, 20, 10, 5])
    parser.add_argument("--every", type=int, default=1, help="only each N-th clip of the list")
    parser.add_argument("--out", type=Path)
    given = parser.parse_args()
    spoken = set(phrases.coach_phrases())
    clips = [c for c in read_clips(given.tests, given.voices) if c.kind in given.kinds]
    clips = [c for c in clips if c.kind != "command" or c.text in spoken]
    kinds = ("command", "number", "trade")
    makers: dict[str, dict[str, Listener]] = {}
    legal = set(phrases.coach_phrases())
    decoys = [w for w in phrases.RHYMES if w not in legal] if given.decoys else []
    for entry in given.model:
        name, _, folder = entry.partition("=")
        makers[name] = {
            kind: vosk_listener(
                Path(folder), grammar_for(kind), decoys if kind == "command" else ()
            )
            for kind in kinds
        }
    if given.pocketsphinx:
        makers["pocketsphinx"] = {kind: pocketsphinx_listener(grammar_for(kind)) for kind in kinds}
    if given.whisper:
        makers["whisper-tiny"] = {kind: whisper_listener(grammar_for(kind)) for kind in kinds}
    report = run(clips[:: given.every], makers, given.noise)
    print(summary(report, list(makers), given.noise))
    for name in makers:
        print(name, report.confusions.get(name, Counter()).most_common(14))
    if given.out:
        given.out.write_text(report.as_json(), encoding="utf-8")


if __name__ == "__main__":
    main()
