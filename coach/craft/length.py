"""Rows that are worked until a length is reached: told as so many, and changed by the maker.

How many rows a length takes is worked out by the gauge when the pattern is proved. Cloth has
the last word: here rows are added or left out at the end of such a stretch, and the rows after
it get their new numbers and sides. The stitch counts don't change.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace

from coach.craft.proof import Proof, ProvedRow

_OTHER_SIDE = {"RS": "WS", "WS": "RS"}


def stretch(rows: Sequence[ProvedRow], at: int) -> range | None:
    """Return the rows worked for the same length as row *at* (from 0), or None."""
    if not 0 <= at < len(rows) or rows[at].until_cm is None:
        return None
    first = last = at
    while first > 0 and _together(rows[first - 1], rows[at]):
        first -= 1
    while last + 1 < len(rows) and _together(rows[last + 1], rows[at]):
        last += 1
    return range(first, last + 1)


def _together(row: ProvedRow, other: ProvedRow) -> bool:
    return (row.until_cm, row.line, row.part) == (other.until_cm, other.line, other.part)


def with_changes(proof: Proof, changes: Iterable[tuple[int, int]]) -> Proof:
    """Return *proof* with rows more or fewer: (first row of a stretch, how many more)."""
    for first, more in sorted(changes, reverse=True):
        proof = _changed(proof, first, more)
    return proof


def _changed(proof: Proof, first: int, more: int) -> Proof:
    rows = list(proof.rows)
    span = stretch(rows, first)
    if span is None or not more:
        return proof
    kept = rows[span.start : max(span.start + 1, span.stop + min(more, 0))]
    period = _period(rows[span.start : span.stop])
    for _ in range(more):
        kept.append(_following(kept, period))
    change = len(kept) - len(span)
    later = [_moved(row, change, kept[0].part) for row in rows[span.stop :]]
    return replace(proof, rows=(*rows[: span.start], *kept, *later))


def _period(rows: Sequence[ProvedRow]) -> int:
    """How many rows are worked before the first comes again."""
    names = [row.worked_as or row.label for row in rows]
    return next((at for at in range(1, len(names)) if names[at] == names[0]), 1)


def _following(rows: Sequence[ProvedRow], period: int) -> ProvedRow:
    last, model = rows[-1], rows[-period]
    number = last.number + 1 if last.number is not None else None
    side = _OTHER_SIDE.get(last.side or "") if model.turned else last.side
    return replace(
        model,
        number=number,
        label=_one_more(last) if number is None else _renamed(last, number),
        side=side,
        worked_as=model.worked_as or model.label,
        stated=None,
        repeat=None,
    )


def _moved(row: ProvedRow, change: int, part: str | None) -> ProvedRow:
    if row.part != part or row.number is None:
        return row
    number = row.number + change
    side = _OTHER_SIDE.get(row.side or "", row.side) if change % 2 and row.turned else row.side
    return replace(row, number=number, label=_renamed(row, number), side=side)


def _renamed(row: ProvedRow, number: int) -> str:
    head, _, tail = row.label.rpartition(" ")
    return f"{head} {number}" if head and tail.isdigit() else row.label


def _one_more(row: ProvedRow) -> str:
    """Return the name of the row after "Row 2, 5 of 5", which goes by the same number."""
    found = _OF_SEVERAL.fullmatch(row.label)
    if found is None:
        return row.label
    following = int(found["which"]) + 1
    return f"{found['name']}, {following} of {max(following, int(found['of']))}"


_OF_SEVERAL = re.compile(r"(?P<name>.*), (?P<which>\d+) of (?P<of>\d+)")
