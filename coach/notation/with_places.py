"""What is worked instead in some of the places: "sc in each dc, working 3 sc in each corner sp".

Only joins what is said to the stitches before it; which place is a corner is for the proof.
"""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import (
    Bound,
    EachOf,
    GroupIn,
    Instruction,
    Make,
    Of,
    Repeated,
    Skip,
    Target,
    Which,
)
from coach.notation.groups import bracket
from coach.notation.nouns import ANY
from coach.notation.row_state import CLOSERS, RowState
from coach.notation.stitch_words import stitches

_LEADS = ("with", "working", "work", "placing", "making", "putting", "but", "except")


def instead_in_places(reader: RowState, items: list[Instruction]) -> list[Instruction] | None:
    """ ", with 3 sc in last st", ", working (sc, ch 1, sc) in each corner": replaces what went there."""
    cursor = reader.cursor
    before = _each_kind(items[-1]) if items else None
    if before is None or not cursor.takes(*_LEADS):
        return None
    cursor.takes("working", "work", "placing", "making")
    cursor.skip_fillers()
    problems = len(reader.problems)
    found: list[Instruction] = []
    if cursor.sees(*CLOSERS):
        bracket(reader, found)
    elif cursor.sees_kind("num", "stitch"):
        found = stitches(reader, []) or []
    if len(found) == 1 and isinstance(found[0], Repeated):
        return _at_every_step(items, before, found[0])
    special = found[0] if len(found) == 1 else None
    if not isinstance(special, Make | GroupIn) or special.target is None:
        del reader.problems[problems:]
        return None
    return _replaced(items, before, special, special.target)


def _each_kind(item: Instruction) -> tuple[Make | GroupIn, ...] | None:
    """Return what each kind of place gets so far, or nothing where it is no such stretch."""
    if isinstance(item, EachOf):
        return item.parts if item.until is None else None
    if not isinstance(item, Make | GroupIn) or item.target is None:
        return None
    where = item.target
    if where.which is not Which.EACH or where.until is not None or where.nth > 1:
        return None
    if any(each.which is not Which.EACH or each.until is not None for each in where.also):
        return None
    return tuple(replace(item, target=replace(each, also=())) for each in (where, *where.also))


def _at_every_step(
    items: list[Instruction], before: tuple[Make | GroupIn, ...], stepped: Repeated
) -> list[Instruction] | None:
    """ "dc around, placing 2 dc in every 6th st": five plain ones, then the other."""
    plain = before[0]
    skip = stepped.body[-1]
    if len(before) > 1 or not isinstance(skip, Skip) or plain.target is None:
        return None
    items.pop()
    places = replace(plain.target, which=Which.NEXT, count=skip.target.count, open=False)
    body = (replace(plain, target=places), stepped.body[0])
    return [Repeated(body, plain.place, star=False), plain]


def _replaced(
    items: list[Instruction],
    before: tuple[Make | GroupIn, ...],
    special: Make | GroupIn,
    where: Target,
) -> list[Instruction] | None:
    """Return the row's end with *special* in its places, in the order they are met."""
    if where.which is Which.LAST and where.noun.of is not Of.SPACE:
        last = items.pop()
        rest = before if not isinstance(last, EachOf) else last.parts
        return [
            EachOf(rest, rest[0].place, Bound("last", ANY, where.count)),
            special,
        ]
    spaces = where.noun.of in (Of.SPACE, Of.NAMED, Of.UNIT)
    centered = where.which is Which.CENTER and where.noun.of is Of.SPACE and where.noun.length
    unlike = where.which not in (Which.EACH, Which.ANY, Which.NEXT) or not spaces
    if where.which is not Which.CORNER and not centered and unlike:
        return None
    items.pop()
    noun = replace(where.noun, name=None) if where.noun.of is Of.SPACE else where.noun
    which = Which.CORNER if where.which is Which.CORNER else Which.EACH
    there = replace(special, target=Target(which, noun))
    return [EachOf((there, *before), before[0].place)]
