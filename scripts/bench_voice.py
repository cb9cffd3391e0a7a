"""How well the coach hears: actions, not words, on synthetic speech; beside peers in one run.

Every voice is synthetic, so these figures rank and compare; they don't foretell how well people
are heard. Voices of whole engines are held out: no rule or level of the ear was chosen on them
(what the acoustic model was trained on stands in models/README.md).
"""

from __future__ import annotations

import argparse
import json
import math
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import soxr

from coach.adapters.ear_listening import Listening
from coach.adapters.ear_meanings import meaning_of
from coach.adapters.ear_recogniser import Recogniser
from coach.adapters.ear_verdicts import Accepted
from coach.adapters.model_store import find_model
from coach.adapters.speech_samples import from_file_bytes
from coach.adapters.voice_activity import RATE, silero
from coach.guide.bindings import BINDINGS, moves_place
from coach.guide.commands import Command, Order
from coach.guide.dialogue import Dialogue
from scripts.bench_voice_peers import peers

SEED = 20
SPEECH = 1_500.0  # root mean square of 16-bit speech
TUNED_ON = ("espeak:en-us:150", "espeak:en-gb+f2:170", "flite:rms", "flite:kal16")
HELD_OUT = ("festival:kal_diphone", "festival:ked_diphone", "festival:cmu_us_slt_arctic_hts")
NOISES: tuple[tuple[str, float], ...] = (
    ("clean", 60.0),
    ("pink", 10.0),
    ("babble", 20.0),
    ("babble", 10.0),
    ("babble", 5.0),
)
PEERS_ON = (("clean", 60.0), ("babble", 10.0))
CORE = frozenset(
    {
        *(Command.NEXT, Command.BACK, Command.REPEAT, Command.WHERE, Command.HOW_MANY),
        *(Command.LEFT, Command.PAUSE, Command.CARRY_ON, Command.UNDO, Command.STOP_TALKING),
        *(Command.SLOWER, Command.FASTER, Command.HELP, Command.YES, Command.NO),
    }
)
NUMBERS = ("i have thirty two", "i have one one seven", "i have seventy seven")
TALK = (
    "next week we go to the coast",
    "my back aches today",
    "i said repeat that to your sister",
    "could you carry on without me",
    "the text is on the table",
    "black coffee please",
    "he had to go back to the shop",
    "where am i going to put this",
    "yes i know what you mean",
    "how many biscuits did you eat",
    "stop talking like that to him",
    "she was helping me",
    "our daughter comes on sunday",
    "row twelve was hard for me",
    "is it time for tea",
    "no i think she has left",
    "pause the film for a minute",
    "it is next to the window",
)
# fmt: off
RHYMES = (
    "nest", "text", "necks", "complete", "black", "receipt", "lower",
    "carrot", "pack", "bag", "bake", "lack", "stopping", "talking",
    "walking", "plain", "now", "health", "yarn", "chess", "guess",
    "yet", "into", "under", "cause", "boss", "held", "felt",
)
# fmt: on
BABBLERS = ("espeak:en-gb+m2:160", "espeak:en-us+f1:180", "espeak:en-gb-scotland+m5:150")


@dataclass
class Tally:
    """What became of clips: the right action, another one, none."""

    right: int = 0
    wrong: int = 0
    none: int = 0
    late: list[float] = field(default_factory=list)
    confusions: Counter[str] = field(default_factory=Counter)

    def told(self) -> dict[str, object]:
        whole = self.right + self.wrong + self.none
        late = np.percentile(self.late, [50, 95]).round().tolist() if self.late else [None, None]
        return {
            "clips": whole,
            "right": self.right,
            "wrong": self.wrong,
            "none": self.none,
            "right_share": round(self.right / max(1, whole), 4),
            "wrong_share": round(self.wrong / max(1, whole), 4),
            "ms_p50": late[0],
            "ms_p95": late[1],
            "confusions": dict(self.confusions.most_common(15)),
        }


