"""The one list of commands: spoken phrases, key, help. Voice, keys, pedal, plain mode and help read it.

Short forms stay for those who like them; beside each stands a longer twin that the voice study
measured to be heard best. It decides which command a line means, never what follows from it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
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


# "carry on" is the best-heard twin of "next" (1.0 clean, 0.57 at 10 dB), and the natural word
# to end a pause. It is one command: it ends a pause where there is one, else it goes on.
BINDINGS: tuple[Binding, ...] = (
    Binding(
        Command.NEXT,
        ("next", "next row"),
        ("space", "enter", "right", "n"),
        "This block is done; go on to the next one. A second press at once is ignored.",
        moves=True,
        typed=("n", "done", "row done", "next please", "next block", "next round", "go on", "ok"),
    ),
    Binding(
        Command.BACK,
        ("back", "go back", "go back one step"),
        ("b", "left", "backspace"),
        "Go back one block.",
        moves=True,
        typed=("previous", "back please", "last block"),
    ),
    Binding(
        Command.REPEAT,
        ("repeat", "repeat that", "say again"),
        ("r",),
        "Hear the present block again, in the same words.",
        typed=("again", "say that again", "again please", "what", "pardon"),
    ),
    Binding(
        Command.WHERE,
        ("where am i", "which row"),
        ("w",),
        "Hear the row, its repeat, the side and the block. Tell me more gives the rest.",
        typed=("where", "position", "what row", "place", "which side", "what side"),
    ),
    Binding(
        Command.HOW_MANY,
        ("how many", "how many stitches"),
        ("h",),
        "Hear how many stitches this row must come to.",
        typed=("expected", "what count"),
    ),
    Binding(
        Command.LEFT,
        ("how many left", "what is left", "what's left"),
        ("l",),
        "Hear what is left on this row, and the rows after.",
        typed=("left", "whats left", "remaining", "how many rows left"),
    ),
    Binding(
        Command.EXPLAIN,
        ("tell me more", "explain this step"),
        ("e",),
        "Hear how the stitch is made, by touch. Say it again for the next movement.",
        typed=("explain", "explain that", "more", "how"),
    ),
    Binding(
        Command.SEE,
        ("what should i see",),
        ("v",),
        "Hear how the next stitches look and feel from this side.",
        typed=("see", "what should i feel", "feel", "look"),
    ),
    Binding(
        Command.COUNT,
        ("i have", "i count"),
        ("f2",),
        "Tell how many stitches you have. Type the number, or say: I have, and the number.",
        typed=("count", "have", "i've got", "i got"),
        units=("stitches", "stitch", "sts"),
    ),
    Binding(
        Command.RIPPED,
        ("ripped back to row", "ripped back to the end of row"),
        ("x",),
        "You have ripped back: say to the end of which row.",
        moves=True,
        typed=(
            "ripped to",
            "ripped back to",
            "ripped back to round",
            "ripped back to the end of round",
            "rip back to row",
            "rip back to",
            "frogged to row",
            "frogged back to row",
        ),
    ),
    Binding(
        Command.RIP_ROWS,
        ("rip back",),
        ("z",),
        "You rip back so many rows: say how many.",
        moves=True,
        typed=("ripped back", "rip", "frog"),
        units=("rows", "row", "rounds", "round"),
    ),
    Binding(
        Command.GO_TO_ROW,
        ("take me to row", "go to row"),
        ("g",),
        "Go to the start of a row.",
        moves=True,
        typed=(
            "go to",
            "row",
            "round",
            "go to round",
            "take me to round",
            "take me to",
            "from row",
        ),
    ),
    Binding(
        Command.PAUSE,
        ("pause", "hold on there"),
        ("p",),
        "Rest. Nothing moves until you carry on.",
        typed=("rest", "wait", "hold on", "take a rest"),
    ),
    Binding(
        Command.CARRY_ON,
        ("carry on",),
        ("a",),
        "End a pause. If there is none, go on to the next block.",
        moves=True,
        typed=("resume", "continue"),
    ),
    Binding(
        Command.SLOWER,
        ("slow down",),
        ("[",),
        "Speak more slowly.",
        typed=("slower",),
    ),
    Binding(Command.FASTER, ("speed up",), ("]",), "Speak faster.", typed=("faster",)),
    Binding(
        Command.LOUDER,
        ("speak up",),
        (".",),
        "Speak louder.",
        typed=("louder",),
    ),
    Binding(
        Command.SOFTER,
        ("softly please",),
        (",",),
        "Speak more softly.",
        typed=("softer", "quieter"),
    ),
    Binding(
        Command.UNDO,
        ("undo that",),
        ("u",),
        "Take back the last command, as often as you like.",
        moves=True,
        typed=("undo", "take that back"),
    ),
    Binding(
        Command.STOP_TALKING,
        ("stop talking",),
        ("s",),
        "Fall silent at once.",
        typed=("stop", "hush", "quiet", "be quiet"),
    ),
    Binding(
        Command.MICROPHONE,
        ("listening off please",),
        ("tab",),
        "Switch the microphone off. Only a key or a switch puts it on again.",
        typed=("microphone off", "microphone on", "mic", "mute"),
    ),
    Binding(
        Command.QUIET_TIME,
        ("quiet time", "stop listening"),
        ("m",),
        "I rest my ears. Say hello coach to wake me, or press a key.",
        typed=("rest your ears", "sleep"),
    ),
    Binding(
        Command.HELLO,
        ("hello coach",),
        ("o",),
        "End the quiet time.",
        typed=("hello", "wake up", "listen"),
    ),
    Binding(
        Command.HELP,
        ("help", "help me please"),
        ("?", "f1"),
        "Hear what can be said now.",
        typed=("help me", "commands"),
    ),
    Binding(
        Command.YES,
        ("yes", "yes please", "correct"),
        ("y",),
        "Yes, to what was asked.",
        moves=True,
        typed=("that is right", "right", "start", "open", "true"),
    ),
    Binding(
        Command.NO,
        ("no", "no thank you", "cancel that"),
        ("escape", "k"),
        "No, to what was asked.",
        typed=("cancel", "that is wrong", "wrong", "keep"),
    ),
    Binding(
        Command.QUIT,
        ("good night coach",),
        ("q",),
        "Save and end. Your place is kept.",
        typed=("quit", "exit", "bye", "good bye", "goodbye", "end", "close", "finish"),
    ),
    Binding(
        Command.CHOOSE,
        (),
        (),
        "Give the number of an answer that is offered.",
        typed=("choose", "number", "answer"),
    ),
    Binding(
        Command.WIDTH,
        ("it measures",),
        ("d",),
        "Tell how wide the piece is. Hear how many stitches that is.",
        typed=("width", "it is", "measures"),
        units=("hands", "centimetres", "centimeters", "cm", "inches", "inch", "in", "spans"),
    ),
    Binding(
        Command.ROW_BY_ROW,
        ("row by row",),
        ("f5",),
        "Tell a whole row at a time.",
        typed=("pace row", "whole row"),
    ),
    Binding(
        Command.BLOCK_BY_BLOCK,
        ("block by block",),
        ("f6",),
        "Tell one stitch block at a time.",
        typed=("pace block",),
    ),
    Binding(
        Command.STITCH_BY_STITCH,
        ("one stitch at a time",),
        ("f7",),
        "Tell one stitch at a time.",
        typed=("stitch by stitch", "pace stitch"),
    ),
    Binding(
        Command.OTHER_NAME,
        ("the other name",),
        ("t",),
        "Say the stitches by their other name, US or UK.",
        typed=("other name", "other terms", "us terms", "uk terms"),
    ),
    Binding(
        Command.OTHER_HAND,
        ("the other hand",),
        ("f8",),
        "Change between right and left hand. Only directions in space change.",
        typed=("other hand", "left handed", "right handed", "change hands"),
    ),
    Binding(
        Command.GENTLE,
        ("gentle time",),
        ("f9",),
        "One stitch at a time, with nothing counted. Say it again to end it.",
        typed=("gentle", "gentle mode"),
    ),
    Binding(
        Command.REMIND,
        ("remind me every",),
        ("f4",),
        "Offer a rest every so many minutes. Say 0 for never.",
        typed=("remind me to rest every", "remind me", "remind", "rest every"),
        units=("minutes", "minute"),
    ),
    Binding(
        Command.TIME_LEFT,
        ("how much time", "how long"),
        ("i",),
        "Hear your own pace and the time that is left at it.",
        typed=("time left", "pace", "how long left", "time"),
    ),
    Binding(
        Command.COLOURS,
        ("my colour list",),
        ("f3",),
        "Give your own colours, where the pattern leaves them open.",
        typed=("colors", "my colours", "my colors", "my color list"),
    ),
    Binding(
        Command.ONE_MORE_ROW,
        ("one more row",),
        ("j",),
        "Work one more row, where a length is asked for.",
        typed=("another row", "longer", "not long enough"),
    ),
    Binding(
        Command.LEARN,
        ("learn my words", "learn my voice"),
        ("f12",),
        "Let me learn your own way of saying five commands.",
        typed=("learn", "teach"),
    ),
    Binding(
        Command.HERE,
        ("it is long enough",),
        ("f",),
        "The length is reached. Leave out the other rows worked out for it.",
        typed=("long enough", "length reached"),
    ),
)


def binding_of(command: Command) -> Binding:
    """Return the one binding of *command*."""
    return _BY_COMMAND[command]


def moves_place(command: Command) -> bool:
    """Return whether a false *command* could move the place."""
    return _BY_COMMAND[command].moves


def order_for(line: str, number_in: Callable[[str], int | None]) -> Order | None:
    """Return the order that a typed line gives, or None if it gives none.

    A line is a phrase of the list, a phrase and a number (in figures or in words), a number
    alone (a count, or the answer to what was asked), a single key's sign, or a lone letter.
    number_in: reads a number from words, None where there is none.
    """
    stripped = line.strip()
    with_words = _measured(stripped) or _colours(stripped)
    if with_words is not None:
        return with_words
    words = plain_words(stripped)
    if not words:
        return _BY_SIGN.get(stripped)
    text = " ".join(words)
    whole = _BY_PHRASE.get(text)
    if whole is not None:
        return Order(whole.command)
    number = number_in(text)
    if number is not None:
        return Order(Command.COUNT, number)
    return _numbered(words, number_in) or _by_key(text)


def _numbered(words: list[str], number_in: Callable[[str], int | None]) -> Order | None:
    """Read "i have 74 stitches": the longest phrase that takes a number, the number, a unit."""
    for at in range(len(words) - 1, 0, -1):
        binding = _BY_PHRASE.get(" ".join(words[:at]))
        if binding is None or binding.command not in TAKES_NUMBER:
            continue
        rest, unit = without_unit(words[at:], binding)
        number = number_in(" ".join(rest))
        if number is not None:
            return numbered_order(binding.command, number, unit)
    number = number_in(" ".join(words[:-1])) if len(words) > 1 else None
    if number is not None:  # "74 stitches", "12 cm"
        for binding in BINDINGS:
            if words[-1] in binding.units:
                return numbered_order(binding.command, number, words[-1])
    return None


def without_unit(words: Sequence[str], binding: Binding) -> tuple[Sequence[str], str]:
    """Part off the word that may follow a number: "74 stitches" gives "74" and "stitches"."""
    if len(words) > 1 and words[-1] in binding.units:
        return words[:-1], words[-1]
    return words, ""


def numbered_order(command: Command, number: int, unit: str = "") -> Order:
    """Return the order with its number; of a width the unit that was named counts too."""
    if command is Command.WIDTH and unit:
        return Order(command, measure=Fraction(number), unit=_UNITS.get(unit[0], "in"))
    return Order(command, number)


_MEASURE = re.compile(
    r"(?:(?:it (?:measures|is)|width|measures) +)?"
    r"(?P<whole>\d{1,4})(?:[.,](?P<decimals>\d{1,3})| +(?P<top>\d)/(?P<bottom>[1-9]))? *"
    r"(?P<unit>cm|centimet(?:re|er)s?|inch(?:es)?|in|\"|″|hands?|(?:hand[ -]?)?spans?)",
    re.IGNORECASE,
)


_COLOURS = re.compile(r"(?:my )?colou?rs?(?: are)?[:\s]+(?!list\W*$)(?P<list>.*\w.*)", re.I)


def _colours(line: str) -> Order | None:
    """Read a maker's own list: "colours blue, white and red"."""
    found = _COLOURS.fullmatch(line)
    return Order(Command.COLOURS, text=found["list"].strip()) if found else None


