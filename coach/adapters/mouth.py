"""The coach's mouth: what is to be said, made in pieces, kept, sent out, and watched.

The newest utterance wins and cuts the one before; what is likely next is made ahead while
nothing waits. Speech that fails is told once in words and tried again: the coach is never
silent unnoticed. Decides nothing about what to say.
"""

from __future__ import annotations

import queue
import threading
import time
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from coach.adapters.sound_out import Sound, SoundNews
from coach.adapters.speech_kept import KeptSpeech, Key
from coach.adapters.speech_pace import (
    FASTEST,
    SLOWEST,
    Curve,
    Measuring,
    Pacer,
    Piece,
    plan,
    spoken_words,
)
from coach.adapters.speech_samples import Speech, silence
from coach.adapters.voice_pyttsx3 import SpeechLostError, Voice, VoiceMissingError
from coach.adapters.voice_settings import ESPEAK_CURVE, Hooks, VoiceSettings
from coach.wording.sound_words import (
    LOUDSPEAKER_BACK,
    LOUDSPEAKER_GONE,
    NOTHING_HEARD,
    SPEECH_BACK,
    SPEECH_OFF,
    no_loudspeaker,
    no_voice,
)
from coach.wording.words import Words

LATE = 2.0  # seconds after which sound that should have come counts as lost
SLOW_DEVICE = 2.0  # seconds more for an utterance to end: a device may be slow to start
TRIES = 2  # times one utterance is tried before it stays unsaid
DECIBELS_A_STEP = 3.0  # for each 10 percent of loudness, about the least step that is noticed


@dataclass(slots=True)
class _Utterance:
    """One thing to say on its way: its pieces, how many are sent, how often it failed."""

    line: int
    text: str
    pieces: tuple[Piece, ...]
    seconds: float
    due: float  # by when the next news of it must have come
    pacer: Pacer = field(default_factory=Pacer)
    sent: int = 0
    failed: int = 0


