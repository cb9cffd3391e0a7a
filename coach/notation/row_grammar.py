"""The grammar of a row: tokens in, instructions out, by recursive descent.

What cannot be read becomes a problem with its place; a remark becomes an action that uses no
place. Nothing here knows what lies below the row.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from coach.craft.instruction import (
    EachOf,
    GroupIn,
    Instruction,
    Make,
    Of,
    Repeated,
    Target,
    Which,
)
from coach.craft.pattern import SpecialStitch
from coach.craft.problem import Problem, Verdict
from coach.craft.stitch import legs
from coach.notation.actions import acts
from coach.notation.beginning_clusters import with_beginning_clusters
from coach.notation.chains import foundation_or_chain
from coach.notation.clauses import is_bare, same_kind
from coach.notation.cursor import Cursor
from coach.notation.groups import bracket, in_place_first
from coach.notation.joins import joins
from coach.notation.other_sides import loops_only
from coach.notation.repeats import recapped, repeat, trailing
from coach.notation.row_state import DEEPEST, SEPARATORS, STARS, Marks, RowState
from coach.notation.shaped_runs import shaped_run
from coach.notation.skips import leaving, skipping
from coach.notation.stars import star
from coach.notation.stitch_words import stitches
from coach.notation.tokens import Token
from coach.notation.unknown_words import misread_stitch, unknown
from coach.notation.with_places import instead_in_places
from coach.notation.yarn_words import counted_in_yarn, letter_of_yarn


class RowReader:
    """Reads one row's tokens into instructions."""

    def __init__(
        self,
        tokens: Sequence[Token],
        *,
        base: str = "sc",
        specials: dict[str, SpecialStitch] | None = None,
        suggest: Callable[[str], str] | None = None,
    ) -> None:
        self.state = RowState(
            tokens,
            base=base,
            specials=specials or {},
            suggest=suggest or (lambda _word: ""),
            sequence=self.sequence,
        )

    @property
    def problems(self) -> list[Problem]:
        """What could not be read."""
        return self.state.problems

    def read(self) -> tuple[Instruction, ...]:
        """Return the whole row's instructions."""
        return with_beginning_clusters(self.sequence(None))

    def sequence(self, closer: str | None) -> list[Instruction]:
        """Take instructions up to *closer*, or to the end."""
        return sequence(self.state, closer)


def sequence(reader: RowState, closer: str | None) -> list[Instruction]:
    """Take instructions up to *closer*, or to the end."""
    cursor = reader.cursor
    items: list[Instruction] = []
    marks = Marks()
    opener = cursor.place()
    reader.depth += 1
    if reader.depth > DEEPEST:
        reader.problem(
            Verdict.BROKEN_NOTATION,
            cursor.place(),
            "The brackets are nested too deep.",
            "Split the row into shorter repeats.",
        )
        cursor.at = len(cursor.tokens)
        return items
    closed = closer is None
    while cursor.now is not None:
        token = cursor.now
        if token.is_(")", "]", "}"):
            if closer is None:
                reader.problem(
                    Verdict.BROKEN_NOTATION,
                    token.place,
                    f"There is a closing bracket {token.raw} that was never opened.",
                    "Put the opening bracket where the repeat begins.",
                )
                cursor.next()
                continue
            if token.text != closer:
                reader.problem(
                    Verdict.BROKEN_NOTATION,
                    token.place,
                    f"A bracket closes with {token.raw}, but {closer} was due.",
                    "Close each bracket with its own kind.",
                )
            cursor.next()
            closed = True
            break
        if token.is_(".", "!"):
            reader.sentence = len(items)
        joins_two = token.is_("+", "&") and items and is_bare(items[-1])
        if (
            token.is_(*SEPARATORS)
            and not joins_two
            and not (token.text == "•" and token.text in reader.repeated_marks)
        ):
            cursor.next()
            continue
        if token.is_(*STARS):
            star(reader, token, items, marks)
            continue
        before = cursor.at
        items = item(reader, items, marks)
        if cursor.at == before:
            cursor.next()
    if not closed:
        reader.problem(
            Verdict.BROKEN_NOTATION,
            opener,
            f"A bracket is opened here and never closed with {closer}.",
            "Close the bracket where the repeat ends.",
        )
    for mark, place in marks.places.items():
        if mark not in marks.used and mark in marks.starts:
            reader.problem(
                Verdict.BROKEN_NOTATION,
                place,
                f"A repeat begins at {mark} here, but nothing says to repeat from it.",
                "Say how often: rep from * across, or so many times more.",
            )
    reader.depth -= 1
    return items


