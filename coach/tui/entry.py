"""What is being typed: the number that a command needs, or a line of words."""

from __future__ import annotations

from dataclasses import dataclass, replace

from coach.guide.commands import Command, Order

_LONGEST_NUMBER, _LONGEST_LINE = 5, 200

_PROMPTS = {
    "count": ("How many stitches have you?", Command.COUNT),
    "ripped": ("Ripped back to the end of which row?", Command.RIPPED),
    "row": ("Go to which row?", Command.GO_TO_ROW),
}


@dataclass(frozen=True, slots=True)
class Entry:
    """A number or a line, as far as it is typed. kind: "count", "ripped", "row" or "line"."""

    kind: str
    text: str = ""

    @property
    def is_number(self) -> bool:
        """Whether only digits belong in it."""
        return self.kind != "line"

    @property
    def sentence(self) -> str:
        """What is asked, what stands there, and how to end it."""
        if not self.is_number:
            return f"Type a command, then press enter: {self.text}"
        asked = _PROMPTS[self.kind][0]
        if not self.text:
            return f"{asked} Type the number, then press enter."
        return f"{asked} {self.text}. Press enter, or escape to leave it."

    @property
    def brief(self) -> str:
        """What stands there, to be shown large."""
        return self.text or _PROMPTS.get(self.kind, ("Type",))[0]

    def order(self) -> Order | None:
        """Return the finished order, or None where there is no number."""
        if not self.is_number or not self.text:
            return None
        return Order(_PROMPTS[self.kind][1], int(self.text))

    def lengthened(self, character: str) -> Entry:
        """Return it with *character* added, if that belongs in it."""
        if self.is_number:
            fits = character.isascii() and character.isdecimal()
            return replace(self, text=(self.text + character)[:_LONGEST_NUMBER]) if fits else self
        return replace(self, text=(self.text + character)[:_LONGEST_LINE])

    def shortened(self) -> Entry | None:
        """Return it without its last character; None when nothing is left to take."""
        return replace(self, text=self.text[:-1]) if self.text else None


def entry_for(command: Command) -> Entry | None:
    """Return the entry that *command* needs before it can be given, or None."""
    kinds = {Command.COUNT: "count", Command.RIPPED: "ripped", Command.GO_TO_ROW: "row"}
    return Entry(kinds[command]) if command in kinds else None
