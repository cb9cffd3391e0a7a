"""One run of the coach: what is opened once, and whichever conversation goes on now."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Protocol

from coach.adapters.deaf import Deaf, SharedEar
from coach.adapters.display_recorder import Together
from coach.adapters.plain import PlainDisplay, why_plain
from coach.adapters.progress_sqlite import SqliteProgress
from coach.adapters.settings_file import SettingsFile
from coach.adapters.silent import Silence
from coach.adapters.turns import Turns, read_lines
from coach.app.session import Session
from coach.app.settings import Settings, UnknownSettingError, changed, from_values, to_values
from coach.guide.bindings import BINDINGS
from coach.guide.commands import Order
from coach.guide.dialogue import Dialogue
from coach.guide.interrupting import WhileSpeaking
from coach.ports import Display, Ear, Heard, Missing, SaidWord, Speaker
from coach.wiring.refusal import UnusableError
from coach.wiring.voice_choice import voice_settings_of
from coach.wording.words import Words

if TYPE_CHECKING:
    from coach.adapters.ear_vosk import VoskEar
    from coach.adapters.sound_out import PlayedBlock
    from coach.tui.app import CoachApp

Value = str | int | float | bool


class Talk(Protocol):
    """A conversation: a guided piece, the shelf, the settings."""

    @property
    def over(self) -> bool: ...

    def begin(self) -> None: ...

    def receive(self, order: Order) -> None: ...

    def typed(self, line: str) -> None: ...

    def choose(self, number: int) -> None: ...


def home_folder(environment: Mapping[str, str]) -> Path:
    """Return the folder for progress, settings and fetched models."""
    named = environment.get("COACH_HOME", "").strip()
    if named:
        return Path(named).expanduser()
    from platformdirs import user_data_path  # noqa: PLC0415 - not needed when COACH_HOME is set

    return user_data_path("coach", appauthor=False)


class Visit:
    """Opens what is wanted and there, runs one of the two front ends, closes all of it.

    first: makes the first conversation once display, speaker and ear are there.
    """

    def __init__(self, given: Namespace, first: Callable[[Visit], Talk]) -> None:
        self.given = given
        _check_recording(given.hear)
        self.home = home_folder(os.environ)
        self._file = SettingsFile(self.home)
        stored = self._file.read()
        kept, left_out = from_values(stored.values)
        self.settings = _with_options(kept, given)
        self.first_time = not self._file.path.exists() and stored.notice is None
        self.progress = SqliteProgress(self.home)
        self.notices = [*([stored.notice] if stored.notice else []), *self.progress.notices]
        self.notices += [Words(each, each) for each in left_out]
        self.display: Display
        self.speaker: Speaker = Silence()
        self.ear: Ear = Deaf()
        self.plain: PlainDisplay | None = None
        self.turns = Turns()
        self.in_turn: Callable[[Callable[[], None]], None] = self.turns.put
        self._first = first
        self._talk: Talk | None = None
        self._screen: CoachApp | None = None
        self._own_ear: VoskEar | None = None
        self._recording: VoskEar | None = None

    # What the front ends drive

    @property
    def over(self) -> bool:
        """Whether the conversation has been ended."""
        return self._talk is not None and self._talk.over

    def begin(self) -> None:
        """Open mouth and ear, begin the first conversation, then tell what is missing."""
        self._open_sound()
        first = self._first(self)
        if isinstance(first, Session):
            self.go_to(first)  # a session listens by itself, in its own modes
        else:
            self.go_to_choices(first)
        for each in self.notices:
            self.display.tell(each)
        self.notices = []

    def receive(self, order: Order) -> None:
        """Hand an order to the conversation that goes on now."""
        if self._talk is not None:
            self._talk.receive(order)

    def typed(self, line: str) -> None:
        """Hand a typed line to it."""
        if self._talk is not None:
            self._talk.typed(line)

    def choose(self, number: int) -> None:
        """Hand it a numbered answer."""
        if self._talk is not None:
            self._talk.choose(number)

    def go_to(self, talk: Talk) -> None:
        """Go over to another conversation."""
        self._talk = talk
        talk.begin()

    def go_to_choices(self, talk: Talk) -> None:
        """Go over to a list to choose from, which can be walked by voice as well."""
        dialogue = Dialogue(BINDINGS, long_only=self.settings.long_words)

        def hears(heard: Heard) -> None:
            if heard.waits:
                self.speaker.tone("done")
                return
            if heard.interrupts and not heard.text:
                self.speaker.hold()
                return
            self.tell_heard(heard)
            taken = dialogue.take(heard.text, heard.confidence, heard.at, mode="asking")
            if taken.order is not None:
                self.receive(taken.order)
            elif taken.tone is not None:
                self.speaker.tone(taken.tone)

        if self.settings.microphone:
            self.ear.start(
                lambda heard: self.in_turn(lambda: hears(heard)),
                lambda words: self.in_turn(lambda: self.display.tell(words)),
            )
            self.ear.listen_for(dialogue.phrases("asking", number_asked=True))
        self.go_to(talk)

    def tell_heard(self, heard: Heard) -> None:
        """Write what was heard into the plain lines, before its answer."""
        if self.plain is not None and heard.text:
            self.plain.heard(heard.text, heard.confidence, heard.ms)

    def say(self, words: Words) -> None:
        """Say something that is not the conversation's own."""
        self.speaker.say(words)

    def keep(self, name: str, value: Value) -> None:
        """Change a setting for good."""
        try:
            self.keep_all(changed(self.settings, name, value))
        except UnknownSettingError as fault:
            self.display.tell(Words(str(fault), "Not a setting"))

    def keep_all(self, settings: Settings) -> None:
        """Store the settings as they now are; a disk that can't take them is told."""
        self.settings = settings
        try:
            self._file.write(to_values(settings))
        except OSError as fault:
            reason = fault.strerror or "no reason given"
            self.display.tell(
                Words(f"Your settings could not be stored: {reason}.", "Settings not stored")
            )

    def try_on(self, name: str, value: Value) -> None:
        """Let a setting be felt before it is kept."""
        if name == "rate" and isinstance(value, int):
            self.speaker.set_rate(value)
        elif name == "loudness" and isinstance(value, int):
            self.speaker.set_loudness(value)
        elif self._screen is not None:
            self._screen.try_on(name, value)

    # Running

    def run(self) -> None:
        """Run the front end that fits until the conversation is over, then close everything."""
        given = self.given
        why = why_plain(
            asked=given.plain or given.json,
            environment=os.environ,
            on_terminal=sys.stdin.isatty()
            and sys.__stderr__ is not None
            and sys.__stderr__.isatty(),
            setting=self.settings.plain,
        )
        try:
            if why is None:
                self._run_screen()
            else:
                self._run_plain(why)
        finally:
            self.ear.close()
            self.speaker.close()
            self.progress.close()

    def _run_plain(self, why: str) -> None:
        self.display = self.plain = PlainDisplay(
            sys.stdout, width=self.given.width, as_json=self.given.json
        )
        self.plain.mode(why)
        self.begin()
        read_lines(
            sys.stdin,
            lambda line: self.turns.put(lambda: None if self.over else self.typed(line)),
            self._lines_ended,
        )
        self.turns.run(lambda: self.over)

    def _lines_ended(self) -> None:
        if self._recording is not None:
            self._recording.ended.wait()
        self.turns.end()

    def _run_screen(self) -> None:
        from coach.wiring.screen import make_screen  # noqa: PLC0415 - loads the screen library

        screen = self._screen = make_screen(self)
        self.display, self.in_turn = screen, screen.in_turn
        if self.given.also_plain:
            if sys.stdout.isatty():
                raise UnusableError(
                    "--also-plain writes to standard output: send it to a file or a pipe, "
                    "for example: coach follow PATTERN --also-plain > lines.txt"
                )
            self.plain = PlainDisplay(sys.stdout, width=self.given.width)
            self.plain.mode("you asked for plain lines beside the screen")
            self.display = Together((screen, self.plain))
        screen.conversation = self
        screen.run()
        if screen.fault is not None:
            raise screen.fault

    # Sound

    def _open_sound(self) -> None:
        if self.settings.speech:
            self._open_mouth()
        if self.settings.microphone:
            self._open_ear()

    def _open_mouth(self) -> None:
        from coach.adapters.speaking import open_speaker  # noqa: PLC0415 - only if wanted
        from coach.adapters.voice_settings import Hooks  # noqa: PLC0415

        hooks = Hooks(
            tells=lambda words: self.in_turn(lambda: self.display.tell(words)),
            speaking=self._speaking,
            saying=self._saying,
            silent=self._silent,
            played=self._played if self._cancels_echo else None,
        )
        opened = open_speaker(
            voice_settings_of(self.settings), hooks=hooks, log=self.log("speech.log"), wait=0
        )
        if isinstance(opened, Missing):
            self._note(opened)
        else:
            self.speaker = opened

    def _open_ear(self) -> None:
        from coach.adapters.ear_vosk import VoskEar  # noqa: PLC0415 - only if wanted
        from coach.adapters.model_store import find_model  # noqa: PLC0415

        model = find_model(os.environ, self.home)
        if isinstance(model, Missing):
            self._note(model)
            return
        recording = Path(self.given.hear) if self.given.hear else None
        ear = self._own_ear = VoskEar(
            model,
            microphone=self.settings.microphone_name or None,
            recording=recording,
            while_speaking=WhileSpeaking(self.settings.while_speaking),
            cancel_echo=self._cancels_echo,
            log=self.log("ear.log"),
        )
        if recording is not None:
            self._recording = ear
        ear.take_words(self.settings.own_words)
        self.ear = SharedEar(ear)

    @property
    def _cancels_echo(self) -> bool:
        wanted = self.settings.while_speaking != WhileSpeaking.NOTHING
        return wanted and self.settings.cancel_echo and self.settings.microphone

    def _speaking(self, text: str, seconds: float) -> None:
        self.ear.coach_speaks(text, seconds)  # looked up now: the ear is opened after the mouth

    def _saying(self, words: Sequence[SaidWord]) -> None:
        self.ear.coach_says(words)

    def _played(self, block: PlayedBlock) -> None:
        if self._own_ear is not None:
            self._own_ear.coach_plays(block)

    def _silent(self) -> None:
        self.ear.coach_silent()

    def _note(self, missing: Missing) -> None:
        self.notices.append(Words(f"{missing.reason} {missing.remedy}", missing.reason))

    def log(self, name: str) -> Path | None:
        """Return where the sound libraries' own noise goes: never to the maker's screen."""
        try:
            self.home.mkdir(parents=True, exist_ok=True)
        except OSError:
            return None
        return self.home / name


def _with_options(settings: Settings, given: Namespace) -> Settings:
    """Return *settings* with what the command line asks for; an option goes before a setting."""
    if given.pace:
        settings = replace(settings, pace=given.pace)
    if given.terms:
        settings = replace(settings, terms=given.terms.upper())
    if given.no_speech:
        settings = replace(settings, speech=False)
    if given.no_ear:
        return replace(settings, microphone=False)
    return replace(settings, microphone=True) if given.hear else settings


def _check_recording(hear: str | None) -> None:
    """Refuse a recording that isn't there before anything is opened."""
    if hear and not Path(hear).is_file():
        raise UnusableError(f"There is no recording named {hear}. Give the path of a WAV file.")
