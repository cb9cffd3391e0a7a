"""Mending what pasting does to a pattern: look-alike letters, odd spaces, dashes and stars.

Every change keeps one character for one character, so that a line and column in the cleaned
text is the same place in the text as given. Only soft hyphens and zero-width marks go; the
place of what follows them on their line is kept by a map.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_SPACES = "\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000\t\v\f"
_HYPHENS = "\u2010\u2011\u2212\ufe63\uff0d"
_DASHES = "\u2014\u2015\u2e3a\u2012"
_STARS = "\u2217\uff0a\u204e\u2731\u2055\u273b\u22c6\u2605"
_TIMES = "\u00d7\u2715\u2716\u2a2f\u2573"
_QUOTES = "\u2018\u2019\u02bc\u00b4\u2032\u201b"
_DOUBLE = "\u201c\u201d\u201e\u2033"
_BULLETS = "\u2022\u25cf\u25aa\u2023\u00b7\u25e6\u2043"
_LOOK_ALIKE = {
    # Cyrillic and Greek letters that are drawn like Latin ones
    "а": "a", "в": "b", "е": "e", "к": "k", "м": "m", "н": "h", "о": "o", "р": "p", "с": "c",
    "т": "t", "у": "y", "х": "x", "і": "i", "ј": "j", "ѕ": "s", "ԁ": "d", "һ": "h", "ո": "n",
    "А": "A", "В": "B", "Е": "E", "К": "K", "М": "M", "Н": "H", "О": "O", "Р": "P", "С": "C",
    "Т": "T", "У": "Y", "Х": "X", "І": "I", "Ѕ": "S", "Ј": "J", "ο": "o", "Ο": "O", "α": "a",
    "ν": "v", "ρ": "p", "Τ": "T", "Ρ": "P", "Α": "A", "Β": "B", "Ε": "E", "Κ": "K", "Μ": "M",
    "Ν": "N", "Χ": "X", "Ζ": "Z", "Η": "H", "Ι": "I",
    "ı": "i", "ſ": "s", "ℓ": "l", "İ": "I",
}  # fmt: skip
_REMOVED = re.compile("[\u00ad\u200b\u200c\u200d\u2060\ufeff\u200e\u200f]")


def _table() -> dict[int, str]:
    table = {ord(letter): latin for letter, latin in _LOOK_ALIKE.items()}
    for letters, plain in (
        (_SPACES, " "),
        (_HYPHENS, "-"),
        (_DASHES, "–"),
        (_STARS, "*"),
        (_TIMES, "×"),
        (_QUOTES, "'"),
        (_DOUBLE, '"'),
        (_BULLETS, "•"),
    ):
        table.update({ord(letter): plain for letter in letters})
    for code in range(0xFF01, 0xFF5F):  # full-width forms
        table.setdefault(code, chr(code - 0xFEE0))
    table[ord("‡")] = "†"
    table[ord("§")] = "†"
    return table


_TABLE = _table()


@dataclass(frozen=True, slots=True)
class CleanLine:
    """One line, cleaned: number from 1, text, and the column of each character where it moved.

    quoted: it stood behind the ">" of a mail that was passed on.
    """

    number: int
    text: str
    columns: tuple[int, ...] | None = None
    quoted: bool = False

    def column(self, index: int) -> int:
        """Return the column, from 1, of character *index* in the text as given."""
        if self.columns is None:
            return index + 1
        if index < len(self.columns):
            return self.columns[index]
        return (self.columns[-1] if self.columns else 0) + 1


def clean_lines(text: str) -> list[CleanLine]:
    """Return the lines of *text*, mended; the marks of a quoted mail are taken off."""
    lines = [clean_line(number, line) for number, line in enumerate(text.splitlines(), 1)]
    if sum(line.text.startswith(">") for line in lines) < _FEWEST_QUOTED:
        return lines
    return [_unquoted(line) for line in lines]


_FEWEST_QUOTED = 3  # a mark or two may be a bullet
_QUOTE = re.compile(r"(?:>\s?)+")


def _unquoted(line: CleanLine) -> CleanLine:
    """Return *line* without the marks that a mail program sets before what it quotes."""
    mark = _QUOTE.match(line.text)
    if mark is None:
        return line
    columns = tuple(line.column(index) for index in range(mark.end(), len(line.text)))
    return CleanLine(line.number, line.text[mark.end() :], columns, quoted=True)


def clean_line(number: int, line: str) -> CleanLine:
    """Return one mended line."""
    line = line.translate(_TABLE)
    if not _REMOVED.search(line):
        return CleanLine(number, line)
    kept = [(index + 1, letter) for index, letter in enumerate(line) if not _REMOVED.match(letter)]
    return CleanLine(
        number, "".join(letter for _, letter in kept), tuple(column for column, _ in kept)
    )
