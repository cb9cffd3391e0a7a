"""Which rows form the pattern, and "continue in pattern": the rows that are worked over and over.

Only which rows are meant, and how many more, is read here; working them is the proof's.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from coach.craft.pattern import Entry, Line, NoWords, Part, Rerun
from coach.notation.how_many_rows import extent_of
from coach.notation.number_words import number_of
from coach.notation.piece import Piece
from coach.notation.row_repeats import ENDING_SIDE, UNTIL, length_of, numbers_in

_ROWS = r"(?:rows?|rnds?|rounds?)"
_LIST = r"\d+(?:st|nd|rd|th)?(?:\s*(?:-|–|to|and|&|,|through|r)\s*(?:rows?\s*|rnds?\s*|rounds?\s*|r)?\d+(?:st|nd|rd|th)?)*"
FORMS = re.compile(
    rf"\W*(?:(?:these|(?:the\s+)?(?:last|above|previous))\s+(?P<last>\d+|[a-z]+)\s+{_ROWS}"
    rf"|(?P<this>(?:this|the\s+last|last|the\s+above))\s+{_ROWS}"
    rf"|(?:the\s+)?(?:{_ROWS}|r)\s*(?P<numbers>{_LIST})"
    rf"|(?P<ordinals>{_LIST})\s+{_ROWS})\s+(?:inclusive\s+)?"
    r"(?:together\s+)?(?:(?:is|are)\s+(?:then\s+)?repeated\s+for|form|forms|are|is|make|makes|set|sets|establish|establishes|create|creates|=)\s+"
    r"(?:up\s+)?(?:the\s+|one\s+|a\s+|your\s+)?(?:[a-z]+\s+)?(?:patt(?:ern)?s?|repeat)\b",
    re.IGNORECASE,
)
CONTINUES = re.compile(
    r"\W*(?:(?:now|then)\s+)?(?:continue|cont|carry\s+on|keep(?:\s+on)?|proceed|work|rep(?:eat)?|go\s+on)\b"
    r"(?![^.]{0,45}\bfrom\b)(?![^.]*\b(?:increas|decreas|(?:more|fewer|less|extra|additional)\s+(?:\w+\s+){1,4}?between)\w*)[^.*(]{0,45}?\b(?:patt(?:ern)?(?:\s+rows?)?|in\s+th(?:is|e\s+same)\s+(?:way|manner))\b",
    re.IGNORECASE,
)
GOES_ON = re.compile(
    r"\W*(?:(?:now|then)\s+)?(?:continue|cont|carry\s+on|keep\s+on|proceed|work|rep(?:eat)?|go\s+on)\s+(?:(?:it|them|this|these)\s+)?"
    r"(?:until|till|for|to|up\s+to)\b[^.]*?\b(?:rows?|rnds?|rounds?|measur\w+)\b",
    re.IGNORECASE,
)
_AS_SET = re.compile(
    r"\W*(?:ch\s*\d\s*,\s*(?:turn\s*,\s*)?)?(?:(?:continue|cont|work|keep|carry\s+on)\w*\s+(?:even\s+|working\s+)?(?:in|as)\s+(?:the\s+)?"
    r"(?:patt(?:ern)?|set|established|before)(?:\s+as\s+(?:set|established|before))?"
    r"|as\s+(?:set|before|established|above)|(?:in\s+)?patt(?:ern)?(?:\s+as\s+(?:set|established|before))?"
    r"|rep(?:eat)?\s+(?:the\s+)?patt(?:ern)?(?:\s+(?:rows|rnds|rounds))?)"
    r"(?:[\s,.;]|\b(?:turn|join|across|around|again)\b)*(?:[(\[][^()\[\]]*[)\]])?[\s.]*",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class PatternRows:
    """The rows that form the pattern: their kind ("row" or "round") and numbers."""

    kind: str
    numbers: tuple[int, ...]

    def from_row(self, first: int) -> tuple[str, ...]:
        """Return the rows as sources, beginning with the one that row *first* is worked as."""
        start, period = self.numbers[0], len(self.numbers)
        in_a_run = self.numbers == tuple(range(start, start + period))
        shift = (first - start) % period if in_a_run and first > self.numbers[-1] else 0
        turned = self.numbers[shift:] + self.numbers[:shift]
        return tuple(str(number) for number in turned)


def as_set(text: str) -> bool:
    """Tell whether a row says no more than "continue in pattern"."""
    return bool(_AS_SET.fullmatch(text))


def pattern_rows(text: str, entries: Sequence[Entry]) -> PatternRows | None:
    """Return the rows that *text* says form the pattern ("2nd and 3rd rows form pattern")."""
    found = FORMS.match(text)
    if found is None:
        return None
    kind = "round" if re.search(r"\b(?:rnds?|rounds?)\b", found.group(), re.IGNORECASE) else "row"
    listed = found["numbers"] or found["ordinals"]
    if listed:
        numbers = numbers_in(re.sub(r"(?<=\d)(?:st|nd|rd|th)", "", listed))
    else:
        last = last_number(entries)
        count = 1 if found["this"] else number_of(found["last"]) or 0
        numbers = list(range(max(last - count + 1, 1), last + 1))
    return PatternRows(kind, tuple(numbers)) if numbers else None


def implied_rows(entries: Sequence[Entry]) -> PatternRows | None:
    """Return the rows that "in pattern" means where no words say it: those repeated last, else all
    after the first one (common practice, no source).
    """
    numbered: list[Line] = []
    for entry in reversed(entries):
        if isinstance(entry, Part):
            break
        if isinstance(entry, Rerun) and all(name.isdigit() for name in entry.source):
            return PatternRows(entry.kind, tuple(int(name) for name in entry.source))
        if isinstance(entry, Line) and entry.number is not None:
            numbered.append(entry)
    numbers = tuple(sorted(line.number for line in numbered if line.number and line.number > 1))
    return PatternRows(numbered[0].kind, numbers) if numbers else None


def repeated_at_once(piece: Piece, rows: PatternRows, entries: Sequence[Entry]) -> Rerun | None:
    """Return the entry for "... form the pattern and are repeated 3 times more"; None without one."""
    found = FORMS.match(piece.text)
    rest = re.split(r"[.;]", piece.text[found.end() :], maxsplit=1)[0] if found else ""
    if not re.search(r"\brepeat(?:ed)?\b|\brep\b", rest, re.IGNORECASE):
        return None
    return continued(piece, rows, entries)


def last_number(entries: Sequence[Entry]) -> int:
    """Return the number of the last row so far, under the heading in force."""
    more = 0
    for entry in reversed(entries):
        if isinstance(entry, Part) and more:
            break
        if isinstance(entry, Line):
            if entry.number is not None:
                return entry.number + more
            more += 1
        elif isinstance(entry, Rerun | NoWords) and entry.numbers:
            return entry.numbers[1] + more
        elif isinstance(entry, Rerun) and entry.alternate is None:
            more += _rows_repeated(entry) * (entry.times or 1)
    return more


def _rows_repeated(entry: Rerun) -> int:
    """Return how many rows are worked each time: "last 3" are three, "even" in a stitch is one."""
    if entry.source[0] == "even":
        return 1
    last = re.fullmatch(r"last (\d+)", entry.source[0])
    return int(last[1]) if last else len(entry.source)


def continued(piece: Piece, rows: PatternRows, entries: Sequence[Entry]) -> Rerun | None:
    """Return the entry for "continue in pattern for 10 rows"; None where no end is given."""
    text = piece.text
    first = last_number(entries) + 1
    source = rows.from_row(first)
    if length := UNTIL.search(text):
        side = ENDING_SIDE.search(text)
        return Rerun(
            None,
            source,
            piece.place,
            rows.kind,
            length_cm=length_of(length),
            ending_side=side[1].upper()[:1] + "S" if side else None,
            part=piece.part,
            text=text,
        )
    extent = extent_of(text)
    last = extent.last_after(first - 1, len(source)) if extent else None
    if last is None or last < first:
        return None
    return Rerun((first, last), source, piece.place, rows.kind, part=piece.part, text=text)