_UNITS = {"c": "cm", "h": "hand", "s": "hand"}


def _measured(line: str) -> Order | None:
    """Read a width with its unit: "12.5 in", "it measures 31,5 cm", "12 1/2 inches"."""
    found = _MEASURE.fullmatch(line.rstrip(". "))
    if found is None:
        return None
    measure = Fraction(found["whole"])
    if found["decimals"]:
        measure += Fraction(int(found["decimals"]), 10 ** len(found["decimals"]))
    elif found["top"]:
        measure += Fraction(int(found["top"]), int(found["bottom"]))
    unit = _UNITS.get(found["unit"].lower()[0], "in")
    return Order(Command.WIDTH, measure=measure, unit=unit)


def _by_key(text: str) -> Order | None:
    order = _BY_SIGN.get(text)
    return order if len(text) == 1 else None


def plain_words(line: str) -> list[str]:
    """Return the words of *line* as they are compared: lower case, no marks but the apostrophe."""
    lowered = line.lower().replace("’", "'")
    kept = (sign if sign.isalnum() or sign == "'" else " " for sign in lowered)
    return "".join(kept).split()


def phrases_of(bindings: Iterable[Binding]) -> tuple[str, ...]:
    """Return what the ear is to listen for, without numbers."""
    return tuple(phrase for binding in bindings for phrase in binding.spoken)


_BY_COMMAND = {binding.command: binding for binding in BINDINGS}
_BY_PHRASE = {
    " ".join(plain_words(phrase)): binding
    for binding in BINDINGS
    for phrase in (binding.command.value, *binding.typed, *binding.spoken)
}
_BY_SIGN = {
    key: Order(binding.command) for binding in BINDINGS for key in binding.keys if len(key) == 1
}
