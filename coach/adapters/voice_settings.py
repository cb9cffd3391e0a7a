"""How a maker likes to be spoken to, who is told of speech, and how fast the bundled voice is."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from coach.adapters.sound_out import PlayedBlock
from coach.adapters.speech_pace import USUAL, Curve
from coach.ports import SaidWord
from coach.wording.words import Words

# The bundled voice's variant that an independent listener understood best of sixteen: 93 percent
# of 596 words of the coach and 72 of 80 numbers, and of sentences it was not chosen by 90 percent
# and 57 of 58; the plain "gmw/en" 87 and 67, 87 and 52 (scripts/bench_mouth.py listener).
BUNDLED_VOICE = "gmw/en+klatt6"

# espeak-ng 1.52 with that voice: its rate and the words a minute that came of it over 1,800 words of
# the coach's own sentences, the pauses between them included (scripts/bench_mouth.py pace). One
# kind of text runs up to 5 percent faster or slower than another at the same rate.
ESPEAK_CURVE = Curve(
    (
        (80, 97.4),
        (100, 115.2),
        (125, 142.9),
        (150, 170.4),
        (175, 198.6),
        (200, 227.3),
        (250, 283.0),
        (300, 341.0),
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
    seconds) as an utterance is sent to the loudspeaker. saying: its words and when each sounds,
    in monotonic seconds, as they become known. silent: it has ended or was cut; the
    loudspeaker may be some hundredths of a second behind. played: every block that goes to the
    loudspeaker, from a thread of its own.
    """

    tells: Callable[[Words], None] = lambda _: None
    speaking: Callable[[str, float], None] = lambda _text, _seconds: None
    saying: Callable[[Sequence[SaidWord]], None] = lambda _: None
    silent: Callable[[], None] = lambda: None
    played: Callable[[PlayedBlock], None] | None = None
