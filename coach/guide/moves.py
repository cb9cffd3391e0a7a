"""The moves: each takes what was given and returns the state and the reply that follow.

No move goes past the end or before the beginning, and none moves by more than one step
without having asked.
"""

from __future__ import annotations

import re
from dataclasses import replace

from coach.craft.steps import Pace
from coach.guide import manner as manners
from coach.guide.answer import Answer, Given, Reply
from coach.guide.commands import Command
from coach.guide.counting import off_count
from coach.guide.manner import Manner
from coach.guide.place import Ask, Guide, Mode, Question, at_pace, is_row
from coach.guide.questions import ask, ask_colours, ask_menu, ask_number


def forward(given: Given) -> Answer:
    """The present step is done: go on to the next, of this stage or the one after it."""
    guide, piece = given.guide, given.piece
    off = off_count(guide, piece)
    if off is not None:
        return ask(guide, Question(Ask.KEEP, number=off.number), stage=off.stage)
    if guide.step + 1 < len(piece.steps(guide.stage, guide.manner.pace)):
        return Answer(replace(guide, step=guide.step + 1), Reply.STEP)
    if guide.stage + 1 < len(piece.stages):
        return Answer(replace(guide, stage=guide.stage + 1, step=0), Reply.STEP)
    return Answer(replace(guide, mode=Mode.FINISHED), Reply.FINISHED)


def backward(given: Given) -> Answer:
    """Go back one step."""
    guide, piece = given.guide, given.piece
    if guide.step > 0:
        return Answer(replace(guide, step=guide.step - 1), Reply.STEP)
    if guide.stage == 0:
        return Answer(guide, Reply.AT_THE_START)
    last = len(piece.steps(guide.stage - 1, guide.manner.pace)) - 1
    return Answer(replace(guide, stage=guide.stage - 1, step=last), Reply.STEP)


def back_from_the_end(given: Given) -> Answer:
    """Take the last step up again."""
    return Answer(replace(given.guide, mode=Mode.WORKING), Reply.STEP)


def where(given: Given) -> Answer:
    """Tell the place; asked three times running, offer what else can be done.

    So a maker with one finger and the four keys of the first lesson reaches every command.
    """
    guide = given.guide
    if guide.asked is Command.WHERE and guide.times + 1 >= _ASKED_OFTEN:
        return ask_menu(guide)
    return Answer(guide, Reply.WHERE)


_ASKED_OFTEN = 3


def help_told(given: Given) -> Answer:
    """Tell the few words that matter most; each time it is asked again at once, some more."""
    if given.guide.asked is not Command.HELP:
        return Answer(given.guide, Reply.HELP)
    return Answer(given.guide, Reply.HELP_IN_FULL, number=given.guide.times)


def explain(given: Given) -> Answer:
    """Tell the next movement of the present step; right after "where am I", more of the place."""
    guide = given.guide
    if guide.asked is Command.WHERE and is_row(given.piece.stage(guide)):
        return Answer(guide, Reply.WHERE_MORE)
    told = guide.explained
    return Answer(replace(given.guide, explained=told + 1), Reply.EXPLAIN, number=told)


def pause(given: Given) -> Answer:
    """Hold on; nothing moves until the maker carries on."""
    return Answer(replace(given.guide, mode=Mode.PAUSED), Reply.PAUSED)


def carry_on(given: Given) -> Answer:
    """End the pause at the very step where it began."""
    return Answer(replace(given.guide, mode=Mode.WORKING), Reply.CARRIED_ON)


def quiet_time(given: Given) -> Answer:
    """Take no spoken word from now on but the one that ends it."""
    return Answer(replace(given.guide, resting=True), Reply.QUIET_TIME)


def wake(given: Given) -> Answer:
    """Listen again."""
    return Answer(replace(given.guide, resting=False), Reply.AWAKE)


def microphone(given: Given) -> Answer:
    """Switch the microphone off, or on again.

    No spoken word can put it on again, so one that puts it off is asked about.
    """
    manner = given.guide.manner
    if given.by_voice and manner.microphone:
        return ask(given.guide, Question(Ask.MICROPHONE))
    changed = replace(manner, microphone=not manner.microphone)
    reply = Reply.MICROPHONE_ON if changed.microphone else Reply.MICROPHONE_OFF
    return Answer(replace(given.guide, manner=changed), reply)


