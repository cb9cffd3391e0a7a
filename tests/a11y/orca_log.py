"""What a screen reader said of the plain lines: python -m tests.a11y.orca_log LOG LINES STEPS.

Compares what Orca sent to speech after each key with the line that the coach wrote for it, white
space folded, and counts drawing characters. Exit status 1 if any step was said otherwise, or if
fewer keys than STEPS reached the reader: a run that lost some has not measured them.
"""

from __future__ import annotations

import re
import statistics
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

# Box drawing, blocks, braille, and the newer blocks for octants and sextants.
DRAWN = re.compile("[\u2500-\u259f\u2800-\u28ff\U0001cc00-\U0001cebf\U0001fb00-\U0001fbff]")
_SPOKEN = re.compile(
    r"^(\d\d):(\d\d):(\d\d\.\d+) - SPEECH OUTPUT: '(.*?)'\s*\[?\{", re.DOTALL | re.MULTILINE
)
_KEY_ECHO = "return"  # the reader's own word for the key that was pressed


@dataclass(frozen=True, slots=True)
class Spoken:
    """One utterance: when it was asked for, in seconds of the day, and its text."""

    at: float
    text: str


@dataclass(frozen=True, slots=True)
class Said:
    """All that was said after one key, without the echo of the key itself. ms: to its start."""

    texts: tuple[str, ...]
    ms: float


def spoken(log: str) -> list[Spoken]:
    """Return each text that the screen reader sent to speech, white space folded."""
    return [
        Spoken(int(hours) * 3600 + int(minutes) * 60 + float(seconds), " ".join(text.split()))
        for hours, minutes, seconds, text in _SPOKEN.findall(log)
    ]


def after_each_key(log: str) -> list[Said]:
    """Return what was said after each key."""
    said: list[Said] = []
    pressed: float | None = None
    texts: list[Spoken] = []
    for one in [*spoken(log), Spoken(0, _KEY_ECHO)]:
        if one.text != _KEY_ECHO:
            texts.append(one)
            continue
        if pressed is not None:
            ms = (texts[0].at - pressed) * 1000 if texts else float("inf")
            said.append(Said(tuple(text.text for text in texts), ms))
        pressed, texts = one.at, []
    return said


def report(log: str, lines: Sequence[str], pressed: int) -> tuple[list[str], int]:
    """Return a report, and how many steps of those pressed were not said exactly, in one go."""
    steps = after_each_key(log)
    if not steps:
        return [
            f"Nothing was measured: the reader heard none of {pressed} keys. "
            "See that its window has the focus, and run it again, alone."
        ], pressed
    # The reader says that it is leaving after the last one.
    texts = tuple(text for text in steps[-1].texts if not text.startswith("Screen reader"))
    steps[-1] = Said(texts, steps[-1].ms)
    wanted = list(lines)[-len(steps) :]
    told, wrong = [], 0
    lost = max(0, pressed - len(steps))
    if lost:
        told.append(f"Not all was measured: {lost} of {pressed} keys never reached the reader.")
    for line, said in zip(wanted, steps, strict=False):
        if said.texts != (line,):
            wrong += 1
            told.append(f"Written: {line!r}. Said: {said.texts!r}")
    drawn = sum(len(DRAWN.findall(text)) for said in steps for text in said.texts)
    times = [said.ms for said in steps]
    told.append(
        f"{len(steps)} steps, {len(steps) - wrong} said word for word in one utterance, "
        f"{drawn} drawing characters; key to speech request: median "
        f"{statistics.median(times):.0f} ms, longest {max(times):.0f} ms"
    )
    return told, wrong + lost


def main() -> int:
    """Print the report of a run."""
    log = Path(sys.argv[1]).read_text(encoding="utf-8", errors="replace")
    lines = [" ".join(line.split()) for line in Path(sys.argv[2]).read_text().splitlines()]
    told, wrong = report(log, [line for line in lines if line], int(sys.argv[3]))
    print("\n".join(told))  # noqa: T201
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