class Voices:
    """Speech of free engines, made once and kept for the run."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._made: dict[tuple[str, str], np.ndarray] = {}

    def say(self, text: str, voice: str) -> np.ndarray:
        """Return *text* as float samples at 16 kHz, trimmed, at one level."""
        if (text, voice) not in self._made:
            file = self._folder / "made.wav"
            engine, *kind = voice.split(":")
            _SPEAK[engine](text, kind, file)
            speech = from_file_bytes(file.read_bytes())
            samples = speech.samples.astype(np.float64)
            if speech.rate != RATE:
                samples = soxr.resample(samples, speech.rate, RATE)
            loud = np.flatnonzero(np.abs(samples) > 200)
            samples = samples[loud[0] : loud[-1]] if len(loud) else samples
            self._made[text, voice] = samples * (SPEECH / np.sqrt(np.mean(samples**2)))
        return self._made[text, voice]


def _espeak(text: str, kind: list[str], file: Path) -> None:
    _run(["espeak-ng", "-v", kind[0], "-s", kind[1], "-w", str(file), text])


def _flite(text: str, kind: list[str], file: Path) -> None:
    _run(["flite", "-voice", kind[0], "-t", text, "-o", str(file)])


def _festival(text: str, kind: list[str], file: Path) -> None:
    _run(["text2wave", "-eval", f"(voice_{kind[0]})", "-o", str(file)], text)


_SPEAK: dict[str, Callable[[str, list[str], Path], None]] = {
    "espeak": _espeak,
    "flite": _flite,
    "festival": _festival,
}


def _run(command: list[str], text: str = "") -> None:
    subprocess.run(command, input=text.encode(), check=True, capture_output=True)


class Noise:
    """Pink noise, and the babble of several talkers, as long as wanted."""

    def __init__(self, voices: Voices, random: np.random.Generator) -> None:
        self._random = random
        talkers = []
        for each in BABBLERS:
            said = [voices.say(text, each) for text in random.permutation(TALK)]
            talkers.append(np.concatenate(said))
        length = min(len(talker) for talker in talkers)
        self._babble = np.sum([talker[:length] for talker in talkers], axis=0)

    def make(self, kind: str, length: int) -> np.ndarray:
        """Return *length* samples with root mean square 1."""
        sound: np.ndarray
        if kind == "babble":
            start = int(self._random.integers(0, len(self._babble)))
            sound = np.resize(np.roll(self._babble, -start), length)
        else:
            spectrum = np.fft.rfft(self._random.standard_normal(length))
            shape = np.sqrt(np.maximum(np.arange(len(spectrum)), 1)) if kind == "pink" else 1.0
            sound = np.fft.irfft(spectrum / shape, length)
        sound /= np.sqrt(np.mean(sound**2))
        return sound


class Coach:
    """The coach's own path, from samples to orders."""

    name = "coach"

    def __init__(self, model: Path) -> None:
        dialogue = Dialogue(BINDINGS)
        meanings = {phrase: meaning_of(phrase) for phrase in dialogue.phrases("working")}
        recogniser = Recogniser(model)
        self.lacking = recogniser.listen_for(tuple(meanings))
        self._listening = Listening(recogniser, silero())
        self._listening.listen_for(meanings)
        self._dialogue = dialogue

    def orders(self, samples: np.ndarray) -> Iterator[tuple[Order, float, float]]:
        """Yield each order with the second of the clip and the seconds of work it came with."""
        start = self._listening.now
        for at in range(0, len(samples), 320):
            began = time.perf_counter()
            for heard in self._listening.feed(samples[at : at + 320]):
                if not isinstance(heard, Accepted):
                    continue
                taken = self._dialogue.take(
                    heard.text, heard.confidence, heard.at, mode="working", expected_count=999
                )
                order = taken.order or (taken.ask.order if taken.ask else None)
                worked = time.perf_counter() - began
                if order is not None:
                    yield order, self._listening.now - start, worked

    def actions(self, samples: np.ndarray) -> list[tuple[str, float]]:
        """Return the actions of a clip and how many seconds into it each came."""
        return [(_action(order), at + worked) for order, at, worked in self.orders(samples)]


def _action(order: Order) -> str:
    return order.command.value if order.number is None else f"{order.command.value} {order.number}"


