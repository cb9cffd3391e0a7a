"""The coach's ear: a worker process that hears, started, watched and started again from here.

Whatever the recogniser or the sound library does, only the worker dies of it: that is told once,
in words, and keys go on. Nothing here touches sound.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from coach.adapters.ear_meanings import lacking, meaning_of
from coach.adapters.heartbeat import Heartbeat
from coach.adapters.sound_out import PlayedBlock
from coach.adapters.worker_pipe import Message, WorkerPipe, module_command
from coach.guide.dialogue import NUMBER
from coach.guide.interrupting import WhileSpeaking
from coach.ports import Heard, SaidWord
from coach.wording.words import Words

STARTING = 30.0  # seconds a model may take to load (a large one, on a slow disk)
LOOK = 0.5  # seconds between looks at its signs of life
BEAT_MISSING = 5.0  # seconds without a sign of life: the worker hangs
RESTARTS = 5  # in a row, before the ear is given up
AFTER_DEVICE = 0.2  # seconds before a new worker when the last one went with its device
RESTARTS_FORGOTTEN = 60.0  # seconds of good work after which a crash counts as the first


class VoskEar:
    """Hears the microphone, or a recording, with the model in *model*.

    microphone: its name, or None for the machine's own choice. recording: a sound file heard in
    place of the microphone. while_speaking: what is taken while the coach speaks; cancel_echo:
    take its own sound out first (`coach_plays` gives it). `ended` is set when the recording is over or the ear is given up.
    """

    def __init__(
        self,
        model: Path,
        *,
        microphone: str | None = None,
        recording: Path | None = None,
        while_speaking: WhileSpeaking = WhileSpeaking.NOTHING,
        cancel_echo: bool = False,
        log: Path | None = None,
    ) -> None:
        self._model = model
        self._microphone = microphone
        self._recording = recording
        self._while_speaking = while_speaking
        self._cancel_echo = cancel_echo
        self._log = log
        self.ended = threading.Event()
        self.ready = threading.Event()
        self.overflows = 0  # how often sound was lost, since the worker began
        self.waited = 0  # milliseconds that sound waited to be heard, at most; set it back at will
        self._hears: Callable[[Heard], None] = lambda heard: None
        self._tells: Callable[[Words], None] = lambda words: None
        self._worker: WorkerPipe | None = None
        self._phrases: tuple[str, ...] = ()
        self._own_words: Mapping[str, str] = {}
        self._meanings: Mapping[str, str] = {}
        self._learns = False
        self._muted = False
        self._closed = threading.Event()
        self._beats = Heartbeat(LOOK)
        self._crashes: list[float] = []
        self._warmed_up = False  # this worker has listened before
        self._device_gone = False
        self._told = ""
        self._lacking: set[str] = set()
        self._lock = threading.RLock()

    @property
    def listening(self) -> bool:
        """Whether a word said now would be taken: for the sign on the screen."""
        return self.ready.is_set() and not self._muted

    def start(self, hears: Callable[[Heard], None], tells: Callable[[Words], None]) -> None:
        self._hears, self._tells = hears, tells
        self._start_worker()
        threading.Thread(target=self._watch, name="ear watch", daemon=True).start()

    def listen_for(self, phrases: Sequence[str]) -> None:
        self._phrases = tuple(phrases)
        self._listen()

    def take_words(self, own_words: Mapping[str, str]) -> None:
        self._own_words = dict(own_words)
        if self._phrases:
            self._listen()

    def learn(self, learns: bool) -> None:
        self._learns = learns
        self._order({"do": "learn", "learns": learns})

    def _listen(self) -> None:
        """Listen for the phrases, and for the maker's own words for any of them."""
        listed = {phrase: meaning_of(phrase) for phrase in self._phrases}
        own = {
            words: listed[phrase] for words, phrase in self._own_words.items() if phrase in listed
        }
        with self._lock:
            self._meanings = own | listed
        self._order({"do": "listen", "meanings": dict(self._meanings)})

    def mute(self, muted: bool) -> None:
        self._muted = muted
        self._order({"do": "mute", "muted": muted})

    def coach_speaks(self, text: str, seconds: float) -> None:
        self._order({"do": "speaks", "text": text, "seconds": seconds})

    def coach_says(self, words: Sequence[SaidWord]) -> None:
        if self._while_speaking is not WhileSpeaking.NOTHING:
            listed = [[word.text, word.began, word.ended] for word in words]
            self._order({"do": "says", "words": listed})

    def coach_plays(self, block: PlayedBlock) -> None:
        """Take a block that goes to the loudspeaker, for the echo canceller."""
        order: Message = {"do": "plays", "rate": block.rate, "at": block.at}
        self._order(order, block.samples)

    def coach_silent(self) -> None:
        self._order({"do": "silent"})

    def worker_pid(self) -> int | None:
        """Return the process id of the worker, or None while there is none."""
        with self._lock:
            return None if self._worker is None else self._worker.pid

    def close(self) -> None:
        self._closed.set()
        with self._lock:
            worker, self._worker = self._worker, None
        if worker is not None:
            worker.end()
        self.ready.clear()
        self.ended.set()

    # The worker

    def _order(self, message: Message, payload: bytes = b"") -> None:
        with self._lock:
            worker = self._worker
        if worker is not None:
            worker.order(message, payload)

    def _start_worker(self) -> None:
        arguments = ["--model", str(self._model)]
        if self._recording is not None:
            arguments += ["--recording", str(self._recording)]
        elif self._microphone is not None:
            arguments += ["--microphone", self._microphone]
        if self._while_speaking is not WhileSpeaking.NOTHING:
            arguments += ["--while-speaking", self._while_speaking.value]
            arguments += ["--cancel-echo", "yes"] if self._cancel_echo else []
        with self._lock:
            if self._closed.is_set():
                return
            self._beats.begin(grace=STARTING)
            self._warmed_up = False
            self._worker = WorkerPipe(
                module_command("coach.adapters.ear_worker", *arguments),
                reports=self._report,
                gone=self._gone,
                log=self._log,
            )
            meanings, muted = dict(self._meanings), self._muted
        if muted:
            self._order({"do": "mute", "muted": True})
        if meanings:
            self._order({"do": "listen", "meanings": meanings})
        if self._learns:
            self._order({"do": "learn", "learns": True})

    def _report(self, report: Message, _payload: bytes) -> None:
        match report:
            case {"heard": _}:
                self._heard(report)
            case {"noticed": _, "at": at}:
                if not self._muted:
                    self._hears(Heard("", 1.0, 0, float(str(at)), waits=True))
            case {"said": _}:
                self._said(report)
            case {"beat": _}:
                self._beats.beat()
                self.waited = max(self.waited, int(str(report.get("waited", 0))))
            case {"overflows": overflows}:
                self.overflows = int(str(overflows))
            case {"lacking": phrases}:
                self._tell_lacking(_strings(phrases))
            case {"ended": _}:
                self.ended.set()
            case _:
                self._report_of_device(report)

    def _report_of_device(self, report: Message) -> None:
        if "listening" in report:
            self._warmed_up = True
            self._now_listening()
        elif "missing" in report:
            self.ready.clear()
            self._device_gone = True
            self._tell(f"{report['missing']} {report['remedy']}", "Microphone off")
        elif "microphone" in report and self._told and self._warmed_up:
            self._now_listening()
        elif "deaf" in report:
            self._tells(Words(f"{report['deaf']} {report['remedy']}", "Deaf while speaking"))
        elif "failed" in report:
            self._give_up()

    def _heard(self, report: Message) -> None:
        words = str(report["heard"])
        heard = Heard(
            text=self._own_words.get(words, words),
            confidence=float(str(report["confidence"])),
            ms=int(str(report["ms"])),
            at=float(str(report["at"])),
            interrupts=bool(report.get("interrupts")),
        )
        if not self._muted:
            self._hears(heard)
        self._order({"do": "answered"})

    def _said(self, report: Message) -> None:
        readings = tuple(_strings(report["said"]))
        if not self._muted:
            self._hears(Heard("", 1.0, 0, float(str(report["at"])), readings=readings))

    def _now_listening(self) -> None:
        self.ready.set()
        self._device_gone = False
        again, self._told = bool(self._told), ""
        if self._recording is None:
            words = "I'm listening again." if again else "I'm listening."
            self._tells(Words(words, "Microphone on"))

    def _tell_lacking(self, phrases: Sequence[str]) -> None:
        """Tell, once, the commands that this model has no words for at all."""
        with self._lock:
            new = [each for each in lacking(self._meanings, phrases) if each not in self._lacking]
        self._lacking.update(new)
        if new:
            listed = ", ".join(f'"{phrase.replace(NUMBER, "and a number")}"' for phrase in new)
            sentence = f"This speech model doesn't know {listed}. Use the keys for that."
            self._tells(Words(sentence, "Some words can't be heard"))

    def _tell(self, sentence: str, brief: str) -> None:
        """Tell once: the same trouble isn't told again until something has changed."""
        if sentence == self._told:
            return
        self._told = sentence
        self._tells(Words(sentence, brief))

    def _gone(self) -> None:
        """The worker has ended by itself: start another, unless it keeps on dying."""
        with self._lock:
            if self._closed.is_set() or self._worker is None:
                return
            self._worker = None
        self.ready.clear()
        now = time.monotonic()
        if self._device_gone:
            # Some sound libraries end the process when their server goes: no fault of the ear.
            self._crashes = []
            self._closed.wait(AFTER_DEVICE)
            self._start_worker()
            return
        self._crashes = [at for at in self._crashes if now - at < RESTARTS_FORGOTTEN]
        self._crashes.append(now)
        if self._recording is not None or len(self._crashes) > RESTARTS:
            self._give_up()
            return
        if not self._told:  # one trouble is told once: a lost device may end the worker as well
            self._tell(
                "The ear had a fault and starts again. Keys go on working.", "Microphone restarting"
            )
        self._closed.wait(0.2 * len(self._crashes))
        self._start_worker()

    def _give_up(self) -> None:
        with self._lock:
            self._worker = None
        self.ready.clear()
        if not self._told or self._told.startswith("The ear had"):
            self._tell(
                "The ear keeps failing and stays off. Keys go on working. Try: coach soundcheck",
                "Microphone off",
            )
        self.ended.set()

    def _watch(self) -> None:
        while not self._closed.wait(LOOK):
            with self._lock:
                worker = self._worker
            if worker is not None and self._beats.is_missing(BEAT_MISSING):
                worker.end()  # it hangs; `_gone` starts another


def _strings(value: object) -> list[str]:
    return [str(each) for each in value] if isinstance(value, list) else []
