"""The one list of commands: spoken phrases, key, help. Voice, keys, pedal, plain mode and help read it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Command(StrEnum):
    """Everything a maker can ask for."""

    NEXT = "next"
    BACK = "back"
    REPEAT = "repeat"
    WHERE = "where"
    HOW_MANY = "how many"
    LEFT = "left"
    EXPLAIN = "explain"
    SEE = "see"
    COUNT = "count"  # takes a number: "I have 74"
    RIPPED = "ripped"  # takes a row number: "ripped back to the end of row 7"
    GO_TO_ROW = "go to row"  # takes a row number
    PAUSE = "pause"
    CARRY_ON = "carry on"
    SLOWER = "slower"
    FASTER = "faster"
    LOUDER = "louder"
    SOFTER = "softer"
    UNDO = "undo"
    STOP_TALKING = "stop talking"
    QUIET_TIME = "quiet time"
    HELLO = "hello"
    HELP = "help"
    YES = "yes"
    NO = "no"
    QUIT = "quit"


@dataclass(frozen=True, slots=True)
class Binding:
    """How one command is given: the phrases that may be spoken or typed, the keys, the help.

    moves: the command can change the place, so a false one hurts; the ear is stricter with it.
    """

    command: Command
    spoken: tuple[str, ...]
    keys: tuple[str, ...]
    help: str
    moves: bool = False


@dataclass(frozen=True, slots=True)
class Order:
    """A command as given, with the number it carries where it takes one."""

    command: Command
    number: int | None = None