def expected_action(text: str) -> str:
    """Return the action that *text* asks for."""
    taken = Dialogue(BINDINGS).take(text, 1.0, 0.0, mode="working", expected_count=999)
    order = taken.order or (taken.ask.order if taken.ask else None)
    assert order is not None, text
    return _action(order)


def clip(speech: np.ndarray, noise: np.ndarray, snr: float) -> tuple[np.ndarray, float]:
    """Return a clip with *noise* over all of it, and the second at which the speech ends."""
    before = len(noise) - len(speech) - 2 * RATE
    whole = np.zeros(len(noise))
    whole[before : before + len(speech)] = speech
    whole += noise * SPEECH * 10 ** (-snr / 20)
    ended = (before + len(speech)) / RATE
    return np.clip(whole, -32_767, 32_767).astype(np.int16), ended


def score(
    actions: Callable[[np.ndarray], list[tuple[str, float]]],
    clips: Iterable[tuple[str, np.ndarray, float]],
) -> Tally:
    """Score one listener: of several actions in a clip any wrong one counts."""
    tally = Tally()
    for text, samples, ended in clips:
        wanted = expected_action(text)
        got = actions(samples)
        wrong = [action for action, _ in got if action != wanted]
        if wrong:
            tally.wrong += 1
            tally.confusions[f"{text} -> {wrong[0]}"] += 1
        elif got:
            tally.right += 1
            tally.late.append(1_000 * (got[0][1] - ended))
        else:
            tally.none += 1
            tally.confusions[f"{text} -> nothing"] += 1
    return tally


def false_accepts(
    actions: Callable[[np.ndarray], list[tuple[str, float]]], clips: Iterable[np.ndarray]
) -> dict[str, object]:
    """Count clips of talk that were taken for an order."""
    count, taken, which = 0, 0, Counter[str]()
    for samples in clips:
        count += 1
        got = actions(samples)
        taken += bool(got)
        which.update(action for action, _ in got)
    return {
        "clips": count,
        "taken": taken,
        "rejected_share": round(1 - taken / max(1, count), 4),
        "as": dict(which.most_common(8)),
    }


def hours_of_talk(coach: Coach, noise: Noise, minutes: float) -> dict[str, object]:
    """Let the coach listen to babble alone and count orders and moves, with Poisson's bound."""
    moves, orders = 0, 0
    for _ in range(round(minutes)):
        samples = (noise.make("babble", 60 * RATE) * SPEECH).astype(np.int16)
        for order, _, _ in coach.orders(samples):
            orders += 1
            moves += moves_place(order.command)
    hours = round(minutes) / 60
    return {
        "hours": round(hours, 3),
        "orders": orders,
        "false_moves": moves,
        "moves_per_hour": round(moves / hours, 2),
        "moves_per_hour_at_most_95": round(_poisson_bound(moves) / hours, 2),
    }


def _poisson_bound(count: int) -> float:
    """Return the mean at which *count* or fewer have a chance of one in twenty."""
    low, high = 0.0, 10.0 + 3 * count
    for _ in range(60):
        mean = (low + high) / 2
        chance = sum(math.exp(-mean) * mean**n / math.factorial(n) for n in range(count + 1))
        low, high = (mean, high) if chance > 0.05 else (low, mean)
    return high


