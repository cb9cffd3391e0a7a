"""The process that hears: it owns the microphone, the voice detector and the recogniser.

What crashes, hangs or prints in a sound or speech library does so here, away from the screen.
It opens no socket and writes no file: sound comes in, and only whole phrases of the closed list
go out. Run as a module by `ear_vosk`; orders and reports are those of `worker_pipe`.
"""

from __future__ import annotations

import os
import queue
import sys
import threading
import time
from collections.abc import Sequence
from pathlib import Path
from typing import BinaryIO

import numpy as np

from coach.adapters.attention import Heed
from coach.adapters.ear_listening import Listening
from coach.adapters.ear_recogniser import BadModelError, Recogniser
from coach.adapters.ear_sayings import Saying
from coach.adapters.ear_verdicts import Accepted, Noticed
from coach.adapters.echo_canceller import NO_CANCELLER, EchoCanceller, WebRtcFrames
from coach.adapters.interruptions import Interruptions
from coach.adapters.microphone import Microphone, to_16k
from coach.adapters.sound_file import NotSoundError
from coach.adapters.speech_samples import Samples, Speech, from_file_bytes
from coach.adapters.voice_activity import RATE, silero
from coach.adapters.worker_pipe import Message, read_message, take_the_pipes, write_message
from coach.guide.interrupting import WhileSpeaking
from coach.ports import Missing, SaidWord

BEAT = 0.5  # seconds between signs of life
WARM_UP = 0.5  # seconds of sound worked through, after the test clip, before "ready" is told
SETTLE = 0.03  # seconds given to an order that follows an answer, when a recording is heard


