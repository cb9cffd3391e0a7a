"""How a maker likes to be spoken to, who is told of speech, and how fast the bundled voice is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from coach.adapters.sound_out import PlayedBlock
from coach.adapters.speech_pace import USUAL, Curve
from coach.wording.words import Words

# espeak-ng 1.52, voice gmw/en: its rate and the words a minute that came of it over 1,800 words of
# the coach's own sentences, the pauses between them included (scripts/bench_mouth.py pace). One
# kind of text runs up to 5 percent faster or slower than another at the same rate.
ESPEAK_CURVE = Curve(
    (
        (80, 95.3),
        (100, 112.8),
        (125, 139.9),
        (150, 166.8),
        (175, 194.4),
        (200, 222.5),
        (250, 277.5),
        (300, 335.0),
    )
)


@dataclass(frozen=True, slots=True)
class VoiceSettings:
    """How a maker likes to be spoken to.

    words_per_minute: 80 to 300. loudness: percent, 0 to 100. voice: an id from `list_voices`,
    or "" for the engine's own. device: a loudspeaker's name, or None for the machine's choice.
    natural: a folder with a Piper voice, or None for pyttsx3.
    """

    words_per_minute: int = USUAL
    loudness: int = 80
    voice: str = ""
    device: str | None = None
    natural: Path | None = None


@dataclass(frozen=True, slots=True)
class Hooks:
    """Who is told what while the coach speaks, in order, from one thread of the mouth.

    tells: a plain sentence when speech or the loudspeaker comes or goes. speaking: (text,
    seconds) as an utterance is sent to the loudspeaker. silent: it has ended or was cut; the
    loudspeaker may be some hundredths of a second behind. played: every block that goes to the
    loudspeaker, from a thread of its own.
    """

    tells: Callable[[Words], None] = lambda _: None
    speaking: Callable[[str, float], None] = lambda _text, _seconds: None
    silent: Callable[[], None] = lambda: None
    played: Callable[[PlayedBlock], None] | None = None
