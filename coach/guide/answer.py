"""What the guide answers: a new state and a reply. The words of a reply are chosen elsewhere."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from coach.guide.commands import Order
from coach.guide.place import Guide, Piece


class Reply(StrEnum):
    """What is to be told after a command."""

    STEP = "the step"
    AGAIN = "the step again"
    WHERE = "the place"
    WHERE_MORE = "more of the place"
    HOW_MANY = "the count to reach"
    LEFT = "what is left"
    EXPLAIN = "how it is made"
    SEE = "what can be seen and felt"
    TIME_LEFT = "pace and time left"
    HELP = "the words that matter most"
    HELP_IN_FULL = "more of what can be said"
    SILENT = "quiet"
    COUNT_RIGHT = "the count is right"
    COUNT_OFF = "the count is off"
    COUNT_KEPT = "the count is off as it was before"
    COUNT_WITHIN = "a count within the row"
    THANKS = "thanks"
    WIDTH = "the width as stitches"
    ASKED = "a question"
    ANSWER = "one answer of a question"
    LEFT_AS_IT_WAS = "nothing is changed"
    NOTHING_ASKED = "nothing was asked"
    SETTLED = "a question of the pattern is settled"
    PAUSED = "paused"
    PAUSED_STILL = "still paused"
    CARRIED_ON = "carrying on"
    MICROPHONE_ON = "the microphone is on"
    MICROPHONE_OFF = "the microphone is off"
    QUIET_TIME = "quiet time"
    AWAKE = "listening"
    AT_THE_START = "the very beginning"
    FINISHED = "finished"
    UNDONE = "undone"
    NOTHING_TO_UNDO = "nothing to undo"
    SLOWER = "slower"
    FASTER = "faster"
    LOUDER = "louder"
    SOFTER = "softer"
    SLOWEST = "as slow as it goes"
    FASTEST = "as fast as it goes"
    LOUDEST = "as loud as it goes"
    SOFTEST = "as soft as it goes"
    PACE = "another pace"
    TERMS = "the other name"
    HAND = "the other hand"
    GENTLE = "gentle time"
    GENTLE_ENDS = "gentle time ends"
    REMIND = "a rest will be offered"
    REMIND_NEVER = "no rest will be offered"
    RIPPED = "ripped back"
    JUMPED = "at another row"
    NO_SUCH_ROW = "no such row"
    NOT_WORKED_YET = "that row is not done yet"
    COLOURS = "the maker's own colours"
    LONGER = "one more row"
    LONG_ENOUGH = "long enough"
    NO_LENGTH = "no length is asked for here"
    LEARN = "a lesson begins"
    GOODBYE = "goodbye"
    NOT_NOW = "not now"


@dataclass(frozen=True, slots=True)
class Given:
    """An order as it comes to a move: the state it meets, and the piece it is about."""

    guide: Guide
    order: Order
    piece: Piece
    by_voice: bool = False


@dataclass(frozen=True, slots=True)
class Answer:
    """The state after a command, and what to reply.

    number: what the reply is about: a stage (from 0) for counts, places and rips, a row number
    for a row that isn't there, a pattern's question. asked_of: the stage that a count is about.
    """

    guide: Guide
    reply: Reply
    number: int = 0
    stage: int | None = None
