"""The words of every question that the coach asks, and of the answers that it offers."""

from __future__ import annotations

from collections.abc import Mapping

from coach.craft.proof import Proof
from coach.craft.proof import Question as OpenQuestion
from coach.guide.commands import Command
from coach.guide.place import Ask, Guide, Piece, Question
from coach.guide.questions import MENU, colours_offered
from coach.wording import replies
from coach.wording.row_facts import count_told, label, named_within
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

# Met when the microphone is to be switched off by voice.
CONFIRM_MICROPHONE = Words(
    "Microphone off? Then only a key or a switch puts it on again. Yes or no?", "Microphone off?"
)


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
        return replies.confirm_rip_back(named_within(below), count_told(below))
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
    name = named_within(stage)
    has = f"{name[:1].upper()}{name[1:]} has {told.number}, and comes to {stage.stitches} in the pattern"
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
