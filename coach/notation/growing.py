"""Rows told by how they grow: "continue in this manner, working 1 more sc between increases".

Each row is the one before with so many more plain stitches in the run beside the increase (or
so many fewer beside the decrease). Only where the last row has one such run is this read.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from coach.craft.instruction import Instruction, Make, Of, Repeated, Which
from coach.craft.pattern import Line, Part, Stated
from coach.craft.stitch import legs
from coach.notation.counts import parted
from coach.notation.facts import Facts
from coach.notation.number_words import in_figures, number_of
from coach.notation.piece import Piece
from coach.notation.tokens import tokens_of
from coach.notation.words import understood

_NUMBER = r"(?:\d{1,2}|one|two|three|four)"
GROWS = re.compile(
    rf"\W*(?:continue|cont|carry\s+on|keep(?:\s+on)?|proceed|repeat|work|increase|inc|as\s+(?:before|established|set))\b[^.]*?\b(?P<step>{_NUMBER})\s+"
    r"(?P<more>more|additional|extra|fewer|less)\s+(?:[a-z]+\s+){0,4}?(?:between|before|after)\b",
    re.IGNORECASE,
)
_UNTIL = re.compile(
    r"\b(?:until|till|to|through|for)\s+(?:the\s+)?(?:end\s+of\s+)?(?:(?P<nth>\d+)(?:st|nd|rd|th)\s+(?:row|rnd|round)|(?:row|rnd|round)\s+(?P<row>\d+)"
    r"|(?:there\s+are\s+|you\s+have\s+)?(?P<stitches>\d+)\s*(?:sts?|stitches|sc|hdc|dc|htr|tr)\b)",
    re.IGNORECASE,
)
_MOST = 200  # rows that one such sentence may stand for


def grown(piece: Piece, entries: Sequence[object], facts: Facts) -> list[Line]:
    """Return the rows that *piece* tells by their growth; none where it does not say so, or how far."""
    found = GROWS.match(piece.text)
    before = _lines(entries)
    if found is None or not before or before[-1].number is None:
        return []
    step = number_of(found["step"]) or 1
    step = -step if found["more"].lower() in ("fewer", "less") else step
    last = before[-1]
    first = before[-1].number + 1
    end = _last_row(piece, before)
    if end is None or not first <= end < first + _MOST:
        return []
    _, stated = parted(understood(tokens_of(piece.spans), facts.vocabulary))
    out: list[Line] = []
    for number in range(first, end + 1):
        items = _longer(last.items, step * (number - first + 1))
        if items is None:
            return []
        short = "Row" if last.kind == "row" else "Rnd"
        out.append(
            replace(
                last,
                label=f"{short} {number}",
                number=number,
                items=items,
                place=piece.place,
                stated=_of_row(stated, number - first, end - first),
                problems=(),
                text=f"{piece.text} [{number}]",
                part=piece.part,
            )
        )
    return out


def _lines(entries: Sequence[object]) -> list[Line]:
    """Return the last rows under the heading in force, where they are written out."""
    out: list[Line] = []
    for entry in reversed(entries):
        if isinstance(entry, Part) or not isinstance(entry, Line) or len(out) == 2:
            break
        out.append(entry)
    return out[::-1]


def _last_row(piece: Piece, before: Sequence[Line]) -> int | None:
    header = piece.header
    if header is not None and header.numbers and not header.listed:
        return header.numbers[-1]
    until = _UNTIL.search(in_figures(piece.text))
    number = before[-1].number
    if until is None or number is None:
        return None
    if until["nth"] or until["row"]:
        return int(until["nth"] or until["row"])
    counts = [_count(line) for line in before]
    if len(counts) < 2 or not counts[-1] or not counts[0] or counts[0] == counts[-1]:
        return None
    more, rest = divmod(int(until["stitches"]) - counts[-1], counts[-1] - counts[0])
    return number + more if not rest and more > 0 else None


def _count(line: Line) -> int:
    figures = line.stated[0] if line.stated else ()
    return sum(each.number for each in figures if each.noun is None or each.noun.of is not Of.SPACE)


def _of_row(
    stated: Sequence[tuple[Stated, ...]], index: int, last: int
) -> tuple[tuple[Stated, ...], ...]:
    """Return the count of one row: of a list its own, of a single count the last row's."""
    if len(stated) > 1:
        return (stated[index],) if index < len(stated) else ()
    return tuple(stated) if index == last else ()


def _longer(items: tuple[Instruction, ...], more: int) -> tuple[Instruction, ...] | None:
    """Return *items* with *more* stitches in the plain run of their one repeat; None without one."""
    at = [index for index, item in enumerate(items) if isinstance(item, Repeated)]
    if len(at) != 1:
        return None
    repeat = items[at[0]]
    assert isinstance(repeat, Repeated)  # noqa: S101
    runs = [index for index, item in enumerate(repeat.body) if _plain(item)]
    shaped = [item for item in repeat.body if isinstance(item, Make) and not _plain(item)]
    if len(runs) != 1 or len(shaped) != 1 or len(repeat.body) != 2:
        return None
    run = repeat.body[runs[0]]
    assert isinstance(run, Make)  # noqa: S101
    if run.target is None:
        longer = replace(run, each=run.each + more)
        short = longer.each < 1
    else:
        target = replace(run.target, count=run.target.count + more)
        longer, short = replace(run, target=target), target.count < 1
    if short:
        return None
    body = tuple(longer if index == runs[0] else item for index, item in enumerate(repeat.body))
    return (*items[: at[0]], replace(repeat, body=body), *items[at[0] + 1 :])


def _plain(item: Instruction) -> bool:
    """Tell whether *item* is one stitch in each of the next places."""
    if not isinstance(item, Make) or item.increase or legs(item.stitch) > 1 or item.times != 1:
        return False
    if item.target is None:
        return True
    return (
        item.each == 1 and item.target.which is Which.NEXT and item.target.noun.of is not Of.SPACE
    )
