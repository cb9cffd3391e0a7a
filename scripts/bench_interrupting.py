"""How well the coach can be interrupted while it speaks, and whether it obeys its own voice.

Its own voice and lines come back through a made-up room; a synthetic visitor speaks across them.
Everything runs faster than real time, in memory. usage, from the repository's root:

    .venv/bin/python -m scripts.bench_interrupting [--minutes N] [--leak DB …] [--out FILE]

--leak: the echo's level over the visitor's, in decibels. With no visitor, anything taken is false.
"""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import soxr

from coach.adapters.attention import TAIL, Heed
from coach.adapters.ear_listening import Listening
from coach.adapters.ear_meanings import meaning_of
from coach.adapters.ear_recogniser import Recogniser
from coach.adapters.ear_sayings import Saying
from coach.adapters.ear_verdicts import Accepted, Noticed
from coach.adapters.echo_canceller import EchoCanceller, WebRtcFrames
from coach.adapters.interruptions import Interruptions
from coach.adapters.model_store import find_model
from coach.adapters.speech_pace import plan
from coach.adapters.utterance import Utterance
from coach.adapters.voice_activity import RATE, silero
from coach.adapters.voice_pyttsx3 import WorkerVoice
from coach.adapters.voice_settings import BUNDLED_VOICE, ESPEAK_CURVE
from coach.guide.bindings import BINDINGS
from coach.guide.dialogue import Dialogue
from coach.guide.interrupting import WhileSpeaking, may_interrupt
from coach.ports import SaidWord
from scripts.bench_voice import SPEECH, Voices