class EarWorker:
    """Carries out orders and reports what is heard."""

    def __init__(
        self, reports: BinaryIO, while_speaking: WhileSpeaking = WhileSpeaking.NOTHING
    ) -> None:
        self._pipe = reports
        self._while_speaking = while_speaking
        self._writing = threading.Lock()
        self._orders: queue.SimpleQueue[Message] = queue.SimpleQueue()
        self._interruptions = Interruptions(while_speaking)
        self._canceller: EchoCanceller | None = None
        self._was_deaf = self._was_spoken_over = False
        self._listening: Listening | None = None
        self._recogniser: Recogniser | None = None
        self._phrases: tuple[str, ...] = ()
        self._microphone: Microphone | None = None
        self._recording = False
        self._answered = threading.Event()

    def take(self, order: Message, payload: bytes) -> None:
        """Accept an order; called from the thread that reads them."""
        if order.get("do") == "answered":
            self._answered.set()
        elif order.get("do") == "plays":
            if self._canceller is not None:
                played = np.frombuffer(payload, np.int16)
                rate, at = int(str(order["rate"])), float(str(order["at"]))
                self._canceller.play(played, rate, at)
        else:
            self._orders.put(order)

    def has_orders(self) -> bool:
        """Return whether orders wait."""
        return not self._orders.empty()

    def report(self, message: Message) -> None:
        """Send a report; the worker ends when nobody is there to read it."""
        with self._writing:
            try:
                write_message(self._pipe, message)
            except (OSError, ValueError):
                os._exit(0)

    def missing(self, what: Missing) -> None:
        self.report({"missing": what.reason, "remedy": what.remedy})

    # Work

    def load(self, folder: Path) -> bool:
        """Load and try the model; return whether it works."""
        try:
            self._recogniser = Recogniser(folder)
            self._recogniser.self_test()
        except BadModelError as fault:
            self.missing(fault.missing)
            return False
        self._listening = Listening(self._recogniser, silero())
        return True

    def cancel_echo(self) -> None:
        """Take the coach's own sound out; without the canceller be deaf while it speaks."""
        try:
            self._canceller = EchoCanceller(WebRtcFrames())
        except (ImportError, OSError):
            self._interruptions = Interruptions()
            self.report({"deaf": NO_CANCELLER.reason, "remedy": NO_CANCELLER.remedy})
        else:
            self._interruptions = Interruptions(self._while_speaking, hears_clean=True)

    def obey(self) -> None:
        """Carry out all orders that wait."""
        while not self._orders.empty():
            order = self._orders.get()
            match order.get("do"):
                case "listen":
                    self._listen_for(order)
                case "mute":
                    self._interruptions.attention.mute(bool(order["muted"]))
                    self._forget()
                case "speaks":
                    self._interruptions.attention.coach_speaks(float(str(order["seconds"])))
                    if not self._interruptions.are_heard:
                        self._forget()
                case "says":
                    self._interruptions.coach_says(_said_words(order["words"]))
                case "learn":
                    if self._listening is not None:
                        self._listening.learn(bool(order["learns"]))
                case "silent":
                    self._interruptions.coach_silent()

    def _listen_for(self, order: Message) -> None:
        meanings = order["meanings"]
        if self._listening is None or self._recogniser is None or not isinstance(meanings, dict):
            return
        if tuple(meanings) != self._phrases:
            self._phrases = tuple(meanings)
            try:
                lacking = self._recogniser.listen_for(self._phrases)
            except BadModelError as fault:
                self.missing(fault.missing)
                return
            if lacking:
                self.report({"lacking": list(lacking)})
            self._listening.listen_for(meanings)

    def _forget(self) -> None:
        if self._listening is not None:
            self._listening.reset()
        if self._microphone is not None:
            self._microphone.drop_waiting()

    def hear_microphone(self, wanted: str | None) -> None:
        """Listen to the microphone for as long as the program runs."""
        self._microphone = Microphone(wanted, self._microphone_news, stuck=_end)
        self._microphone.start()
        beaten, ready, overflows, waited = 0.0, False, 0, 0.0
        while True:
            if time.monotonic() - beaten > BEAT:
                beaten = time.monotonic()
                self.report({"beat": beaten, "waited": round(1000 * waited)})
                waited = 0.0
            self.obey()
            block = self._microphone.read(0.1)
            if block is None or self._listening is None:
                continue
            waited = max(waited, time.monotonic() - block.at)
            if block.lost:
                overflows += 1
                self._listening.reset()
                self.report({"overflows": overflows})
                self._interruptions.attention.lost(block.at)
            samples = block.samples
            if self._canceller is not None:
                samples = self._canceller.clean(samples, block.at)
            self._hear(samples, block.at, self._heed(block.at))
            if not ready and self._listening.now >= WARM_UP:
                ready = True
                self.report({"listening": True})

    def _heed(self, at: float) -> Heed:
        """Return what is done with sound that was taken at *at*."""
        heed = self._interruptions.attention.heed(at)
        deaf = heed is Heed.NOTHING
        spoken_over = self._interruptions.attention.coach_spoke_at(at)
        if self._listening is not None:
            if deaf and not self._was_deaf:
                self._listening.reset()
            if self._was_spoken_over and not spoken_over:
                self._listening.forget_talk()
            self._listening.notice(not spoken_over)
            self._listening.take_hints(self._interruptions.hints_at(at))
        self._was_deaf, self._was_spoken_over = deaf, spoken_over
        return heed

    def _hear(self, samples: Samples, at: float, heed: Heed) -> None:
        listening = self._listening
        if listening is None:
            return
        if heed is Heed.NOTHING:
            listening.skip(len(samples))
            return
        if heed is Heed.VOICES:
            listening.overhear(samples)
            return
        began = time.monotonic() if self._recording else at
        for heard in listening.feed(samples):
            if isinstance(heard, Saying):
                self.report({"said": list(heard.readings), "at": at - listening.now + heard.at})
                continue
            if isinstance(heard, Noticed):
                self.report({"noticed": True, "at": at - listening.now + heard.at})
                continue
            late = listening.now - heard.at
            passed = time.monotonic() - began  # decoding, and waiting in the queue
            shift = at - listening.now
            interrupts = not self._recording and self._interruptions.interrupts(heard, shift)
            text = heard.text if isinstance(heard, Accepted) else ""
            if interrupts and not self._interruptions.takes(heard, listening.meaning(text), shift):
                continue
            self._answered.clear()
            self.report(
                {
                    "heard": text,
                    "confidence": round(heard.confidence, 3),
                    "ms": round(1000 * (late + passed)),
                    "at": heard.at if self._recording else at - late,
                    "interrupts": interrupts,
                }
            )
            if self._recording:  # the answer may change the list: wait for it
                self._answered.wait(10.0)
                time.sleep(SETTLE)
                self.obey()
                began = time.monotonic()

    def hear_recording(self, speech: Speech) -> None:
        """Listen to a recording, as fast as it can be heard; then report its end."""
        self._recording = True
        self.report({"listening": True})
        samples = np.concatenate((to_16k(speech.rate)(speech.samples), _silence(speech)))
        # A resampler holds back its last samples; the silence at the end brings them out.
        step = RATE // 50
        for at in range(0, len(samples), step):
            if at % RATE < step:
                self.report({"beat": time.monotonic()})
            self.obey()
            heed = Heed.NOTHING if self._interruptions.attention.muted else Heed.WORDS
            self._hear(samples[at : at + step], 0.0, heed)
        self.report({"ended": True})

    def _microphone_news(self, news: str | Missing) -> None:
        if isinstance(news, Missing):
            self.missing(news)
        else:
            self.report({"microphone": news})


