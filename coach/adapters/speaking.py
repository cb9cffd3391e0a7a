"""Opens the coach's mouth on this machine: a voice, a loudspeaker, or what is missing of them."""

from __future__ import annotations

import sys
import threading
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from coach.adapters.mouth import Mouth
from coach.adapters.sound_out import SoundNews, SoundOut
from coach.adapters.voice_pyttsx3 import SpeechLostError, VoiceChoice, WorkerVoice
from coach.adapters.voice_settings import BUNDLED_VOICE, ESPEAK_CURVE, Hooks, VoiceSettings
from coach.ports import Missing

READY_WITHIN = 8.0  # seconds for loudspeaker and voice to get ready on a slow machine

NO_ANSWER = Missing(
    "The loudspeaker doesn't answer, so nothing can be spoken.",
    "Check the sound system, then start the coach again.",
)


def open_speaker(
    settings: VoiceSettings | None = None,
    *,
    hooks: Hooks | None = None,
    log: Path | None = None,
    wait: float = READY_WITHIN,
) -> Mouth | Missing:
    """Open the mouth and return it once it can speak, or what is missing and what would bring it.

    hooks: who is told what while it speaks. log: where the engines' own noise goes. wait:
    seconds given to loudspeaker and voice to get ready; with 0 it returns at once, words said
    meanwhile are spoken when it is ready, and anything missing is told by hooks.tells. Close it
    in the end: it owns two processes.
    """
    settings, hooks = settings or VoiceSettings(), hooks or Hooks()
    voice = _voice(settings, log)
    if isinstance(voice, Missing):
        return voice
    first: list[SoundNews] = []
    known = threading.Event()
    bundled = sys.platform not in {"win32", "darwin"} and settings.natural is None
    if bundled and not settings.voice:
        settings = replace(settings, voice=BUNDLED_VOICE)
    curve = ESPEAK_CURVE if bundled and settings.voice == BUNDLED_VOICE else None
    mouth = Mouth(voice=voice, settings=settings, hooks=hooks, curve=curve)

    def news(each: SoundNews) -> None:
        told_by_return = wait > 0 and not known.is_set() and each.what == "missing"
        if not told_by_return:
            mouth.take(each)
        if each.what in {"opened", "missing"}:
            first.append(each)
            known.set()

    mouth.start(SoundOut(news, device=settings.device, played=hooks.played, log=log))
    missing = _first_trouble(voice, known, first, wait) if wait > 0 else None
    if missing is not None:
        mouth.close()
        return missing
    return mouth


def list_voices(natural: Path | None = None) -> tuple[VoiceChoice, ...]:
    """Return the voices this machine can speak with; none when there is no engine."""
    voice = _voice(VoiceSettings(natural=natural), None)
    if isinstance(voice, Missing):
        return ()
    try:
        return voice.voices()
    except SpeechLostError:
        return ()
    finally:
        voice.close()


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
        return NO_ANSWER
    if first[0].what == "missing":
        return Missing(first[0].detail, first[0].remedy)
    return None
