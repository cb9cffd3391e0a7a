"""What the coach says about what it heard: a number read back, and help when it didn't hear.

Never "I didn't understand": a hint says what can be said instead.
"""

from __future__ import annotations

from coach.guide.commands import Command
from coach.guide.dialogue import Hint, Question
from coach.guide.spoken_numbers import twin
from coach.wording.numbers import digit_words, number_words
from coach.wording.words import Words


def question_words(question: Question) -> Words:
    """Return the question for a number that was heard; digits part the teens from the tens."""
    number = question.order.number or 0
    if question.other is not None:
        other = question.other.number or 0
        return Words(
            f"{digit_words(number).capitalize()}, or {digit_words(other)}?",
            f"{number} or {other}?",
        )
    if question.order.command is Command.COUNT:
        # Heard when the count a maker gives isn't the one that is due (user need L05).
        # "Thirty" and "thirteen" sound alike from the coach's mouth, too.
        digits = f"{digit_words(number).capitalize()}: yes" if twin(number) else "Yes"
        # A pause before the number and its unit behind it: without them an independent listener
        # lost 6 of the 17 hardest numbers, with both none (`scripts/bench_mouth.py`).
        unit = "stitch" if number == 1 else "stitches"
        return Words(
            f"I heard: {number_words(number)} {unit}. Is that right? {digits} or no?",
            f"{number}, right?",
        )
    digits = f"{digit_words(number)}, " if number >= 10 else ""
    return Words(
        f"Row {digits}{number_words(number)}, is that right? Yes or no?", f"Row {number}, right?"
    )


def hint_words(hint: Hint) -> Words:
    """Return what may be said, after words that weren't understood."""
    if hint is Hint.TRY:
        return Words("Say next row, go back, or repeat that.", "next row · go back · repeat that")
    return Words(
        "Say next row, go back, or where am I. The space bar goes on, and backspace goes back.",
        "next row (space) · go back (backspace) · where am I (w)",
    )
