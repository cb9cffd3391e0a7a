"""What is done without using a place: turns, markers, colours, fastening off."""

from __future__ import annotations

from coach.craft.instruction import Act, Instruction, Make, Of, Sides, Target, Which
from coach.notation.clauses import clause_end, stops_before_last, worked_yet
from coach.notation.nouns import ANY
from coach.notation.other_sides import both_layers, other_side, rotated_to
from coach.notation.reach import runs_on
from coach.notation.row_state import RowState
from coach.notation.stitch_words import stitches
from coach.notation.unknown_words import raw
from coach.notation.yarn_words import others_named, yarn_named


def acts(reader: RowState, items: list[Instruction]) -> list[Instruction] | None:  # noqa: PLR0911, PLR0912, PLR0915
    """Turns, markers, colours, ends: what uses no place."""
    cursor = reader.cursor
    start = cursor.at
    if cursor.takes("ending", "end", "finishing", "finish"):
        cursor.takes("row", "rnd")
        cursor.takes("with", "by")
        if cursor.sees_kind("stitch", "num", "unit"):
            return stitches(reader, items)
        cursor.at = start
    if cursor.sees("working", "work") and (
        cursor.ahead_is(1, "behind")
        or (cursor.ahead_is(1, "in") and cursor.ahead_is(2, "front", "back"))
    ):
        while cursor.now is not None and not cursor.sees(",", ";", ".", ")", "]"):
            if cursor.sees_kind("stitch") and not cursor.tokens[cursor.at - 1].is_("of", "the"):
                break
            cursor.next()
        return [Act("remark", cursor.place(start), raw(reader, start))]
    if (ring := ring_made(reader, start)) is not None:
        return ring
    if cursor.takes("turn"):
        cursor.takes("work", "piece")
        while cursor.sees("so", "to", "work") and not cursor.sees(",", ";", "."):
            cursor.at = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        return [Act("turn", cursor.place(start))]
    if (
        (cursor.ahead_is(1, "not") and cursor.takes("do"))
        or cursor.takes("don't", "without")
        or cursor.sees("not")
    ):
        cursor.takes("not")
        end = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        words = cursor.tokens[cursor.at : end]
        cursor.at = end
        if any(token.is_("turn", "turning") for token in words):
            return [Act("do not turn", cursor.place(start))]
        text = "do not " + " ".join(token.raw for token in words)
        return [Act("remark", cursor.place(start), text)]
    if cursor.sees("fasten", "break", "cut", "end") and cursor.ahead_is(1, "off", "yarn"):
        cursor.at = clause_end(cursor.tokens, cursor.at)
        return [Act("fasten off", cursor.place(start), raw(reader, start))]
    if (
        cursor.takes("fo")
        or cursor.takes_all("f", ".", "o")
        or cursor.takes_all("f", "/", "o")
        or cursor.takes_all("f", "o")
    ):
        cursor.takes(".")
        return [Act("fasten off", cursor.place(start), "fasten off")]
    if cursor.sees("pm", "sm", "rm", "mm") or (
        cursor.sees("place", "move", "remove", "mark", "slip")
        and (
            cursor.ahead_is(1, "marker", "m", "pm", "sm")
            or cursor.ahead_is(2, "marker")
            or cursor.sees("mark")
            or cursor.sees("move")
        )
    ):
        if cursor.sees("pm", "sm", "rm", "mm"):
            cursor.next()
            return [Act("marker", cursor.place(start), raw(reader, start))]
        cursor.at = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        return [Act("marker", cursor.place(start), raw(reader, start))]
    if cursor.sees("with") and cursor.ahead_is(1, "rs", "ws"):
        side = cursor.tokens[cursor.at + 1].raw.upper()
        cursor.at = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        return [Act("facing", cursor.place(start), side)]
    if (colour := yarn_named(reader)) is not None:
        return [Act("colour", cursor.place(start), colour)]
    if cursor.takes("rotate"):
        cursor.at = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        return [Act("rotate", cursor.place(start), raw(reader, start)), *rotated_to(reader, start)]
    if (
        stops_before_last(items)
        and cursor.takes("work", "working", "with")
        and cursor.takes("last")
    ):
        found = stitches(reader, items)
        if found:
            return found
    cursor.at = start
    if cursor.sees(
        "ending", "end", "working", "last", "with", "making", "placing", "work"
    ) and last_goes_in(reader):
        return [Act("remark", cursor.place(start), raw(reader, start))]
    if cursor.takes("work"):
        number = cursor.number()
        cursor.takes("more")
        rows = cursor.takes("row", "rnd") if number is not None else None
        if cursor.takes("even", "straight", "plain"):
            return worked_even(reader, start)
        if rows and cursor.sees("in"):
            return worked_even(reader, start)
        cursor.at = start
    if cursor.takes("unchanged", "even"):
        return worked_even(reader, start)
    if without_shaping(reader):
        return worked_even(reader, start)
    if cursor.takes("evenly"):
        return []
    if cursor.sees("no", "without") and cursor.ahead_is(
        1, "inc", "dec", "shaping", "more", "further", "turning", "turn", "gaps", "increasing"
    ):
        cursor.at = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        return [Act("remark", cursor.place(start), raw(reader, start))]
    if (sides := other_side(reader)) is not None:
        return _told_late(items, sides)
    if both_layers(cursor):
        made = [items.pop()] if items and isinstance(items[-1], Make) else []
        return [Sides(Of.LAYERS, cursor.place(start)), *made]
    return None


