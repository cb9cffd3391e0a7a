"""Brackets and groups in one place, either way round: "(2 dc, ch 1) in next sp", "in next sp work 2 dc"."""

from __future__ import annotations

from dataclasses import replace

from coach.craft.instruction import (
    Act,
    Chain,
    GroupIn,
    Instruction,
    Make,
    Noun,
    Of,
    Repeated,
    Sides,
    Skip,
    Target,
    Which,
)
from coach.craft.problem import Place, Verdict
from coach.notation.bracket_remarks import passing_bracket
from coach.notation.chains import foundation_or_chain
from coach.notation.clauses import (
    along_an_edge,
    closing_bracket,
    count_like,
    is_bare,
    more_work,
    row_ended,
)
from coach.notation.cursor import Cursor
from coach.notation.nouns import PREPOSITIONS
from coach.notation.reach import bound, runs_on
from coach.notation.remarks import is_remark
from coach.notation.repeat_words import repeat_tail, times_after
from coach.notation.row_state import CLOSERS, RowState
from coach.notation.some_places import some_places_only
from coach.notation.stitch_words import stitches
from coach.notation.targets import target


def in_place_first(reader: RowState, items: list[Instruction]) -> list[Instruction] | None:  # noqa: PLR0911, PLR0912
    """ "in next sp work 3 dc, ch 2, 3 dc": the place is named before what goes into it."""
    cursor = reader.cursor
    start = cursor.at
    begins = bool(cursor.takes("beg", "start"))
    if begins:
        cursor.takes("with")
    if not cursor.sees(*PREPOSITIONS) and not (
        (begins and cursor.sees("the")) or cursor.sees_kind("ord")
    ):
        return None
    where = target(cursor, preposition=cursor.sees(*PREPOSITIONS))
    if where is None:
        return None
    if begins:
        return _beginning_at(reader, where, start)
    if (listed := _listed_before(items, where, cursor.place(start))) is not None:
        return listed
    cursor.takes(",", ":")
    cursor.takes("work", "make", "do", "put")
    cursor.skip_fillers()
    if where.noun.of is Of.RING and not (cursor.sees_kind("stitch", "num") or cursor.sees("ch")):
        return None
    if not (cursor.sees_kind("stitch", "num", "unit") or cursor.sees("ch", "(", "[", "inc", "dec")):
        return None
    parts: list[Instruction] = []
    while cursor.now is not None:
        if cursor.sees("(", "[") and not parts:
            closer = CLOSERS[cursor.next().text]
            parts = reader.sequence(closer)
            break
        mark = cursor.at
        found = foundation_or_chain(reader, [*items, *parts])
        if not found:
            cursor.at = mark
            found = plain_stitch(reader)
        if not found:
            cursor.at = mark
            break
        parts += found
        mark = cursor.at
        if cursor.takes(",", "and", "+"):
            cursor.takes("and", "then")
            cursor.takes("work", "make")
            cursor.skip_fillers()
            if cursor.sees_kind("num", "stitch") or cursor.sees("ch"):  # noqa: SIM102
                if not targeted_ahead(reader):
                    continue
        cursor.at = mark
        break
    if all(isinstance(part, Act) for part in parts):
        return None  # "to join (counts as ch-5 lp)": the bracket holds talk
    place = cursor.place(start)
    if len(parts) == 1 and isinstance(parts[0], Make):
        return [replace(parts[0], target=where)]
    if where.noun.of is Of.RING:
        ring = Target(Which.SAME, Noun(Of.RING))
        if not any(isinstance(part, Make) for part in parts):
            return [Sides(Of.RING, place), *parts]
        return [replace(part, target=ring) if isinstance(part, Make) else part for part in parts]
    return [GroupIn(tuple(parts), where, place)]


def _beginning_at(reader: RowState, where: Target, start: int) -> list[Instruction] | None:
    """ "Starting in 3rd ch from hook, work 1 hdc into every ch": the chains before it are passed."""
    cursor = reader.cursor
    if where.noun.of is not Of.FROM_HOOK or where.nth < 1:
        return None
    cursor.takes(",", ":", ";")
    made = stitches(reader, [])
    if not made:
        return None
    if where.nth == 1:
        return made
    passed = Target(Which.NEXT, Noun(Of.FROM_HOOK), count=where.nth - 1)
    return [Skip(passed, cursor.place(start)), *made]


def _listed_before(
    items: list[Instruction], where: Target, place: Place
) -> list[Instruction] | None:
    """ "dc, ch 1 in every other st around": what was listed goes into each of the places."""
    if where.which is not Which.EACH or len(items) < 2 or not isinstance(items[-1], Chain):
        return None
    cut = len(items)
    while cut > 0 and is_bare(items[cut - 1]):
        cut -= 1
    while cut < len(items) and isinstance(items[cut], Chain):
        cut += 1
    if len(items) - cut < 2:
        return None
    group = GroupIn(tuple(items[cut:]), where, place)
    del items[cut:]
    return some_places_only(group, None)


def plain_stitch(reader: RowState) -> list[Instruction] | None:
    """Take stitches that name no place of their own, or nothing."""
    found = stitches(reader, [])
    if found and len(found) == 1 and isinstance(found[0], Make) and found[0].target is None:
        return found
    return None


