"""The sound worker is watched: one that ends or falls silent is told of and replaced."""

from __future__ import annotations

import os
import queue
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest

from coach.adapters.sound_out import SoundNews, SoundOut
from coach.adapters.speech_samples import Speech

STUB = Path(__file__).with_name("stub_sound_worker.py")


class Heard:
    """A sound worker with a fault, and the news of it."""

    def __init__(self, fault: str, folder: Path) -> None:
        self.news: queue.SimpleQueue[SoundNews] = queue.SimpleQueue()
        command = [sys.executable, str(STUB), fault, str(folder / "seen")]
        self.sound = SoundOut(self.news.put, command=command)

    def wait_for(self, what: str, seconds: float = 10.0) -> SoundNews:
        limit = time.monotonic() + seconds
        while True:
            news = self.news.get(timeout=max(0.01, limit - time.monotonic()))
            if news.what == what:
                return news

    def speak(self, line: int) -> None:
        self.sound.begin(line)
        self.sound.feed(line, Speech(np.zeros(100, np.int16), 22_050))
        self.sound.finish(line)


@pytest.fixture
def hear(tmp_path: Path) -> Iterator[Callable[[str], Heard]]:
    made: list[Heard] = []

    def heard(fault: str) -> Heard:
        made.append(Heard(fault, tmp_path))
        return made[-1]

    yield heard
    for each in made:
        each.sound.close()


def test_a_line_starts_and_ends(hear: Callable[[str], Heard]) -> None:
    heard = hear("works")
    heard.wait_for("opened")

    heard.speak(3)

    assert heard.wait_for("started").line == 3
    assert heard.wait_for("ended").line == 3


def test_a_machine_without_a_loudspeaker_is_told_so(hear: Callable[[str], Heard]) -> None:
    news = hear("missing").wait_for("missing")

    assert (news.detail, news.remedy) == ("No loudspeaker was found.", "Plug one in.")


def test_a_sound_system_that_crashes_at_once_is_told_so_and_tried_again(
    hear: Callable[[str], Heard],
) -> None:
    heard = hear("crashes")

    assert "doesn't start" in heard.wait_for("missing").detail
    heard.wait_for("opened")


@pytest.mark.parametrize("fault", ["dies", "hangs"])
def test_a_worker_that_fails_is_told_and_replaced(hear: Callable[[str], Heard], fault: str) -> None:
    heard = hear(fault)
    heard.wait_for("opened")

    heard.speak(1)

    heard.wait_for("lost")
    heard.wait_for("opened")
    heard.speak(2)
    assert heard.wait_for("ended").line == 2


def test_closing_ends_the_worker(hear: Callable[[str], Heard]) -> None:
    heard = hear("works")
    heard.speak(1)
    heard.wait_for("ended")  # an order was obeyed, so the worker is known by its id
    pid = heard.sound.pid
    assert pid is not None

    heard.sound.close()

    with pytest.raises(OSError, match="No such process"):
        os.kill(pid, 0)


def test_orders_never_wait_for_a_worker_that_is_stuck(hear: Callable[[str], Heard]) -> None:
    """A minute of samples goes into the queue at once, whether or not anyone reads it."""
    heard = hear("hangs")
    minute = Speech(np.zeros(60 * 22_050, np.int16), 22_050)

    for line in range(20):
        heard.sound.begin(line)
        heard.sound.feed(line, minute)

    heard.wait_for("lost")
