"""The closed word list for the recogniser: whole phrases, numbers, and decoys chosen on purpose.

A recogniser with a short list forces every sound onto it (user need L01). So words that rhyme
with a command, and the commonest words of household talk, stand in the list as well: heard,
and then left alone. Each costs a hit now and then, so they are few. Knows no sound.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence

from coach.guide.dialogue import NUMBER
from coach.guide.spoken_numbers import NUMBER_WORDS, ONES, TENS

UNKNOWN = "[unk]"

# Word of a command: words near to it in sound that come up while crafting or in talk.
# Neighbours by weighted phone distance on the CMU pronouncing dictionary, 0.35 and nearer.
NEIGHBOURS = {
    "next": "necks neck text nest texts vexed mixed max",
    "row": "know toe snow low rose wrote so though",
    "back": "bag pack black bake bat bad rack",
    "go": "ago goat gold goes",
    "repeat": "receipt repeats ripped complete retreat",
    "that": "than bat hat cat at",
    "pause": "paws cause pours because boss",
    "resume": "presume",
    "where": "wear there hair fair",
    "am": "an and jam ham",
    "how": "now cow house",
    "many": "any money penny",
    "left": "lift laughed less leaf",
    "explain": "plain complain plane",
    "help": "held health felt",
    "undo": "and into under onto",
    "slow": "slowly low sew",
    "down": "town done brown",
    "speed": "speak seed spend",
    "up": "cup of us",
    "stop": "step top shop stopped",
    "talking": "walking taking",
    "carry": "care very marry",
    "on": "own an one",
    "say": "see day said stay",
    "again": "ten gain against",
    "yes": "yarn chess guess yet",
    "no": "know now nose",
    "count": "account counter town",
    "louder": "ladder loader",
    "softer": "after often",
    "faster": "after master",
    "slower": "lower slow",
    "hello": "yellow hollow",
    "quiet": "quite white",
    "time": "tie dime fine",
    "quit": "quick quilt kit",
}
# The commonest words of talk at the table, so that a sentence is heard as a sentence.
TALK = (
    "the a and to of i you it in is was for me my we he she they this what have do not be your "
    "yarn coffee tea table home dinner kitchen today morning daughter please thank come got get "
    "like think well oh just want said would could about there then when week coast over again"
)


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
        stem = phrase.replace(NUMBER, "").strip()
        if not all(knows(word) for word in stem.split()):
            lacking.append(phrase)
            continue
        listed += _with_numbers(stem, knows) if NUMBER in phrase.split() else [stem]
    if wants_number:
        listed += [number for number in _numbers() if all(knows(word) for word in number.split())]
    if decoys and listed:
        listed += _decoys(listed, knows)
    if knows(UNKNOWN):
        listed.append(UNKNOWN)
    unique = list(dict.fromkeys(each for each in listed if each))
    return json.dumps(unique, ensure_ascii=False), tuple(lacking)


def _with_numbers(stem: str, knows: Callable[[str], bool]) -> list[str]:
    """Tie the stem to each word that a number may begin with; the rest is told by the numbers."""
    firsts = [word for word in (*ONES, *TENS) if knows(word)]
    return [f"{stem} {word}".strip() for word in firsts]


def _numbers() -> list[str]:
    """Return the numbers that are listed: up to 199 in words, and pairs of digits."""
    small = [*ONES, *(f"{ten} {one}" for ten in TENS for one in ONES[1:10]), *TENS]
    digits = [f"{one} {other}" for one in ONES[:10] for other in ONES[:10]]
    hundreds = [f"one hundred {each}" for each in small[1:]]
    return [*small, "one hundred", "one hundred and", *hundreds, *digits]


def _decoys(listed: Sequence[str], knows: Callable[[str], bool]) -> list[str]:
    wanted = {word for phrase in listed for word in phrase.split()} | set(NUMBER_WORDS)
    near = [near for word in wanted for near in NEIGHBOURS.get(word, "").split()]
    return sorted({word for word in (*near, *TALK.split()) if word not in wanted and knows(word)})
