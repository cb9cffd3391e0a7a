"""Rebuilds graph and vocabulary of a model folder from the coach's one list of commands.

Run: python -m scripts.ear.rebuild_graph models/english-commands   (seconds; the sound side stays)
Run it again whenever a spoken phrase is added to coach/guide/bindings.py.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from . import graph, phrases, pronunciations
from .pronunciations import Phonemes

UNKNOWN_COST = 1.0


def lexicon(dictionary_file: Path | None = None) -> dict[str, tuple[Phonemes, ...]]:
    """Return the ear's whole lexicon: every word that it can hear, with its pronunciations.

    dictionary_file: a pronouncing dictionary; the one that pocketsphinx carries when None.
    """
    path = dictionary_file or pronunciations.dictionary_file()
    dictionary = pronunciations.read_dictionary(path)
    return pronunciations.pronounce(phrases.vocabulary(), dictionary)


def main() -> int:
    """Read the command line and rebuild. Returns the exit status."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("model", type=Path)
    parser.add_argument("--unknown-cost", type=float, default=UNKNOWN_COST)
    given = parser.parse_args()
    try:
        words = lexicon()
        graph.build_graph(given.model, words, unknown_cost=given.unknown_cost)
    except (graph.MissingToolsError, FileNotFoundError, KeyError) as fault:
        print(f"The graph was not rebuilt. {fault}", file=sys.stderr)
        return 2
    print(f"{len(words)} words written to {given.model}/graph")
    return 0


if __name__ == "__main__":
    sys.exit(main())