def undo(given: Given) -> Answer:
    """Go back to the state before the last command that changed anything."""
    past = given.guide.past
    if past is None:
        return Answer(given.guide, Reply.NOTHING_TO_UNDO)
    return Answer(past.guide, Reply.UNDONE)


def leave(given: Given) -> Answer:
    """End the session. A spoken word may have been misheard, so that one is asked about."""
    guide = given.guide
    asked = guide.question
    if given.by_voice and not (asked is not None and asked.kind is Ask.QUIT):
        return ask(replace(guide, question=None), Question(Ask.QUIT))
    return Answer(replace(guide, question=None), Reply.GOODBYE)


def slower(given: Given) -> Answer:
    """Speak more slowly."""
    return _voice(given, manners.at_rate(given.guide.manner, -manners.RATE_STEP), Reply.SLOWER)


def faster(given: Given) -> Answer:
    """Speak faster."""
    return _voice(given, manners.at_rate(given.guide.manner, manners.RATE_STEP), Reply.FASTER)


def louder(given: Given) -> Answer:
    """Speak louder."""
    louder_by = manners.at_loudness(given.guide.manner, manners.LOUDNESS_STEP)
    return _voice(given, louder_by, Reply.LOUDER)


def softer(given: Given) -> Answer:
    """Speak more softly."""
    softer_by = manners.at_loudness(given.guide.manner, -manners.LOUDNESS_STEP)
    return _voice(given, softer_by, Reply.SOFTER)


_LIMITS = {
    Reply.SLOWER: Reply.SLOWEST,
    Reply.FASTER: Reply.FASTEST,
    Reply.LOUDER: Reply.LOUDEST,
    Reply.SOFTER: Reply.SOFTEST,
}


def _voice(given: Given, changed: Manner, reply: Reply) -> Answer:
    if changed == given.guide.manner:
        return Answer(given.guide, _LIMITS[reply])
    return Answer(replace(given.guide, manner=changed), reply)


def other_name(given: Given) -> Answer:
    """Say the stitches by their other name from now on."""
    changed = manners.with_other_terms(given.guide.manner)
    return Answer(replace(given.guide, manner=changed), Reply.TERMS)


def other_hand(given: Given) -> Answer:
    """Mirror the directions in space from now on, and nothing else."""
    changed = manners.with_other_hand(given.guide.manner)
    return Answer(replace(given.guide, manner=changed), Reply.HAND)


def gentle_time(given: Given) -> Answer:
    """Begin or end the gentle manner; the place in the row stays."""
    changed = manners.gentle(given.guide.manner)
    reply = Reply.GENTLE if changed.gentle else Reply.GENTLE_ENDS
    return Answer(_at_manner(given, changed), reply)


def row_by_row(given: Given) -> Answer:
    """Tell whole rows from now on."""
    return _pace(given, Pace.ROW)


def block_by_block(given: Given) -> Answer:
    """Tell stitch blocks from now on."""
    return _pace(given, Pace.BLOCK)


def stitch_by_stitch(given: Given) -> Answer:
    """Tell single stitches from now on."""
    return _pace(given, Pace.STITCH)


def _pace(given: Given, pace: Pace) -> Answer:
    return Answer(_at_manner(given, replace(given.guide.manner, pace=pace)), Reply.PACE)


def _at_manner(given: Given, changed: Manner) -> Guide:
    """Return the state in another manner, at the step where the present one's work begins."""
    if given.guide.mode is Mode.FINISHED:
        last = len(given.piece.steps(given.guide.stage, changed.pace)) - 1
        return replace(given.guide, manner=changed, step=last)
    step = at_pace(given.piece, given.guide, changed.pace)
    return replace(given.guide, manner=changed, step=step)


def remind(given: Given) -> Answer:
    """Offer a rest every so many minutes; 0 for never."""
    minutes = given.order.number
    if minutes is None:
        return ask_number(given.guide, Command.REMIND)
    changed = replace(given.guide.manner, rest_minutes=minutes)
    reply = Reply.REMIND if minutes else Reply.REMIND_NEVER
    return Answer(replace(given.guide, manner=changed), reply)


def own_colours(given: Given) -> Answer:
    """Keep the maker's own list of colours; without one, offer colours to be chosen."""
    parts = re.split(r"\s*(?:,|;|\band\b)\s*", given.order.text)
    colors = tuple(part for part in parts if part)
    if not colors:
        return ask_colours(given.guide)
    return Answer(replace(given.guide, colors=colors), Reply.COLOURS)
