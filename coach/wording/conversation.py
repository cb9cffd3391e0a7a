"""The words of every reply of the guide, and of every question that it asks.

A reply names what is to be told; here it gets its words. A test holds every reply and every
question to having some. Nobody is told that they were wrong.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

from coach.craft.problem import NotInWords
from coach.craft.proof import Proof
from coach.craft.proof import Question as OpenQuestion
from coach.craft.stages import Stage
from coach.craft.steps import Pace
from coach.guide.answer import Answer, Reply
from coach.guide.bindings import BINDINGS
from coach.guide.commands import Binding, Command
from coach.guide.place import Ask, Guide, Piece, Question
from coach.guide.questions import MENU, colours_offered
from coach.wording import lessons_told, replies
from coach.wording.answers import check_words, ripped_words
from coach.wording.numbers_told import counted
from coach.wording.plain_text import say
from coach.wording.row_facts import SIDES, label, row_word
from coach.wording.short_sentences import in_short_sentences, is_short
from coach.wording.stitch_names import plural
from coach.wording.words import Words

YES_NO = ("yes", "no")

MENU_TOLD: Mapping[Command, str] = {
    Command.NO: "go on as before",
    Command.COUNT: "tell my count",
    Command.PAUSE: "pause",
    Command.RIPPED: "I have ripped back",
    Command.QUIT: "save and end",
}

NUMBER_ASKED: Mapping[Command, Words] = {
    Command.COUNT: Words("How many stitches have you?", "How many?"),
    Command.WIDTH: Words("How wide is it?", "How wide?"),
    Command.RIPPED: Words("Ripped back to the end of which row?", "Ripped back to row?"),
    Command.RIP_ROWS: Words("How many rows do you rip back?", "Rip how many rows?"),
    Command.GO_TO_ROW: Words("Which row shall we go to?", "Go to row?"),
    Command.REMIND: Words("A rest every how many minutes?", "Rest every?"),
}

# Met when yes, no or the number of an answer comes and nothing was asked.
NOTHING_ASKED = Words("Nothing was asked.", "Nothing asked")

# Met when the microphone is to be switched off by voice.
CONFIRM_MICROPHONE = Words(
    "Microphone off? Then only a key or a switch puts it on again. Yes or no?", "Microphone off?"
)
# Met when the maker switches the microphone on again.
MICROPHONE_ON = Words("The microphone is on.", "Microphone on")

# Met in gentle time: whatever was counted, at the end of a row, and at a fresh start.
THANKS = Words("Thank you. Lovely work.", "Lovely work")
PRAISE = Words("Lovely. That is done.", "Lovely")
FRESH_START = Words("From here, then. Lovely.", "From here")

GENTLE = Words("Gentle time. One stitch after another.", "Gentle time")
GENTLE_ENDS = Words("As before.", "As before")
REMIND_NEVER = Words("I won't remind you.", "No reminder")
# Met once when a second coach stores places of the same piece; nothing of either is overwritten.
OVERTAKEN = Words(
    "Another coach is at work on this same piece. This one goes on, but keeps no place. "
    "Close one of the two.",
    "Open twice: no place is kept here",
)

NO_LENGTH = Words(
    "No length is asked for here. The rows of this part are counted.", "No length asked for"
)
LONGER = Words("One more row, then.", "One more row")
LONG_ENOUGH = Words("Then this part is long enough.", "Long enough")

# Met at "help": the few words that matter most. Said again at once, it goes through the whole list.
HELP = Words(
    "Say next row, go back, or repeat that. Where am I tells the place. I have, and a number, "
    "checks your count. Say help again to hear more, five at a time.",
    "next row · go back · repeat that · where am I · I have …",
)

_PACES = {
    Pace.ROW: Words("Row by row.", "Row by row"),
    Pace.BLOCK: Words("Block by block.", "Block by block"),
    Pace.STITCH: Words("One stitch at a time.", "Stitch by stitch"),
}

_ALONE: Mapping[Reply, Words] = {
    Reply.SILENT: replies.SILENT,
    Reply.NOTHING_ASKED: NOTHING_ASKED,
    Reply.LEFT_AS_IT_WAS: replies.LEFT_AS_IT_WAS,
    Reply.PAUSED: replies.PAUSED,
    Reply.PAUSED_STILL: replies.STILL_PAUSED,
    Reply.CARRIED_ON: replies.CARRY_ON,
    Reply.MICROPHONE_ON: MICROPHONE_ON,
    Reply.MICROPHONE_OFF: replies.MUTED,
    Reply.QUIET_TIME: replies.QUIET_TIME,
    Reply.AWAKE: replies.AWAKE,
    Reply.AT_THE_START: replies.AT_THE_START,
    Reply.FINISHED: replies.FINISHED,
    Reply.UNDONE: replies.UNDONE,
    Reply.NOTHING_TO_UNDO: replies.NOTHING_TO_UNDO,
    Reply.SLOWEST: replies.as_far_as_it_goes("slow"),
    Reply.FASTEST: replies.as_far_as_it_goes("fast"),
    Reply.LOUDEST: replies.as_far_as_it_goes("loud"),
    Reply.SOFTEST: replies.as_far_as_it_goes("soft"),
    Reply.GENTLE: GENTLE,
    Reply.GENTLE_ENDS: GENTLE_ENDS,
    Reply.REMIND_NEVER: REMIND_NEVER,
    Reply.LONGER: LONGER,
    Reply.LONG_ENOUGH: LONG_ENOUGH,
    Reply.NO_LENGTH: NO_LENGTH,
    Reply.GOODBYE: replies.SAVED,
    Reply.NOT_NOW: replies.NOT_NOW,
    Reply.THANKS: THANKS,
    Reply.HELP: HELP,
    Reply.LEARN: lessons_told.BEGIN,
}


def _settled(answer: Answer, piece: Piece) -> Words:
    return Words("Good. I'll keep to that.", "Noted")


def _ripped(answer: Answer, piece: Piece) -> Words:
    place = answer.stage or 0
    return ripped_words(piece.stages[place - 1]) if place else replies.AT_THE_START


def _jumped(answer: Answer, piece: Piece) -> Words:
    """At another row: the count to check first is that of the row before it (user need R51)."""
    place = answer.stage or 0
    return check_words(piece.stages[place - 1].stitches) if place else replies.AT_THE_START


def _no_such_row(answer: Answer, piece: Piece) -> Words:
    stages = (stage for stage in reversed(piece.stages) if stage.row is not None)
    last = next((stage.row.number for stage in stages if stage.row and stage.row.number), 0)
    return replies.no_such_row(answer.number, last)


def _not_worked_yet(answer: Answer, piece: Piece) -> Words:
    told = label(piece.stages[answer.stage or 0])
    return Words(f"{told} isn't done yet. Nothing is changed.", f"{told} isn't done yet")


def _remind(answer: Answer, piece: Piece) -> Words:
    minutes = counted(answer.guide.manner.rest_minutes, "minute")
    told = f"I'll offer a rest after every {minutes}. It comes at the end of a block. {replies.HANDS.full}"
    return Words(told, f"Rest offered every {minutes}")


def _terms(answer: Answer, piece: Piece) -> Words:
    terms = answer.guide.manner.terms
    return Words(f"{terms} names from now on.", f"{terms} names")


def _colours(answer: Answer, piece: Piece) -> Words:
    told = ", then ".join(answer.guide.colors)
    return Words(f"Your colours: {told}. I'll name each one where it is brought in.", told)


def _hand(answer: Answer, piece: Piece) -> Words:
    hand = answer.guide.manner.hand
    told = f"For the {hand} hand from now on. Only directions change."
    return Words(told, f"{hand.capitalize()} hand")


_ABOUT: Mapping[Reply, Callable[[Answer, Piece], Words]] = {
    Reply.SLOWER: lambda answer, _: replies.slower(answer.guide.manner.rate),
    Reply.FASTER: lambda answer, _: replies.faster(answer.guide.manner.rate),
    Reply.LOUDER: lambda answer, _: replies.louder(answer.guide.manner.loudness),
    Reply.SOFTER: lambda answer, _: replies.softer(answer.guide.manner.loudness),
    Reply.PACE: lambda answer, _: _PACES[answer.guide.manner.pace],
    Reply.TERMS: _terms,
    Reply.HAND: _hand,
    Reply.COLOURS: _colours,
    Reply.REMIND: _remind,
    Reply.SETTLED: _settled,
    Reply.RIPPED: _ripped,
    Reply.JUMPED: _jumped,
    Reply.NO_SUCH_ROW: _no_such_row,
    Reply.NOT_WORKED_YET: _not_worked_yet,
}


def reply_words(answer: Answer, piece: Piece) -> Words | None:
    """Return the words of a reply that needs no more than the piece; None for the others."""
    alone = _ALONE.get(answer.reply)
    if alone is not None:
        return alone
    about = _ABOUT.get(answer.reply)
    return about(answer, piece) if about else None


def question_words(question: Question, guide: Guide, piece: Piece, proof: Proof) -> Words:
    """Return the question as asked; the same question has the same words every time."""
    if question.kind is Ask.NUMBER and question.command is not None:
        return NUMBER_ASKED[question.command]
    if question.kind is Ask.PATTERN:
        asked = proof.questions[question.number]
        answers = " ".join(
            f"{at}: {each.rstrip('.')}." for at, each in enumerate(asked.choices, start=1)
        )
        likely = _likely_terms(asked, proof)
        full = " ".join(part for part in (asked.what, likely, answers) if part)
        return Words(f"{full} Say or press the number.", asked.what)
    if question.kind in {Ask.MENU, Ask.COLOURS}:
        shown = question_shown(question, guide, piece, proof)
        offered = enumerate(choices(question, proof), start=1)
        answers = " ".join(f"{at}: {each}." for at, each in offered)
        return Words(f"{shown.full} {answers}", shown.brief)
    return _yes_no_words(question, guide, piece)


def question_shown(question: Question, guide: Guide, piece: Piece, proof: Proof) -> Words:
    """Return the question without its answers, where they stand numbered beside it."""
    if question.kind is Ask.PATTERN:
        asked = proof.questions[question.number]
        likely = _likely_terms(asked, proof)
        return Words(f"{asked.what} {likely}".strip(), asked.what)
    if question.kind is Ask.MENU:
        return Words("What would you like?", "What next?")
    if question.kind is Ask.COLOURS:
        return _colour_asked(question)
    return question_words(question, guide, piece, proof)


def _colour_asked(question: Question) -> Words:
    """Ask for the next colour of a maker's own list; names of one's own can be typed."""
    if not question.listed:
        return Words(
            "Which colour comes first? Or type colours, and your own list.", "First colour?"
        )
    last = question.listed[-1]
    return Words(f"{last.capitalize()}. Which colour comes next?", f"{last}, then?")


def _likely_terms(asked: OpenQuestion, proof: Proof) -> str:
    """The proof's guess at the terms with its clue, where it has one (user need R41)."""
    if not asked.choices or not asked.choices[0].startswith("US"):
        return ""
    guess = next((each for each in proof.readings if each.what == "terms"), None)
    return f"Likely {guess.taken}: {guess.because}." if guess is not None else ""


