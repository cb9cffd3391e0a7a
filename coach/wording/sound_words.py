"""What is told when the coach's own voice or the loudspeaker comes or goes.

Never a blank where speech should be: each says what happened and that the words stay.
"""

from __future__ import annotations

from coach.wording.words import Words

# The voice failed on an utterance; it is tried again at once.
SPEECH_OFF = Words(
    "Speech is off for a moment. The words stay on the screen.", "Speech off for a moment"
)
SPEECH_BACK = Words("Speech is back.", "Speech is back")

# The loudspeaker was pulled out, or the sound system ended.
LOUDSPEAKER_GONE = Words(
    "The loudspeaker is gone. The words stay on the screen. Speech goes on when it is back.",
    "Loudspeaker gone",
)
LOUDSPEAKER_BACK = Words("The loudspeaker is back.", "Loudspeaker back")

# Speech was sent and taken, but no one can have heard it.
NOTHING_HEARD = Words(
    "No sound comes out. Check the loudspeaker and its volume. The words stay on the screen.",
    "No sound comes out",
)


def no_voice(reason: str) -> Words:
    """Return what is told when there is no speech engine at all."""
    return Words(f"Speech is off. {reason} The words stay on the screen.", "Speech off")


def no_loudspeaker(reason: str, remedy: str) -> Words:
    """Return what is told when there is nothing to speak through."""
    return Words(f"{reason} {remedy}".strip(), "No loudspeaker")