SEED = 31
STEP = 320  # samples: 20 ms, as the microphone gives them
DELAY = 0.08  # seconds from the order to play to the ear: device and air
RT60 = 0.3  # seconds
GAP = 1.2  # seconds between two lines of the coach
VISITORS = ("flite:rms", "flite:slt", "festival:kal_diphone", "espeak:en-us+f1:170")
STOP_PHRASES = ("stop talking", "hold on there", "quiet time")
OTHERS = ("next row", "go back", "carry on", "repeat that", "where am i", "slow down", "how many")
PATTERNS = ("pebble-cloth", "orchard-gate-cushion")
LINES = (
    "Say next row, go back, or repeat that.",
    "Say next row, go back, or where am I. The space bar goes on, and backspace goes back.",
    "You can say: next row, go back, repeat that, where am I, how many left, stop talking.",
    "Say carry on to go on. Say stop talking, and I fall silent at once.",
)
MODES = {
    "half-duplex": (WhileSpeaking.NOTHING, False),
    "stop words": (WhileSpeaking.STOP_WORDS, False),
    "all words": (WhileSpeaking.ALL_WORDS, False),
    "stop words, echo cancelled": (WhileSpeaking.STOP_WORDS, True),
    "all words, echo cancelled": (WhileSpeaking.ALL_WORDS, True),
}


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the coach: its sound at 16 kHz and when each word sounds, from its beginning."""

    text: str
    samples: np.ndarray
    words: tuple[SaidWord, ...]


@dataclass
class Outcome:
    """What came of one run."""

    said: int = 0
    taken: int = 0
    fell_silent: int = 0
    late: list[float] = field(default_factory=list)
    false: Counter[str] = field(default_factory=Counter)
    held: int = 0
    seconds: float = 0.0

    def told(self) -> dict[str, object]:
        late = np.percentile(self.late, [50, 95]).round(2).tolist() if self.late else None
        return {
            "said": self.said,
            "taken": self.taken,
            "share": round(self.taken / max(1, self.said), 3),
            "taken_or_held_share": round(self.fell_silent / max(1, self.said), 3),
            "seconds_after_the_word_p50_p95": late,
            "false": dict(self.false),
            "held_for_nothing": self.held,
            "minutes": round(self.seconds / 60, 1),
        }


def texts_of_the_coach() -> list[str]:
    """Return the lines of the built-in patterns and those that hold commands, each once."""
    texts = list(LINES)
    for pattern in PATTERNS:
        told = subprocess.run(
            [sys.executable, "-m", "coach", "steps", pattern],
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        texts += told.splitlines()
    return list(dict.fromkeys(text for text in texts if text.strip()))


def lines_of_the_coach() -> list[Line]:
    """Return those lines as the coach says them."""
    voice = WorkerVoice()
    try:
        return [_spoken(text, voice) for text in texts_of_the_coach()]
    finally:
        voice.close()


def _spoken(text: str, voice: WorkerVoice) -> Line:
    pieces = plan(text, 150, ESPEAK_CURVE)
    utterance = Utterance(1, text, pieces, 0.0, 0.0)
    parts: list[np.ndarray] = []
    for piece in pieces:
        speech = voice.make(piece.text, piece.engine_rate, BUNDLED_VOICE)
        sound = soxr.resample(speech.samples.astype(np.float64), speech.rate, RATE)
        pause = utterance.send(speech.seconds)
        parts += [sound, np.zeros(round(pause * RATE))]
    utterance.sounds_since = 0.0
    whole = np.concatenate(parts)
    loud = whole[np.abs(whole) > 500]
    whole *= SPEECH / np.sqrt(np.mean(loud**2)) if len(loud) else 1.0
    return Line(text, whole, utterance.words())


def room(random: np.random.Generator) -> np.ndarray:
    """Return the response of a made-up room: the direct sound after DELAY, then a decay."""
    times = np.arange(round(RT60 * RATE)) / RATE
    tail = random.standard_normal(len(times)) * np.exp(-6.9 * times / RT60) * 0.06
    tail[0] = 1.0
    return np.concatenate((np.zeros(round(DELAY * RATE)), tail / np.linalg.norm(tail)))


@dataclass(frozen=True, slots=True)
class Scene:
    """One line with its echo, and what a visitor says across it."""

    played: np.ndarray
    heard: np.ndarray
    line: Line
    phrase: str = ""
    phrase_ends: float = 0.0


def scenes(  # noqa: PLR0917 - a scene is named by all of these
    lines: Sequence[Line],
    voices: Voices,
    leak: float,
    minutes: float,
    phrases: Sequence[str],
    random: np.random.Generator,
) -> Iterator[Scene]:
    """Yield scenes of *minutes* together; without *phrases* nobody speaks but the coach."""
    made, response, number = 0.0, room(random), 0
    while made < 60 * minutes:
        line = lines[int(random.integers(len(lines)))]
        length = len(line.samples) + round(GAP * RATE)
        length += -length % STEP
        played = random.uniform(-16, 16, length)  # the hush that the coach plays
        played[: len(line.samples)] += line.samples
        echo = np.convolve(played, response)[:length] * 10 ** (leak / 20)
        heard = echo + random.standard_normal(length) * 8
        phrase, ends = "", 0.0
        if phrases:
            phrase = phrases[number % len(phrases)]
            said = voices.say(phrase, VISITORS[number // len(phrases) % len(VISITORS)])
            number += 1
            room_left = len(line.samples) - len(said)
            if room_left < RATE:
                continue
            start = int(random.integers(RATE // 2, room_left))
            heard[start : start + len(said)] += said
            ends = (start + len(said)) / RATE
        made += length / RATE
        yield Scene(
            np.clip(played, -32767, 32767).astype(np.int16),
            np.clip(heard, -32767, 32767).astype(np.int16),
            line,
            phrase,
            ends,
        )


class Ear:
    """The coach's ear as its worker puts it together, on a clock that the sound moves."""

    def __init__(self, model: Path, taken: WhileSpeaking, *, cancels: bool) -> None:
        self.time = 100.0
        meanings = {each: meaning_of(each) for each in Dialogue(BINDINGS).phrases("working")}
        recogniser = Recogniser(model)
        recogniser.listen_for(tuple(meanings))
        self.listening = Listening(recogniser, silero())
        self.listening.listen_for(meanings)
        self.interruptions = Interruptions(taken, hears_clean=cancels, clock=lambda: self.time)
        self.canceller = EchoCanceller(WebRtcFrames()) if cancels else None

    def hear(self, scene: Scene) -> Iterator[tuple[str, float]]:
        """Yield what is taken while the coach speaks, "" for an unsure one, and when."""
        began, line = self.time, scene.line
        over = began + len(line.samples) / RATE
        self.interruptions.attention.coach_speaks(over - began)
        self.interruptions.coach_says(
            [SaidWord(word.text, began + word.began, began + word.ended) for word in line.words]
        )
        for at in range(0, len(scene.heard), STEP):
            if self.canceller is not None:
                self.canceller.play(scene.played[at : at + STEP], RATE, self.time)
            before, self.time = self.time, self.time + STEP / RATE
            if before < over <= self.time:
                self.interruptions.coach_silent()
            samples = scene.heard[at : at + STEP]
            if self.canceller is not None:
                samples = self.canceller.clean(samples, self.time)
            yield from self._take(samples, began)
        self.listening.forget_talk()

    def _take(self, samples: np.ndarray, began: float) -> Iterator[tuple[str, float]]:
        if self.interruptions.attention.heed(self.time) is not Heed.WORDS:
            self.listening.skip(len(samples))
            return
        self.listening.take_hints(self.interruptions.hints_at(self.time))
        for heard in self.listening.feed(samples):
            if isinstance(heard, Saying | Noticed):
                continue  # in a lesson; before it is known whether the phrase grows
            shift = self.time - self.listening.now
            text = heard.text if isinstance(heard, Accepted) else ""
            meaning = self.listening.meaning(text)
            if self.interruptions.interrupts(heard, shift):
                if not self.interruptions.takes(heard, meaning, shift):
                    continue
            elif not text:
                continue
            yield text, self.time - began


