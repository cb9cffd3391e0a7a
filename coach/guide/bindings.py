"""The one list of commands: spoken phrases, key, help. Voice, keys, pedal, plain mode and help read it.

Short forms stay for those who like them; beside each stands a longer twin that the voice study
measured to be heard best.
"""

from __future__ import annotations

from collections.abc import Iterable

from coach.guide.commands import Binding, Command

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
        "Hear the present block again, in the same words. In a small window, read on.",
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


def phrases_of(bindings: Iterable[Binding]) -> tuple[str, ...]:
    """Return what the ear is to listen for, without numbers."""
    return tuple(phrase for binding in bindings for phrase in binding.spoken)


_BY_COMMAND = {binding.command: binding for binding in BINDINGS}