def main() -> None:
    """Run all and write the result."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--minutes", type=float, default=30, help="of babble alone")
    parser.add_argument("--model", type=Path)
    parser.add_argument("--out", type=Path, default=Path("bench-voice.json"))
    parser.add_argument("--no-peers", action="store_true")
    parser.add_argument("--quick", action="store_true", help="held-out voices, two noises")
    given = parser.parse_args()
    model = given.model or find_model({}, Path("/nowhere"))
    if not isinstance(model, Path):
        sys.exit(model.reason)
    random = np.random.default_rng(SEED)
    coach = Coach(model)
    lacking = set(coach.lacking)
    listed = [p for p in Dialogue(BINDINGS).phrases("working") if "#" not in p]
    phrases = [*(p for p in listed if p not in lacking), *NUMBERS]
    with tempfile.TemporaryDirectory() as folder:
        voices = Voices(Path(folder))
        noise = Noise(voices, random)
        result: dict[str, object] = {
            "speech": "synthetic only",
            "seed": SEED,
            "model": model.name,
            "phrases": len(phrases),
            "not_in_model": sorted(lacking),
        }
        result["coach"] = _coach_table(coach, voices, noise, phrases, quick=given.quick)
        result["talk_alone"] = (alone := hours_of_talk(coach, noise, given.minutes))
        _print("coach, talk alone", alone)
        if not given.no_peers:
            result["side_by_side"] = _side_by_side(coach, model, voices, noise, phrases)
    given.out.write_text(json.dumps(result, indent=1) + "\n", encoding="utf-8")
    print(f"written: {given.out}")


def _clips(  # noqa: PLR0917 - one sound is named by all of these
    voices: Voices, noise: Noise, phrases: list[str], who: tuple[str, ...], kind: str, snr: float
) -> Iterator[tuple[str, np.ndarray, float]]:
    for voice in who:
        for text in phrases:
            speech = voices.say(text, voice)
            yield text, *clip(speech, noise.make(kind, len(speech) + 4 * RATE), snr)


def _coach_table(
    coach: Coach, voices: Voices, noise: Noise, phrases: list[str], *, quick: bool
) -> list[dict[str, object]]:
    rows = []
    sets = (("held out", HELD_OUT), ("tuned on", TUNED_ON))
    for name, who in sets[:1] if quick else sets:
        for kind, snr in PEERS_ON if quick else NOISES:
            tally = score(coach.actions, _clips(voices, noise, phrases, who, kind, snr))
            rows.append({"voices": name, "noise": kind, "snr": snr, **tally.told()})
            _print("coach", rows[-1])
        said = [voices.say(text, voice) for voice in who for text in TALK]
        alike = [voices.say(text, voice) for voice in who for text in RHYMES]
        for kind, sounds in (("talk", said), ("rhymes", alike)):
            heard = false_accepts(coach.actions, _quiet(sounds, noise))
            rows.append({"voices": name, "noise": "clean", "of": kind, **heard})
            _print("coach", rows[-1])
    return rows


def _quiet(sounds: list[np.ndarray], noise: Noise) -> Iterator[np.ndarray]:
    for sound in sounds:
        # Long enough apart that one sentence is no talk before the next.
        yield clip(sound, noise.make("white", len(sound) + 10 * RATE), 60.0)[0]


def _side_by_side(
    coach: Coach, model: Path, voices: Voices, noise: Noise, phrases: list[str]
) -> list[dict[str, object]]:
    rows = []
    core = {phrase for binding in BINDINGS if binding.command in CORE for phrase in binding.spoken}
    phrases = [phrase for phrase in phrases if phrase in core or phrase in NUMBERS]
    whole = {(k, s): list(_clips(voices, noise, phrases, HELD_OUT, k, s)) for k, s in PEERS_ON}
    talk = list(_quiet([voices.say(t, v) for v in HELD_OUT for t in (*TALK, *RHYMES)], noise))
    listeners: dict[str, Callable[[np.ndarray], list[tuple[str, float]]]] = {"coach": coach.actions}
    for name, hear in peers(model, phrases).items():
        listeners[name] = _with_actions(hear)
    for name, actions in listeners.items():
        for (kind, snr), clips in whole.items():
            rows.append({"who": name, "noise": kind, "snr": snr, **score(actions, clips).told()})
            _print(name, rows[-1])
        rows.append({"who": name, "of": "talk and rhymes", **false_accepts(actions, talk)})
        _print(name, rows[-1])
    return rows


def _with_actions(
    hear: Callable[[np.ndarray], list[tuple[str, float]]],
) -> Callable[[np.ndarray], list[tuple[str, float]]]:
    def actions(samples: np.ndarray) -> list[tuple[str, float]]:
        return [(expected_action(text), at) for text, at in hear(samples)]

    return actions


def _print(who: str, row: dict[str, object]) -> None:
    told = ", ".join(f"{key} {value}" for key, value in row.items() if key != "confusions")
    print(f"{who}: {told}", flush=True)


if __name__ == "__main__":
    main()
