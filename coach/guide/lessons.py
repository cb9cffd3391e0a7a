"""A maker's own way of saying a command: what may be kept of it, and what is refused.

The ear takes some speech for other words, and always for the same ones: "next row" for
"text row". Such words, heard twice alike, can stand for the command from then on, unless they
are near those of another command or come up in talk. Pure: words in, a judgement out.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from coach.guide.dialogue import NUMBER
from coach.guide.sound_alikes import TALK, sounds_like
from coach.guide.spoken_numbers import NUMBER_WORDS, heard_number

TAUGHT = ("next row", "go back", "repeat that", "where am i", "stop talking")
TIMES = 2  # sayings that must agree
AT_MOST = 3  # sayings asked for
LIKELY = 4  # of the readings of a saying, so many are looked at

Saying = Sequence[str]  # the readings of one saying, the likeliest first


class Came(Enum):
    """What came of the sayings of one phrase."""

    AGAIN = "it is asked for once more"
    KNOWN = "it is heard well as it is"
    KEPT = "what was heard is kept"
    CLASHES = "what was heard is near to another command"
    EVERYDAY = "what was heard comes up in everyday talk"
    NO_TWO_ALIKE = "something else was heard each time"


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of it. words: those that are kept, or the other phrase they are too near to."""

    came: Came
    words: str = ""


def judge(phrase: str, sayings: Sequence[Saying], meanings: Mapping[str, str]) -> Outcome:
    """Return what may be kept of *sayings* of *phrase*.

    meanings: every phrase that is listened for, a maker's own words too, with its command; "#"
    in a phrase stands for a number.
    """
    if len(sayings) < TIMES:
        return Outcome(Came.AGAIN)
    own = {each for each, meaning in meanings.items() if meaning == meanings[phrase]}
    if sum(bool(said) and said[0] in own for said in sayings) >= TIMES:
        return Outcome(Came.KNOWN)
    others = [each for each in meanings if each not in own]
    outcome = Outcome(Came.NO_TWO_ALIKE)
    for words in _heard_alike(sayings, own):
        clash = _too_near(words, others)
        if not clash and not _everyday(words):
            return Outcome(Came.KEPT, words)
        outcome = Outcome(Came.CLASHES, clash) if clash else Outcome(Came.EVERYDAY, words)
        if clash and all(words in said[:1] for said in sayings[-TIMES:]):
            return outcome  # it is that other command, to the ear
    return outcome if len(sayings) >= AT_MOST else Outcome(Came.AGAIN)


def _heard_alike(sayings: Sequence[Saying], own: Collection[str]) -> list[str]:
    """Return the readings that several sayings share, the likeliest first."""
    places: dict[str, list[int]] = {}
    for said in sayings:
        for place, words in enumerate(said[:LIKELY]):
            if words not in own:
                places.setdefault(words, []).append(place)
    shared = [words for words, at in places.items() if len(at) >= TIMES]
    return sorted(shared, key=lambda words: sum(places[words]) / len(places[words]))


def _too_near(words: str, others: Sequence[str]) -> str:
    """Return the phrase of another command that *words* are too near to, or ""."""
    if heard_number(words) is not None:
        return "a number"
    for other in others:
        stem = other.split(NUMBER, maxsplit=1)[0].strip()
        if stem and (_begins(words, stem) or _begins(stem, words) or _rhymes(words, stem)):
            return stem
    return ""


def _begins(words: str, whole: str) -> bool:
    return f"{whole} ".startswith(f"{words} ")


def _rhymes(words: str, other: str) -> bool:
    ours, theirs = words.split(), other.split()
    return len(ours) == len(theirs) and all(map(sounds_like, ours, theirs))


def _everyday(words: str) -> bool:
    """Return whether *words* may come up in a room at any time: one word, or common ones alone."""
    said = words.split()
    common = {*TALK.split(), *NUMBER_WORDS}
    strange = any(not word.isalpha() and "'" not in word for word in said)  # the engine's own sign
    return len(said) < 2 or strange or all(word in common for word in said)