def _told_late(items: list[Instruction], sides: list[Instruction]) -> list[Instruction]:
    """ "3 sc in first ch, working in free loops": the stitch before goes into a free loop already."""
    last = items[-1] if items else None
    if (
        isinstance(last, Make)
        and last.target is not None
        and last.target.noun.of is Of.CHAIN
        and not worked_yet(items[:-1])
    ):
        items[-1:] = [*sides, last]
        return []
    return sides


def ring_made(reader: RowState, start: int) -> list[Instruction] | None:
    """ "Make a magic ring", "MR,": a ring with no chain to it."""
    cursor = reader.cursor
    cursor.takes("make", "form", "start", "beg", "create")
    of_yarn = cursor.takes("with") is not None
    cursor.takes("a", "an")
    if cursor.takes("magic", "adjustable", "sliding") and cursor.takes("ring", "lp", "circle"):
        pass
    elif not ring_in_short(reader, of_yarn=of_yarn):
        cursor.at = start
        return None
    cursor.at = min(cursor.at, len(cursor.tokens))
    return [Sides(Of.RING, cursor.place(start))]


def ring_in_short(reader: RowState, *, of_yarn: bool) -> bool:
    """ "MR, 6 sc" or "MC, 6 sc": take the short name of a magic ring.

    MC is the main colour as well ("With MC, sc in 2nd ch"): it is a ring only by itself and with
    a number of stitches, or a chain, to be worked into it.
    """
    cursor = reader.cursor
    if cursor.sees("mc") and (of_yarn or others_named(reader, "MC")):
        return False
    name = cursor.takes("mr", "mc")
    if name is None or not (cursor.now is None or cursor.sees(",", ".", ":", ";")):
        return False
    if name.is_("mr") or cursor.now is None:
        return True
    return cursor.ahead_is_kind(1, "num") or cursor.ahead_is(1, "ch")


def without_shaping(reader: RowState) -> bool:
    """Take "work without shaping", "continue without increasing or decreasing": it says all.

    Where the stitches follow in words of their own, it is only a remark on them.
    """
    cursor = reader.cursor
    start = cursor.at
    if cursor.takes("work", "continue", "cont", "working") and cursor.takes("without"):
        cursor.takes("any", "further", "more")
        while cursor.takes("shaping", "inc", "dec", "increasing", "decreasing", "or", "and"):
            pass
        if cursor.now is None or cursor.sees(".", ";", "for", "until"):
            return cursor.at > start + 2
        if cursor.sees("in") and (
            cursor.ahead_is_kind(1, "stitch") or cursor.ahead_is(1, "pattern", "patt")
        ):
            return cursor.at > start + 2
    cursor.at = start
    return False


def worked_even(reader: RowState, start: int) -> list[Instruction]:
    """ "work even in sc around", "unchanged": one in each."""
    cursor = reader.cursor
    cursor.takes("in")
    stitch = reader.base
    if cursor.sees_kind("stitch"):
        stitch = cursor.next().text
    elif cursor.takes("pattern", "patt"):
        pass
    if cursor.takes("for"):
        cursor.number()
        cursor.takes("row", "rnd")
    runs_on(cursor)
    if cursor.sees("to", "until", "for"):
        cursor.at = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
    return [Make(stitch, 1, Target(Which.EACH, ANY, open=True), cursor.place(start))]


def last_goes_in(reader: RowState) -> bool:
    """ "working last dc in 3rd ch of turning ch": says where the last one goes, adds none."""
    cursor = reader.cursor
    start = cursor.at
    if cursor.takes("working", "with", "making", "placing", "work"):
        cursor.skip_fillers()
        if not cursor.takes("last"):
            cursor.at = start
            return False
    elif not cursor.takes("last"):
        cursor.at = start
        return False
    if cursor.sees_kind("stitch", "num", "unit") or cursor.sees("st", "one"):
        if cursor.sees_kind("num"):
            if cursor.now is not None and cursor.now.value != 1:
                cursor.at = start
                return False
            cursor.next()
        else:
            cursor.next()
        if cursor.takes("in", "into", "on", "around"):
            cursor.at = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
            return True
        if cursor.sees("is", "goes", "will"):
            cursor.at = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
            return True
    cursor.at = start
    return False
