"""A speaker that writes down what it is asked to say, as JSON lines, and may pass it on.

For tests and reports: one object a line, flushed, such as {"say": "Row six."} or
{"tone": "forward"}. Makes no sound of its own.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import TextIO

from coach.adapters.silent import Silence
from coach.ports import Speaker
from coach.wording.words import Words


class RecordingSpeaker:
    """A `coach.ports.Speaker` that records every order, then hands it to *onward*."""

    def __init__(self, lines: TextIO, onward: Speaker | None = None) -> None:
        self._lines = lines
        self._onward = onward or Silence()

    def say(self, words: Words) -> None:
        self._record("say", words.full)
        self._onward.say(words)

    def prepare(self, likely: Sequence[Words]) -> None:
        self._record("prepare", [each.full for each in likely])
        self._onward.prepare(likely)

    def tone(self, kind: str) -> None:
        self._record("tone", kind)
        self._onward.tone(kind)

    def stop(self) -> None:
        self._record("stop", True)
        self._onward.stop()

    def hold(self) -> None:
        self._record("hold", True)
        self._onward.hold()

    def set_rate(self, words_per_minute: int) -> None:
        self._record("rate", words_per_minute)
        self._onward.set_rate(words_per_minute)

    def set_loudness(self, percent: int) -> None:
        self._record("loudness", percent)
        self._onward.set_loudness(percent)

    def close(self) -> None:
        self._record("close", True)
        self._onward.close()

    def _record(self, what: str, value: object) -> None:
        self._lines.write(json.dumps({what: value}, ensure_ascii=False) + "\n")
        self._lines.flush()
