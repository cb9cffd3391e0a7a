"""Speech made by pyttsx3 in a worker process that is watched and restarted.

Turns one text into samples and says so when it can't: the worker hung, ended, made nothing,
made silence, or far too little for the text. Plays nothing and keeps nothing.
"""

from __future__ import annotations

import os
import queue
import tempfile
import threading
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NoReturn, Protocol

from coach.adapters.sound_file import NotSoundError
from coach.adapters.speech_samples import Speech, from_file_bytes, is_silent, trimmed
from coach.adapters.worker_pipe import Message, WorkerPipe, module_command

PATIENCE = 3.0  # seconds for any text, beside what its length takes
SECONDS_A_LETTER = 0.02  # a slow machine's share; a quarter of the speaking time at 150 words
TEMPORARY = ("TMPDIR", "TEMP", "TMP")  # where the engine's files go: a folder that is cleared
LEAST_OF_EXPECTED = 0.25  # less sound than this share of the expected time is no speech


class SpeechLostError(RuntimeError):
    """A text could not be made into sound; the message is a plain reason."""


class VoiceMissingError(SpeechLostError):
    """There is no speech engine on this machine at all."""


@dataclass(frozen=True, slots=True)
class VoiceChoice:
    """One voice of the machine: the id that settings keep, its name, its languages."""

    id: str
    name: str
    languages: str


class Voice(Protocol):
    """Makes speech of text. Calls block; one thread calls at a time."""

    @property
    def pid(self) -> int | None:
        """The id of the process that makes it, while there is one."""

    def make(self, text: str, rate: int, voice: str) -> Speech:
        """Return *text* as trimmed speech; *rate* in the engine's own words a minute.

        Raises:
            SpeechLostError: no usable sound came, in words that say why.
        """

    def voices(self) -> tuple[VoiceChoice, ...]: ...

    def close(self) -> None: ...


class WorkerVoice:
    """A `Voice` in a worker process: a worker that fails is ended, the next call starts another.

    command: how to start the worker. patience: seconds before any text is given up, its length
    added.
    """

    def __init__(
        self,
        command: Sequence[str] | None = None,
        *,
        patience: float = PATIENCE,
        log: Path | None = None,
    ) -> None:
        self._command = list(command or module_command("coach.adapters.voice_worker"))
        self._patience = patience
        self._log = log
        self._folder = tempfile.TemporaryDirectory(prefix="coach-voice-")
        self._reports: queue.SimpleQueue[tuple[Message, bytes] | None] = queue.SimpleQueue()
        self._pipe: WorkerPipe | None = None
        self._lock = threading.Lock()
        self._closed = False
        self._count = 0

    @property
    def pid(self) -> int | None:
        """The worker's process id, while there is one."""
        return self._pipe.pid if self._pipe else None

    def start(self) -> None:
        """Start the worker and wait until its engine is ready.

        Raises:
            SpeechLostError: it did not get ready. VoiceMissingError: there is no engine to start.
        """
        with self._lock:
            self._ready()

    def make(self, text: str, rate: int, voice: str = "") -> Speech:
        plain = " ".join(text.split())
        seconds = self._patience + SECONDS_A_LETTER * len(plain)
        _, content = self._ask({"make": plain, "rate": rate, "voice": voice}, seconds)
        try:
            speech = from_file_bytes(content)
        except NotSoundError as fault:
            self._fail(str(fault))
        if is_silent(speech):
            self._fail("the voice made silence")
        speech = trimmed(speech)
        if speech.seconds < LEAST_OF_EXPECTED * len(plain.split()) * 60 / rate:
            self._fail("the voice made far too little sound for the words")
        return speech

    def voices(self) -> tuple[VoiceChoice, ...]:
        answer, _ = self._ask({"voices": True}, self._patience)
        listed = answer.get("voices")
        if not isinstance(listed, list):
            return ()
        return tuple(VoiceChoice(each["id"], each["name"], each["languages"]) for each in listed)

    def close(self) -> None:
        """End the worker, even in the middle of a text, and clear its folder."""
        self._closed = True
        pipe = self._pipe
        if pipe is not None:
            pipe.end()
        self._folder.cleanup()

    def _ask(self, order: Message, seconds: float) -> tuple[Message, bytes]:
        with self._lock:
            pipe = self._ready()
            self._count += 1
            if not pipe.order({**order, "id": self._count}):
                self._fail("the voice's process ended")
            while True:
                answer, content = self._next(seconds)
                if answer.get("id") == self._count:
                    break
            if "fault" in answer:
                self._fail(str(answer["fault"]))
            return answer, content

    def _ready(self) -> WorkerPipe:
        if self._closed:
            raise SpeechLostError("the voice is closed")
        if self._pipe is not None:
            return self._pipe
        reports: queue.SimpleQueue[tuple[Message, bytes] | None] = queue.SimpleQueue()
        self._reports = reports
        try:
            self._pipe = WorkerPipe(
                self._command,
                reports=lambda message, payload: reports.put((message, payload)),
                gone=lambda: reports.put(None),
                environment={**os.environ, **dict.fromkeys(TEMPORARY, self._folder.name)},
                log=self._log,
            )
        except OSError as fault:
            raise SpeechLostError("the voice's process doesn't start") from fault
        answer, _ = self._next(self._patience + 5.0)  # a cold disk, the first import
        if "missing" in answer:
            self._drop()
            raise VoiceMissingError(str(answer["missing"]))
        return self._pipe

    def _next(self, seconds: float) -> tuple[Message, bytes]:
        try:
            report = self._reports.get(timeout=seconds)
        except queue.Empty:
            self._fail("the voice hung")
        if report is None:
            self._fail("the voice's process ended")
        return report

    def _fail(self, reason: str) -> NoReturn:
        """End the worker, for one that failed once can't be trusted, and say why."""
        self._drop()
        raise SpeechLostError(reason)

    def _drop(self) -> None:
        pipe, self._pipe = self._pipe, None
        if pipe is not None:
            pipe.end()
