"""The place, the colour and the chain at the hook that follow a stitch."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import Instruction, Make, Noun, Of, Skip, Target, Which
from coach.notation.clauses import clause_end, closing_bracket
from coach.notation.counts_as import counts_as_remark
from coach.notation.cursor import Cursor
from coach.notation.edges_named import MOST_IN_ONE, edge_named
from coach.notation.nouns import ANY
from coach.notation.places import places
from coach.notation.reach import bound, runs_on
from coach.notation.row_state import RowState
from coach.notation.targets import rows_below, target
from coach.notation.yarn_words import in_yarn


def place_after(
    reader: RowState, stitch: str, number: int | None
) -> tuple[Target | None, int | None]:
    """Take the place after a stitch; also "sc 5", "dc 2 in next st", "sc across"."""
    cursor = reader.cursor
    cursor.takes("loosely", "tightly", "carefully", "firmly")
    _instead_of(cursor)
    each = _number_behind(cursor) if number is None else None
    cursor.takes("st")
    if each is not None and in_yarn(reader):
        return None, each
    if cursor.takes("evenly"):
        runs_on(cursor)
        end = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        cursor.at = end
        return Target(Which.NEXT, Noun(Of.ROW_END)), each
    mark = cursor.at
    reached = _reached(reader, stitch, number or each or 1)
    if reached is not None:
        return reached, each
    if runs_on(cursor):
        if _names_a_place(cursor):
            cursor.at = mark
        else:
            until_bound = bound(cursor)
            # "30 sc across" is thirty in all, and tells no place
            in_all = until_bound is None and (number or each or 1) > MOST_IN_ONE
            across = Target(Which.EACH, ANY, until=until_bound, open=True)
            return (None if in_all else across), each
    if (
        mark > 0
        and cursor.sees("of")
        and cursor.tokens[cursor.at - 1].is_(
            "lp", "blo", "flo", "only", "bump", "bumps", "ridge", "hump"
        )
    ):
        cursor.next()
        return target(cursor, preposition=False), each
    found = target(cursor)
    if found is None and cursor.sees("next", "each", "same", "first", "last"):
        found = target(cursor, preposition=False)
    if (
        found is not None
        and found.which is Which.NEXT
        and found.noun.of is Of.SPACE
        and (found.noun.name == "corner")
    ):
        found = replace(found, which=Which.CORNER, noun=Noun(Of.SPACE))
    if found is None and (lower := rows_below(cursor)):
        found = Target(Which.NEXT, ANY, rows_below=lower)
    if found is not None and found.together:
        cursor.takes("tog")
    return found, each


def _reached(reader: RowState, stitch: str, number: int) -> Target | None:
    """Take how far it goes where no place is named: along an edge, across to a bound."""
    if number > MOST_IN_ONE and edge_named(reader.cursor):
        return Target(Which.NEXT, Noun(Of.ROW_END))
    return _travelled_to(reader.cursor) if stitch == "sl st" else across_bound(reader)


def _names_a_place(cursor: Cursor) -> bool:
    """Tell whether "around" went round a stitch: "around the post of the next st", and no farther."""
    start = cursor.at
    cursor.skip_fillers()
    named = cursor.sees(
        "next", "each", "post", "first", "last", "same", "st", "top", "skipped"
    ) or cursor.sees_kind("stitch", "num", "ord")
    cursor.at = start
    return named


def _instead_of(cursor: Cursor) -> None:
    """Pass "instead of a shell" between a stitch and its place."""
    start = cursor.at
    if cursor.takes("instead") and cursor.takes("of"):
        cursor.skip_fillers()
        cursor.number()
        if cursor.sees_kind("stitch", "unit"):
            cursor.next()
            return
    cursor.at = start


def _number_behind(cursor: Cursor) -> int | None:
    """Take the number of "sc 5", "dc 2 in next st"; none where it says how often, or how long."""
    mark = cursor.at
    if not cursor.sees_kind("num") or (
        (cursor.ahead_is(1, "-") and cursor.ahead_is(2, "ch"))
        or cursor.ahead_is(1, "times", "x", "more", "row", "rnd")
    ):
        return None
    each = cursor.number()
    cursor.takes("st")
    if cursor.now is not None and cursor.sees("times"):
        cursor.at = mark
        return None
    return each


def _travelled_to(cursor: Cursor) -> Target | None:
    """Take "across to first ch-2 sp", "along to the corner": where slip stitches travel to."""
    start = cursor.at
    if cursor.takes("across", "along", "over", "back") and cursor.takes("to", "until", "into"):
        found = places(cursor)
        if found is not None and found.which is not Which.EACH:
            return found
    cursor.at = start
    return None


def across_bound(reader: RowState) -> Target | None:
    """ "sc to last 2 sts", "dc across to turning ch"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.takes("across", "around", "along")
    if cursor.sees("to", "until", "up") and not cursor.ahead_is(
        1, "first", "top", "next", "end", "the", "marker"
    ):
        until = bound(cursor)
        if until is not None:
            return Target(Which.EACH, ANY, until=until)
    cursor.at = start
    return None


