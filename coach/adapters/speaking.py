"""The coach's mouth: what is to be said, made in pieces, kept, sent out, and watched.

The newest utterance wins and cuts the one before; what is likely next is made ahead while
nothing waits. Speech that fails is told once in words and tried again: the coach is never
silent unnoticed. Decides nothing about what to say.
"""

from __future__ import annotations

import threading
import time
from collections import OrderedDict, deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from coach.adapters.sound_out import PlayedBlock, Sound, SoundNews, SoundOut
from coach.adapters.speech_pace import (
    FASTEST,
    SLOWEST,
    USUAL,
    Curve,
    Piece,
    plan,
    spoken_words,
)
from coach.adapters.speech_samples import Speech, silence
from coach.adapters.voice_pyttsx3 import (
    SpeechLostError,
    Voice,
    VoiceChoice,
    VoiceMissingError,
    WorkerVoice,
)
from coach.ports import Missing
from coach.wording.words import Words

KEPT = 48_000_000  # bytes of finished speech kept: about 18 minutes
LATE = 2.0  # seconds after which sound that should have come counts as lost
SLOW_DEVICE = 2.0  # seconds more for an utterance to end: a device may be slow to start
TRIES = 2  # times one utterance is tried before it stays unsaid

SPEECH_OFF = Words(
    "Speech is off for a moment. The words stay on the screen.", "Speech off for a moment"
)
SPEECH_BACK = Words("Speech is back.", "Speech is back")
SOUND_GONE = Words(
    "The loudspeaker is gone. The words stay on the screen. Speech goes on when it is back.",
    "Loudspeaker gone",
)
SOUND_BACK = Words("The loudspeaker is back.", "Loudspeaker back")
NOTHING_HEARD = Words(
    "No sound comes out. Check the loudspeaker and its volume. The words stay on the screen.",
    "No sound comes out",
)

# espeak-ng 1.52, voice gmw/en-us, on the coach's own sentences (scripts/bench_mouth.py).
ESPEAK_CURVE = Curve(((80, 84.0), (150, 150.0), (300, 314.0)))


@dataclass(frozen=True, slots=True)
class VoiceSettings:
    """How a maker likes to be spoken to.

    words_per_minute: 80 to 300. loudness: percent, 0 to 100. voice: an id from `voices`, or ""
    for the engine's own. device: a loudspeaker's name, or None for the machine's choice.
    natural: a folder with a Piper voice, or None for pyttsx3.
    """

    words_per_minute: int = USUAL
    loudness: int = 80
    voice: str = ""
    device: str | None = None
    natural: Path | None = None


@dataclass(frozen=True, slots=True)
class Hooks:
    """Who is told what while the coach speaks; each is called from a thread of the mouth.

    tells: a plain sentence when speech or the loudspeaker comes or goes. speaking: (text,
    seconds) just before an utterance sounds, and once more when its length is known better.
    silent: it has ended or was cut. played: every block that goes to the loudspeaker.
    """

    tells: Callable[[Words], None] = lambda _: None
    speaking: Callable[[str, float], None] = lambda _text, _seconds: None
    silent: Callable[[], None] = lambda: None
    played: Callable[[PlayedBlock], None] | None = None


@dataclass(slots=True)
class _Utterance:
    """One thing to say on its way: its pieces, how many are sent, how often it failed."""

    line: int
    text: str
    pieces: tuple[Piece, ...]
    seconds: float
    sent: int = 0
    failed: int = 0
    announced: bool = False
    started: bool = False
    due: float = field(default=float("inf"))  # by when the next news of it must have come


