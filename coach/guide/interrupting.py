"""Which spoken words may interrupt the coach while it speaks.

Short words are never taken then: "next" and "back" are the two that a room's echo makes most
easily, and each has a longer twin.
"""

from __future__ import annotations

from enum import StrEnum

from coach.guide.bindings import BINDINGS
from coach.guide.commands import Command

STOPS = frozenset({Command.STOP_TALKING, Command.PAUSE, Command.QUIET_TIME})


class WhileSpeaking(StrEnum):
    """What the ear takes while the coach speaks."""

    NOTHING = "nothing"  # half-duplex
    STOP_WORDS = "stop words"  # what stops it, and nothing else
    ALL_WORDS = "all words"  # every phrase of two words or more


def may_interrupt(phrase: str, meaning: str, taken: WhileSpeaking) -> bool:
    """Return whether *phrase*, which means the command *meaning*, is taken while the coach speaks."""
    if len(phrase.split()) < 2 or taken is WhileSpeaking.NOTHING:
        return False
    return taken is WhileSpeaking.ALL_WORDS or meaning in {each.value for each in STOPS}


def stop_hints() -> frozenset[str]:
    """Return the words that show, even alone, that the coach is being stopped.

    Across its voice "stop talking" may come out as "talking". Short words show nothing.
    """
    phrases = (each for binding in BINDINGS if binding.command in STOPS for each in binding.spoken)
    long = (phrase.split() for phrase in phrases if len(phrase.split()) > 1)
    return frozenset(word for words in long for word in words if len(word) > 3)
