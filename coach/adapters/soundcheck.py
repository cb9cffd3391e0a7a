"""The sound check: loudspeaker, microphone, echo and recogniser, each told in one line.

Takes well under a minute and needs no answer. What is told is spoken as well, where there is a
voice. Keeps no sound: levels are measured and the samples forgotten.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from coach.adapters.ear_vosk import VoskEar
from coach.adapters.microphone import Microphone, microphone_names
from coach.adapters.model_store import find_model, try_model
from coach.adapters.quiet_descriptors import quiet_descriptors
from coach.adapters.sound_device import output_names
from coach.adapters.speaking import open_speaker
from coach.adapters.voice_settings import Hooks, VoiceSettings
from coach.ports import Heard, Missing, Speaker
from coach.wording.words import Words

LISTEN = 1.5  # seconds of the room alone
OPEN_WITHIN = 3.0  # seconds for the microphone to open
SPEAK_WITHIN = 12.0  # seconds for one spoken line
WORD_WITHIN = 6.0  # seconds for the maker to say a word
DEAD = 1.0  # decibels: not one step of a sample; a switched-off microphone gives zeros
ECHO = 6.0  # decibels over the room: the loudspeaker is heard
LOUD_ROOM = 55.0  # decibels over one step (about -35 dB of full): words will be missed

ECHO_LINE = Words(
    "Echo: I am speaking now, to hear how much of this comes back through the microphone.",
    "Echo test",
)
ASK = "where am i"


@dataclass(frozen=True, slots=True)
class _Line:
    """What one part of the check came to."""

    words: Words
    well: bool


def soundcheck(
    environment: Mapping[str, str],
    home: Path,
    *,
    tells: Callable[[Words], None],
    speaks: VoiceSettings | None = None,
    microphone: str | None = None,
) -> bool:
    """Check the four parts in turn; tell each in one line and return whether all are well.

    environment, home: where the speech model is looked for. tells: writes a line. speaks: the
    maker's own choice of voice and loudspeaker. microphone: its name, or None for the machine's
    own choice.
    """
    voice = _Voice(tells, speaks or VoiceSettings())
    try:
        lines = [voice.line]
        tells(voice.line.words)
        with quiet_descriptors():
            for words in devices_to_choose_from():
                tells(words)
            lines += _check_microphone(voice, microphone)
        hears = lines[1].well
        lines.append(_check_recogniser(environment, home, voice, hears=hears, named=microphone))
        return all(line.well for line in lines)
    finally:
        voice.close()


def devices_to_choose_from() -> list[Words]:
    """Return a line for each kind of device of which there are several; they are named in full."""
    try:
        found = (
            ("Loudspeakers", "loudspeaker", output_names()),
            ("Microphones", "microphone_name", microphone_names()),
        )
    except OSError:  # PortAudio isn't there; the lines that follow say so
        return []
    return [
        Words(
            f"{kind}: {'; '.join(names)}. The first is the machine's choice; "
            f"to choose another, give its name to {setting} in the settings.",
            kind,
        )
        for kind, setting, names in found
        if len(names) > 1
    ]


class _Voice:
    """The coach's voice, or its absence; tells every line and waits until it was spoken."""

    def __init__(self, tells: Callable[[Words], None], settings: VoiceSettings) -> None:
        self._tells = tells
        self._silent = threading.Event()
        hooks = Hooks(silent=self._silent.set)
        opened = open_speaker(settings, hooks=hooks)
        self._speaker: Speaker | None = None if isinstance(opened, Missing) else opened
        if isinstance(opened, Missing):
            self.line = _line("Loudspeaker", opened)
            return
        words = Words("Loudspeaker: you should hear this sentence.", "Loudspeaker")
        heard = self.say(words)
        if not heard:
            words = Words("Loudspeaker: it was opened, but nothing was played.", "Loudspeaker")
        self.line = _Line(words, heard)

    @property
    def speaks(self) -> bool:
        return self._speaker is not None

    def say(self, words: Words) -> bool:
        """Speak *words* and return whether they were played to the end."""
        if self._speaker is None:
            return False
        self._silent.clear()
        self._speaker.say(words)
        return self._silent.wait(SPEAK_WITHIN)

    def tell(self, line: _Line) -> _Line:
        """Write the line, then speak it."""
        self._tells(line.words)
        self.say(line.words)
        return line

    def close(self) -> None:
        if self._speaker is not None:
            self._speaker.close()


