"""The drawn machine is the one that runs."""

from __future__ import annotations

import re
from pathlib import Path

from coach.guide.commands import Command
from coach.guide.drawing import diagram, section, table
from coach.guide.machine import MOVES
from coach.guide.place import Mode

DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"


def test_the_drawn_machine_is_the_one_that_runs() -> None:
    """Mended by scripts/draw-moves."""
    assert section() in DEVELOPERS.read_text(encoding="utf-8")


def test_every_move_from_mode_to_mode_is_drawn_and_no_other() -> None:
    drawn = set()
    for line in diagram().splitlines()[2:]:
        found = re.fullmatch(r"    (\w+) --> (\w+): (.+)", line)
        assert found, line
        drawn |= {(found[1], found[2], command) for command in found[3].split(", ")}

    runs = {
        (mode.value, to.value, command.value)
        for mode, moves in MOVES.items()
        for command, move in moves.items()
        for to in move.to
        if to is not mode
    }
    assert drawn == runs


def test_every_command_has_its_line_in_the_table() -> None:
    lines = table().splitlines()

    assert len(lines) == len(Command) + 2
    assert all(line.count("|") == len(Mode) + 2 for line in lines)