def _end() -> None:
    """End this worker at once; the coach starts another."""
    os._exit(1)


def _said_words(words: object) -> Sequence[SaidWord]:
    """Return the words of an order, each as [text, began, ended]."""
    listed = words if isinstance(words, list) else []
    return [SaidWord(str(text), float(began), float(ended)) for text, began, ended in listed]


def _silence(speech: Speech) -> Samples:
    """Return two seconds of a silent room, for the last phrase to end in."""
    return np.zeros(2 * RATE, np.int16)


def read_recording(path: Path) -> Speech:
    """Return the sound in *path*, any rate, mono or stereo.

    Raises:
        NotSoundError: no sound file of a known kind.
        OSError: it can't be read.
    """
    return from_file_bytes(path.read_bytes())


def _hear_file(worker: EarWorker, file: Path) -> None:
    try:
        speech = read_recording(file)
    except (NotSoundError, OSError) as fault:
        reason = f"The recording {file} can't be heard: {fault}."
        worker.missing(Missing(reason, "Give a WAV file that isn't compressed."))
        worker.report({"ended": True})
        return
    while not worker.has_orders():  # the closed list must be there first
        time.sleep(0.01)
    worker.hear_recording(speech)


def main(arguments: list[str]) -> None:
    """Run as a worker: --model FOLDER, and --microphone NAME or --recording FILE.

    --while-speaking WHAT: a `WhileSpeaking`. --cancel-echo yes: with the echo canceller.
    """
    orders, reports = take_the_pipes()
    given = dict(zip(arguments[::2], arguments[1::2], strict=True))
    worker = EarWorker(reports, WhileSpeaking(given.get("--while-speaking", "nothing")))
    if given.get("--cancel-echo") == "yes":
        worker.cancel_echo()

    def read_orders() -> None:
        while (read := read_message(orders)) is not None:
            worker.take(*read)
        os._exit(0)  # the coach is gone; a sound library may hang on the way out

    threading.Thread(target=read_orders, daemon=True).start()
    if not worker.load(Path(given["--model"])):
        worker.report({"failed": True})
        time.sleep(0.2)
        os._exit(0)
    worker.report({"loaded": given["--model"]})
    if "--recording" in given:
        _hear_file(worker, Path(given["--recording"]))
        threading.Event().wait()
    worker.hear_microphone(given.get("--microphone"))


if __name__ == "__main__":
    main(sys.argv[1:])