def run(ear: Ear, played: Iterator[Scene], taken: WhileSpeaking) -> Outcome:
    """Let *ear* hear the scenes and say what came of them."""
    outcome = Outcome()
    for scene in played:
        outcome.seconds += len(scene.heard) / RATE
        wanted = bool(scene.phrase) and may_interrupt(scene.phrase, meaning_of(scene.phrase), taken)
        outcome.said += bool(scene.phrase) if taken is WhileSpeaking.NOTHING else wanted
        silent = False
        for text, at in ear.hear(scene):
            near = scene.phrase_ends - 1.5 < at < scene.phrase_ends + 2.0
            silent |= bool(scene.phrase) and wanted and near
            if not text:
                outcome.held += not near
            elif meaning_of(text) == meaning_of(scene.phrase) and at < scene.phrase_ends + 2.0:
                outcome.taken += 1
                outcome.late.append(at - scene.phrase_ends)
            else:
                outcome.false[f"{text} (said: {scene.phrase or 'nothing'})"] += 1
        outcome.fell_silent += silent
    return outcome


def bench(given: argparse.Namespace) -> dict[str, object]:
    """Run every mode at every leak, with a visitor and without."""
    model = given.model or find_model({}, Path("/nowhere"))
    if not isinstance(model, Path):
        sys.exit(model.reason)
    lines = lines_of_the_coach()
    told: dict[str, object] = {"seed": SEED, "speech": "synthetic only", "tail": TAIL}
    with tempfile.TemporaryDirectory() as folder:
        voices = Voices(Path(folder))
        for leak in given.leak:
            for name, (taken, cancels) in MODES.items():
                if given.mode and name not in given.mode:
                    continue
                phrases = (
                    STOP_PHRASES
                    if taken is WhileSpeaking.STOP_WORDS
                    else (
                        *STOP_PHRASES,
                        *OTHERS,
                    )
                )
                row: dict[str, object] = {}
                for who, spoken in (("visitor", phrases), ("coach alone", ())):
                    random = np.random.default_rng(SEED)
                    ear = Ear(model, taken, cancels=cancels)
                    heard = scenes(lines, voices, leak, given.minutes, spoken, random)
                    row[who] = run(ear, heard, taken).told()
                    print(f"leak {leak:+g} dB, {name}, {who}: {row[who]}", flush=True)
                told[f"leak {leak:+g} dB, {name}"] = row
    return told


def main() -> None:
    """Run and write the result."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--minutes", type=float, default=10.0, help="of each run")
    parser.add_argument("--leak", type=float, nargs="+", default=[-10.0, 0.0, 6.0])
    parser.add_argument("--mode", nargs="*", choices=list(MODES))
    parser.add_argument("--model", type=Path)
    parser.add_argument("--out", type=Path, default=Path("bench-interrupting.json"))
    given = parser.parse_args()
    given.out.write_text(json.dumps(bench(given), indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
