"""Places passed over on purpose or left unworked: "sk next 2 sts", "leave last 4 sts unworked"."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import (
    Act,
    Bound,
    Instruction,
    Leave,
    Make,
    Noun,
    Of,
    Skip,
    Target,
    Which,
)
from coach.notation.clauses import (
    clause_end,
    closing_bracket,
    worked_yet,
)
from coach.notation.counts_as import counts_as_remark
from coach.notation.cursor import Cursor
from coach.notation.nouns import ANY, noun
from coach.notation.places import places
from coach.notation.reach import bound
from coach.notation.row_state import RowState
from coach.notation.unknown_words import raw


def skipping(reader: RowState, items: list[Instruction]) -> list[Instruction] | None:
    """ "sk next 2 sts", "miss 1 tr", "pass over next st", "sk first st"."""
    cursor = reader.cursor
    start = cursor.at
    if cursor.takes("pass"):
        if not cursor.takes("over"):
            return None
    elif not cursor.takes("sk"):
        return None
    if cursor.takes("over"):
        pass
    if cursor.sees("(", "["):
        return _listed_skips(cursor, start)
    if _of_those_skipped(cursor) or _hidden_behind(cursor, items):
        return [Act("remark", cursor.place(start), raw(reader, start))]
    count = None
    _center_ones(cursor)
    if cursor.sees_kind("num") and not cursor.ahead_is(1, "-"):
        mark = cursor.at
        count = cursor.number()
        if cursor.sees("ch") and cursor.ahead_is(1, "sp", "lp"):
            cursor.at, count = mark, None
    if count is not None:
        inner = noun(cursor) or ANY
        where: Target | None = Target(Which.NEXT, inner, count=count)
    else:
        where = places(cursor)
    if where is None:
        where = Target(Which.NEXT, ANY)
    _of_the_row_below(cursor)
    gap = _up_to(reader, where, start) if count is None else None
    return gap or _passed_over(reader, where, start, items)


def _passed_over(
    reader: RowState, where: Target, start: int, items: list[Instruction]
) -> list[Instruction]:
    """Return the skips of the places named, with what skipped chains at the hook count as."""
    cursor = reader.cursor
    if where.noun.of is Of.CHAIN and where.noun.length is not None:
        where = replace(where, noun=Noun(Of.SPACE, None, where.noun.length))
    counts: str | None = None
    if cursor.sees("("):
        end = closing_bracket(cursor.tokens, cursor.at)
        said = counts_as_remark(cursor.tokens[cursor.at + 1 : end]) if end else None
        if end and said is not None:
            counts = said[0]
            cursor.at = end + 1
    place = cursor.place(start)
    if where.noun.of is Of.CHAIN and not worked_yet(items):
        count = where.count if where.which is not Which.NTH else where.nth
        which = Which.FIRST if where.which is Which.FIRST else Which.NEXT
        hook = Target(which, Noun(Of.FROM_HOOK), count=count)
        return [Skip(hook, place, counts_as=counts)]
    out: list[Instruction] = [Skip(where, place, counts_as=counts)]
    for more in (*where.also, *_further_places(cursor)):
        out.append(Skip(more, place))
    out[0] = Skip(replace(where, also=()), place, counts_as=counts)
    return out


def _hidden_behind(cursor: Cursor, items: list[Instruction]) -> bool:
    """Take "sk the st behind it": the place that the stitch just made covers, used already."""
    made = next((item for item in reversed(items) if not isinstance(item, Act)), None)
    if not isinstance(made, Make):
        return False
    end = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
    if not any(token.is_("behind") for token in cursor.tokens[cursor.at : end]):
        return False
    cursor.at = end
    return True


def _up_to(reader: RowState, where: Target, start: int) -> list[Instruction] | None:
    """ "sk all sts to next ch-1 sp": a gap as wide as what lies before the space.

    The space at its far end belongs to the gap, unless the next words go into it.
    """
    cursor = reader.cursor
    if where.noun.of is not Of.STITCH or where.which not in (Which.EACH, Which.NEXT):
        return None
    mark = cursor.at
    between = cursor.takes("between")
    stop = Bound("before", noun(cursor) or ANY) if between else bound(cursor)
    if stop is None or stop.kind != "before" or stop.noun.of is not Of.SPACE:
        cursor.at = mark
        return None
    place = cursor.place(start)
    gap = Skip(Target(Which.EACH, where.noun, until=stop), place)
    if _space_comes_next(reader):
        return [gap]
    return [gap, Skip(Target(Which.NEXT, stop.noun), place)]


def _space_comes_next(reader: RowState) -> bool:
    """Tell whether the next clause is worked into a space, or passes it over itself."""
    cursor = reader.cursor
    end = clause_end(cursor.tokens, cursor.at + 1, stop_at_comma=True)
    words = cursor.tokens[cursor.at + 1 : end]
    each = any(token.is_("each", "every", "across") for token in words)
    return not each and any(token.is_("sp", "lp") for token in words)


def _of_those_skipped(cursor: Cursor) -> bool:
    """Take "2 ch of the 7 skipped at beginning": chains passed in the first row, no places here."""
    end = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
    words = cursor.tokens[cursor.at : end]
    at = next((index for index, token in enumerate(words) if token.is_("of")), None)
    if at is None or not any(token.is_("ch") for token in words[:at]):
        return False
    if not any(token.is_("skipped") for token in words[at:]):
        return False
    cursor.at = end
    return True


def _center_ones(cursor: Cursor) -> None:
    """Pass "the center" of "sk the center 10 sts": they come next after the first side."""
    start = cursor.at
    cursor.takes("the")
    if not (cursor.takes("center") and cursor.sees_kind("num")):
        cursor.at = start


def _of_the_row_below(cursor: Cursor) -> None:
    """Pass "of Row 28", "on the last long row": the row that a side is joined to."""
    start = cursor.at
    if cursor.takes("of", "on", "from", "in"):
        cursor.skip_fillers()
        while cursor.takes("last", "long", "full", "same"):
            pass
        if cursor.takes("row", "rnd"):
            cursor.number()
            if cursor.now is None or cursor.sees(",", ".", ";", "and", "then"):
                return
    cursor.at = start


def _listed_skips(cursor: Cursor, start: int) -> list[Instruction] | None:
    """ "skip (next ch-1 sp, 13 dc, next ch-1 sp) for sleeve": all that the bracket lists."""
    end = closing_bracket(cursor.tokens, cursor.at)
    cursor.next()
    places_listed: list[Target] = []
    while end is not None and cursor.at < end:
        if cursor.takes(",", "and", "&", "+"):
            continue
        found = places(cursor)
        if found is None or cursor.at > end:
            return None
        places_listed += [replace(found, also=()), *found.also]
    if end is None or not places_listed:
        return None
    cursor.at = end + 1
    place = cursor.place(start)
    if cursor.sees("for"):
        cursor.at = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
    return [Skip(replace(found, which=Which.NEXT), place) for found in places_listed]


def _further_places(cursor: Cursor) -> list[Target]:
    """Take ", next 13 dc and next ch-1 sp" after a skip: places with no stitch named for them."""
    out: list[Target] = []
    while True:
        mark = cursor.at
        cursor.takes(",")
        cursor.takes("and", "then")
        cursor.takes("the")
        found = places(cursor) if cursor.at > mark and cursor.sees("next") else None
        if found is None or cursor.sees("work", "make", "in", "into"):
            cursor.at = mark
            return out
        if cursor.now is not None and (
            cursor.sees_kind("stitch", "num") or cursor.sees("ch", "(", "[", ":")
        ):
            cursor.at = mark
            return out
        out += [replace(found, also=()), *found.also]


def leaving(reader: RowState, items: list[Instruction]) -> list[Instruction] | None:
    """ "leave last 4 sts unworked", "leaving rem sts unworked"."""
    cursor = reader.cursor
    start = cursor.at
    if not cursor.takes("leave", "leaving"):
        return None
    end = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
    joins = [
        index
        for index in range(cursor.at, end - 1)
        if cursor.tokens[index].is_("and", "then")
        and cursor.tokens[index + 1].is_("join", "rejoin", "attach", "reattach")
    ]
    end = joins[0] if joins else end
    words = cursor.tokens[cursor.at : end]
    if not any(token.is_("unworked", "rem", "st", "unused") for token in words):
        cursor.at = start
        return None
    number = next((token.value for token in words if token.kind == "num"), None)
    last = any(token.is_("last", "final", "next", "rem") for token in words)
    if not number and last and not any(token.is_("rem") for token in words):
        number = 1
    cursor.at = end
    return [Leave(cursor.place(start), number)]
