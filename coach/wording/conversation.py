"""The words of every reply of the guide.

A reply names what is to be told; here it gets its words. A test holds every reply to having
some. Nobody is told that they were wrong.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from coach.craft.stage import Stage
from coach.craft.steps import Pace
from coach.guide.answer import Answer, Reply
from coach.guide.place import Guide, Piece
from coach.wording import help_told, lessons_told, replies
from coach.wording.answers import check_words, ripped_words
from coach.wording.numbers_told import counted
from coach.wording.row_facts import SIDES, label, row_word
from coach.wording.stitch_names import plural
from coach.wording.words import Words

# Met when yes, no or the number of an answer comes and nothing was asked.
NOTHING_ASKED = Words("Nothing was asked.", "Nothing asked")

# Met when the maker switches the microphone on again.
MICROPHONE_ON = Words("The microphone is on.", "Microphone on")

# Met in gentle time: whatever was counted, at the end of a row, and at a fresh start.
THANKS = Words("Thank you. Lovely work.", "Lovely work")
PRAISE = Words("Lovely. That is done.", "Lovely")
FRESH_START = Words("From here, then. Lovely.", "From here")

GENTLE = Words("Gentle time. One stitch after another.", "Gentle time")
GENTLE_ENDS = Words("We go on as before.", "As before")
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
    Reply.HELP: help_told.HELP,
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