class Mouth:
    """A `coach.ports.Speaker` of a `Voice` that makes speech and a `Sound` that plays it.

    curve: what the voice's rates really are, or None to measure it in idle moments.
    """

    def __init__(
        self,
        *,
        voice: Voice,
        settings: VoiceSettings,
        hooks: Hooks,
        curve: Curve | None = ESPEAK_CURVE,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self._voice = voice
        self._hooks = hooks
        self._settings = settings
        self._curve = curve or ESPEAK_CURVE
        self._measuring = None if curve else Measuring()
        self._clock = clock
        self._sound: Sound | None = None
        self._work = threading.Condition(threading.RLock())
        self._line = 0
        self._now: _Utterance | None = None
        self._likely: deque[Piece] = deque()
        self._kept = KeptSpeech()
        self._speech_off = False
        self._sound_off = False
        self._told_nothing_heard = False
        self._closed = False
        self._calls: queue.SimpleQueue[Callable[[], None] | None] = queue.SimpleQueue()
        self._threads = [
            threading.Thread(target=self._make_all, name="mouth", daemon=True),
            threading.Thread(target=self._call_all, name="mouth hooks", daemon=True),
        ]

    def start(self, sound: Sound, *, threads: bool = True) -> None:
        """Take the loudspeaker and begin work; without *threads*, `work` and `call` do it."""
        self._sound = sound
        self.set_loudness(self._settings.loudness)
        for thread in self._threads if threads else ():
            thread.start()

    # The port

    def say(self, words: Words) -> None:
        with self._work:
            pieces = self._plan(words.full)
            self._now = None
            self._out.cut()
            if pieces:
                self._line += 1
                seconds = self._expected(pieces)
                due = self._clock() + LATE
                self._now = _Utterance(self._line, words.full, pieces, seconds, due)
                self._out.begin(self._line)
                self._send_ready()
            self._work.notify_all()

    def prepare(self, likely: Sequence[Words]) -> None:
        """Make these ahead, in order, in place of any asked for before."""
        with self._work:
            self._likely = deque(piece for each in likely for piece in self._plan(each.full))
            self._work.notify_all()

    def tone(self, kind: str) -> None:
        self._out.tone(kind)

    def stop(self) -> None:
        with self._work:
            self._now = None
            self._out.cut()

    def set_rate(self, words_per_minute: int) -> None:
        """Speak at *words_per_minute* (80 to 300) from the next utterance on."""
        rate = min(max(words_per_minute, SLOWEST), FASTEST)
        with self._work:
            self._settings = replace(self._settings, words_per_minute=rate)
            self._likely.clear()

    def set_loudness(self, percent: int) -> None:
        """Set the loudness at once: 100 is full, each 10 less is 3 decibels softer, 0 is mute."""
        with self._work:
            self._settings = replace(self._settings, loudness=min(max(percent, 0), 100))
            self._out.set_gain(self._gain())

    def close(self) -> None:
        with self._work:
            self._closed = True
            self._now = None
            self._work.notify_all()
        self._out.close()
        self._voice.close()
        self._calls.put(None)
        for thread in self._threads:
            if thread.is_alive() and thread is not threading.current_thread():
                thread.join(timeout=5)

    # Beyond the port

    def worker_pids(self) -> tuple[int, ...]:
        """Return the process ids of the voice and of the loudspeaker, as far as they run."""
        found = (self._voice.pid, self._out.pid)
        return tuple(pid for pid in found if pid is not None)

    def set_voice(self, voice: str) -> None:
        """Speak with the voice of this id from the next utterance on; its pace is measured."""
        with self._work:
            if voice != self._settings.voice:
                self._settings = replace(self._settings, voice=voice)
                self._likely.clear()
                self._measuring = Measuring()
                self._work.notify_all()

    def pause(self, paused: bool) -> None:
        """Hold the utterance where it is, or let it go on from there."""
        with self._work:
            if self._now is not None:
                left = self._now.seconds + LATE + SLOW_DEVICE
                self._now.due = float("inf") if paused else self._clock() + left
            self._out.pause(paused)

    def take(self, news: SoundNews) -> None:
        """Take news from the loudspeaker."""
        with self._work:
            match news.what:
                case "started" if self._now is not None and news.line == self._now.line:
                    self._now.due = self._clock() + self._now.seconds + LATE + SLOW_DEVICE
                case "ended" | "cut" if news.line == self._line:
                    if news.what == "ended":
                        self._now = None
                    self._calls.put(self._hooks.silent)
                case "opened":
                    self._loudspeaker_back()
                case "lost" | "missing":
                    self._loudspeaker_gone(news)
                case "swallowed":
                    self._tell_nothing_heard()
                case _:
                    pass

    # Making speech

    def work(self) -> bool:
        """Make one piece of speech: what is being said first; return whether there was any."""
        with self._work:
            self._watch_the_clock()
            wanted = None if self._closed else self._next_piece()
            if wanted is None:
                return False
            key = self._key(wanted)
            measuring = self._measuring
            measured = measuring is not None and measuring.next() is wanted
        try:
            speech = self._voice.make(wanted.text, wanted.engine_rate, key[0])
        except SpeechLostError as fault:
            self._speech_failed(fault)
            return True
        if measuring is not None and measured:
            self._measured(measuring, speech)
        else:
            self._speech_made(key, speech)
        return True

    def call(self) -> bool:
        """Make the next call to a hook, if one waits; return whether one did."""
        try:
            call = self._calls.get_nowait()
        except queue.Empty:
            return False
        if call is not None:
            call()
        return True

    def _make_all(self) -> None:
        while not self._closed:
            if self.work():
                continue
            with self._work:
                idle = self._now is None
                if not self._closed and self._next_piece(look=True) is None:
                    self._work.wait(None if idle else 0.25)

    def _call_all(self) -> None:
        while (call := self._calls.get()) is not None:
            call()

    @property
    def _out(self) -> Sound:
        if self._sound is None:
            raise RuntimeError("start() comes before speaking")
        return self._sound

    def _gain(self) -> float:
        share = self._settings.loudness
        return 10 ** (-(100 - share) / 10 * DECIBELS_A_STEP / 20) if share else 0.0

    def _plan(self, text: str) -> tuple[Piece, ...]:
        return plan(text, self._settings.words_per_minute, self._curve)

    def _key(self, piece: Piece) -> Key:
        return self._settings.voice, piece.engine_rate, piece.text

    def _expected(self, pieces: Sequence[Piece]) -> float:
        """Return about how long *pieces* sound, in seconds, by what is known so far."""
        seconds = 0.0
        for piece in pieces:
            made = self._kept.get(self._key(piece))
            guess = spoken_words(piece.text) * 60 / self._settings.words_per_minute
            seconds += piece.pause + (made.seconds if made else guess)
        return seconds

    def _next_piece(self, *, look: bool = False) -> Piece | None:
        """Return what to make now: what is being said, what is likely, what is to be measured."""
        now = self._now
        if now is not None and now.sent < len(now.pieces):
            return now.pieces[now.sent]
        while self._likely and self._key(self._likely[0]) in self._kept:
            self._likely.popleft()
        if self._likely:
            return self._likely[0] if look else self._likely.popleft()
        return self._measuring.next() if self._measuring is not None else None

    def _send_ready(self) -> None:
        """Send on every piece of the present utterance that is made, in order."""
        now = self._now
        while now is not None and now.sent < len(now.pieces):
            piece = now.pieces[now.sent]
            speech = self._kept.get(self._key(piece))
            if speech is None:
                return
            if now.sent == 0:
                now.seconds = self._expected(now.pieces)
                now.due = self._clock() + LATE
                self._tell_speaking(now.text, now.seconds)
            self._out.feed(now.line, speech)
            pause = now.pacer.pause_after(piece, speech.seconds)
            if pause:
                self._out.feed(now.line, silence(pause, speech.rate))
            now.sent += 1
            if now.sent == len(now.pieces):
                self._out.finish(now.line)

    def _speech_made(self, key: Key, speech: Speech) -> None:
        with self._work:
            self._kept.keep(key, speech)
            self._send_ready()
            was_off, self._speech_off = self._speech_off, False
            if was_off:
                self._tell(SPEECH_BACK)

    def _measured(self, measuring: Measuring, speech: Speech) -> None:
        with self._work:
            measuring.made(speech.seconds)
            if measuring is self._measuring and measuring.next() is None:
                self._curve, self._measuring = measuring.curve(), None

    # Watching over it

    def _speech_failed(self, fault: SpeechLostError) -> None:
        """Tell it once if an utterance waits for it; try once more, then leave it unsaid."""
        with self._work:
            self._measuring = None  # a failing engine has better to do
            now = self._now
            if self._closed or now is None or now.sent == len(now.pieces):
                return  # it was made ahead; should it be wanted, it is tried again
            now.failed += 1
            hopeless = isinstance(fault, VoiceMissingError)
            if not self._speech_off:
                self._speech_off = True
                self._tell(no_voice(str(fault)) if hopeless else SPEECH_OFF)
            if now.failed >= TRIES or hopeless:
                self._now = None
                self._out.cut()
                self._out.tone("not understood")

    def _watch_the_clock(self) -> None:
        """Notice an utterance that was sent and doesn't sound, or never comes to its end."""
        now = self._now
        if now is None or self._sound_off or self._clock() < now.due:
            return
        if now.sent == 0:
            return  # still being made; the voice has its own watch
        self._now = None
        self._tell_nothing_heard()
        self._out.restart()

    def _loudspeaker_back(self) -> None:
        """Set the loudness anew, and say again what the loudspeaker's absence cut off."""
        self._out.set_gain(self._gain())
        if self._sound_off:
            self._sound_off = False
            self._tell(LOUDSPEAKER_BACK)
        if self._now is not None:
            self._line += 1
            self._now.line, self._now.sent = self._line, 0
            self._now.pacer = Pacer()
            self._now.due = self._clock() + LATE + SLOW_DEVICE
            self._out.begin(self._line)
            self._send_ready()
            self._work.notify_all()

    def _loudspeaker_gone(self, news: SoundNews) -> None:
        self._calls.put(self._hooks.silent)
        if self._sound_off:
            return
        self._sound_off = True
        missing = news.what == "missing"
        self._tell(no_loudspeaker(news.detail, news.remedy) if missing else LOUDSPEAKER_GONE)

    def _tell_nothing_heard(self) -> None:
        if not self._told_nothing_heard:
            self._told_nothing_heard = True
            self._tell(NOTHING_HEARD)

    def _tell(self, words: Words) -> None:
        self._calls.put(lambda: self._hooks.tells(words))

    def _tell_speaking(self, text: str, seconds: float) -> None:
        self._calls.put(lambda: self._hooks.speaking(text, seconds))
