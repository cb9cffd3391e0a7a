"""Stitches in any word order: "2 sc in next st", "sc in each st across", "sc 7", "inc".

A name that the pattern does not know is left for the grammar to report.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from coach.craft.instruction import (
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
from coach.notation.cursor import Cursor
from coach.notation.nouns import ANY
from coach.notation.reach import loops
from coach.notation.repeat_words import times_after
from coach.notation.row_state import RowState
from coach.notation.shaping import (
    evenly_spread,
    invisible,
    shaping,
    take_together,
    together_after,
)
from coach.notation.some_places import some_places_only
from coach.notation.stitch_places import from_hook, place_after
from coach.notation.targets import target
from coach.notation.tokens import Token
from coach.notation.unknown_words import raw, term_clash
from coach.notation.yarn_words import yarn_after


@dataclass(frozen=True, slots=True)
class Said:
    """A stitch as it is named: the number before it, how it shapes, the name the pattern gives it."""

    stitch: str
    number: int | None
    increase: bool = False
    named: str | None = None
    beginning: bool = False
    loop: str | None = None


def stitches(reader: RowState, items: list[Instruction]) -> list[Instruction] | None:
    """Stitches in any word order: "2 sc in next st", "sc in each st across", "sc 7", "inc"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.takes("work", "make", "put", "place", "do", "add", "crochet")
    cursor.skip_fillers()
    if (drawn := _worked_together(reader, start)) is not None:
        return drawn
    loop = loops(cursor)
    number = _number_before(reader)
    if number is not None:
        again = _of_the_last_kind(reader, number, start)
        if again is not None:
            return again or None
    beginning = bool(cursor.takes("beg", "starting"))
    if beginning:
        cursor.takes("-")
    if _tells_shaping(reader, items, number):
        cursor.next()  # "Six decreases." tells what the row came to
        return [Act("remark", cursor.place(start), raw(reader, start))]
    said = _named(reader, Said("", number, beginning=beginning, loop=loop), start)
    if not isinstance(said, Said):
        return said
    spread = evenly_spread(reader, items, said.stitch, said.number, start)
    return spread if spread is not None else _placed(reader, items, said, start)


def _worked_together(reader: RowState, start: int) -> list[Instruction] | None:
    """ "work 2 sts. together", "next 2 sts tog": the row's stitch drawn together."""
    cursor = reader.cursor
    mark = cursor.at
    cursor.takes("next")
    count = cursor.number()
    cursor.takes("st")
    if count is not None and count > 1 and cursor.takes("tog"):
        return [Make(f"{reader.base}{count}tog", 1, None, cursor.place(start))]
    cursor.at = mark
    return None


def _number_before(reader: RowState) -> int | None:
    """Take the number before a stitch: "2 sc", "5-dc shell", "3 more"."""
    cursor = reader.cursor
    number: int | None = None
    if cursor.sees_kind("num") or lone_one(cursor.now):
        number = cursor.number()
        follows = cursor.peek(1)
        if follows is not None and follows.kind in ("stitch", "unit"):
            cursor.takes("-")
        cursor.takes("more")
    cursor.skip_fillers()
    return number


def _of_the_last_kind(reader: RowState, number: int, start: int) -> list[Instruction] | None:
    """ "3 in next st", "5 more": the stitch worked last; an empty list where it can't be meant."""
    cursor = reader.cursor
    if cursor.sees("in", "into") and cursor.ahead_is(
        1, "next", "the", "each", "first", "last", "same"
    ):
        found = target(cursor)
        if found is not None and found.which is not Which.EACH:
            return [Make(reader.last_stitch, number, found, cursor.place(start))]
        cursor.at = start
        return []
    if cursor.tokens[cursor.at - 1].is_("more") and (
        cursor.now is None or cursor.sees(",", ".", ";", "and")
    ):
        next_ones = Target(Which.NEXT, ANY, count=number)
        return [Make(reader.last_stitch, 1, next_ones, cursor.place(start))]
    return None


def _tells_shaping(reader: RowState, items: list[Instruction], number: int | None) -> bool:
    """Tell whether "six decreases" only sums up what was worked."""
    cursor = reader.cursor
    return (
        cursor.now is not None
        and cursor.now.raw.lower() in ("increases", "decreases")
        and number is not None
        and (cursor.ahead_is(1, ".", ",", ";", ")") or cursor.peek() is None)
        and worked_yet(items)
    )


def _named(reader: RowState, said: Said, start: int) -> Said | list[Instruction] | None:
    """Take the stitch's name, and how it shapes; a picot or a legged group is whole already."""
    cursor = reader.cursor
    token = cursor.now
    if token is None or token.kind == "clash":
        return None if token is None else _clashing(reader, token)
    if token.is_("inc", "dec", "inv"):
        stitch, increase = shaping(reader)
        said = replace(said, stitch=stitch, increase=increase, named=invisible(token))
    elif token.kind == "stitch":
        cursor.next()
        found = _shaped(reader, replace(said, stitch=token.text), start)
        if not isinstance(found, Said):
            return found
        said = found
    elif token.kind == "unit":
        cursor.next()
        if token.text == "picot":
            where = target(cursor)
            return [Picot(said.number or 1, cursor.place(start), where)]
        said = replace(said, stitch=token.text, named=token.text)
        cursor.takes("st")
    else:
        together = cursor.takes("take", "draw", "pull", "decreasing")
        return take_together(reader, start) if together else None
    stitch = said.stitch
    if stitch.endswith("tog") and stitch[:-3].isdigit():
        stitch = f"{reader.base}{stitch}"
    stitch = together_after(reader, stitch, said.number) or stitch
    number = None if stitch.startswith("~") else said.number
    if (stitch, number) == (said.stitch, said.number):
        return said
    return replace(said, stitch=stitch.removeprefix("~"), number=number)


