"""Stitches in any word order: "2 sc in next st", "sc in each st across", "sc 7", "inc".

A name that the pattern does not know is left for the grammar to report.
"""

from __future__ import annotations

from dataclasses import replace

from coach.craft.pattern import (
    Act,
    Chain,
    GroupIn,
    Instruction,
    Make,
    Noun,
    Of,
    Picot,
    Repeated,
    Target,
    Which,
)
from coach.craft.stitch import legs
from coach.notation.clauses import is_bare, lone_one, same_name, worked_yet
from coach.notation.nouns import ANY
from coach.notation.reach import loops
from coach.notation.repeat_words import times_after
from coach.notation.row_state import RowState
from coach.notation.shaping import shaping, take_together, together_after
from coach.notation.stitch_places import colour_after, from_hook, place_after
from coach.notation.targets import target
from coach.notation.unknown_words import raw, term_clash


def stitches(reader: RowState, items: list[Instruction]) -> list[Instruction] | None:  # noqa: PLR0911, PLR0912, PLR0915
    """Stitches in any word order: "2 sc in next st", "sc in each st across", "sc 7", "inc"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.takes("work", "make", "put", "place", "do", "add", "crochet")
    cursor.skip_fillers()
    loop_before = loops(cursor)
    number: int | None = None
    if cursor.sees_kind("num") or lone_one(cursor.now):
        number = cursor.number()
        follows = cursor.peek(1)
        if follows is not None and follows.kind in ("stitch", "unit"):
            cursor.takes("-")
        cursor.takes("more")
    cursor.skip_fillers()
    beginning = False
    if (
        number is not None
        and cursor.sees("in", "into")
        and cursor.ahead_is(1, "next", "the", "each", "first", "last", "same")
    ):
        found = target(cursor)
        if found is not None and found.which is not Which.EACH:
            return [Make(reader.last_stitch, number, found, cursor.place(start))]
        cursor.at = start
        return None
    if (
        number is not None
        and cursor.tokens[cursor.at - 1].is_("more")
        and (cursor.now is None or cursor.sees(",", ".", ";", "and"))
    ):
        next_ones = Target(Which.NEXT, ANY, count=number)
        return [Make(reader.last_stitch, 1, next_ones, cursor.place(start))]
    if cursor.takes("beg", "starting"):
        beginning = True
        cursor.takes("-")
    token = cursor.now
    if token is None:
        return None
    if token.kind == "clash":
        term_clash(reader, token)
        cursor.next()
        target(cursor)
        return []
    increase = False
    named: str | None = None
    if (
        token.raw.lower() in ("increases", "decreases")
        and number is not None
        and (cursor.ahead_is(1, ".", ",", ";", ")") or cursor.peek() is None)
        and worked_yet(items)
    ):
        cursor.next()  # "Six decreases." tells what the row came to
        return [Act("remark", cursor.place(start), raw(reader, start))]
    if token.is_("inc", "dec", "inv"):
        stitch, increase = shaping(reader)
    elif token.kind == "stitch":
        cursor.next()
        stitch = token.text
        reader.last_stitch = stitch
        if cursor.takes("st"):
            pass
        elif cursor.sees("-") and cursor.ahead_is(1, "st"):
            cursor.at += 2
        if (
            cursor.sees("inc")
            or cursor.sees("dec")
            or (cursor.sees("inv") and cursor.ahead_is(1, "dec"))
        ):
            base, stitch_base = reader.base, stitch
            reader.base = stitch_base
            stitch, increase = shaping(reader)
            reader.base = base
        elif cursor.sees_kind("unit") or (cursor.sees("-") and unit_ahead(reader)):
            cursor.takes("-")
            unit = cursor.next().text
            return n_legged(reader, number, stitch, unit, start)
    elif token.kind == "unit":
        cursor.next()
        stitch, named = token.text, token.text
        if stitch == "picot":
            where = target(cursor)
            return [Picot(number or 1, cursor.place(start), where)] * 1
        cursor.takes("st")
    elif token.kind == "word" and number is not None and token.is_("tog"):
        return None
    elif token.is_("take", "draw", "decreasing"):
        cursor.next()
        return take_together(reader, start, number)
    else:
        return None
    if stitch.endswith("tog") and stitch[:-3].isdigit():
        stitch = f"{reader.base}{stitch}"
    stitch = together_after(reader, stitch, number) or stitch
    if stitch.startswith("~"):
        stitch, number = stitch[1:], None
    each = number if number is not None else 1
    loop = loop_before or loops(cursor)
    if cursor.takes("/"):
        loop = loops(cursor) or loop
    if cursor.sees("tog"):
        cursor.next()
        stitch = f"{stitch}{number or 2}tog"
        each = 1
    where, each_after = place_after(reader, stitch, number)
    if each_after is not None:
        each = each_after
    if where is not None and where.together and legs(stitch) == 1 and named is None:
        stitch = f"{stitch}{max(where.count, 2)}tog"
    colour = colour_after(reader)
    times = 1
    if not isinstance(where, Target) or where.which is not Which.EACH:
        after = times_after(cursor)
        if after is not None:
            times = after
    if not times or number == 0:
        return [Act("remark", cursor.place(start), raw(reader, start))]
    if increase:
        if where is None:
            made = Make(
                stitch,
                2,
                None,
                cursor.place(start),
                times=each * times,
                increase=True,
                loop=loop,
            )
        else:
            made = Make(stitch, 2, where, cursor.place(start), increase=True, loop=loop)
            made = replace(made, each=2 if each == 1 else each)
        return [made]
    if legs(stitch) > 1:
        if where is None:
            return [Make(stitch, 1, None, cursor.place(start), times=each * times, loop=loop)]
        made = Make(stitch, each, where, cursor.place(start), loop=loop, times=times)
        return [made]
    if (
        where is not None
        and where.which is Which.NEXT
        and each > 1
        and where.count == each
        and (
            where.noun.of not in (Of.SPACE, Of.RING, Of.SKIPPED, Of.UNIT)
            and not each_said(reader, start)
        )
    ):
        each = 1
    made = Make(
        stitch, each, where, cursor.place(start), named=named, beginning=beginning, loop=loop
    )
    if beginning and named:
        made = replace(made, named=named, stitch=stitch)
    out: list[Instruction] = [made]
    if (
        where is not None
        and where.which is Which.NTH
        and where.noun.of is Of.CHAIN
        and (not worked_yet(items))
    ):
        where = replace(where, noun=Noun(Of.FROM_HOOK))
        made = replace(made, target=where)
    if where is not None and where.noun.of is Of.FROM_HOOK:
        out = from_hook(reader, made, where)
    if colour:
        out = [Act("colour", cursor.place(start), colour), *out]
    if times > 1:
        if where is None and named is None and legs(stitch) == 1:
            return [replace(made, each=each * times)] if not colour else out
        return [Repeated(tuple(out), cursor.place(start), times=times, star=False)]
    return with_bare_before(reader, items, out)


def unit_ahead(reader: RowState) -> bool:
    """Tell whether the name of a shell or a cluster comes after this token."""
    following = reader.cursor.peek()
    return following is not None and following.kind == "unit"


def each_said(reader: RowState, start: int) -> bool:
    """Tell whether "each" was said since *start*."""
    return any(token.is_("each") for token in reader.cursor.tokens[start : reader.cursor.at])


def with_bare_before(
    reader: RowState, items: list[Instruction], made: list[Instruction]
) -> list[Instruction]:
    """ "2 dc, ch 3, 3 dc in same sp": what stands before without a place goes in there too."""
    last = made[-1]
    if len(made) != 1 or not isinstance(last, Make) or last.target is None:
        return made
    same = last.target.which is Which.SAME and last.target.noun.of is not Of.RING
    spaced = last.target.noun.of is Of.SPACE and last.target.count == 1
    if not (same or spaced) or last.target.which is Which.EACH:
        return made
    cut = len(items)
    while cut > 0 and (is_bare(items[cut - 1]) and not isinstance(items[cut - 1], Picot)):
        cut -= 1
    while cut < len(items) and isinstance(items[cut], Chain):
        cut += 1
    parts = items[cut:]
    if len(parts) < 2 or not isinstance(parts[-1], Chain) or not isinstance(parts[0], Make):
        return made
    if not same and (parts[0].stitch, parts[0].each) != (last.stitch, last.each):
        return made
    if any(isinstance(part, Make) and (part.increase or legs(part.stitch) > 1) for part in parts):
        return made
    del items[cut:]
    inside = (*parts, replace(last, target=None))
    return [GroupIn(tuple(inside), last.target, last.place)]


def n_legged(
    reader: RowState, number: int | None, stitch: str, unit: str, start: int
) -> list[Instruction] | None:
    """ "5-dc shell", "3-tr cluster": a group of five, or one top of three legs."""
    cursor = reader.cursor
    cursor.takes("st")
    where, _each = place_after(reader, unit, None)
    count = number or 1
    place = cursor.place(start)
    if unit.removeprefix("beg ") in ("shell", "fan", "half shell", "corner shell", "V-st"):
        return [Make(stitch, count, where or Target(Which.NEXT, ANY), place)]
    written = f"{number}-{stitch} {unit}" if number else unit
    for name in reader.specials:
        if same_name(name, f"{number} {form_written(reader, start)} {unit}") or same_name(
            name, written
        ):
            return [Make(unit, 1, where, place, named=name)]
    return [Make(unit, 1, where, place)]


def form_written(reader: RowState, start: int) -> str:
    """Return the stitch's name as it is written at the cursor's start."""
    return next(
        (t.raw for t in reader.cursor.tokens[start : reader.cursor.at] if t.kind == "stitch"), ""
    )
