"""What can be said, told to a maker who asks: the few words that matter most, then five at a time."""

from __future__ import annotations

from collections.abc import Sequence

from coach.guide.bindings import BINDINGS
from coach.guide.commands import Binding, Command
from coach.wording.words import Words

# Met at "help": the few words that matter most. Said again at once, it goes through the whole list.
HELP = Words(
    "Say next row, go back, or repeat that. Where am I tells the place. I have, and a number, "
    "checks your count. Say help again to hear more, five at a time.",
    "next row · go back · repeat that · where am I · I have …",
)

# More at once than this, and the first is forgotten before the last is heard.
HELP_AT_ONCE = 5


def help_parts(commands: Sequence[Command]) -> int:
    """Return in how many parts all of *commands* are told."""
    return -(-len(_helped(commands)) // HELP_AT_ONCE)


def help_words(commands: Sequence[Command], part: int = 1) -> Words:
    """Return one part of what can be said now: each command's first phrase, its key and its help.

    part: counted from 1; after the last part the first one comes again.
    """
    parts = help_parts(commands)
    at = (part - 1) % parts
    these = _helped(commands)[at * HELP_AT_ONCE : (at + 1) * HELP_AT_ONCE]
    told = [f"Say {_phrase(each)}{_or_key(each)}. {each.help}" for each in these]
    told.append("That is all." if at + 1 == parts else "Say help again for more.")
    return Words(" ".join(told), " · ".join(_phrase(each) for each in these))


def _helped(commands: Sequence[Command]) -> list[Binding]:
    return [each for each in BINDINGS if each.command in commands and (each.spoken or each.typed)]


def _phrase(binding: Binding) -> str:
    phrase = (binding.spoken or binding.typed)[0]
    return " ".join("I" if word == "i" else word for word in phrase.split())


def _or_key(binding: Binding) -> str:
    return f", or press {key_name(binding.keys[0])}" if binding.keys else ""


_KEY_NAMES = {
    "space": "the space bar",
    "?": "the question mark",
    "[": "the opening square bracket",
    "]": "the closing square bracket",
    ".": "the full stop",
    ",": "the comma",
    "escape": "escape",
}


def key_name(key: str) -> str:
    """Return a key's name aloud: "the space bar", "the letter B"."""
    if key in _KEY_NAMES:
        return _KEY_NAMES[key]
    return f"the letter {key.upper()}" if len(key) == 1 and key.isalpha() else key.upper()