def item(reader: RowState, items: list[Instruction], marks: Marks) -> list[Instruction]:  # noqa: PLR0911
    """Take one instruction, add it to *items* and return them."""
    cursor = reader.cursor
    for told_of_row in (recapped, shaped_run):
        if (found := told_of_row(reader, items)) is not None:
            return [*items, *found]
    _pass_fillers(reader)
    joiner = cursor.takes("and", "then", "plus", "+", "&")
    if joiner is not None and not cursor.sees("rep"):
        joined(reader, items, marks, one_place=not joiner.is_("then"))
        return items
    _pass_fillers(reader)
    token = cursor.now
    if token is None:
        return items
    start = cursor.at
    if token.is_("(", "[", "{"):
        bracket(reader, items)
        _in_each_corner(items, cursor.tokens[start : cursor.at])
        return items
    if _so_many_times_a_bracket(reader, items):
        return items
    if token.is_("rep") or (
        token.is_("cont", "continue", "keep") and cursor.ahead_is(1, "from", "rep")
    ):
        return repeat(reader, items, marks)
    start = cursor.at
    if plainly_a_stitch(cursor, token) and (made := stitches(reader, items)) is not None:
        items += made  # what most of a row is: the other readers need not look at it
        _in_each_corner(items, cursor.tokens[start : cursor.at])
        _in_that_one(items, cursor.tokens[start : cursor.at])
        return items
    cursor.at = start
    if trailing(reader, items):
        return items
    start = cursor.at
    for part in (
        instead_in_places,
        foundation_or_chain,
        skipping,
        joins,
        acts,
        leaving,
        loops_only,
        in_place_first,
        counted_in_yarn,
        stitches,
    ):
        if misread_stitch(reader):
            break
        found = part(reader, items)
        if found is not None:
            items += found
            _in_that_one(items, cursor.tokens[start : cursor.at])
            return items
        cursor.at = start
    unknown(reader, items)
    return items


def _so_many_times_a_bracket(reader: RowState, items: list[Instruction]) -> bool:
    """Take "6 x (sc, inc)", the number before the bracket; tell whether it was one."""
    cursor = reader.cursor
    if not (
        cursor.sees_kind("num")
        and cursor.ahead_is(1, "x", "times")
        and cursor.ahead_is(2, "(", "[", "{")
    ):
        return False
    number = cursor.next()
    cursor.next()
    length = len(items)
    bracket(reader, items)
    body = items[length:]
    del items[length:]
    if body:
        items.append(Repeated(tuple(body), number.place, times=number.value, star=False))
    return True


def plainly_a_stitch(cursor: Cursor, token: Token) -> bool:
    """Tell whether a stitch that is worked is named here, with a number before it or none."""
    named = cursor.peek() if token.kind == "num" else token
    return named is not None and named.kind == "stitch" and named.text != "sl st"


def _pass_fillers(reader: RowState) -> None:
    """Pass words that carry nothing, and "this time", but not a yarn called A."""
    cursor = reader.cursor
    if cursor.sees("this") and cursor.ahead_is(1, "time", "times"):
        cursor.at += 2  # "and this time put a single crochet in every stitch"
    if not letter_of_yarn(reader):
        cursor.skip_fillers()


def joined(reader: RowState, items: list[Instruction], marks: Marks, *, one_place: bool) -> None:
    """After "and": a second stitch joins the first, in the same place or for another kind of place."""
    if items and isinstance(items[-1], EachOf) and items[-1].until is None:
        _and_another_kind(reader, items, marks)
        return
    if not items or not isinstance(items[-1], Make | GroupIn):
        return
    first = items[-1]
    length = len(items)
    if first.target is None:
        if one_place and isinstance(first, Make) and first.each <= 3:
            item(reader, items, marks)
            _in_the_same_place(items, length)
        return
    if first.target.which is Which.EACH and not first.target.until:
        item(reader, items, marks)
        if len(items) == length + 1:
            _for_another_kind(items)


def _and_another_kind(reader: RowState, items: list[Instruction], marks: Marks) -> None:
    """ "working 3 sc in each corner and 1 sc in each ch-1 sp": one kind of place more."""
    length = len(items)
    item(reader, items, marks)
    kinds, *further = items[length - 1 :]
    more = further[0] if len(further) == 1 else None
    if not isinstance(kinds, EachOf) or not isinstance(more, Make | GroupIn):
        return
    where = more.target
    if where is not None and where.which is Which.EACH and where.noun.of is Of.SPACE:
        closed = replace(more, target=replace(where, open=False))
        items[length - 1 :] = [replace(kinds, parts=(*kinds.parts, closed))]


