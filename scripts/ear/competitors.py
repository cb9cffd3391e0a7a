"""What an utterance might be mistaken for: the rival texts of the sequence criterion."""

from __future__ import annotations

import random
from collections.abc import Sequence

from .numbers import ONES, TENS

NUMBER_WORDS = frozenset((*ONES, *TENS, "hundred", "oh", "niner"))

# Confusions measured in the voice study, and teens against tens.
CONFUSED = {
    "thirteen": ("thirty",), "fourteen": ("forty",), "fifteen": ("fifty", "sixteen"),
    "sixteen": ("sixty", "fifteen"), "seventeen": ("seventy",), "eighteen": ("eighty", "eight"),
    "nineteen": ("ninety",), "thirty": ("thirteen", "forty"), "forty": ("fourteen", "thirty"),
    "fifty": ("fifteen", "sixty"), "sixty": ("sixteen", "fifty"), "seventy": ("seventeen",),
    "eighty": ("eighteen", "eight"), "ninety": ("nineteen", "nine"), "nine": ("five", "one"),
    "five": ("nine", "four"), "one": ("nine", "four"), "two": ("eight", "three", "eighteen"),
    "eight": ("two", "eighty", "eighteen"), "seven": ("eleven",), "eleven": ("seven",),
    "four": ("five", "one"), "three": ("two", "eight"), "six": ("seven",), "zero": ("four",),
}  # fmt: skip


def near_numbers(text: str, rng: random.Random) -> str:
    """Return the text with one of its number words changed, dropped or doubled.

    The text itself comes back when it holds no number word.
    """
    words = text.split()
    places = [index for index, word in enumerate(words) if word in NUMBER_WORDS]
    if not places:
        return text
    place = rng.choice(places)
    roll = rng.random()
    if roll < 0.5:
        words[place] = rng.choice(CONFUSED.get(words[place], tuple(ONES)))
    elif roll < 0.8:
        words[place] = rng.choice((*ONES, *TENS))
    elif roll < 0.9 and len(words) > 1:
        del words[place]
    else:
        words.insert(place, rng.choice((*ONES, *TENS)))
    return " ".join(words)


def rivals(
    text: str,
    commands: Sequence[str],
    count: int,
    rng: random.Random,
    alike: Sequence[str] = (),
) -> list[str]:
    """Return *count* texts that are not *text*: near numbers where it has some, else commands.

    alike: commands that sound most like the text; a third of the rivals are drawn from them.
    """
    words = text.split()
    numeric = any(word in NUMBER_WORDS for word in words)
    found = rng.sample(alike, min(len(alike), count // 3))
    # single commands that share a word are the likeliest mistakes
    sharing = [each for each in commands if set(each.split()) & set(words) and each != text]
    found += rng.sample(sharing, min(len(sharing), count // 4))
    while len(found) < count:
        rival = near_numbers(text, rng) if numeric and rng.random() < 0.6 else rng.choice(commands)
        if rival != text:
            found.append(rival)
    return found[:count]


def torn(text: str, rng: random.Random) -> str:
    """Return the text as a room full of talk tears it: a word lost at an end, or a number put there.

    The recogniser's list lets words chain, so such a text is a rival in its own right.
    """
    words = text.split()
    stray = rng.choice((*ONES, *TENS, "i have", "to", "two"))
    ways = [[stray, *words], [*words, stray]]
    if len(words) > 1:
        ways += [words[1:], words[:-1], [stray, *words[1:]], [*words[:-1], stray]]
    return " ".join(rng.choice(ways))
