"""Plays the read-back of numbers with a test voice: said, read back, answered, said again.

Run: python -m scripts.ear.read_back joe awb --model FOLDER --noise 99 10
The coach reads a number back before it acts. A wrong one is answered with "no" and said again, at
another speed; an answer that was not heard is said again too. Heard in the evaluation's own lists,
without the coach's dialogue. Every saying has noise of its own.
"""

# ruff: noqa: S311 - draws of test speech, no secrets

from __future__ import annotations

import argparse
import random
import sys
from collections import Counter
from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np

from .evaluate import CLEAN, SURE, Clip, grammar_for, in_room, same_command
from .listeners import Listener, vosk_listener
from .make_tests import speaker_of, texts_to_say
from .programs import status_of

SAYINGS = 3
ANSWERS = 2  # sayings of one yes or no

Hears = Callable[[str], str]


def meant(heard: str) -> str:
    """Return "yes" or "no" where a phrase of that answer was heard, else ""."""
    return next((each for each in ("yes", "no") if same_command(heard, each) == each), "")


def settled(number: str, hears_number: Hears, hears_answer: Hears) -> tuple[str, int]:
    """Return (what the coach acts on, sayings of the number); "" where it gave up.

    hears_number, hears_answer: what is heard when a text is said once more, "" for nothing.
    """
    for saying in range(1, SAYINGS + 1):
        heard = hears_number(number)
        if not heard:
            continue
        wanted = "yes" if heard == number else "no"
        answers = (meant(hears_answer(wanted)) for _ in range(ANSWERS))
        if next(filter(None, answers), "") == "yes":
            return heard, saying
    return "", SAYINGS


def hears(speak: Callable[[str], Clip], listener: Listener, decibels: int, first: int) -> Hears:
    """Return what a listener hears of a text said in noise; seeds run up from *first*."""
    seeds = iter(range(first, sys.maxsize))

    def heard(text: str) -> str:
        found, sure = listener(in_room(speak(text), decibels, next(seeds)))
        return found if sure >= SURE else ""

    return heard


def played(voice: str, model: Path, decibels: int, numbers: Sequence[str]) -> Counter[str]:
    """Return how many numbers came out "right 1" to "right 3" (sayings), "wrong" and "given up"."""
    say, rng = speaker_of(voice), random.Random(29)

    def speak(text: str) -> Clip:
        samples = (say(text, rng).samples * 0.8 * 32767).astype(np.int16)
        return Clip(voice, "number", text, samples)

    number = hears(speak, vosk_listener(model, grammar_for("number")), decibels, 10_000)
    answer = hears(speak, vosk_listener(model, grammar_for("command")), decibels, 20_000)
    outcomes: Counter[str] = Counter()
    for text in numbers:
        acted, sayings = settled(text, number, answer)
        outcome = f"right {sayings}" if acted == text else "wrong" if acted else "given up"
        outcomes[outcome] += 1
    return outcomes


def main() -> int:
    """Read the command line, play and print. Returns the exit status."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("voices", nargs="+", help="alan, awb, nezumi, joe, or a voice of flite")
    parser.add_argument("--model", type=Path, required=True)
    parser.add_argument("--noise", type=int, nargs="+", default=[CLEAN, 10])
    given = parser.parse_args()

    def work() -> None:
        for voice in given.voices:
            size = 0.45 if voice == "nezumi" else 1.0
            numbers = [text for kind, text in texts_to_say(size) if kind == "number"]
            for decibels in given.noise:
                found = played(voice, given.model, decibels, numbers)
                print(voice, decibels, f"{len(numbers)} numbers", dict(sorted(found.items())))

    return status_of(work, "Nothing was played.")


if __name__ == "__main__":
    sys.exit(main())