def _for_another_kind(items: list[Instruction]) -> None:
    """ "sc in each dc and 3 sc in each corner sp": each kind of place gets its own."""
    first, second = items[-2:]
    if not isinstance(first, Make | GroupIn) or not isinstance(second, Make | GroupIn):
        return
    here, there = first.target, second.target
    if here is None or there is None:
        return
    space = there.noun.of is Of.SPACE
    if there.which is Which.CORNER:
        corners = replace(second, target=replace(there, open=False))
        items[-2:] = [EachOf((corners, *_each_kind_of(first, here)), first.place)]
    elif there.which is Which.EACH and not same_kind(first, second) and (space or not here.open):
        parts = (first, replace(second, target=replace(there, until=None)))
        items[-2:] = [EachOf(parts, first.place, there.until)]


def _in_each_corner(items: list[Instruction], words: Sequence[Token]) -> None:
    """ "sc in each st around, 3 sc in each corner": the corners get theirs as they are met.

    So does "sc in each st across, 3 sc in ch-2 sp": what goes across has come by that space.
    """
    if len(items) < 2:
        return
    first, second = items[-2:]
    if not isinstance(first, Make | GroupIn) or not isinstance(second, Make | GroupIn):
        return
    here, there = first.target, second.target
    if here is None or there is None or here.which is not Which.EACH or here.nth > 1:
        return
    if here.until is not None:
        return
    if there.which is Which.CORNER and any(word.is_("each", "all") for word in words):
        _for_another_kind(items)
    elif _space_come_by(first, second, here, there):
        every = replace(second, target=replace(there, which=Which.EACH))
        items[-2:] = [EachOf((every, *_each_kind_of(first, here)), first.place)]


def _space_come_by(
    first: Make | GroupIn, second: Make | GroupIn, here: Target, there: Target
) -> bool:
    """Tell whether *second* goes into a space that the stretch before has passed: "ch-2 sp"."""
    said = there.which in (Which.ANY, Which.EACH, Which.CENTER) and there.count == 1
    spaces = [each for each in (here, *here.also) if each.noun.of is Of.SPACE]
    other = all(each.noun.length not in (None, there.noun.length) for each in spaces)
    across = here.open or any(each.open for each in here.also)
    return (
        said
        and across
        and other
        and there.noun.of is Of.SPACE
        and bool(there.noun.length)
        and not same_kind(first, second)
    )


def _each_kind_of(made: Make | GroupIn, where: Target) -> tuple[Make | GroupIn, ...]:
    """Return *made* once for each kind of place that it goes into."""
    return tuple(replace(made, target=replace(each, also=())) for each in (where, *where.also))


def _in_that_one(items: list[Instruction], words: Sequence[Token]) -> None:
    """ "sc in each stitch until you get to the last one, two sc in that one": the last is meant."""
    if len(items) < 2 or not any(word.is_("that", "it") for word in words):
        return
    run, made = items[-2:]
    until = run.target.until if isinstance(run, Make) and run.target is not None else None
    if not isinstance(made, Make) or made.target is None or made.target.which is not Which.SAME:
        return
    if until is not None and (until.kind, until.count) == ("last", 1):
        items[-1] = replace(made, target=replace(made.target, which=Which.LAST))


def _in_the_same_place(items: list[Instruction], length: int) -> None:
    """ "sc + dc in next st", "1 sc and 1 dc in next st": both go into the one place named."""
    if len(items) != length + 1:
        return
    first, second = items[-2:]
    if not isinstance(first, Make) or not isinstance(second, Make) or second.target is None:
        return
    where = second.target
    if where.which is Which.EACH and where.nth < 2 and not where.open and where.until is None:
        single = where.noun.of in (Of.STITCH, Of.NAMED, Of.SPACE)
    else:
        single = where.which is not Which.EACH and where.count == 1 and not where.also
    if not single or where.noun.of in (Of.FROM_HOOK, Of.RING):
        return
    if any(made.increase or legs(made.stitch) > 1 or made.times > 1 for made in (first, second)):
        return
    items[-2:] = [GroupIn((first, replace(second, target=None)), where, first.place)]