def from_hook(reader: RowState, made: Make, where: Target) -> list[Instruction]:
    """ "dc in 4th ch from hook (3 skipped ch count as dc)": the chains left at the hook first."""
    cursor = reader.cursor
    counts: str | None = None
    if cursor.sees("(", "["):
        end = closing_bracket(cursor.tokens, cursor.at)
        said = counts_as_remark(cursor.tokens[cursor.at + 1 : end]) if end else None
        if end and said is not None:
            counts = said[0]
            cursor.at = end + 1
        elif end and _goes_on_after(cursor, end):
            cursor.at = end + 1
    elif cursor.sees(","):
        mark = cursor.at
        cursor.next()
        end = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        words = cursor.tokens[cursor.at : end]
        if any(token.is_("skipped") for token in words) and (said := counts_as_remark(words)):
            counts = said[0]
            cursor.at = end
        else:
            cursor.at = mark
    chain = Noun(Of.CHAIN)
    out: list[Instruction] = []
    if where.nth > 1:
        skipped = Target(Which.NEXT, Noun(Of.FROM_HOOK), count=where.nth - 1)
        out.append(Skip(skipped, made.place, counts_as=counts))
    also = where.also
    first = replace(made, target=Target(Which.NEXT, chain, loop=where.loop))
    if not also:
        joined = and_again(cursor)
        if joined is not None:
            also = joined
    if also:
        first = replace(
            first,
            target=replace(
                first.target or Target(Which.NEXT, chain),
                also=tuple(replace(each, noun=chained(each.noun)) for each in also),
            ),
        )
    out.append(first)
    return out


def _goes_on_after(cursor: Cursor, end: int) -> bool:
    """Tell whether "(first 2 dc made)" only stands between a stitch and "and in each ch"."""
    inner = cursor.tokens[cursor.at + 1 : end]
    after = cursor.tokens[end + 1 : end + 3]
    return (
        any(token.is_("made", "completed", "formed") for token in inner)
        and len(after) == 2
        and after[0].is_("and")
        and after[1].is_("in", "into", "each", "next")
    )


def and_again(cursor: Cursor) -> tuple[Target, ...] | None:
    """Take "and in each ch across" after "(skipped ch count as dc)", or ", dc in each ch" not."""
    start = cursor.at
    cursor.takes(",")
    if not cursor.takes("and"):
        cursor.at = start
        return None
    had = cursor.takes("in", "into")
    if not had and not cursor.sees("each", "next"):
        cursor.at = start
        return None
    cursor.at -= 1 if had else 0
    found = target(cursor, preposition=bool(had))
    if found is None:
        cursor.at = start
        return None
    return (replace(found, also=()), *found.also)


def chained(inner: Noun) -> Noun:
    """Return the chain meant by "st" or "ch from hook" further along the foundation."""
    return Noun(Of.CHAIN) if inner.of in (Of.FROM_HOOK, Of.STITCH) else inner
