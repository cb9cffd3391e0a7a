"""Shaping told of several rows at once: "Dec 1 st at each end of every 4th row until 20 sts rem".

Each row is written out from the plain stitches of the rows before: shaped at its beginning, its end
or both, or plain. Every 4th row is the fourth from here; "next and every following 4th row" begins
with the next (common practice, no source). Only rows of one plain stitch are taken so, and an edge
that is only named ("neck edge") only where a row before shows at which end it lies.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.instruction import Make
from coach.craft.pattern import Entry, Line, Part, Rerun, Stated
from coach.craft.stitch import legs
from coach.notation.counts import parted
from coach.notation.facts import Facts
from coach.notation.pattern_rows import last_number
from coach.notation.piece import Piece
from coach.notation.plain_row import is_plain, plain_row
from coach.notation.same_words import moved_line
from coach.notation.shaping_words import Shaping, shaping_told
from coach.notation.tokens import tokens_of
from coach.notation.words import understood

_MOST = 400  # rows that one such sentence may stand for


def shaped_rows(piece: Piece, entries: Sequence[Entry], facts: Facts) -> list[Line]:
    """Return the rows that *piece* tells by their shaping; none where they can't be worked out."""
    shaping = shaping_told(piece.text)
    plain = plain_row(entries, facts) if shaping is not None else None
    if shaping is None or plain is None:
        return []
    header = piece.header
    numbers = header.numbers if header is not None and not header.listed else ()
    next_row = header is not None and header.label == "Next Row"
    if header is not None and not numbers and not next_row:
        return []
    if next_row:
        shaping = replace(shaping, rows=1, every=1, at_once=True)
    first = numbers[0] if numbers else last_number(entries) + 1
    _, stated = parted(understood(tokens_of(piece.spans), facts.vocabulary))
    shaped = _shaped_at(shaping, first, entries, numbers, stated)
    if not shaped or len(shaped) > _MOST:
        return []
    out: list[Line] = []
    for index, is_shaped in enumerate(shaped):
        edge = _edge_of(shaping, first + index, entries) if is_shaped else "none"
        if edge is None:
            return []
        line = plain.row(edge, increase=shaping.increase)
        own = _stated_of(shaping, stated, index, len(shaped), piece)
        out.append(
            replace(
                moved_line(line, piece.place),
                label="Next Row" if next_row else f"Row {first + index}",
                number=None if next_row else first + index,
                stated=own,
                text=f"{piece.text} [{first + index}]",
                part=piece.part,
            )
        )
    return out


def _stated_of(
    shaping: Shaping, stated: Sequence[tuple[Stated, ...]], index: int, rows: int, piece: Piece
) -> tuple[tuple[Stated, ...], ...]:
    """Return the count of one row: of a list its own, else of the last row what the words end with."""
    if len(stated) == rows:
        return (stated[index],)
    if index < rows - 1:
        return ()
    if stated:
        return (stated[0],)
    return () if shaping.until is None else ((Stated(shaping.until, None, piece.place),),)


def _shaped_at(
    shaping: Shaping,
    first: int,
    entries: Sequence[Entry],
    numbers: Sequence[int],
    stated: Sequence[Sequence[Stated]],
) -> list[bool]:
    """Return for each row told whether it is shaped; nothing where the words do not say how far."""
    at_once = shaping.at_once
    if shaping.facing and (parity := _parity_of(shaping.facing, entries)) is not None:
        at_once = first % 2 == parity
    rows = numbers[-1] - first + 1 if numbers else shaping.rows
    if rows is not None and (numbers or shaping.times is None):
        return [_is_shaped(index, shaping.every, at_once) for index in range(min(rows, _MOST + 1))]
    total = shaping.times
    if shaping.until is not None:
        before = _stitches_before(entries)
        more = shaping.until - before if before is not None else 0
        total, rest = divmod(more, shaping.change)
        if before is None or rest or total < 1:
            return []
    elif total is not None and at_once and shaping.every > 1:
        # "next and every 4th row 3 times": three in all, or three more; only a count can tell
        before = _stitches_before(entries)
        figures = [each.number for each in stated[-1]] if stated else []
        done, rest = divmod(sum(figures) - before, shaping.change) if figures and before else (0, 1)
        if rest or done - total not in (0, 1):
            return []
        total = done
    if total is None or total > _MOST:
        return []
    out: list[bool] = []
    while sum(out) < total:
        out.append(_is_shaped(len(out), shaping.every, at_once))
    return out


def _is_shaped(index: int, every: int, at_once: bool) -> bool:
    return (index if at_once else index + 1) % every == 0


def _parity_of(side: str, entries: Sequence[Entry]) -> int | None:
    """Return whether the rows of *side* have odd or even numbers, where a row before says its side."""
    for entry in reversed(entries):
        if isinstance(entry, Line) and entry.side and entry.number is not None:
            return (entry.number + (entry.side != side)) % 2
    return None


def _stitches_before(entries: Sequence[Entry]) -> int | None:
    """Return the stitches of the last row, from the last count stated and what was shaped since."""
    since = 0
    repeated = False
    for entry in reversed(entries):
        if isinstance(entry, Part):
            continue
        if not isinstance(entry, Line | Rerun):
            return None
        if entry.stated:
            return sum(each.number for each in entry.stated[-1]) + since
        if isinstance(entry, Rerun):
            repeated = repeated or entry.source[:1] != ("even",)
            continue
        change = _change_of(entry) if is_plain(entry) else None
        if change is None or (change and repeated):
            return None
        since += change
    return None


def _change_of(line: Line) -> int | None:
    """Return how many stitches a plain row adds by its increases and decreases; None if it repeats them."""
    change = 0
    for make in (item for item in line.items if isinstance(item, Make) and _shapes(item)):
        if make.times != 1 or (make.target is not None and make.target.open):
            return None
        change += 1 - legs(make.stitch) if legs(make.stitch) > 1 else make.each - 1
    return change


def _edge_of(shaping: Shaping, number: int, entries: Sequence[Entry]) -> str | None:
    """Return the end of row *number* at which it is shaped; a named edge as a row before shows it."""
    if shaping.edge != "named":
        return shaping.edge
    for entry in reversed(entries):
        if isinstance(entry, Part):
            return None
        if not isinstance(entry, Line) or entry.number is None:
            continue
        makes = [item for item in entry.items if isinstance(item, Make)]
        ends = [_shapes(makes[0]), _shapes(makes[-1])] if len(makes) > 1 else [False, False]
        if ends[0] != ends[1]:
            at_beginning = ends[0] == ((number - entry.number) % 2 == 0)
            return "beg" if at_beginning else "end"
    return None


def _shapes(make: Make) -> bool:
    return make.increase or legs(make.stitch) > 1 or make.each == 2