def targeted_ahead(reader: RowState) -> bool:
    """Tell whether the next stitch names a place of its own."""
    cursor = reader.cursor
    mark = cursor.at
    problems = len(reader.problems)
    found = foundation_or_chain(reader, [Act("remark", cursor.place())])
    if not found:
        cursor.at = mark
        found = stitches(reader, [])
    cursor.at = mark
    del reader.problems[problems:]
    return bool(found and isinstance(found[0], Make) and found[0].target is not None)


def bracket(reader: RowState, items: list[Instruction]) -> None:  # noqa: PLR0911, PLR0912, PLR0915
    """A bracket: a repeat, a group in one place, a colour, or a remark; what follows decides."""
    cursor = reader.cursor
    start = cursor.at
    opener = cursor.next()
    end = closing_bracket(cursor.tokens, start)
    if end is None:
        reader.problem(
            Verdict.BROKEN_NOTATION,
            opener.place,
            f"The bracket {opener.raw} is opened here and never closed.",
            "Close the bracket where the repeat or the group ends.",
        )
        return
    inner = cursor.tokens[cursor.at : end]
    if passing_bracket(reader, inner, items):
        cursor.at = end + 1
        return
    if not cursor.tokens[end].is_(CLOSERS[opener.text]):
        reader.problem(
            Verdict.BROKEN_NOTATION,
            cursor.tokens[end].place,
            f"A bracket opened with {opener.raw} is closed with {cursor.tokens[end].raw}.",
            "Close each bracket with its own kind.",
        )
        cursor.at = end + 1
        return
    if count_like(inner) and row_ended(items) and not more_work(cursor.tokens[end + 1 :]):
        cursor.at = end + 1  # a count in a dress not known here: never a group to work
        return
    in_a_place = end + 1 < len(cursor.tokens) and cursor.tokens[end + 1].is_("in", "into")
    if items and along_an_edge(items[-1]) and not in_a_place:
        cursor.at = end + 1  # says how the stitches are spread along the edge
        return
    problems = len(reader.problems)
    body = reader.sequence(CLOSERS[opener.text])
    after = cursor.at
    place = cursor.place(start)
    while cursor.takes(",") and cursor.sees("rep"):
        break
    else:
        cursor.at = after
    if cursor.takes("rep"):
        tail = repeat_tail(cursor, "")
        custom = "in all" if tail.custom == "either" else tail.custom
        items.append(
            Repeated(
                tuple(body),
                place,
                times=tail.times,
                custom=custom,
                until=tail.until,
                star=False,
                ending=tail.ending,
            )
        )
        return
    times = times_after(cursor)
    if times is not None:
        cursor.takes("more")
        if not _into_ring(cursor):
            items.append(Repeated(tuple(body), place, times=times, star=False, custom="in all"))
            return
        once = in_one_place(reader, body, Target(Which.NEXT, Noun(Of.RING)), place)
        items.append(replace(once, times=times) if isinstance(once, Repeated) else once)
        return
    cursor.takes("all", "both")
    cursor.takes("made", "worked")
    if cursor.sees(*PREPOSITIONS) or cursor.sees("all"):
        mark = cursor.at
        onward = cursor.sees("to")  # "(ch 1, 3 dc in next sp) to next corner" goes into no corner
        until = bound(cursor)
        if until is not None and (onward or until.kind == "last"):
            items.append(Repeated(tuple(body), place, until=until, star=False))
            return
        cursor.at = mark
        if runs_on(cursor):
            stop = bound(cursor)
            items.append(Repeated(tuple(body), place, until=stop, star=False))
            return
        where = target(cursor)
        if where is not None:
            items += _in_some(in_one_place(reader, body, where, cursor.place(start)), cursor)
            again = times_after(cursor)
            if again is not None and again > 1:
                group = items.pop()
                items.append(Repeated((group,), place, times=again, star=False))
            return
    if (
        reader.problems[problems:]
        and is_remark(inner)
        and not any(token.kind in ("stitch", "unit", "sign") for token in inner)
    ):
        del reader.problems[problems:]
        items.append(Act("remark", place, " ".join(token.raw for token in inner)))
        return
    items += body


def _into_ring(cursor: Cursor) -> bool:
    """Take "into ring" where it stands after how often: "(1tr, 1ch) 7 times into ring"."""
    mark = cursor.at
    if cursor.sees("in", "into"):
        where = target(cursor)
        if where is not None and where.noun.of is Of.RING:
            return True
    cursor.at = mark
    return False


def _in_some(group: Instruction, cursor: Cursor) -> list[Instruction]:
    if isinstance(group, Make | GroupIn):
        return some_places_only(group, cursor)
    return [group]


def in_one_place(
    reader: RowState, body: list[Instruction], where: Target, place: Place
) -> Instruction:
    """Return what was listed, all of it in one place."""
    if where.noun.of is Of.RING:
        ring = Target(Which.SAME, Noun(Of.RING))
        parts = tuple(
            replace(part, target=ring) if isinstance(part, Make) else part for part in body
        )
        return Repeated(parts, place, times=1, star=False)
    if len(body) == 1 and isinstance(body[0], Make) and where.which is not Which.EACH:
        made = body[0]
        if made.target is None:
            return replace(made, target=where, place=place)
    return GroupIn(tuple(body), where, place)
