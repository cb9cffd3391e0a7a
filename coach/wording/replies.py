"""What the coach replies: each message in full for the ear and in brief for the eye.

Above each stands when a person meets it. Short, calm, one point a sentence; nobody is told
that they were wrong.
"""

from __future__ import annotations

from coach.wording.numbers import number_words
from coach.wording.plain_text import say, title
from coach.wording.words import Words

# Met when a command has no meaning in the present mode, such as "next" while paused.
NOT_NOW = Words("That does nothing just now.", "Not now")

# Met when a typed line is no command.
UNKNOWN_LINE = Words("I don't know that. Say help to hear what you can say.", "Not known: say help")

# Met when "undo that" took the last command back.
UNDONE = Words("That is undone.", "Undone")

# Met when there is nothing to undo.
NOTHING_TO_UNDO = Words("There is nothing to undo.", "Nothing to undo")

# Met when the maker pauses. The place is safe for as long as it takes.
PAUSED = Words("Paused. Your place is kept. Say carry on when you are ready.", "Paused")

# Met when a paused maker gives a command that would move the place.
STILL_PAUSED = Words("We are paused. Say carry on first.", "Paused: say carry on")

# Met when the maker carries on; the present step is told after it.
CARRY_ON = Words("We carry on.", "Carrying on")

# Met at "carry on" when nothing was paused.
NOT_PAUSED = Words("We are not paused.", "Not paused")

# Met at "back" on the very first step.
AT_THE_START = Words("This is the very beginning.", "The beginning")

# Met when the last step is done.
FINISHED = Words("That was the last step. The piece is finished. Well made.", "Finished")

# Met when the maker leaves; said only after the place is stored.
SAVED = Words("Saved. Your place is kept.", "Saved")

# Met when the place could not be stored; told once, and the work goes on.
NOT_SAVED = Words(
    "Your place could not be saved. The work goes on, but write down where you are.", "Not saved"
)

# Met when the coach's voice is stopped by the maker. It makes no sound of its own.
SILENT = Words("I am quiet.", "Quiet")

# Met when the ear goes to rest until it is called.
QUIET_TIME = Words("I stop listening. Say hello coach to wake me.", "Resting: say hello coach")

# Met when the ear wakes.
AWAKE = Words("I am listening.", "Listening")

# The ladder: what is said when a word was not understood, the first, second and third time.
NOT_HEARD = (
    Words("Say that again, please.", "Say again?"),
    Words("I missed that. You can say next row, go back, or where am I.", "Try: next row, go back"),
    Words(
        "I still can't hear that well. The space bar goes on, and the letter B goes back.",
        "Use keys",
    ),
)

# Met when a question waits and something else was said.
YES_OR_NO = Words("Please say yes or no.", "Yes or no?")

# Met when the maker says no to a question: nothing was changed.
LEFT_AS_IT_WAS = Words("Nothing is changed.", "Nothing changed")

# Met before leaving.
CONFIRM_QUIT = Words("Stop here and save? Yes or no?", "Stop here?")

# Met once each when a part of the machine is missing; keys and screen go on.
NO_MICROPHONE = Words("No microphone was found. The keys do everything.", "Microphone not found")
MICROPHONE_GONE = Words("The microphone went away. The keys do everything.", "Microphone gone")
MICROPHONE_BACK = Words("The microphone is back.", "Microphone on")
NO_SPEECH = Words("There is no voice just now. Everything stands on the screen.", "Speech off")
SPEECH_BACK = Words("The voice is back.", "Speech on")
NO_MODEL = Words(
    "The speech model isn't there, so I can't hear you. The keys do everything.", "No ear"
)
GETTING_READY = Words("I am getting ready to listen.", "Getting ready")
READY = Words("I can hear you now.", "Microphone on")
MUTED = Words("The microphone is off.", "Microphone off")

# Met when a maker asks to be reminded of rest, and never before. Sources: "Preventing repetitive strain
# injury" (smaller breaks more often); to stop and ask at pain is common practice, no source.
HANDS = Words(
    "Short rests often are better than one long one. "
    "If a hand hurts, tingles or goes numb, stop. Ask your doctor or therapist.",
    "Rest your hands",
)

# Met when a pattern says nothing of colour that can be told in words (user need R46).
NO_COLOR_WORDS = Words(
    "The words do not say which colour. You can give your own list of colours.", "No colour words"
)

# Met on opening a pattern whose text changed since the place was kept.
PATTERN_CHANGED = Words(
    "This pattern was changed since you last worked on it. Your place may not fit. "
    "Start the pattern again? Yes or no?",
    "Pattern was changed",
)


def slower(rate: int) -> Words:
    """Return what is said when the voice was slowed down to *rate* words a minute."""
    return Words(f"Slower: {rate} words a minute.", f"Voice {rate}")


def faster(rate: int) -> Words:
    """Return what is said when the voice was sped up to *rate* words a minute."""
    return Words(f"Faster: {rate} words a minute.", f"Voice {rate}")


def louder(percent: int) -> Words:
    """Return what is said when the voice was made louder."""
    return Words(f"Louder: {percent} percent.", f"Loudness {percent}")


def softer(percent: int) -> Words:
    """Return what is said when the voice was made softer."""
    return Words(f"Softer: {percent} percent.", f"Loudness {percent}")


def as_far_as_it_goes(what: str) -> Words:
    """Return what is said at the end of a range: *what* is "slow", "fast", "loud" or "soft"."""
    return Words(f"That is as {what} as I can be.", f"As {what} as it goes")


def confirm_rip_back(label: str, count: str) -> Words:
    """Return the question before the place is set back to the end of a row. count: "22 stitches"."""
    told = f"Go back to the end of {say(label)}? Later rows will no longer count as done."
    return Words(f"{told} It has {count}. Yes or no?", f"Back to {say(label)}?")


def confirm_jump(label: str) -> Words:
    """Return the question before a jump to the beginning of another row."""
    return Words(f"Go to {say(label)}? Yes or no?", f"Go to {say(label)}?")


def no_such_row(number: int, last: int) -> Words:
    """Return what is said when a row is asked for that the pattern has not got."""
    return Words(f"There is no row {number}. The last row is {last}.", f"No row {number}")


def undone(what: str) -> Words:
    """Return what is said when the command *what* was taken back."""
    return Words(f"Undone: {say(what)}.", "Undone")


def resumed(piece: str) -> Words:
    """Return the greeting on coming back to a piece; the place is told after it."""
    return Words(f"Welcome back to {title(piece)}.", title(piece))


def began(piece: str) -> Words:
    """Return the greeting at the beginning of a piece."""
    return Words(f"{title(piece)}. Say next row, or press space, to go on.", title(piece))


def rest_reminder(minutes: int, done: str) -> Words:
    """Return the reminder to rest; *done* is the place just finished: "Row 6, block 2 of 5".

    User need R56: told once, after the block that was under way.
    """
    spoken = number_words(minutes).capitalize()
    unit = "minute" if minutes == 1 else "minutes"
    return Words(f"{spoken} {unit}. Rest here? {done} is done.", f"{minutes} {unit}: rest?")


def missing(reason: str, remedy: str) -> Words:
    """Return a machine's reason and remedy as spoken words."""
    return Words(f"{say(reason).rstrip('.')}. {say(remedy).rstrip('.')}.", say(reason).rstrip("."))
