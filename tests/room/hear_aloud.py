"""A bare program for the room: the real ear, each thing that it hears or tells on one line."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from coach.adapters.ear_vosk import VoskEar
from coach.adapters.model_store import find_model
from coach.guide.bindings import BINDINGS
from coach.guide.dialogue import Dialogue


def write(line: str) -> None:
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


if __name__ == "__main__":
    model = find_model(os.environ, Path("/nowhere"))
    if not isinstance(model, Path):
        raise SystemExit(model.reason)
    ear = VoskEar(model)
    ear.start(
        lambda heard: None if heard.waits else write(f"heard: {heard.text} ({heard.ms} ms)"),
        lambda words: write(f"told: {words.full}"),
    )
    ear.listen_for(Dialogue(BINDINGS).phrases("working"))
    for line in sys.stdin:
        if line.startswith("speaks"):
            ear.coach_speaks("", float(line.split()[1]))
        elif line.startswith("silent"):
            ear.coach_silent()
        elif line.startswith("mute"):
            ear.mute(line.split()[1] == "on")
    ear.close()