def _check_microphone(voice: _Voice, named: str | None) -> list[_Line]:
    opened: list[str | Missing] = []
    known = threading.Event()

    def news(each: str | Missing) -> None:
        opened.append(each)
        known.set()

    microphone = Microphone(named, news)
    microphone.start()
    try:
        known.wait(OPEN_WITHIN)
        first = (
            opened[0]
            if opened
            else Missing("No microphone answered.", "Check the sound system, then try again.")
        )
        if isinstance(first, Missing):
            lines = [voice.tell(_line("Microphone", first))]
            no_echo = Words("Echo: it can't be measured without a microphone.", "Echo")
            return [*lines, voice.tell(_Line(no_echo, well=False))]
        room = _level(microphone, LISTEN)
        lines = [voice.tell(_room_line(first, room))]
        lines.append(voice.tell(_check_echo(microphone, room, voice)))
        return lines
    finally:
        microphone.close()


def _room_line(name: str, room: float) -> _Line:
    if room < DEAD:
        told = f"Microphone: {name} is open but gives no sound at all; is it switched off?"
        return _Line(Words(told, "Microphone silent"), well=False)
    if room > LOUD_ROOM:
        told = f"Microphone: {name} works, but the room is loud; words may be missed. Keys work."
        return _Line(Words(told, "Loud room"), well=True)
    return _Line(Words(f"Microphone: {name} works, and the room is quiet.", "Microphone"), True)


def _check_echo(microphone: Microphone, room: float, voice: _Voice) -> _Line:
    if not voice.speaks:
        return _Line(Words("Echo: it can't be measured without a loudspeaker.", "Echo"), False)
    levels: list[float] = []
    done = threading.Event()

    def measure() -> None:
        while not done.is_set():
            levels.append(_level(microphone, 0.25))

    measuring = threading.Thread(target=measure)
    microphone.drop_waiting()
    measuring.start()
    voice.say(ECHO_LINE)
    done.set()
    measuring.join()
    over = (float(np.percentile(levels, 80)) if levels else room) - room
    if over < ECHO:
        told = "Echo: the microphone doesn't hear the loudspeaker."
    else:
        told = (
            f"Echo: the microphone hears the loudspeaker, {round(over)} decibels over the room. "
            "I don't listen while I speak, so that is no trouble."
        )
    return _Line(Words(told, "Echo"), well=True)


def _check_recogniser(
    environment: Mapping[str, str], home: Path, voice: _Voice, *, hears: bool, named: str | None
) -> _Line:
    model = find_model(environment, home)
    if isinstance(model, Missing):
        return voice.tell(_line("Recogniser", model))
    wrong = try_model(model)
    if wrong is not None:
        return voice.tell(_line("Recogniser", wrong))
    if not hears:
        told = "Recogniser: it understands its test recording; there is no microphone to try."
        return voice.tell(_Line(Words(told, "Recogniser"), well=True))
    heard = _ask_for_a_word(model, voice, named)
    told = (
        "Recogniser: it understands its test recording, and it heard you."
        if heard
        else "Recogniser: it understands its test recording; no word came from you just now."
    )
    return voice.tell(_Line(Words(told, "Recogniser"), well=True))


def _ask_for_a_word(model: Path, voice: _Voice, named: str | None) -> bool:
    """Ask the maker to say "where am I" and return whether it was heard."""
    ear = VoskEar(model, microphone=named)
    got = threading.Event()

    def hears(heard: Heard) -> None:
        if heard.text == ASK:
            got.set()

    ear.start(hears, lambda words: None)
    ear.listen_for([ASK, "go back", "next row"])
    try:
        if not ear.ready.wait(SPEAK_WITHIN):
            return False
        ask = Words("Recogniser: please say, where am I.", "Say: where am I")
        ear.coach_speaks(ask.full, SPEAK_WITHIN)
        voice.tell(_Line(ask, well=True))
        ear.coach_silent()
        until = time.monotonic() + WORD_WITHIN
        while time.monotonic() < until and not got.wait(0.1):
            pass
        return got.is_set()
    finally:
        ear.close()


def _line(part: str, missing: Missing) -> _Line:
    return _Line(Words(f"{part}: {missing.reason} {missing.remedy}", f"{part} missing"), False)


def _level(microphone: Microphone, seconds: float) -> float:
    """Return the level of the next *seconds*, in decibels over one step of a sample."""
    power, count = 0.0, 0
    until = time.monotonic() + seconds
    while (left := until - time.monotonic()) > 0:
        block = microphone.read(min(left, 0.2))
        if block is not None and len(block.samples):
            power += float(np.square(block.samples.astype(np.float64)).sum())
            count += len(block.samples)
    return 10 * float(np.log10(power / count + 1e-3)) if count else 0.0