def _yes_no_words(question: Question, guide: Guide, piece: Piece) -> Words:
    stage = piece.stages[min(question.number, len(piece.stages) - 1)]
    if question.kind is Ask.RIP:
        if question.number == 0:
            return Words("Begin again at the very start? Yes or no?", "Begin again?")
        below = piece.stages[question.number - 1]
        return replies.confirm_rip_back(below.label, below.stitches)
    if question.kind is Ask.JUMP:
        return replies.confirm_jump(stage.label)
    if question.kind is Ask.EDITED:
        told = label(stage)
        return Words(
            f"This pattern was changed since you last worked on it. Shall we go on at {told}? "
            "Say yes, or say no to begin again at the start.",
            f"Pattern changed: go on at {told}?",
        )
    if question.kind is Ask.KEEP:
        return _keep_words(question, guide, piece)
    return CONFIRM_MICROPHONE if question.kind is Ask.MICROPHONE else replies.CONFIRM_QUIT


def _keep_words(question: Question, guide: Guide, piece: Piece) -> Words:
    told = next(each for each in reversed(guide.counts) if each.number == question.number)
    stage = piece.stages[told.stage]
    has = f"{label(stage)} has {told.number}, and comes to {stage.stitches} in the pattern"
    return Words(
        f"{has}. Keep {told.number} and go on? Yes or no?", f"Keep {told.number} and go on?"
    )


