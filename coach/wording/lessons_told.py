"""What is said while the coach learns a maker's own way of saying its commands."""

from __future__ import annotations

from coach.guide.lessons import Came, Outcome
from coach.wording.words import Words

BEGIN = Words(
    "Say each command when I fall silent. Cancel that ends it.", "Say each command in turn"
)
NO_MICROPHONE = Words(
    "I learn words by listening, and the microphone is off. Switch it on first.", "Microphone off"
)
NOTHING_LEARNED = Words("That is all. Nothing is changed.", "Nothing changed")
LEARNED = Words(
    "That is all. I know your words now. Say undo that to forget them.", "Your words are learned"
)
FORGOTTEN = Words("I have forgotten those words.", "Words forgotten")
TAKEN_BACK = Words("That one is forgotten.", "Forgotten")


def ask(phrase: str, *, again: bool = False) -> Words:
    """Return what asks for *phrase*, the first time or once more."""
    return Words(f"{'Once more' if again else 'Say'}: {phrase}.", f"Say: {phrase}")


def outcome_words(outcome: Outcome, key: str) -> Words:
    """Return what came of the sayings of a command. key: the name of its key."""
    match outcome.came:
        case Came.KNOWN:
            return Words("I hear that well.", "Heard well")
        case Came.KEPT:
            return Words("I have learned that.", "Learned")
        case Came.CLASHES:
            near = f"To me that sounds like {outcome.words}, so I leave it as it is."
        case Came.EVERYDAY:
            near = "To me that sounds like everyday talk, so I leave it as it is."
        case _:
            near = "I heard something else each time, so I leave it as it is."
    return Words(f"{near} Its key is {key}.", f"Left as it is. Key: {key}")
