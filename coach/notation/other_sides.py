"""Where the row turns to another edge or loop: free loops, row ends, "in BLO"."""

from __future__ import annotations

from coach.craft.instruction import Act, Instruction, Of, Sides
from coach.notation.clauses import clause_end
from coach.notation.cursor import Cursor
from coach.notation.nouns import noun
from coach.notation.reach import loops
from coach.notation.row_state import CLOSERS, STARS, RowState

_UNDER = ("other", "opposite", "second", "underside", "bottom", "unused", "free")


def other_side(reader: RowState) -> list[Instruction] | None:
    """ "on other side of chain", "working in free loops of foundation ch", "along row ends"."""
    cursor = reader.cursor
    start = cursor.at
    if not cursor.sees("on", "working", "work", "along", "across", "in", "now", "down", "opposite"):
        return None
    end = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
    words = cursor.tokens[cursor.at : end]
    texts = [token.text for token in words]
    if any(token.kind == "stitch" for token in words):
        cut = next(i for i, token in enumerate(words) if token.kind in ("stitch", "num"))
        texts = texts[:cut]
        end = cursor.at + cut
    other = any(word in texts for word in _UNDER) and any(
        word in texts for word in ("side", "edge", "ch", "foundation")
    )
    free = ("free" in texts and "lp" in texts) or ("unused" in texts and "lp" in texts)
    if (other or free) and end > start + 1 and "hook" not in texts:
        cursor.at = end
        place = cursor.place(start)
        if "row" in texts and "end" in texts:
            return [Sides(Of.ROW_END, place)]
        return [Sides(Of.FREE_LOOP, place)]
    if (
        ("row" in texts and "end" in texts)
        or "row-ends" in texts
        or ("side" in texts and "edge" in texts)
    ):
        cursor.at = end
        return [Sides(Of.ROW_END, cursor.place(start))]
    cursor.at = start
    return None


def both_layers(cursor: Cursor) -> bool:
    """Take "through both layers", "working through both thicknesses"."""
    start = cursor.at
    cursor.takes("working", "work")
    if cursor.takes("through", "in", "into"):
        cursor.skip_fillers()
        if cursor.takes("both", "all", "2") and cursor.takes("layers", "thicknesses"):
            return True
    cursor.at = start
    return False


def rotated_to(reader: RowState, start: int) -> list[Instruction]:
    """Return the edge that the piece is rotated to, if it is named."""
    texts = [token.text for token in reader.cursor.tokens[start : reader.cursor.at]]
    if "row" in texts and "end" in texts:
        return [Sides(Of.ROW_END, reader.cursor.place(start))]
    if "ch" in texts and any(word in texts for word in _UNDER):
        return [Sides(Of.FREE_LOOP, reader.cursor.place(start))]
    return []


def loops_only(reader: RowState, items: list[Instruction]) -> list[Instruction] | None:
    """ "Working in BLO," or "BLO:" holds for the rest of the row."""
    cursor = reader.cursor
    start = cursor.at
    side = loops(cursor)
    if side is None:
        return None
    cursor.takes("of")
    if cursor.takes("each"):
        noun(cursor)
    cursor.takes("for", "throughout")
    if cursor.sees_kind("stitch", "num"):
        return [Act("loop", cursor.place(start), side)]
    if cursor.now is None or cursor.sees(",", ":", ";", ".", "–"):
        return [Act("loop", cursor.place(start), side)]
    while cursor.now is not None and not cursor.sees(",", ":", ";", ".", *CLOSERS, *STARS):
        if cursor.sees_kind("stitch"):
            break
        cursor.next()
    return [Act("loop", cursor.place(start), side)]
