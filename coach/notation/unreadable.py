"""What can be no pattern at all is refused, with the reason and the remedy.

Nothing is read here: only emptiness, bytes that are no text, and lengths that no pattern has.
"""

from __future__ import annotations

MOST_CHARACTERS = 1_500_000
LONGEST_LINE = 60_000


class UnreadableError(Exception):
    """The input can't be a pattern: says why, and what to do."""

    def __init__(self, message: str, remedy: str) -> None:
        super().__init__(message)
        self.message = message
        self.remedy = remedy


def refuse(text: str) -> None:
    """Raise where the text can be no pattern.

    Raises:
        UnreadableError: it is empty, no text, or longer than any pattern.

    """
    if not text.strip():
        raise UnreadableError("There is nothing in it.", "Give a file with the pattern's words.")
    if "\0" in text:
        raise UnreadableError(
            "This is no text: it holds bytes that no letter has.",
            "Save the pattern as plain text and try again.",
        )
    if len(text) > MOST_CHARACTERS:
        raise UnreadableError(
            f"It is {len(text):,} characters long; a pattern has fewer than {MOST_CHARACTERS:,}.",
            "Give the pattern alone, without what surrounds it.",
        )
    longest = max((len(line) for line in text.splitlines()), default=0)
    if longest > LONGEST_LINE:
        raise UnreadableError(
            f"It has a line of {longest:,} characters; no row is that long.",
            "Put each row on a line of its own.",
        )
