"""Draws what the synthetic speakers say. Every draw comes from a seeded generator."""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence

from . import phrases
from .numbers import LARGEST, ONES, TENS, digit_by_digit, in_words

# Share of each kind of utterance in the training speech. Common practice: half commands and
# numbers, half speech that must not act.
SHARES = {
    "command": 0.28,
    "commands in a row": 0.03,
    "number": 0.24,
    "trade": 0.09,
    "rhyme": 0.11,
    "household": 0.06,
    "words": 0.16,
    "name or seat": 0.03,
}


def some_number(rng: random.Random) -> int:
    """Return a row or stitch number: small ones are the commonest, all of 0 to 999 occur."""
    roll = rng.random()
    if roll < 0.35:
        return rng.randint(0, 20)
    if roll < 0.75:
        return rng.randint(10, 200)
    return rng.randint(0, LARGEST)


def said_number(rng: random.Random) -> str:
    """Return a number as a maker may say it: as words, with or without "and", or by digits."""
    number = some_number(rng)
    roll = rng.random()
    if roll < 0.35:
        return digit_by_digit(number)
    return in_words(number, joined_by_and=roll > 0.65)


def _teen_or_ten(rng: random.Random) -> str:
    """Return a number that a -teen and a -ty make alike, alone, before or after other words."""
    low = rng.randint(3, 9)
    word = rng.choice((in_words(10 + low), in_words(10 * low)))
    roll = rng.random()
    if roll < 0.35:
        return word
    if roll < 0.5:
        return f"{word} {rng.choice(ONES[1:10])}" if word in TENS else f"one hundred {word}"
    if roll < 0.65:
        return f"{word} {rng.choice(('stitches', 'left', 'rows', 'please', 'chains'))}"
    if roll < 0.75:
        return f"{word} {in_words(rng.choice((10 + low, 10 * low)))}"
    return rng.choice(phrases.NUMBER_FRAMES).format(word)


def _number(rng: random.Random) -> str:
    if rng.random() < 0.22:
        return _teen_or_ten(rng)
    if rng.random() < 0.4:
        return said_number(rng)
    return rng.choice(phrases.NUMBER_FRAMES).format(said_number(rng))


def _several(rng: random.Random, source: Sequence[str], low: int, high: int) -> str:
    return " ".join(rng.choice(source) for _ in range(rng.randint(low, high)))


def _household(rng: random.Random) -> str:
    words = rng.choice(phrases.HOUSEHOLD).split()
    if rng.random() < 0.4:
        return " ".join(words)
    start = rng.randrange(max(1, len(words) - 2))
    return " ".join(words[start : start + rng.randint(2, 6)])


def draws() -> dict[str, Callable[[random.Random], str]]:
    """Return for each kind of utterance the function that draws one."""
    commands = phrases.command_phrases()
    common = phrases.common_words()
    people = (*phrases.NAMES, *phrases.SEATS)
    return {
        "command": lambda rng: rng.choice(commands),
        "commands in a row": lambda rng: _several(rng, commands, 2, 3),
        "number": _number,
        "trade": lambda rng: _several(rng, phrases.TRADE_PHRASES, 1, 2),
        "rhyme": lambda rng: _several(rng, phrases.RHYMES, 1, 3),
        "household": _household,
        "words": lambda rng: _several(rng, common, 1, 5),
        "name or seat": lambda rng: _several(rng, people, 1, 3),
    }


def utterance(rng: random.Random, kinds: Sequence[str] = tuple(SHARES)) -> tuple[str, str]:
    """Return (kind, text) of one utterance in lower-case words, of one of *kinds*."""
    kind = rng.choices(kinds, weights=[SHARES[each] for each in kinds])[0]
    return kind, draws()[kind](rng)
