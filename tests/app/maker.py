"""A maker at work in tests: a session with fakes all round, led by lines, keys or words."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from coach.app.proving import prove_text
from coach.app.session import Session
from coach.app.settings import Settings
from coach.app.settling import settler
from coach.craft.proof import Proof
from coach.guide.commands import Command, Order
from tests.fakes import (
    Log,
    MemoryProgress,
    RecordingDisplay,
    RecordingEar,
    RecordingSpeaker,
    SetClock,
)


class Maker:
    """One maker and the coach. Each call returns what the coach told in answer."""

    def __init__(
        self,
        pattern: str | Proof,
        *,
        progress: MemoryProgress | None = None,
        settings: Settings | None = None,
        at_row: int | None = None,
        clock: SetClock | None = None,
        begin: bool = True,
    ) -> None:
        self.log = Log()
        self.proof = prove_text(pattern) if isinstance(pattern, str) else pattern
        settle = settler(pattern) if isinstance(pattern, str) else None
        self.progress = progress or MemoryProgress()
        self.progress.log = self.log
        self.display = RecordingDisplay(self.log)
        self.speaker = RecordingSpeaker(self.log)
        self.ear = RecordingEar(self.log)
        self.clock = clock or SetClock()
        self.kept: list[Settings] = []
        self.heard: list[str] = []
        self.session = Session(
            self.proof,
            "piece",
            display=self.display,
            speaker=self.speaker,
            ear=self.ear,
            progress=self.progress,
            clock=self.clock,
            settings=settings,
            settle=settle,
            changed=self.kept.append,
            heard=lambda heard: self.heard.append(heard.text),
        )
        self.first = ""
        if begin:
            self.first = self._told(lambda: self.session.begin(at_row))

    def types(self, *lines: str) -> str:
        """Type lines; return what was told after the last."""
        told = ""
        for line in lines:
            told = self._told(partial(self.session.typed, line))
        return told

    def gives(self, command: Command, number: int | None = None) -> str:
        """Press a key or a pedal that gives *command*."""
        return self._told(lambda: self.session.receive(Order(command, number)))

    def says(self, words: str, confidence: float = 0.95) -> str:
        """Say words aloud."""
        return self._told(lambda: self.ear.say(words, confidence))

    def says_across(self, words: str) -> str:
        """Say words aloud while the coach speaks; "" for something it isn't sure of."""
        return self._told(lambda: self.ear.say(words, interrupts=True))

    def to_row(self, number: int, *, step: int = 1) -> None:
        """Walk on by next until this step of that row stands there."""
        for _ in range(10_000):
            at = self.display.view.at
            if (at["row"], at["block"]) == (number, step):
                return
            self.gives(Command.NEXT)
        raise AssertionError(f"row {number}, step {step} is not reached")

    def to_the_end_of_row(self, number: int) -> None:
        """Walk on until the last step of that row stands there."""
        if self.display.view.at["row"] != number:
            self.to_row(number)
        guide = self.session.guide
        steps = len(self.session.piece.steps(guide.stage, guide.manner.pace))
        self.to_row(number, step=steps)

    @property
    def said(self) -> str:
        """What was said aloud last."""
        return self.speaker.said[-1]

    def _told(self, act: Callable[[], None]) -> str:
        before = len(self.display.lines)
        act()
        return " ".join(self.display.lines[before:])