def _clashing(reader: RowState, token: Token) -> list[Instruction]:
    term_clash(reader, token)
    reader.cursor.next()
    target(reader.cursor)
    return []


def _shaped(reader: RowState, said: Said, start: int) -> Said | list[Instruction] | None:
    """Take what may follow a plain stitch's name: "st", "inc", "inv dec", "shell"."""
    cursor = reader.cursor
    reader.last_stitch = said.stitch
    if cursor.takes("st"):
        pass
    elif cursor.sees("-") and cursor.ahead_is(1, "st"):
        cursor.at += 2
    token = cursor.now
    if token is not None and (
        token.is_("inc", "dec") or (token.is_("inv") and cursor.ahead_is(1, "dec"))
    ):
        base, reader.base = reader.base, said.stitch
        stitch, increase = shaping(reader)
        reader.base = base
        return replace(said, stitch=stitch, increase=increase, named=invisible(token))
    if cursor.sees_kind("unit") or (cursor.sees("-") and unit_ahead(reader)):
        cursor.takes("-")
        unit = cursor.next().text
        return n_legged(reader, said.number, said.stitch, unit, start)
    return said


def _placed(
    reader: RowState, items: list[Instruction], said: Said, start: int
) -> list[Instruction] | None:
    """Take the place after a stitch, and how often."""
    cursor = reader.cursor
    stitch, number = said.stitch, said.number
    each = number if number is not None else 1
    loop = said.loop or loops(cursor)
    if cursor.takes("/"):
        loop = loops(cursor) or loop
    if cursor.sees("tog"):
        cursor.next()
        stitch = f"{stitch}{number or 2}tog"
        each = 1
    colour = yarn_after(reader)
    where, each_after = place_after(reader, stitch, number)
    if each_after is not None:
        each = each_after
    drawn = legs(stitch) > 1
    if where is not None and where.together and not drawn and said.named is None:
        stitch = f"{stitch}{max(where.count, 2)}tog"
        drawn = True
    colour = colour or yarn_after(reader)
    times = 1
    if where is None or where.which is not Which.EACH:
        times = _times_of_it(cursor)
    if not times or number == 0:
        return [Act("remark", cursor.place(start), raw(reader, start))]
    place = cursor.place(start)
    if said.increase or drawn:
        count = 2 if said.increase else 1
        if where is None:
            return [
                Make(
                    stitch,
                    count,
                    None,
                    place,
                    times=each * times,
                    named=said.named,
                    increase=said.increase,
                    loop=loop,
                )
            ]
        if said.increase:
            count = 2 if each == 1 else each
            made = Make(stitch, count, where, place, named=said.named, increase=True, loop=loop)
        else:
            made = Make(stitch, each, where, place, times=times, named=said.named, loop=loop)
        return some_places_only(made, cursor)
    if _one_in_each(reader, where, each, start):
        each = 1
    made = Make(stitch, each, where, place, named=said.named, beginning=said.beginning, loop=loop)
    return _finished(reader, items, made, colour, times)


def _times_of_it(cursor: Cursor) -> int:
    """Take how often this one stitch is worked; ", six times in all" is said of the whole list."""
    start = cursor.at
    listed = cursor.sees(",")
    times = times_after(cursor)
    if times is None:
        return 1
    if listed and cursor.tokens[cursor.at - 1].is_("all", "total", "altogether"):
        cursor.at = start
        return 1
    return times


def _one_in_each(reader: RowState, where: Target | None, each: int, start: int) -> bool:
    """ "3 sc in next 3 sts": one in each of them."""
    return (
        where is not None
        and where.which is Which.NEXT
        and each > 1
        and where.count == each
        and where.noun.of not in (Of.SPACE, Of.RING, Of.SKIPPED, Of.UNIT)
        and not each_said(reader, start)
    )


def _finished(
    reader: RowState, items: list[Instruction], made: Make, colour: str | None, times: int
) -> list[Instruction]:
    """Return the stitch with its chain at the hook, its colour, and how often it is worked."""
    where = made.target
    if (
        where is not None
        and where.which is Which.NTH
        and where.noun.of is Of.CHAIN
        and not worked_yet(items)
    ):
        where = replace(where, noun=Noun(Of.FROM_HOOK))
        made = replace(made, target=where)
    out: list[Instruction] = some_places_only(made, reader.cursor)
    if where is not None and where.noun.of is Of.FROM_HOOK:
        out = from_hook(reader, made, where)
    if colour:
        out = [Act("colour", made.place, colour), *out]
    if times > 1:
        if where is None and made.named is None:
            return [replace(made, each=made.each * times)] if not colour else out
        return [Repeated(tuple(out), made.place, times=times, star=False)]
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
