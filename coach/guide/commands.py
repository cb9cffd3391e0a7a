"""What a maker can ask for, how each command may be given, and an order as it was given."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction


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
    RIP_ROWS = "rip rows"  # takes a number of rows: "rip back two rows"
    GO_TO_ROW = "go to row"  # takes a row number
    PAUSE = "pause"
    CARRY_ON = "carry on"
    SLOWER = "slower"
    FASTER = "faster"
    LOUDER = "louder"
    SOFTER = "softer"
    UNDO = "undo"
    STOP_TALKING = "stop talking"
    MICROPHONE = "microphone"
    QUIET_TIME = "quiet time"
    HELLO = "hello"
    HELP = "help"
    YES = "yes"
    NO = "no"
    QUIT = "quit"
    CHOOSE = "choose"  # takes the number of an answer that was offered
    WIDTH = "width"  # takes a width in whole units as measured: "it measures 12"
    ROW_BY_ROW = "row by row"
    BLOCK_BY_BLOCK = "block by block"
    STITCH_BY_STITCH = "stitch by stitch"
    OTHER_NAME = "other name"
    OTHER_HAND = "other hand"
    GENTLE = "gentle"
    REMIND = "remind"  # takes minutes: "remind me to rest every 20"
    TIME_LEFT = "time left"
    COLOURS = "colours"  # takes words: "colours blue, white, red"
    ONE_MORE_ROW = "one more row"  # where a length is asked for
    LEARN = "learn my words"
    HERE = "here"  # "it is long enough": the length is reached


TAKES_NUMBER = frozenset(
    {
        Command.COUNT,
        Command.RIPPED,
        Command.RIP_ROWS,
        Command.GO_TO_ROW,
        Command.CHOOSE,
        Command.WIDTH,
        Command.REMIND,
    }
)


@dataclass(frozen=True, slots=True)
class Binding:
    """How one command is given: the phrases that may be spoken or typed, the keys, the help.

    spoken: what the ear listens for; after the phrase comes a number where the command takes
    one, and then perhaps one word of *units* ("i have 74 stitches"). typed: taken from the
    keyboard as well, too short or too common to be listened for. keys: names of single keys.
    moves: the command can change the place, so a false one hurts; the ear is stricter with it.
    """

    command: Command
    spoken: tuple[str, ...]
    keys: tuple[str, ...]
    help: str
    moves: bool = False
    typed: tuple[str, ...] = ()
    units: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Order:
    """A command as given, with the number it carries where it takes one.

    measure and unit: a measured width that is no whole number, or whose unit was named. text:
    words that a maker gives of their own.
    """

    command: Command
    number: int | None = None
    measure: Fraction | None = None
    unit: str = ""
    text: str = ""
