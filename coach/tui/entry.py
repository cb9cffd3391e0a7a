"""What is being typed: the number that a command needs, or a line of words."""

from __future__ import annotations

from dataclasses import dataclass, replace

from coach.guide.commands import Command, Order

_LONGEST_NUMBER, _LONGEST_LINE = 5, 200

_ASKED = {
    Command.COUNT: "How many stitches have you?",
    Command.RIPPED: "Ripped back to the end of which row?",
    Command.RIP_ROWS: "How many rows do you rip back?",
    Command.GO_TO_ROW: "Go to which row?",
    Command.REMIND: "Rest after how many minutes? 0 is never.",
    Command.CHOOSE: "Which number?",
}
# What is typed in words: the question, how to answer, and the words that go before the answer.
_WORDED = {
    Command.WIDTH: (
        "How wide is the piece?",
        "Type it, such as 31.5 cm, then press enter.",
        "it measures ",
    ),
    Command.COLOURS: ("Which colours?", "Type them in order, then press enter.", "colours "),
}


@dataclass(frozen=True, slots=True)
class Entry:
    """A number or words for *command*, as far as typed; without a command, a line of words."""

    command: Command | None = None
    text: str = ""

    @property
    def is_number(self) -> bool:
        """Whether only digits belong in it."""
        return self.command in _ASKED

    @property
    def sentence(self) -> str:
        """What is asked, what stands there, and how to end it."""
        if self.command is None:
            return f"Type what you would say, then press enter: {self.text}"
        if self.command in _WORDED:
            asked, how, _before = _WORDED[self.command]
        else:
            asked, how = _ASKED[self.command], "Type the number, then press enter."
        if not self.text:
            return f"{asked} {how}"
        return f"{asked} {self.text}. Press enter, or escape to leave it."

    @property
    def brief(self) -> str:
        """What stands there, to be shown large."""
        return self.text or self.sentence.partition("?")[0]

    def order(self) -> Order | None:
        """Return the finished order, or None where it is a line or there is no number."""
        if self.command is None or not self.is_number or not self.text:
            return None
        return Order(self.command, int(self.text))

    def line(self) -> str:
        """Return the finished line of words, or "" where it is a number or nothing stands there."""
        if self.is_number or not self.text.strip():
            return ""
        before = _WORDED[self.command][2] if self.command in _WORDED else ""
        return before + self.text

    def lengthened(self, character: str) -> Entry:
        """Return it with *character* added, if that belongs in it."""
        if not self.is_number:
            return replace(self, text=(self.text + character)[:_LONGEST_LINE])
        fits = character.isascii() and character.isdecimal()
        return replace(self, text=(self.text + character)[:_LONGEST_NUMBER]) if fits else self

    def shortened(self) -> Entry | None:
        """Return it without its last character; None when nothing is left to take."""
        return replace(self, text=self.text[:-1]) if self.text else None


def entry_for(command: Command) -> Entry | None:
    """Return the entry that *command* needs before it can be given, or None."""
    return Entry(command) if command in _ASKED or command in _WORDED else None
