"""The closed word list for the recogniser: whole phrases, numbers, and decoys chosen on purpose.

A recogniser with a short list forces every sound onto it (user need L01). So words that rhyme
with a command, and the commonest words of household talk, stand in the list as well: heard,
and then left alone. Each costs a hit now and then, so they are few. Knows no sound.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence

from coach.guide.dialogue import NUMBER
from coach.guide.sound_alikes import NEIGHBOURS, TALK
from coach.guide.spoken_numbers import NUMBER_WORDS, ONES, TENS

UNKNOWN = "[unk]"


def grammar(
    phrases: Iterable[str], knows: Callable[[str], bool], *, decoys: bool = True
) -> tuple[str, tuple[str, ...]]:
    """Return (the JSON list for the recogniser, the phrases it can't hear).

    knows: whether the model has a word. A phrase with a word that the model lacks is left out,
    for the recogniser would drop the word without a sound and hear half a phrase.
    """
    listed: list[str] = []
    lacking: list[str] = []
    wants_number = False
    for phrase in phrases:
        wants_number |= NUMBER in phrase.split()
        if not _can_be_heard(phrase, knows):
            lacking.append(phrase)
            continue
        listed += _with_numbers(phrase, knows) if NUMBER in phrase.split() else [phrase]
    if wants_number:
        listed += [number for number in _numbers() if all(knows(word) for word in number.split())]
    if decoys and listed:
        listed += _decoys(listed, knows)
    if knows(UNKNOWN):
        listed.append(UNKNOWN)
    unique = list(dict.fromkeys(each for each in listed if each))
    return json.dumps(unique, ensure_ascii=False), tuple(lacking)


def _can_be_heard(phrase: str, knows: Callable[[str], bool]) -> bool:
    """Return whether every word of *phrase* is one; the engine's own signs are none."""
    words = [word for word in phrase.split() if word != NUMBER]
    return (bool(words) or phrase == NUMBER) and all(
        word.isprintable() and word != UNKNOWN and knows(word) for word in words
    )


def _with_numbers(phrase: str, knows: Callable[[str], bool]) -> list[str]:
    """Tie a phrase to each word that a number may begin or end with; the numbers tell the rest."""
    stem, unit = (part.strip() for part in phrase.split(NUMBER))
    ends = [word for word in (*ONES, *TENS) if knows(word)]
    if unit:
        return [f"{word} {unit}" for word in ends]
    return [f"{stem} {word}".strip() for word in ends]


def _numbers() -> list[str]:
    """Return the numbers that are listed: up to 199 in words, and pairs of digits."""
    small = [*ONES, *(f"{ten} {one}" for ten in TENS for one in ONES[1:10]), *TENS]
    digits = [f"{one} {other}" for one in ONES[:10] for other in ONES[:10]]
    hundreds = [f"one hundred {each}" for each in small[1:]]
    return [*small, "one hundred", "one hundred and", *hundreds, *digits]


def _decoys(listed: Sequence[str], knows: Callable[[str], bool]) -> list[str]:
    wanted = {word for phrase in listed for word in phrase.split()} | set(NUMBER_WORDS)
    near = [near for phrase in listed for near in NEIGHBOURS.get(phrase, "").split()]
    return sorted({word for word in (*near, *TALK.split()) if word not in wanted and knows(word)})
