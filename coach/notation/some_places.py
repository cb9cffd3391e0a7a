"""Stitches that go into some of the places only: pairs, every other stitch, every fifth.

Whether the row's number allows it is for the proof to say.
"""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import (
    GroupIn,
    Instruction,
    Make,
    Of,
    Repeated,
    Skip,
    Spread,
    Target,
    Which,
)
from coach.craft.stitch import legs
from coach.notation.cursor import Cursor
from coach.notation.nouns import ANY, noun


def some_places_only(made: Make | GroupIn, cursor: Cursor | None) -> list[Instruction]:
    """Return *made* over pairs or over every so many places as the repeat it is, else unchanged."""
    where = made.target
    if where is None or where.which is not Which.EACH or where.within is not None or where.also:
        return [made]
    if isinstance(made, Make) and legs(made.stitch) > 1 and where.noun.of in (Of.STITCH, Of.NAMED):
        # a decrease is never one in one: "sc2tog around", "dec in each pair across"
        each = replace(made, target=None, times=max(made.each, 1), each=1)
        return [Repeated((each,), made.place, until=where.until, star=False)]
    if where.nth < 2:
        return [made]
    single = Target(
        Which.NEXT, where.noun, around=where.around, loop=where.loop, rows_below=where.rows_below
    )
    others = _all_others(cursor) if cursor is not None else None
    if others is None and isinstance(made, Make) and made.increase and made.each == 2:
        # "inc in every third st": what lies between is worked, never passed
        return [Spread(made.stitch, 0, False, made.place, every=where.nth)]
    if others is not None:
        between: Instruction = Make(
            others, 1, Target(Which.NEXT, ANY, count=where.nth - 1), made.place
        )
        over = Make(others, 1, Target(Which.EACH, ANY, open=True), made.place)
        both = (between, replace(made, target=single))
        return [Repeated(both, made.place, until=where.until, star=False), over]
    passed = Skip(Target(Which.NEXT, where.noun, count=where.nth - 1), made.place)
    body = (replace(made, target=single), passed)
    return [Repeated(body, made.place, until=where.until, star=False)]


def in_a_plain_run(made: Make, items: list[Instruction]) -> Make:
    """Return *made* as an increase where it is told after its run: "sc around, 2 sc in every 3rd st".

    The run is taken out of *items*: it is what lies between.
    """
    where = made.target
    run = items[-1] if items else None
    if where is None or where.which is not Which.EACH or where.nth < 2 or made.each < 2:
        return made
    if not isinstance(run, Make) or run.stitch != made.stitch or not runs_across(run):
        return made
    items.pop()
    return replace(made, increase=True)


def runs_across(made: Make) -> bool:
    """Tell whether *made* is one plain stitch in each place of the whole row."""
    where = made.target
    return (
        where is not None
        and made.each == 1
        and where.which is Which.EACH
        and where.until is None
        and not where.also
        and where.nth < 2
    )


def _all_others(cursor: Cursor) -> str | None:
    """Take ", sc in all other sts", "and hdc in the rest"; return the stitch."""
    start = cursor.at
    cursor.takes(",", ";")
    cursor.takes("and", "with")
    cursor.number()
    token = cursor.now
    if token is not None and token.kind == "stitch":
        cursor.next()
        if cursor.takes("in", "into"):
            cursor.skip_fillers()
            cursor.takes("all", "each")
            cursor.skip_fillers()
            if cursor.takes("other", "others", "rest", "rem"):
                cursor.skip_fillers()
                noun(cursor)
                return token.text
    cursor.at = start
    return None