class Mouth:
    """A `coach.ports.Speaker` of a `Voice` that makes speech and a `Sound` that plays it."""

    def __init__(
        self,
        *,
        voice: Voice,
        settings: VoiceSettings,
        hooks: Hooks,
        curve: Curve = ESPEAK_CURVE,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self._voice = voice
        self._hooks = hooks
        self._curve = curve
        self._settings = settings
        self._clock = clock
        self._sound: Sound | None = None
        self._work = threading.Condition(threading.RLock())
        self._line = 0
        self._now: _Utterance | None = None
        self._likely: deque[Piece] = deque()
        self._kept: OrderedDict[tuple[str, int, str], Speech] = OrderedDict()
        self._kept_bytes = 0
        self._speech_off = False
        self._sound_off = False
        self._told_nothing_heard = False
        self._closed = False
        self._thread = threading.Thread(target=self._make_all, name="mouth", daemon=True)

    def start(self, sound: Sound) -> None:
        """Take the loudspeaker and begin work."""
        self._sound = sound
        self.set_loudness(self._settings.loudness)
        self._thread.start()

    # The port

    def say(self, words: Words) -> None:
        with self._work:
            self._line += 1
            pieces = self._plan(words.full)
            self._now = None
            if pieces:
                self._now = _Utterance(self._line, words.full, pieces, self._expected(pieces))
                self._now.due = self._clock() + LATE
                self._out.begin(self._line)
                self._send_ready()
            else:
                self._out.cut()
            self._work.notify_all()

    def prepare(self, likely: Sequence[Words]) -> None:
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
        share = min(max(percent, 0), 100)
        self._settings = replace(self._settings, loudness=share)
        self._out.set_gain(10 ** (-(100 - share) * 0.3 / 20) if share else 0.0)

    def close(self) -> None:
        with self._work:
            self._closed = True
            self._now = None
            self._work.notify_all()
        self._out.close()
        self._voice.close()
        if self._thread.is_alive() and threading.current_thread() is not self._thread:
            self._thread.join(timeout=5)

    # Beyond the port

    def set_voice(self, voice: str) -> None:
        """Speak with the voice of this id from the next utterance on."""
        with self._work:
            self._settings = replace(self._settings, voice=voice)
            self._likely.clear()

    def pause(self, paused: bool) -> None:
        """Hold the utterance where it is, or let it go on from there."""
        with self._work:
            if self._now is not None:
                self._now.due = float("inf") if paused else self._clock() + self._now.seconds + LATE
        self._out.pause(paused)

    def take(self, news: SoundNews) -> None:
        """Take news from the loudspeaker."""
        calls: list[Callable[[], None]] = []
        with self._work:
            now = self._now
            match news.what:
                case "started" if now is not None and news.line == now.line:
                    now.started = True
                    now.due = self._clock() + now.seconds + LATE + SLOW_DEVICE
                    self._told_nothing_heard = False
                case "ended" | "cut" if news.line == self._line:
                    if news.what == "ended":
                        self._now = None
                    calls.append(self._hooks.silent)
                case "opened":
                    calls += self._loudspeaker_back()
                case "lost" | "missing":
                    calls += self._loudspeaker_gone(news)
                case "swallowed" if not self._told_nothing_heard:
                    self._told_nothing_heard = True
                    calls.append(lambda: self._hooks.tells(NOTHING_HEARD))
                case _:
                    pass
        for call in calls:
            call()

    # Inside

    @property
    def _out(self) -> Sound:
        if self._sound is None:
            raise RuntimeError("start() comes before speaking")
        return self._sound

    def _plan(self, text: str) -> tuple[Piece, ...]:
        return plan(text, self._settings.words_per_minute, self._curve)

    def _expected(self, pieces: Sequence[Piece]) -> float:
        """Return about how long *pieces* sound, in seconds, by what is known so far."""
        seconds = 0.0
        for piece in pieces:
            made = self._kept.get(self._key(piece))
            guess = spoken_words(piece.text) * 60 / self._settings.words_per_minute
            seconds += piece.pause + (made.seconds if made else guess)
        return seconds

    def _key(self, piece: Piece) -> tuple[str, int, str]:
        return self._settings.voice, piece.engine_rate, piece.text

    def _send_ready(self) -> None:
        """Send on every piece of the present utterance that is made, in order."""
        now = self._now
        while now is not None and now.sent < len(now.pieces):
            piece = now.pieces[now.sent]
            speech = self._kept.get(self._key(piece))
            if speech is None:
                return
            self._kept.move_to_end(self._key(piece))
            if not now.announced:
                now.announced = True
                now.seconds = self._expected(now.pieces)
                now.due = self._clock() + LATE
                self._hooks.speaking(now.text, now.seconds)
            self._out.feed(now.line, speech)
            if piece.pause:
                self._out.feed(now.line, silence(piece.pause, speech.rate))
            now.sent += 1
            if now.sent == len(now.pieces):
                self._out.finish(now.line)

    def _make_all(self) -> None:
        while True:
            with self._work:
                wanted = self._next_piece()
                while wanted is None and not self._closed:
                    self._watch_the_clock()
                    self._work.wait(0.25 if self._now is not None else None)
                    wanted = self._next_piece()
                if self._closed or wanted is None:
                    return
                key = self._key(wanted)
            try:
                speech = self._voice.make(wanted.text, wanted.engine_rate, key[0])
            except SpeechLostError as fault:
                self._speech_failed(fault)
            else:
                self._speech_made(key, speech)

    def _next_piece(self) -> Piece | None:
        """Return what to make now: what is being said first, then what is likely."""
        now = self._now
        if now is not None and now.sent < len(now.pieces):
            return now.pieces[now.sent]
        while self._likely:
            piece = self._likely.popleft()
            if self._key(piece) not in self._kept:
                return piece
        return None

    def _speech_made(self, key: tuple[str, int, str], speech: Speech) -> None:
        with self._work:
            self._kept[key] = speech
            self._kept_bytes += speech.samples.nbytes
            while self._kept_bytes > KEPT and len(self._kept) > 1:
                _, oldest = self._kept.popitem(last=False)
                self._kept_bytes -= oldest.samples.nbytes
            self._send_ready()
            was_off, self._speech_off = self._speech_off, False
        if was_off:
            self._hooks.tells(SPEECH_BACK)

    def _speech_failed(self, fault: SpeechLostError) -> None:
        """Tell it once if an utterance waits for it; try once more, then leave it unsaid."""
        with self._work:
            if self._closed:
                return
            now = self._now
            if now is None or now.sent == len(now.pieces):
                return  # something made ahead; if it is wanted later it is tried again
            now.failed += 1
            tell, self._speech_off = not self._speech_off, True
            if now.failed >= TRIES or isinstance(fault, VoiceMissingError):
                self._now = None
                self._out.cut()
                self._out.tone("not understood")
        if tell:
            self._hooks.tells(_missing_words(fault) if _is_missing(fault) else SPEECH_OFF)

    def _watch_the_clock(self) -> None:
        """Notice an utterance that was sent and doesn't sound, or never comes to its end."""
        now = self._now
        if now is None or self._sound_off or self._clock() < now.due:
            return
        if now.sent < len(now.pieces) and not now.announced:
            return  # still being made; the voice has its own watch
        self._now = None
        self._hooks.tells(NOTHING_HEARD)
        self._out.restart()

    def _loudspeaker_back(self) -> list[Callable[[], None]]:
        """Say again what the loudspeaker's absence cut off."""
        was_off, self._sound_off = self._sound_off, False
        self._out.set_gain(10 ** (-(100 - self._settings.loudness) * 0.3 / 20))
        if self._now is not None:
            self._line += 1
            self._now = replace(self._now, line=self._line, sent=0, announced=False, started=False)
            self._now.due = self._clock() + LATE
            self._out.begin(self._line)
            self._send_ready()
        return [lambda: self._hooks.tells(SOUND_BACK)] if was_off else []

    def _loudspeaker_gone(self, news: SoundNews) -> list[Callable[[], None]]:
        was_off, self._sound_off = self._sound_off, True
        words = SOUND_GONE
        if news.what == "missing":
            words = Words(f"{news.detail} {news.remedy}".strip(), "No loudspeaker")
        calls: list[Callable[[], None]] = [self._hooks.silent]
        return calls if was_off else [*calls, lambda: self._hooks.tells(words)]


def _is_missing(fault: SpeechLostError) -> bool:
    return isinstance(fault, VoiceMissingError)


def _missing_words(fault: SpeechLostError) -> Words:
    return Words(f"Speech is off. {fault} The words stay on the screen.", "Speech off")


def open_speaker(
    settings: VoiceSettings | None = None,
    *,
    hooks: Hooks | None = None,
    log: Path | None = None,
    wait: float = 8.0,
) -> Mouth | Missing:
    """Open the mouth and return it once it can speak, or what is missing and what would bring it.

    hooks: who is told what while it speaks. log: where the engines' own noise goes. wait:
    seconds given to loudspeaker and voice to get ready; 0 returns at once and leaves anything
    missing to be told by hooks.tells. Close it in the end: it owns two processes.
    """
    settings, hooks = settings or VoiceSettings(), hooks or Hooks()
    voice = _voice(settings, log)
    if isinstance(voice, Missing):
        return voice
    first: list[SoundNews] = []
    known = threading.Event()
    mouth = Mouth(voice=voice, settings=settings, hooks=hooks)

    def news(each: SoundNews) -> None:
        if each.what in {"opened", "missing"} and not known.is_set():
            first.append(each)
            known.set()
            if each.what == "missing" and wait:
                return  # told by the return value
        mouth.take(each)

    sound = SoundOut(news, device=settings.device, played=hooks.played, log=log)
    mouth.start(sound)
    if not wait:
        return mouth
    missing = _first_trouble(voice, known, first, wait)
    if missing is not None:
        mouth.close()
        return missing
    return mouth


def _voice(settings: VoiceSettings, log: Path | None) -> WorkerVoice | Missing:
    if settings.natural is None:
        return WorkerVoice(log=log)
    from coach.adapters.voice_piper import piper_voice

    return piper_voice(settings.natural, log=log)


def _first_trouble(
    voice: WorkerVoice, known: threading.Event, first: Sequence[SoundNews], wait: float
) -> Missing | None:
    try:
        voice.start()
    except SpeechLostError as fault:
        return Missing(
            f"There is no voice on this machine: {fault}",
            "Run the set-up again; the coach works in writing meanwhile.",
        )
    if not known.wait(wait):
        return Missing(
            "The loudspeaker doesn't answer.",
            "Check the sound system; the coach works in writing meanwhile.",
        )
    if first[0].what == "missing":
        return Missing(first[0].detail, first[0].remedy)
    return None


def list_voices(settings: VoiceSettings | None = None) -> tuple[VoiceChoice, ...]:
    """Return the voices this machine can speak with; none when there is no engine."""
    voice = _voice(settings or VoiceSettings(), None)
    if isinstance(voice, Missing):
        return ()
    try:
        return voice.voices()
    except SpeechLostError:
        return ()
    finally:
        voice.close()
