"""The table of moves as a picture and as a table in words, both for DEVELOPERS.md.

Both are made from the table that runs, so they can't tell of another machine.
"""

from __future__ import annotations

from coach.guide.commands import Command
from coach.guide.machine import MOVES
from coach.guide.place import Mode


def diagram() -> str:
    """Return which commands lead from mode to mode, as a Mermaid state diagram."""
    lines = ["stateDiagram-v2", f"    [*] --> {Mode.WORKING.value}"]
    for mode in Mode:
        for to in Mode:
            commands = _leading(mode, to)
            if commands and to is not mode:
                lines.append(f"    {mode.value} --> {to.value}: {', '.join(commands)}")
    return "\n".join(lines)


def table() -> str:
    """Return every command with the modes it may lead to, by the mode that it meets."""
    lines = [
        f"| command | {' | '.join(mode.value for mode in Mode)} |",
        f"| --- |{' --- |' * len(Mode)}",
    ]
    for command in Command:
        cells = " | ".join(_cell(mode, command) for mode in Mode)
        lines.append(f"| {command.value} | {cells} |")
    return "\n".join(lines)


def section() -> str:
    """Return what stands between the two markers of DEVELOPERS.md."""
    return f"```mermaid\n{diagram()}\n```\n\n{table()}\n"


def _leading(mode: Mode, to: Mode) -> list[str]:
    return [command.value for command, move in MOVES[mode].items() if to in move.to]


def _cell(mode: Mode, command: Command) -> str:
    move = MOVES[mode].get(command)
    if move is None:
        return "told: not now"
    others = [to.value for to in move.to if to is not mode]
    stays = ["stays"] if mode in move.to else []
    return ", ".join(stays + others)
