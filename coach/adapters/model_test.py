"""Tries one model folder and ends: status 0 when it decodes what it should.

Runs in a process of its own, for a broken model may end the process that loads it (vosk 0.3.44
has no guard). What is wrong is written to standard output in one sentence.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from coach.adapters.ear_recogniser import BadModelError, Recogniser


def main(arguments: list[str]) -> None:
    """Try the model in the folder given."""
    answers = os.fdopen(os.dup(1), "w", encoding="utf-8")
    nothing = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nothing, 1)
    os.dup2(nothing, 2)
    try:
        Recogniser(Path(arguments[0])).self_test()
    except BadModelError as fault:
        answers.write(f"{fault.missing.reason}\n")
        answers.flush()
        os._exit(1)
    os._exit(0)


if __name__ == "__main__":
    main(sys.argv[1:])