def choices(question: Question | None, proof: Proof) -> tuple[str, ...]:
    """Return the answers that are offered, to be numbered from 1; none for a number."""
    if question is None or question.kind is Ask.NUMBER:
        return ()
    if question.kind is Ask.PATTERN:
        return proof.questions[question.number].choices
    if question.kind is Ask.MENU:
        return tuple(MENU_TOLD[each] for each in MENU)
    if question.kind is Ask.COLOURS:
        return colours_offered(question)
    return YES_NO


def answer_words(question: Question, number: int, proof: Proof) -> Words:
    """Return the answer that was walked to, and how it is taken; *number* where one is asked for."""
    offered = choices(question, proof)
    told = offered[question.pointer - 1] if offered else str(number)
    return Words(
        f"{told[:1].upper()}{told[1:]}? Press W to take it, or space for the next answer.",
        f"{told}?",
    )


# More at once than this, and the first is forgotten before the last is heard.
HELP_AT_ONCE = 5


def help_parts(commands: Sequence[Command]) -> int:
    """Return in how many parts all of *commands* are told."""
    return -(-len(_helped(commands)) // HELP_AT_ONCE)


def help_words(commands: Sequence[Command], part: int = 1) -> Words:
    """Return one part of what can be said now: each command's first phrase, its key and its help.

    part: counted from 1; after the last part the first one comes again.
    """
    parts = help_parts(commands)
    at = (part - 1) % parts
    these = _helped(commands)[at * HELP_AT_ONCE : (at + 1) * HELP_AT_ONCE]
    told = [f"Say {_phrase(each)}{_or_key(each)}. {each.help}" for each in these]
    told.append("That is all." if at + 1 == parts else "Say help again for more.")
    return Words(" ".join(told), " · ".join(_phrase(each) for each in these))


def _helped(commands: Sequence[Command]) -> list[Binding]:
    return [each for each in BINDINGS if each.command in commands and (each.spoken or each.typed)]


def _phrase(binding: Binding) -> str:
    phrase = (binding.spoken or binding.typed)[0]
    return " ".join("I" if word == "i" else word for word in phrase.split())


def _or_key(binding: Binding) -> str:
    return f", or press {key_name(binding.keys[0])}" if binding.keys else ""


_KEY_NAMES = {
    "space": "the space bar",
    "?": "the question mark",
    "[": "the opening square bracket",
    "]": "the closing square bracket",
    ".": "the full stop",
    ",": "the comma",
    "escape": "escape",
}


def key_name(key: str) -> str:
    """Return a key's name aloud: "the space bar", "the letter B"."""
    if key in _KEY_NAMES:
        return _KEY_NAMES[key]
    return f"the letter {key.upper()}" if len(key) == 1 and key.isalpha() else key.upper()


def time_left_words(seconds_a_stitch: float | None, stitches: int, kind: str) -> Words:
    """Return the maker's own pace and the time left at it; no promise, and no hurry."""
    if seconds_a_stitch is None:
        return Words("I can't tell your pace yet. It needs a few blocks first.", "Pace not known")
    minutes = round(seconds_a_stitch * stitches / 60)
    rate = max(1, round(60 / seconds_a_stitch))
    hours, rest = divmod(minutes, 60)
    left = f"{counted(hours, 'hour')} and {counted(rest, 'minute')}" if hours else ""
    left = left or counted(max(1, minutes), "minute")
    told = f"You make about {rate} {plural('stitch', rate)} a minute. About {left} of work {kind}."
    return Words(told, f"about {left}")


def place_not_read(reason: str) -> Words:
    """Return what is told when the stored place can't be read: the work begins at the start."""
    return Words(f"Your last place can't be read: {reason}.", "Place not read")


def check_offered(rows: int) -> Words:
    """Return the offer to count or to measure, after so many rows without either."""
    told = f"{rows} rows since the last count. A good moment to count one, or to measure across."
    return Words(told, f"{rows} rows: count?")


def faults_found(labels: Sequence[str]) -> Words:
    """Return what is told before starting of rows that the proof found fault with."""
    named = [say(each) for each in labels[:FAULTS_NAMED]]
    more = f" and {len(labels) - FAULTS_NAMED} more" if len(labels) > FAULTS_NAMED else ""
    rows = counted(len(labels), "row")
    head, listed = f"Take care: the pattern has a fault in {rows}", f"{', '.join(named)}{more}."
    told = f"{head}: {listed}"
    if not is_short(told):
        told = in_short_sentences(f"{head}. They are {listed}")
    return Words(f"{told} I'll say so there.", f"{rows} with a fault")


FAULTS_NAMED = 4


def rows_without_words(labels: Sequence[str]) -> Words:
    """Return what is told before starting of rows that can't be guided (user need R47)."""
    listed = labels[0] if len(labels) == 1 else f"{labels[0]} to {labels[-1]}"
    verb, they = ("has", "it") if len(labels) == 1 else ("have", "they")
    told = f"{listed} {verb} no words; {they} can't be guided."
    return Words(in_short_sentences(told), f"{listed}: no words")


def not_in_words(told: Sequence[NotInWords]) -> Words:
    """Return what is told before starting of words that rest on a picture, or on two shapings at once."""
    where = f"on line {told[0].line}" if len(told) == 1 else f"in {len(told)} places"
    shown = all(each.why == "picture" for each in told)
    why = "rests on a picture" if shown else "can't be led through"
    first = f"The first is on line {told[0].line}. " if len(told) > 1 else ""
    full = f"Take care. The pattern {why} {where}. {first}Ask for it in words before you start."
    return Words(full, f"{where}: not in words")


def length_words(until_cm: Fraction, rows: int, last: Stage) -> Words:
    """Return what is told where rows are worked for a length: how many, and that it may change."""
    side = SIDES.get(last.side or "")
    ends = f" That is a {side} {row_word(last)}." if side else ""
    told = (
        f"Work until it measures {float(until_cm):g} centimetres. By the gauge that is to the end "
        f"of {label(last)}.{ends} It is {counted(rows, row_word(last))} from here. "
        "Measure as you go. Say one more row, or it is long enough."
    )
    return Words(told, f"until {float(until_cm):g} cm, about {label(last)}")


def own_color_told(color: str, first: bool) -> str:
    """Return where a colour of the maker's own list is brought in."""
    return f"Begin with {color}." if first else f"Next colour: {color}."


def done_told(piece: Piece, guide: Guide) -> str:
    """Return what was just done, for the rest reminder: "Row 6, block 2 of 5"."""
    stage = piece.stage(guide)
    step = piece.step(guide)
    if stage.row is None:
        return f"{label(stage)}, step {step.number} of {step.of}"
    return f"{label(stage)}, block {step.number} of {step.of}"
