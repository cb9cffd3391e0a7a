"""A place in a list of tokens: what the grammar reads from."""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.problem import Place
from coach.notation.tokens import Token

FILLERS = frozenset(
    [
        "the",
        "your",
        "our",
        "my",
        "a",
        "an",
        "of",
        "please",
        "okay",
        "ok",
        "so",
        "now",
        "just",
        "we're",
        "you're",
        "you'll",
        "we'll",
        "i'm",
        "i'll",
        "going",
        "gonna",
        "go",
        "ahead",
        "you",
        "we",
        "want",
        "will",
        "should",
        "to-be",
        "simply",
        "carefully",
        "loosely",
        "tightly",
        "again",
        "another",
        "your",
        "them",
        "very",
    ]
)


class Cursor:
    """Reads tokens one by one; never goes past the end."""

    __slots__ = ("at", "end", "tokens", "words")

    def __init__(self, tokens: Sequence[Token], at: int = 0) -> None:
        self.tokens = tokens
        self.at = at
        self.end = len(tokens)
        # What a word or sign says, None for the rest: looked at many times for each token.
        self.words = [token.text if token.kind in {"word", "sign"} else None for token in tokens]

    @property
    def now(self) -> Token | None:
        """The token under the cursor, or None at the end."""
        return self.tokens[self.at] if self.at < self.end else None

    def peek(self, ahead: int = 1) -> Token | None:
        """Return the token so far ahead."""
        index = self.at + ahead
        return self.tokens[index] if 0 <= index < self.end else None

    def next(self) -> Token:
        """Return the token under the cursor and move on."""
        token = self.tokens[self.at]
        self.at += 1
        return token

    def sees(self, *texts: str) -> bool:
        """Tell whether the word or sign under the cursor is one of these."""
        return self.at < self.end and self.words[self.at] in texts

    def sees_kind(self, *kinds: str) -> bool:
        """Tell whether the token under the cursor is of one of these kinds."""
        return self.at < self.end and self.tokens[self.at].kind in kinds

    def ahead_is(self, ahead: int, *texts: str) -> bool:
        """Tell whether the token so far ahead is one of these words or signs."""
        index = self.at + ahead
        return 0 <= index < self.end and self.words[index] in texts

    def ahead_is_kind(self, ahead: int, *kinds: str) -> bool:
        """Tell whether the token so far ahead is of one of these kinds."""
        token = self.peek(ahead)
        return token is not None and token.kind in kinds

    def takes(self, *texts: str) -> Token | None:
        """Take the token under the cursor if it is one of these."""
        if self.at < self.end and self.words[self.at] in texts:
            return self.next()
        return None

    def takes_all(self, *texts: str) -> bool:
        """Take these words one after another, or none of them."""
        for offset, text in enumerate(texts):
            if not self.ahead_is(offset, text):
                return False
        self.at += len(texts)
        return True

    def number(self) -> int | None:
        """Take a number, or a lone "l" or "I" that stands for 1."""
        token = self.now
        if token is None:
            return None
        if token.kind == "num":
            self.at += 1
            return token.value
        if token.kind == "word" and token.raw in ("l", "I"):
            self.at += 1
            return 1
        return None

    def skip_fillers(self) -> None:
        """Pass words that carry nothing: "the", "go ahead and"."""
        while (
            self.now is not None
            and self.now.kind == "word"
            and (
                self.now.text in FILLERS
                or (
                    self.now.text == "and"
                    and self.at > 0
                    and self.tokens[self.at - 1].text == "ahead"
                )
            )
        ):
            self.at += 1

    def place(self, start: int | None = None) -> Place:
        """Return the place of the token under the cursor, or the span since *start*."""
        if not self.tokens:
            return Place(1, 1)
        if start is None:
            return self.tokens[min(self.at, len(self.tokens) - 1)].place
        first = self.tokens[min(start, len(self.tokens) - 1)].place
        last = self.tokens[max(start, min(self.at, len(self.tokens)) - 1)].place
        if last.line != first.line:
            return first
        return Place(first.line, first.column, max(1, last.column + last.length - first.column))
