"""Stitches in any word order: "2 sc in next st", "sc in each st across", "sc 7", "inc".

A name that the pattern does not know is left for the grammar to report.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from coach.craft.instruction import (
    Act,
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
from coach.notation.before_the_stitch import (
    number_before,
    of_the_last_kind,
    tells_shaping,
    worked_together,
)
from coach.notation.clauses import worked_yet
from coach.notation.cursor import Cursor
from coach.notation.legged_groups import n_legged, unit_ahead, with_bare_before
from coach.notation.post_sides import post_named, side_of_post
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
from coach.notation.some_places import in_a_plain_run, some_places_only
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
    if (drawn := worked_together(reader, start)) is not None:
        return drawn
    loop = loops(cursor)
    number = number_before(reader)
    if number is not None:
        again = of_the_last_kind(reader, number, start)
        if again is not None:
            return again or None
    beginning = bool(cursor.takes("beg", "starting"))
    if beginning:
        cursor.takes("-")
    if tells_shaping(reader, items, number):
        cursor.next()  # "Six decreases." tells what the row came to
        return [Act("remark", cursor.place(start), raw(reader, start))]
    said = _named(reader, Said("", number, beginning=beginning, loop=loop), start)
    if not isinstance(said, Said):
        return said
    spread = evenly_spread(reader, items, said.stitch, said.number, start)
    return spread if spread is not None else _placed(reader, items, said, start)


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
    stitch, where, each_after = _worked_into(reader, stitch, number)
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
            made = in_a_plain_run(made, items)
        else:
            made = Make(stitch, each, where, place, times=times, named=said.named, loop=loop)
        return some_places_only(made, cursor)
    if _one_in_each(reader, where, each, start):
        each = 1
    made = Make(stitch, each, where, place, named=said.named, beginning=said.beginning, loop=loop)
    return _finished(reader, items, made, colour, times)


def _worked_into(
    reader: RowState, stitch: str, number: int | None
) -> tuple[str, Target | None, int | None]:
    """Take the place after a stitch; by the side of a post that is named it is a post stitch."""
    post = post_named(reader.cursor)
    if post:
        where, each = target(reader.cursor, preposition=False), None
    else:
        where, each = place_after(reader, stitch, number)
        post = side_of_post(reader.cursor, where)
    if post and where is not None:
        return f"{post}{stitch}", replace(where, around=True), each
    return stitch, where, each


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
    made = in_a_plain_run(made, items)
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


def each_said(reader: RowState, start: int) -> bool:
    """Tell whether "each" was said since *start*."""
    return any(token.is_("each") for token in reader.cursor.tokens[start : reader.cursor.at])
