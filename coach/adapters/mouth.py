"""The coach's mouth: what is to be said, made in pieces, kept, sent out, and watched.

The newest utterance wins and cuts the one before; what is likely next is made ahead while
nothing waits. Speech that fails is told once in words and tried again: the coach is never
silent unnoticed. Decides nothing about what to say.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Sequence

from coach.adapters.mouth_hooks import HookCalls
from coach.adapters.silence_watch import LATE, LOOK, SLOW_DEVICE, SilenceWatch, due_after
from coach.adapters.sound_out import Sound, SoundNews
from coach.adapters.speech_pace import Curve, Piece
from coach.adapters.speech_samples import Speech, silence
from coach.adapters.speech_stock import SpeechStock, ToMake
from coach.adapters.utterance import Utterance
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

TRIES = 2  # times one utterance is tried before it stays unsaid
HEALS = 2.0  # seconds after which speech that was held, and nothing came of it, goes on
DECIBELS_A_STEP = 3.0  # for each 10 percent of loudness, about the least step that is noticed


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
        self._stock = SpeechStock(settings, curve)
        self._loudness = settings.loudness
        self._calls = HookCalls(hooks)
        self._clock = clock
        self._silence = SilenceWatch()
        self._sound: Sound | None = None
        self._work = threading.Condition(threading.RLock())
        self._line = 0
        self._now: Utterance | None = None
        self._speech_off = False
        self._sound_off = False
        self._told_nothing_heard = False
        self._closed = False
        self._threads = [
            threading.Thread(target=self._make_all, name="mouth", daemon=True),
            self._calls.thread,
        ]

    def start(self, sound: Sound, *, threads: bool = True) -> None:
        """Take the loudspeaker and begin work; without *threads*, `work` and `call` do it."""
        self._sound = sound
        self.set_loudness(self._loudness)
        for thread in self._threads if threads else ():
            thread.start()

    # The port

    def say(self, words: Words) -> None:
        with self._work:
            pieces = self._stock.plan(words.full)
            self._drop_utterance()
            if pieces:
                self._line += 1
                seconds = self._stock.expected(pieces)
                due = self._clock() + LATE
                self._now = Utterance(self._line, words.full, pieces, seconds, due)
                self._out.begin(self._line)
                self._send_ready()
            self._work.notify_all()

    def prepare(self, likely: Sequence[Words]) -> None:
        """Make these ahead, in order, in place of any asked for before."""
        with self._work:
            self._stock.prepare([each.full for each in likely])
            self._work.notify_all()

    def tone(self, kind: str) -> None:
        self._out.tone(kind)

    def stop(self) -> None:
        with self._work:
            self._drop_utterance()

    def hold(self) -> None:
        """Fall silent; with nothing new to say within 2 s, go on from the broken clause.

        Does nothing while nothing sounds.
        """
        with self._work:
            now = self._now
            if now is None or now.sounds_since is None or now.held_at is not None:
                return
            now.held_at, now.due = self._clock(), float("inf")
            self._out.pause(True)
            self._calls.silent()

    def set_rate(self, words_per_minute: int) -> None:
        """Speak at *words_per_minute* (80 to 300) from the next utterance on."""
        with self._work:
            self._stock.set_rate(words_per_minute)

    def set_loudness(self, percent: int) -> None:
        """Set the loudness at once: 100 is full, each 10 less is 3 decibels softer, 0 is mute."""
        with self._work:
            self._loudness = min(max(percent, 0), 100)
            self._out.set_gain(self._gain())

    def close(self) -> None:
        with self._work:
            self._closed = True
            self._now = None
            self._work.notify_all()
        self._out.close()
        self._voice.close()
        self._calls.end()
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
            if self._stock.set_voice(voice):
                self._work.notify_all()

    def take(self, news: SoundNews) -> None:
        """Take news from the loudspeaker."""
        with self._work:
            match news.what:
                case "started" if self._now is not None and news.line == self._now.line:
                    self._sounds(self._now, news.at)
                case "ended" | "cut" if news.line == self._line:
                    if news.what == "ended":
                        self._now = None
                    self._calls.silent()
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
            wanted = None if self._closed else self._to_make()
        if wanted is None:
            return False
        try:
            speech = self._voice.make(wanted.piece.text, wanted.piece.engine_rate, wanted.voice)
        except SpeechLostError as fault:
            self._speech_failed(fault)
        else:
            self._speech_made(wanted, speech)
        return True

    def call(self) -> bool:
        """Make the next call to a hook, if one waits; return whether one did."""
        return self._calls.call()

    def _make_all(self) -> None:
        while not self._closed:
            if self.work():
                continue
            with self._work:
                idle = self._now is None
                wanted = self._unmade() is not None or self._stock.is_anything_ahead()
                if not self._closed and not wanted:
                    self._work.wait(None if idle else LOOK)

    @property
    def _out(self) -> Sound:
        if self._sound is None:
            raise RuntimeError("start() comes before speaking")
        return self._sound

    def _gain(self) -> float:
        share = self._loudness
        return 10 ** (-(100 - share) / 10 * DECIBELS_A_STEP / 20) if share else 0.0

    def _unmade(self) -> Piece | None:
        """Return the piece of the present utterance that must be made next."""
        now = self._now
        return None if now is None or now.is_all_sent() else now.pieces[now.sent]

    def _to_make(self) -> ToMake | None:
        """Return what to make now: what is being said, what is likely, what is to be measured."""
        piece = self._unmade()
        return self._stock.to_make(piece) if piece is not None else self._stock.take_ahead()

    def _send_ready(self) -> None:
        """Send on every piece of the present utterance that is made, in order."""
        now = self._now
        while now is not None and not now.is_all_sent():
            speech = self._stock.made(now.pieces[now.sent])
            if speech is None:
                return
            if now.sent == now.first:
                now.seconds = self._stock.expected(now.pieces[now.first :])
                now.due = self._clock() + LATE
                self._calls.speaking(now.text, now.seconds)
            self._out.feed(now.line, speech)
            pause = now.send(speech.seconds)
            if pause:
                self._out.feed(now.line, silence(pause, speech.rate))
            if now.sounds_since is not None:  # it may have waited for this piece to be made
                now.due = max(now.due, due_after(speech.seconds + pause, self._clock()))
            self._calls.saying(now.words(since=now.sent - 1))
            if now.is_all_sent():
                self._out.finish(now.line)

    def _speech_made(self, made: ToMake, speech: Speech) -> None:
        with self._work:
            self._stock.keep(made, speech)
            if made.measuring is not None:
                return
            self._send_ready()
            was_off, self._speech_off = self._speech_off, False
            if was_off:
                self._calls.tell(SPEECH_BACK)

    def _sounds(self, now: Utterance, at: float | None) -> None:
        """The first sample of *now* was played at *at*."""
        now.sounds_since = self._clock() if at is None else at
        now.due = due_after(now.seconds, self._clock())
        self._calls.saying(now.words())

    def _drop_utterance(self) -> None:
        held = self._now is not None and self._now.held_at is not None
        self._now = None
        self._out.cut()
        if held:
            self._out.pause(False)

    def _begin_again(self, now: Utterance, piece: int) -> None:
        """Say *now* on a line of its own, from the beginning of *piece* on."""
        self._line += 1
        now.begin_again(self._line, piece, self._clock() + LATE + SLOW_DEVICE)
        self._out.begin(self._line)
        self._send_ready()
        self._work.notify_all()

    # Watching over it

    def _speech_failed(self, fault: SpeechLostError) -> None:
        """Tell it once if an utterance waits for it; try once more, then leave it unsaid."""
        with self._work:
            self._stock.give_up_measuring()
            now = self._now
            if self._closed or now is None or now.is_all_sent():
                return  # it was made ahead; should it be wanted, it is tried again
            now.failed += 1
            hopeless = isinstance(fault, VoiceMissingError)
            if not self._speech_off:
                self._speech_off = True
                self._calls.tell(no_voice(str(fault)) if hopeless else SPEECH_OFF)
            if now.failed >= TRIES or hopeless:
                self._now = None
                self._out.cut()
                self._out.tone("not understood")

    def _watch_the_clock(self) -> None:
        """Notice an utterance that was sent and doesn't sound, or never comes to its end."""
        now = self._now
        if now is None or self._sound_off:
            return
        if now.held_at is not None and self._clock() - now.held_at >= HEALS:
            self._begin_again(now, now.clause_at(now.held_at))
            self._out.pause(False)
            return
        if not self._silence.is_silent(now, self._clock()):
            return
        self._now = None
        self._tell_nothing_heard()
        self._out.restart()

    def _loudspeaker_back(self) -> None:
        """Set the loudness anew, and say again what the loudspeaker's absence cut off."""
        self._silence.loudspeaker_opened(self._clock())
        self._out.set_gain(self._gain())
        if self._sound_off:
            self._sound_off = False
            self._calls.tell(LOUDSPEAKER_BACK)
        if self._now is not None:
            self._begin_again(self._now, 0)

    def _loudspeaker_gone(self, news: SoundNews) -> None:
        self._silence.loudspeaker_gone()
        self._calls.silent()
        if self._sound_off:
            return
        self._sound_off = True
        missing = news.what == "missing"
        self._calls.tell(no_loudspeaker(news.detail, news.remedy) if missing else LOUDSPEAKER_GONE)

    def _tell_nothing_heard(self) -> None:
        if not self._told_nothing_heard:
            self._told_nothing_heard = True
            self._calls.tell(NOTHING_HEARD)
