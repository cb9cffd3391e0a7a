"""The grammar of a row: tokens in, instructions out, by recursive descent.

What cannot be read becomes a problem with its place; a remark becomes an action that uses no
place. Nothing here knows what lies below the row.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from coach.craft.pattern import (
    Act,
    Chain,
    EachOf,
    GroupIn,
    Instruction,
    Join,
    Leave,
    Make,
    Noun,
    Of,
    Picot,
    Repeated,
    Sides,
    Skip,
    SpecialStitch,
    Target,
    Which,
)
from coach.craft.problem import Place, Problem, Verdict
from coach.craft.stitch import legs
from coach.notation.counts_as import counts_as_remark
from coach.notation.cursor import Cursor
from coach.notation.nouns import ANY, PREPOSITIONS, bound, loops, noun, places, runs_on, target
from coach.notation.remarks import is_remark, looks_abbreviated
from coach.notation.repeat_words import Tail, repeat_tail, times_after
from coach.notation.tokens import Token

CLOSERS = {"(": ")", "[": "]", "{": "}"}
SEPARATORS = (",", ";", ".", ":", "...", "–", "•", "/", "&", '"', "'", "-", "!", "+")
STARS = ("*", "**", "***", "†", "††", "•")
DEEPEST = 30


@dataclass(slots=True)
class Marks:
    """The stars of one row that are open: where each repeat begins, and where it may stop."""

    starts: dict[str, int] = field(default_factory=dict)
    places: dict[str, Place] = field(default_factory=dict)
    stops: dict[str, int] = field(default_factory=dict)
    used: set[str] = field(default_factory=set)


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
        self.cursor = Cursor(tokens)
        self.base = base
        self.specials = specials or {}
        self.suggest = suggest or (lambda _word: "")
        self.problems: list[Problem] = []
        self.depth = 0
        self.sentence = 0
        self.last_stitch = base
        self.repeated_marks = _repeated_marks(tokens)

    # -- sequences ---------------------------------------------------------------------------

    def read(self) -> tuple[Instruction, ...]:
        """Return the whole row's instructions."""
        items = self.sequence(None)
        return tuple(_settled(items))

    def sequence(self, closer: str | None) -> list[Instruction]:
        """Take instructions up to *closer*, or to the end."""
        cursor = self.cursor
        items: list[Instruction] = []
        marks = Marks()
        opener = cursor.place()
        self.depth += 1
        if self.depth > DEEPEST:
            self.problem(
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
                    self.problem(
                        Verdict.BROKEN_NOTATION,
                        token.place,
                        f"There is a closing bracket {token.raw} that was never opened.",
                        "Put the opening bracket where the repeat begins.",
                    )
                    cursor.next()
                    continue
                if token.text != closer:
                    self.problem(
                        Verdict.BROKEN_NOTATION,
                        token.place,
                        f"A bracket closes with {token.raw}, but {closer} was due.",
                        "Close each bracket with its own kind.",
                    )
                cursor.next()
                closed = True
                break
            if token.is_(".", "!"):
                self.sentence = len(items)
            if token.is_(*SEPARATORS) and not (
                token.text == "•" and token.text in self.repeated_marks
            ):
                cursor.next()
                continue
            if token.is_(*STARS):
                self.star(token, items, marks)
                continue
            before = cursor.at
            items = self.item(items, marks)
            if cursor.at == before:
                cursor.next()
        if not closed:
            self.problem(
                Verdict.BROKEN_NOTATION,
                opener,
                f"A bracket is opened here and never closed with {closer}.",
                "Close the bracket where the repeat ends.",
            )
        for mark, place in marks.places.items():
            if mark not in marks.used and mark in marks.starts:
                self.problem(
                    Verdict.BROKEN_NOTATION,
                    place,
                    f"A repeat begins at {mark} here, but nothing says to repeat from it.",
                    "Say how often: rep from * across, or so many times more.",
                )
        self.depth -= 1
        return items

    # -- stars -------------------------------------------------------------------------------

    def star(self, token: Token, items: list[Instruction], marks: Marks) -> None:
        """A star opens a repeat, closes it, or marks where the last pass ends."""
        cursor = self.cursor
        cursor.next()
        mark = token.text
        if mark in marks.starts and mark not in marks.used:
            self.close_star(mark, items, marks)
            return
        if len(mark) > 1 and mark[:-1] in marks.starts and mark not in self.repeated_marks:
            marks.stops[mark] = len(items)
            return
        follows = cursor.now
        if follows is None or (not items and follows.is_(")", "]")):
            return
        marks.used.discard(mark)
        marks.starts[mark] = len(items)
        marks.places[mark] = token.place

    def close_star(self, mark: str, items: list[Instruction], marks: Marks) -> None:
        """A second star of the kind closes the repeat; what follows says how often."""
        cursor = self.cursor
        start = cursor.at
        while cursor.takes(",", ";", "."):
            pass
        tail: Tail | None = None
        if cursor.takes("rep"):
            tail = repeat_tail(cursor, mark)
        else:
            times = times_after(cursor)
            if times is not None:
                tail = Tail(times=times, custom="in all")
            elif runs_on(cursor):
                tail = Tail(until=bound(cursor))
        if tail is None:
            cursor.at = start
            marks.stops[mark] = len(items)
            return
        if tail.custom == "either":
            tail = replace(tail, custom="in all")
        self.fold(mark, tail, items, marks)

    def fold(self, mark: str, tail: Tail, items: list[Instruction], marks: Marks) -> None:
        """Turn the instructions since *mark* into a repeat."""
        begin = marks.starts.get(mark)
        if begin is None or begin >= len(items):
            self.problem(
                Verdict.BROKEN_NOTATION,
                self.cursor.place(),
                f"It says to repeat from {mark}, but there is no {mark} before it.",
                f"Put {mark} where the repeat begins.",
            )
            return
        body = tuple(_settled(items[begin:]))
        stop = None
        extra = None
        if tail.stop_mark:
            at = marks.stops.get(tail.stop_mark)
            if at is None:
                self.problem(
                    Verdict.BROKEN_NOTATION,
                    self.cursor.place(),
                    f"It says to end at {tail.stop_mark}, but there is no {tail.stop_mark} in the repeat.",
                    f"Put {tail.stop_mark} where the last repeat ends.",
                )
            else:
                stop = at - begin
        if tail.extra_mark:
            at = marks.stops.get(tail.extra_mark)
            extra = at - begin if at is not None else None
        repeated = Repeated(
            body,
            marks.places.get(mark, self.cursor.place()),
            times=tail.times,
            custom=tail.custom,
            until=tail.until,
            stop_at=stop,
            ending=tail.ending,
            extra_stop=extra,
        )
        del items[begin:]
        items.append(repeated)
        marks.used.add(mark)
        del marks.starts[mark]
        marks.stops = {name: at for name, at in marks.stops.items() if at <= begin}

    # -- items -------------------------------------------------------------------------------

    def item(self, items: list[Instruction], marks: Marks) -> list[Instruction]:  # noqa: PLR0911
        """Take one instruction, add it to *items* and return them."""
        cursor = self.cursor
        cursor.skip_fillers()
        if cursor.takes("and", "then", "plus"):
            self.joined_each(items, marks)
            return items
        token = cursor.now
        if token is None:
            return items
        if token.is_("(", "[", "{"):
            self.bracket(items)
            return items
        if (
            token.kind == "num"
            and cursor.ahead_is(1, "x", "times")
            and cursor.ahead_is(2, "(", "[", "{")
        ):
            number = cursor.next().value
            cursor.next()
            length = len(items)
            self.bracket(items)
            body = items[length:]
            del items[length:]
            if body:
                items.append(Repeated(tuple(body), token.place, times=number, star=False))
            return items
        if token.is_("rep") or (
            token.is_("cont", "continue") and cursor.ahead_is(1, "from", "rep")
        ):
            return self.repeat(items, marks)
        if self.trailing(items):
            return items
        start = cursor.at
        for reader in (
            self.foundation_or_chain,
            self.skipping,
            self.joins,
            self.acts,
            self.leaving,
            self.loops_only,
            self.in_place_first,
            self.stitch,
        ):
            if self._misread_stitch():
                break
            found = reader(items)
            if found is not None:
                items += found
                return items
            cursor.at = start
        self.unknown(items)
        return items

    def _misread_stitch(self) -> bool:
        """ "do in next st": a scanner's slip for a stitch, not the word of the language."""
        return self.cursor.sees("do", "de", "se") and self.cursor.ahead_is(1, *PREPOSITIONS)

    def joined_each(self, items: list[Instruction], marks: Marks) -> None:
        """After "and": a second stitch for each place of another kind joins the first."""
        if not items or not isinstance(items[-1], Make | GroupIn):
            return
        first = items[-1]
        target_of = first.target
        if (
            target_of is None
            or target_of.which is not Which.EACH
            or target_of.until
            or target_of.open
        ):
            return
        length = len(items)
        self.item(items, marks)
        if len(items) != length + 1:
            return
        second = items[-1]
        if not isinstance(second, Make | GroupIn) or second.target is None:
            return
        if second.target.which is not Which.EACH:
            return
        if _same_kind(first, second):
            return
        until = second.target.until
        items[-2:] = [
            EachOf(
                (first, replace(second, target=replace(second.target, until=None))),
                first.place,
                until,
            )
        ]

    # -- chains ------------------------------------------------------------------------------

    def foundation_or_chain(self, items: list[Instruction]) -> list[Instruction] | None:  # noqa: PLR0911
        """ "ch 3", "3ch", "chain three", with what it counts as."""
        cursor = self.cursor
        start = cursor.at
        beginning = bool(cursor.takes("beg", "turning"))
        cursor.takes("make", "work")
        count: int | None = None
        if cursor.sees_kind("num") or _lone_one(cursor.now):
            count = cursor.number()
            cursor.takes("-")
            if (
                not cursor.takes("ch")
                or cursor.sees("sp", "lp")
                or (cursor.sees("-") and cursor.ahead_is(1, "sp", "lp"))
            ):
                return None
        elif cursor.takes("ch"):
            glued = bool(cursor.takes("-"))
            count = cursor.number()
            if count is None:
                if glued:
                    return None
                count = 1
            if cursor.sees("sp", "lp") or (cursor.sees("-") and cursor.ahead_is(1, "sp", "lp")):
                return None
            if cursor.sees_kind("unit") and cursor.now is not None and cursor.now.text == "picot":
                cursor.next()
                return [Picot(count, cursor.place(start))]
        if count is None or (beginning and not count):
            return None
        cursor.takes("loosely")
        cursor.takes("st")
        if cursor.takes_all("for", "sp") or cursor.takes_all("for", "corner"):
            pass
        if self._picot(count):
            return [Picot(count, cursor.place(start))]
        place = cursor.place(start)
        said = self.said_of_chain()
        if said is not None:
            return [Chain(count, place, counts_as=said[0], throughout=said[1])]
        return [Chain(count, place)]

    def _picot(self, count: int) -> bool:
        """Take ", sl st in 3rd ch from hook" after a chain: a picot."""
        cursor = self.cursor
        start = cursor.at
        cursor.takes(",")
        cursor.takes("and", "then")
        token = cursor.now
        if token is not None and token.kind == "stitch" and token.text in ("sl st", "sc"):
            slip = token.text == "sl st"
            cursor.next()
            cursor.takes(*PREPOSITIONS)
            cursor.skip_fillers()
            if cursor.sees_kind("ord"):
                value = cursor.next().value
                if cursor.takes("ch") and cursor.takes("from"):
                    cursor.skip_fillers()
                    if cursor.takes("hook") and (slip and count <= 6 and value >= count - 1):
                        self._picot_made()
                        return True
            elif slip and cursor.takes_all("first", "ch") and count <= 5 and items_before(self):
                self._picot_made()
                return True
        cursor.at = start
        return False

    def _picot_made(self) -> None:
        cursor = self.cursor
        if cursor.sees("(") and cursor.peek() is not None and cursor.peek(2) is not None:
            inner = cursor.peek()
            if inner is not None and inner.kind == "unit" and inner.text == "picot":
                while cursor.now is not None and not cursor.takes(")"):
                    cursor.next()

    def said_of_chain(self) -> tuple[str, bool] | None:
        """Take "(counts as first dc here and throughout)" or ", that counts as our first dc"."""
        cursor = self.cursor
        start = cursor.at
        if cursor.takes("(", "["):
            end = _closing(cursor.tokens, cursor.at - 1)
            if end is not None:
                inner = cursor.tokens[cursor.at : end]
                said = counts_as_remark(inner) or _only_what_it_is(inner)
                if said is not None:
                    cursor.at = end + 1
                    return said
            cursor.at = start
            return None
        cursor.takes(",", "–", ";", ":")
        cursor.takes("which", "that", "this", "it", "and")
        end = cursor.at
        while end < len(cursor.tokens) and not cursor.tokens[end].is_(",", ";", ".", "(", "[", "*"):
            end += 1
        if end > cursor.at and cursor.tokens[cursor.at].is_(
            "counts", "does", "doesn't", "do", "not", "always"
        ):
            said = counts_as_remark(cursor.tokens[cursor.at : end])
            if said is not None:
                cursor.at = end
                return said
        cursor.at = start
        return None

    # -- skips -------------------------------------------------------------------------------

    def skipping(self, items: list[Instruction]) -> list[Instruction] | None:  # noqa: PLR0912
        """ "sk next 2 sts", "miss 1 tr", "pass over next st", "sk first st"."""
        cursor = self.cursor
        start = cursor.at
        if cursor.takes("pass"):
            if not cursor.takes("over"):
                return None
        elif not cursor.takes("sk"):
            return None
        if cursor.takes("over"):
            pass
        count = None
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
        if where.noun.of is Of.CHAIN and where.noun.length is not None:
            where = replace(where, noun=Noun(Of.SPACE, None, where.noun.length))
        counts: str | None = None
        if cursor.sees("("):
            end = _closing(cursor.tokens, cursor.at)
            said = counts_as_remark(cursor.tokens[cursor.at + 1 : end]) if end else None
            if end and said is not None:
                counts = said[0]
                cursor.at = end + 1
        place = cursor.place(start)
        if where.noun.of is Of.CHAIN and not _worked_yet(items):
            count = where.count if where.which is not Which.NTH else where.nth
            hook = Target(Which.NEXT, Noun(Of.FROM_HOOK), count=count)
            return [Skip(hook, place, counts_as=counts)]
        out: list[Instruction] = [Skip(where, place, counts_as=counts)]
        for more in where.also:
            out.append(Skip(more, place))
        out[0] = Skip(replace(where, also=()), place, counts_as=counts)
        return out

    # -- joins and actions -------------------------------------------------------------------

    def joins(self, items: list[Instruction]) -> list[Instruction] | None:  # noqa: PLR0911
        """ "join with sl st in first sc", "sl st in first ch to form ring", "ss to top of 3ch"."""
        cursor = self.cursor
        start = cursor.at
        ring = False
        if cursor.takes("join", "close", "connect"):
            if cursor.sees_kind("word") and (
                cursor.sees("yarn", "new", "next") or _colour_name(cursor.now)
            ):
                cursor.at = start
                return self.join_yarn()
            end = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
            words = cursor.tokens[cursor.at : end]
            ring = any(token.is_("ring", "circle", "twist", "twisting") for token in words)
            with_ = cursor.takes("with", "by")
            if with_:
                chained = self._closing_space()
                if chained:
                    return chained
            name = (
                next((t.text for t in words if t.kind == "stitch"), "sl st") if with_ else "sl st"
            )
            if self._with_first(words):
                name = "sl st"
            into = " ".join(token.raw for token in words)
            cursor.at = end
            if not items and name not in ("sl st",) and not ring:
                cursor.at = start
                return None
            if _joins_yarn(words):
                cursor.at = start
                return self.join_yarn()
            return [
                Join(cursor.place(start), "sl st" if name == "sl st" else name, into, ring=ring)
            ]
        token = cursor.now
        if token is not None and token.kind == "stitch" and token.text == "sl st":
            return self._slip_join(items)
        return None

    def _closing_space(self) -> list[Instruction] | None:
        """ "close with ch 1, dc in first dc": the join makes the last space."""
        cursor = self.cursor
        start = cursor.at
        if cursor.takes("ch"):
            count = cursor.number() or 1
            cursor.takes(",")
            cursor.takes("and")
            token = cursor.now
            if token is not None and token.kind == "stitch":
                cursor.next()
                cursor.at = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
                place = cursor.place(start)
                return [Chain(count, place), Join(place, token.text, "first stitch")]
        cursor.at = start
        return None

    def _with_first(self, words: Sequence[Token]) -> bool:
        return any(token.kind == "stitch" and token.text == "sl st" for token in words)

    def _slip_join(self, items: list[Instruction]) -> list[Instruction] | None:
        """A slip stitch into the first stitch or the beginning chain closes the round."""
        cursor = self.cursor
        start = cursor.at
        cursor.next()
        cursor.takes("join")
        if not cursor.takes("in", "into", "to", "with", "through", "on"):
            if cursor.takes("join"):
                return [Join(cursor.place(start))]
            return None
        end = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        words = cursor.tokens[cursor.at : end]
        ring = any(token.is_("ring", "circle") for token in words)
        first = any(token.is_("first") for token in words)
        joins = any(token.is_("join") for token in words)
        top = any(token.is_("top") for token in words) or (
            any(token.kind == "ord" for token in words)
            and any(token.is_("ch", "beg", "tch") for token in words)
        )
        begins = any(token.is_("beg", "starting", "tch") for token in words)
        made = _worked_yet(items)
        only_chain = bool(items) and all(isinstance(item, Chain | Act) for item in items)
        from_hook = any(token.is_("hook") for token in words)
        if from_hook:
            return None
        if (
            ring
            or (only_chain and first and _first_chain(words))
            or (made and (first or top or begins or joins))
        ):
            if made and first and any(token.kind == "num" for token in words):
                return None
            cursor.at = end
            return [
                Join(
                    cursor.place(start),
                    "sl st",
                    " ".join(t.raw for t in words),
                    ring=ring or not made,
                )
            ]
        return None

    def join_yarn(self) -> list[Instruction] | None:
        """ "join B in any corner sp": a new beginning at a place."""
        cursor = self.cursor
        start = cursor.at
        cursor.next()
        end = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        text = " ".join(token.raw for token in cursor.tokens[cursor.at : end])
        out: list[Instruction] = []
        while cursor.at < end:
            if cursor.sees(*PREPOSITIONS):
                where = target(cursor)
                if where is not None:
                    out.append(Skip(replace(where, which=Which.ANY), cursor.place(start)))
                    continue
            cursor.next()
        cursor.at = end
        return [Act("join yarn", cursor.place(start), text), *out]

    def acts(self, items: list[Instruction]) -> list[Instruction] | None:  # noqa: PLR0911, PLR0912, PLR0915
        """Turns, markers, colours, ends: what uses no place."""
        cursor = self.cursor
        start = cursor.at
        if cursor.takes("ending", "end", "finishing", "finish"):
            cursor.takes("row", "rnd")
            cursor.takes("with", "by")
            if cursor.sees_kind("stitch", "num", "unit"):
                return self.stitch(items)
            cursor.at = start
        if cursor.sees("working", "work") and (
            cursor.ahead_is(1, "behind")
            or (cursor.ahead_is(1, "in") and cursor.ahead_is(2, "front", "back"))
        ):
            while cursor.now is not None and not cursor.sees(",", ";", ".", ")", "]"):
                if cursor.sees_kind("stitch") and not cursor.tokens[cursor.at - 1].is_("of", "the"):
                    break
                cursor.next()
            return [Act("remark", cursor.place(start), self._raw(start))]
        if (ring := self.ring_made(start)) is not None:
            return ring
        if cursor.takes("turn"):
            cursor.takes("work", "piece")
            while cursor.sees("so", "to", "work") and not cursor.sees(",", ";", "."):
                cursor.at = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
            return [Act("turn", cursor.place(start))]
        if (
            (cursor.ahead_is(1, "not") and cursor.takes("do"))
            or cursor.takes("don't", "without")
            or cursor.sees("not")
        ):
            cursor.takes("not")
            end = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
            words = cursor.tokens[cursor.at : end]
            cursor.at = end
            if any(token.is_("turn", "turning") for token in words):
                return [Act("do not turn", cursor.place(start))]
            text = "do not " + " ".join(token.raw for token in words)
            return [Act("remark", cursor.place(start), text)]
        if cursor.sees("fasten", "break", "cut", "end") and cursor.ahead_is(1, "off", "yarn"):
            cursor.at = _clause_end(cursor.tokens, cursor.at)
            return [Act("fasten off", cursor.place(start), self._raw(start))]
        if cursor.takes("fo") or cursor.takes_all("f", ".", "o") or cursor.takes_all("f", "o"):
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
                return [Act("marker", cursor.place(start), self._raw(start))]
            cursor.at = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
            return [Act("marker", cursor.place(start), self._raw(start))]
        if (colour := self.colour()) is not None:
            return [Act("colour", cursor.place(start), colour)]
        if cursor.takes("rotate"):
            cursor.at = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
            return [Act("rotate", cursor.place(start), self._raw(start)), *self._sides(start)]
        if (
            _stops_before_last(items)
            and cursor.takes("work", "working", "with")
            and cursor.takes("last")
        ):
            found = self.stitch(items)
            if found:
                return found
        cursor.at = start
        if (
            cursor.sees("ending", "end", "working", "last", "with", "making", "placing", "work")
            and self._ends_remark()
        ):
            return [Act("remark", cursor.place(start), self._raw(start))]
        if cursor.takes("work"):
            number = cursor.number()
            cursor.takes("more")
            rows = cursor.takes("row", "rnd") if number is not None else None
            if cursor.takes("even", "straight", "plain"):
                return self.even(start)
            if rows and cursor.sees("in"):
                return self.even(start)
            cursor.at = start
        if cursor.takes("unchanged", "even"):
            return self.even(start)
        if cursor.takes("evenly"):
            return []
        if (sides := self._other_side()) is not None:
            return sides
        return None

    def ring_made(self, start: int) -> list[Instruction] | None:
        """ "Make a magic ring", "MR,": a ring with no chain to it."""
        cursor = self.cursor
        cursor.takes("make", "form", "start", "beg", "create")
        cursor.takes("with")
        cursor.takes("a", "an")
        if cursor.takes("magic", "adjustable", "sliding") and cursor.takes("ring", "lp", "circle"):
            pass
        elif not (
            cursor.takes("mr", "mc") and (cursor.now is None or cursor.sees(",", ".", ":", ";"))
        ):
            cursor.at = start
            return None
        cursor.at = min(cursor.at, len(cursor.tokens))
        return [Sides(Of.RING, cursor.place(start))]

    def _raw(self, start: int) -> str:
        return " ".join(token.raw for token in self.cursor.tokens[start : self.cursor.at])

    def even(self, start: int) -> list[Instruction]:
        """ "work even in sc around", "unchanged": one in each."""
        cursor = self.cursor
        cursor.takes("in")
        stitch = self.base
        if cursor.sees_kind("stitch"):
            stitch = cursor.next().text
        elif cursor.takes("pattern", "patt"):
            pass
        if cursor.takes("for"):
            cursor.number()
            cursor.takes("row", "rnd")
        runs_on(cursor)
        if cursor.sees("to", "until", "for"):
            cursor.at = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        return [Make(stitch, 1, Target(Which.EACH, ANY, open=True), cursor.place(start))]

    def colour(self) -> str | None:
        """Take "with A", "change to B in last yo", "(A)"; return the colour's name."""
        cursor = self.cursor
        start = cursor.at
        if cursor.takes("with", "using"):
            cursor.takes("colour", "yarn")
            if _colour_name(cursor.now):
                return cursor.next().raw
        elif cursor.takes("change", "switch", "changing"):
            cursor.takes("colour")
            cursor.takes("to", "yarn")
            cursor.takes("colour")
            token = cursor.now
            if (
                token is not None
                and token.kind in ("word", "unit")
                and not token.is_("in", "on", "at")
            ):
                name = cursor.next().raw
                end = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
                cursor.at = end
                return name
            cursor.at = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
            return "next colour"
        cursor.at = start
        return None

    def _ends_remark(self) -> bool:
        """ "working last dc in 3rd ch of turning ch": says where the last one goes, adds none."""
        cursor = self.cursor
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
                cursor.at = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
                return True
            if cursor.sees("is", "goes", "will"):
                cursor.at = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
                return True
        cursor.at = start
        return False

    def _other_side(self) -> list[Instruction] | None:
        """ "on other side of chain", "working in free loops of foundation ch", "along row ends"."""
        cursor = self.cursor
        start = cursor.at
        if not cursor.sees(
            "on", "working", "work", "along", "across", "in", "now", "down", "opposite"
        ):
            return None
        end = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        words = cursor.tokens[cursor.at : end]
        texts = [token.text for token in words]
        if any(token.kind == "stitch" for token in words):
            cut = next(i for i, token in enumerate(words) if token.kind in ("stitch", "num"))
            texts = texts[:cut]
            end = cursor.at + cut
        other = any(
            word in texts for word in ("other", "opposite", "second", "underside", "bottom")
        ) and any(word in texts for word in ("side", "edge", "ch", "foundation"))
        free = ("free" in texts and "lp" in texts) or ("unused" in texts and "lp" in texts)
        if (other or free) and end > start + 1:
            cursor.at = end
            place = cursor.place(start)
            if "row" in texts and "end" in texts:
                return [Sides(Of.ROW_END, place)]
            return [Sides(Of.FREE_LOOP, place)]
        if (
            ("row" in texts and "end" in texts)
            or "row-ends" in texts
            or ("side" in texts and "edge" in texts)
        ):
            cursor.at = end
            return [Sides(Of.ROW_END, cursor.place(start))]
        cursor.at = start
        return None

    def _sides(self, start: int) -> list[Instruction]:
        texts = [token.text for token in self.cursor.tokens[start : self.cursor.at]]
        if "row" in texts and "end" in texts:
            return [Sides(Of.ROW_END, self.cursor.place(start))]
        if "ch" in texts and ("other" in texts or "bottom" in texts):
            return [Sides(Of.FREE_LOOP, self.cursor.place(start))]
        return []

    def leaving(self, items: list[Instruction]) -> list[Instruction] | None:
        """ "leave last 4 sts unworked", "leaving rem sts unworked"."""
        cursor = self.cursor
        start = cursor.at
        if not cursor.takes("leave", "leaving"):
            return None
        end = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
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

    def loops_only(self, items: list[Instruction]) -> list[Instruction] | None:
        """ "Working in BLO," or "BLO:" holds for the rest of the row."""
        cursor = self.cursor
        start = cursor.at
        side = loops(cursor)
        if side is None:
            return None
        cursor.takes("of")
        if cursor.takes("each"):
            noun(cursor)
        cursor.takes("for", "throughout")
        if cursor.sees_kind("stitch", "num"):
            return [Act("loop", cursor.place(start), side)]
        if cursor.now is None or cursor.sees(",", ":", ";", ".", "–"):
            return [Act("loop", cursor.place(start), side)]
        while cursor.now is not None and not cursor.sees(",", ":", ";", "."):
            if cursor.sees_kind("stitch"):
                break
            cursor.next()
        return [Act("loop", cursor.place(start), side)]

    # -- stitches ----------------------------------------------------------------------------

    def in_place_first(self, items: list[Instruction]) -> list[Instruction] | None:  # noqa: PLR0911, PLR0912
        """ "in next sp work 3 dc, ch 2, 3 dc": the place is named before what goes into it."""
        cursor = self.cursor
        start = cursor.at
        if not cursor.sees(*PREPOSITIONS):
            return None
        where = target(cursor)
        if where is None:
            return None
        cursor.takes(",", ":")
        cursor.takes("work", "make", "do", "put")
        cursor.skip_fillers()
        if where.noun.of is Of.RING and not (
            cursor.sees_kind("stitch", "num") or cursor.sees("ch")
        ):
            return None
        if not (
            cursor.sees_kind("stitch", "num", "unit") or cursor.sees("ch", "(", "[", "inc", "dec")
        ):
            return None
        parts: list[Instruction] = []
        while cursor.now is not None:
            if cursor.sees("(", "[") and not parts:
                closer = CLOSERS[cursor.next().text]
                parts = self.sequence(closer)
                break
            mark = cursor.at
            found = self.foundation_or_chain([*items, *parts])
            if not found:
                cursor.at = mark
                found = self._plain_stitch()
            if not found:
                cursor.at = mark
                break
            parts += found
            mark = cursor.at
            if cursor.takes(",", "and", "+"):
                cursor.takes("and")
                cursor.skip_fillers()
                if cursor.sees_kind("num", "stitch") or cursor.sees("ch"):  # noqa: SIM102
                    if not self._targeted_ahead():
                        continue
            cursor.at = mark
            break
        if not parts:
            return None
        place = cursor.place(start)
        if len(parts) == 1 and isinstance(parts[0], Make):
            return [replace(parts[0], target=where)]
        if where.noun.of is Of.RING:
            ring = Target(Which.SAME, Noun(Of.RING))
            return [
                replace(part, target=ring) if isinstance(part, Make) else part for part in parts
            ]
        return [GroupIn(tuple(parts), where, place)]

    def _plain_stitch(self) -> list[Instruction] | None:
        found = self.stitch([])
        if found and len(found) == 1 and isinstance(found[0], Make) and found[0].target is None:
            return found
        return None

    def _targeted_ahead(self) -> bool:
        """Tell whether the next stitch names a place of its own."""
        cursor = self.cursor
        mark = cursor.at
        problems = len(self.problems)
        found = self.foundation_or_chain([Act("remark", cursor.place())])
        if not found:
            cursor.at = mark
            found = self.stitch([])
        cursor.at = mark
        del self.problems[problems:]
        return bool(found and isinstance(found[0], Make) and found[0].target is not None)

    def stitch(self, items: list[Instruction]) -> list[Instruction] | None:  # noqa: PLR0911, PLR0912, PLR0915
        """Stitches in any word order: "2 sc in next st", "sc in each st across", "sc 7", "inc"."""
        cursor = self.cursor
        start = cursor.at
        cursor.takes("work", "make", "put", "place", "do", "add", "crochet")
        cursor.skip_fillers()
        loop_before = loops(cursor)
        number: int | None = None
        if cursor.sees_kind("num") or _lone_one(cursor.now):
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
                return [Make(self.last_stitch, number, found, cursor.place(start))]
            cursor.at = start
            return None
        if (
            number is not None
            and cursor.tokens[cursor.at - 1].is_("more")
            and (cursor.now is None or cursor.sees(",", ".", ";", "and"))
        ):
            next_ones = Target(Which.NEXT, ANY, count=number)
            return [Make(self.last_stitch, 1, next_ones, cursor.place(start))]
        if cursor.takes("beg", "starting"):
            beginning = True
            cursor.takes("-")
        token = cursor.now
        if token is None:
            return None
        if token.kind == "clash":
            self._clash(token)
            cursor.next()
            target(cursor)
            return []
        increase = False
        named: str | None = None
        if (
            token.raw.lower() in ("increases", "decreases")
            and number is not None
            and (cursor.ahead_is(1, ".", ",", ";", ")") or cursor.peek() is None)
            and _worked_yet(items)
        ):
            cursor.next()  # "Six decreases." tells what the row came to
            return [Act("remark", cursor.place(start), self._raw(start))]
        if token.is_("inc", "dec", "inv"):
            stitch, increase = self._shaping()
        elif token.kind == "stitch":
            cursor.next()
            stitch = token.text
            self.last_stitch = stitch
            if cursor.takes("st"):
                pass
            elif cursor.sees("-") and cursor.ahead_is(1, "st"):
                cursor.at += 2
            if (
                cursor.sees("inc")
                or cursor.sees("dec")
                or (cursor.sees("inv") and cursor.ahead_is(1, "dec"))
            ):
                base, stitch_base = self.base, stitch
                self.base = stitch_base
                stitch, increase = self._shaping()
                self.base = base
            elif cursor.sees_kind("unit") or (cursor.sees("-") and self._unit_ahead()):
                cursor.takes("-")
                unit = cursor.next().text
                return self._n_legged(number, stitch, unit, start)
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
            return self._take_together(start, number)
        else:
            return None
        if stitch.endswith("tog") and stitch[:-3].isdigit():
            stitch = f"{self.base}{stitch}"
        stitch = self._together_after(stitch, number) or stitch
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
        where, each_after = self._where(stitch, number)
        if each_after is not None:
            each = each_after
        if where is not None and where.together and legs(stitch) == 1 and named is None:
            stitch = f"{stitch}{max(where.count, 2)}tog"
        colour = self._colour_after()
        times = 1
        if not isinstance(where, Target) or where.which is not Which.EACH:
            after = times_after(cursor)
            if after is not None:
                times = after
        if not times or number == 0:
            return [Act("remark", cursor.place(start), self._raw(start))]
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
            return self._cornered([made])
        if (
            where is not None
            and where.which is Which.NEXT
            and each > 1
            and where.count == each
            and (
                where.noun.of not in (Of.SPACE, Of.RING, Of.SKIPPED, Of.UNIT)
                and not self._each_of_next(start)
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
            and (not _worked_yet(items))
        ):
            where = replace(where, noun=Noun(Of.FROM_HOOK))
            made = replace(made, target=where)
        if where is not None and where.noun.of is Of.FROM_HOOK:
            out = self._from_hook(made, where)
        if colour:
            out = [Act("colour", cursor.place(start), colour), *out]
        if times > 1:
            if where is None and named is None and legs(stitch) == 1:
                return [replace(made, each=each * times)] if not colour else out
            return [Repeated(tuple(out), cursor.place(start), times=times, star=False)]
        return self.with_bare_before(items, out)

    def _unit_ahead(self) -> bool:
        following = self.cursor.peek()
        return following is not None and following.kind == "unit"

    def _each_of_next(self, start: int) -> bool:
        return any(token.is_("each") for token in self.cursor.tokens[start : self.cursor.at])

    def with_bare_before(
        self, items: list[Instruction], made: list[Instruction]
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
        while cut > 0 and (_bare(items[cut - 1]) and not isinstance(items[cut - 1], Picot)):
            cut -= 1
        while cut < len(items) and isinstance(items[cut], Chain):
            cut += 1
        parts = items[cut:]
        if len(parts) < 2 or not isinstance(parts[-1], Chain) or not isinstance(parts[0], Make):
            return made
        if not same and (parts[0].stitch, parts[0].each) != (last.stitch, last.each):
            return made
        if any(
            isinstance(part, Make) and (part.increase or legs(part.stitch) > 1) for part in parts
        ):
            return made
        del items[cut:]
        inside = (*parts, replace(last, target=None))
        return [GroupIn(tuple(inside), last.target, last.place)]

    def _cornered(self, made: list[Instruction]) -> list[Instruction]:
        return made

    def _together_after(self, stitch: str, number: int | None) -> str | None:
        """ "sc next 2 tog", "dc 3 together", "2 dc tog"."""
        cursor = self.cursor
        start = cursor.at
        cursor.takes("next")
        cursor.takes("the")
        count = cursor.number()
        cursor.takes("st")
        if cursor.sees_kind("stitch") and count is not None:
            cursor.next()
        if count is not None and cursor.takes("tog"):
            return f"~{stitch}{count}tog" if number is None else f"{stitch}{count}tog"
        cursor.at = start
        if number is not None and cursor.takes("tog", "worked"):
            if cursor.tokens[cursor.at - 1].is_("worked"):
                cursor.takes("tog")
            return f"~{stitch}{number}tog"
        return None

    def _shaping(self) -> tuple[str, bool]:
        """ "inc", "dec", "inv dec", "hdc dec": what they make of the row's stitch."""
        cursor = self.cursor
        cursor.takes("inv")
        token = cursor.next()
        base = self.base
        if (
            cursor.sees_kind("stitch")
            and token.is_("inc", "dec")
            and not cursor.ahead_is(1, *PREPOSITIONS)
        ):
            pass
        cursor.takes("st")
        if token.is_("inc"):
            return base, True
        return f"{base}2tog", False

    def _take_together(self, start: int, number: int | None) -> list[Instruction] | None:
        """ "take two together": the row's stitch drawn together."""
        cursor = self.cursor
        cursor.takes("next")
        count = cursor.number()
        cursor.takes("st")
        if count is None or not cursor.takes("tog"):
            return None
        return [Make(f"{self.base}{count}tog", 1, None, cursor.place(start))]

    def _n_legged(
        self, number: int | None, stitch: str, unit: str, start: int
    ) -> list[Instruction] | None:
        """ "5-dc shell", "3-tr cluster": a group of five, or one top of three legs."""
        cursor = self.cursor
        cursor.takes("st")
        where, _each = self._where(unit, None)
        count = number or 1
        place = cursor.place(start)
        if unit.removeprefix("beg ") in ("shell", "fan", "half shell", "corner shell", "V-st"):
            return [Make(stitch, count, where or Target(Which.NEXT, ANY), place)]
        written = f"{number}-{stitch} {unit}" if number else unit
        for name in self.specials:
            if _same_name(name, f"{number} {self._form(start)} {unit}") or _same_name(
                name, written
            ):
                return [Make(unit, 1, where, place, named=name)]
        return [Make(unit, 1, where, place)]

    def _form(self, start: int) -> str:
        """Return the stitch's name as it is written at the cursor's start."""
        return next(
            (t.raw for t in self.cursor.tokens[start : self.cursor.at] if t.kind == "stitch"), ""
        )

    def _where(self, stitch: str, number: int | None) -> tuple[Target | None, int | None]:
        """Take the place after a stitch; also "sc 5", "dc 2 in next st", "sc across"."""
        cursor = self.cursor
        each: int | None = None
        mark = cursor.at
        if (
            number is None
            and cursor.sees_kind("num")
            and not (
                (cursor.ahead_is(1, "-") and cursor.ahead_is(2, "ch"))
                or cursor.ahead_is(1, "times", "x", "more")
            )
        ):
            each = cursor.number()
            cursor.takes("st")
            if cursor.now is not None and cursor.sees("times"):
                cursor.at, each = mark, None
        cursor.takes("st")
        if cursor.takes("evenly"):
            runs_on(cursor)
            end = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
            cursor.at = end
            return Target(Which.NEXT, Noun(Of.ROW_END)), each
        mark = cursor.at
        if stitch != "sl st" and (until := self._across_bound()) is not None:
            return until, each
        if runs_on(cursor):
            if cursor.sees(
                "next", "each", "post", "first", "last", "same", "st", "top"
            ) or cursor.sees_kind("stitch", "num"):
                cursor.at = mark
            else:
                until_bound = bound(cursor)
                return Target(Which.EACH, ANY, until=until_bound, open=True), each
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
        if found is not None and found.together:
            cursor.takes("tog")
        return found, each

    def _across_bound(self) -> Target | None:
        """ "sc to last 2 sts", "dc across to turning ch"."""
        cursor = self.cursor
        start = cursor.at
        cursor.takes("across", "around", "along")
        if cursor.sees("to", "until", "up") and not cursor.ahead_is(
            1, "first", "top", "next", "end", "the"
        ):
            until = bound(cursor)
            if until is not None:
                return Target(Which.EACH, ANY, until=until)
        cursor.at = start
        return None

    def _colour_after(self) -> str | None:
        """ "sc 4 MC": the colour behind the count."""
        cursor = self.cursor
        token = cursor.now
        if (
            token is not None
            and token.kind == "word"
            and token.raw in ("MC", "CC", "A", "B", "C", "D", "E", "CA", "CB")
        ):
            cursor.next()
            return token.raw
        if cursor.sees("in") and cursor.peek() is not None:
            after = cursor.peek()
            if after is not None and after.raw in ("MC", "CC", "A", "B", "C", "D"):
                cursor.at += 2
                return after.raw
        return None

    def _from_hook(self, made: Make, where: Target) -> list[Instruction]:
        """ "dc in 4th ch from hook (3 skipped ch count as dc)": the chains left at the hook first."""
        cursor = self.cursor
        counts: str | None = None
        if cursor.sees("(", "["):
            end = _closing(cursor.tokens, cursor.at)
            said = counts_as_remark(cursor.tokens[cursor.at + 1 : end]) if end else None
            if end and said is not None:
                counts = said[0]
                cursor.at = end + 1
        elif cursor.sees(","):
            mark = cursor.at
            cursor.next()
            end = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
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
            joined = _and_again(cursor)
            if joined is not None:
                also = joined
        if also:
            first = replace(
                first,
                target=replace(
                    first.target or Target(Which.NEXT, chain),
                    also=tuple(replace(each, noun=_chained(each.noun)) for each in also),
                ),
            )
        out.append(first)
        return out

    def _clash(self, token: Token) -> None:
        self.problem(
            Verdict.TERM_CLASH, token.place, f'"{token.raw}" is a word of the other terms.', ""
        )

    # -- brackets ----------------------------------------------------------------------------

    def bracket(self, items: list[Instruction]) -> None:  # noqa: PLR0911, PLR0912, PLR0915
        """A bracket: a repeat, a group in one place, a colour, or a remark; what follows decides."""
        cursor = self.cursor
        start = cursor.at
        opener = cursor.next()
        end = _closing(cursor.tokens, start)
        if end is None:
            self.problem(
                Verdict.BROKEN_NOTATION,
                opener.place,
                f"The bracket {opener.raw} is opened here and never closed.",
                "Close the bracket where the repeat or the group ends.",
            )
            return
        inner = cursor.tokens[cursor.at : end]
        if self._passing_bracket(inner, items):
            cursor.at = end + 1
            return
        if not cursor.tokens[end].is_(CLOSERS[opener.text]):
            self.problem(
                Verdict.BROKEN_NOTATION,
                cursor.tokens[end].place,
                f"A bracket opened with {opener.raw} is closed with {cursor.tokens[end].raw}.",
                "Close each bracket with its own kind.",
            )
            cursor.at = end + 1
            return
        if _count_like(inner) and _ended(items) and not _more_work(cursor.tokens[end + 1 :]):
            cursor.at = end + 1  # a count in a dress not known here: never a group to work
            return
        if items and _along_an_edge(items[-1]):
            cursor.at = end + 1  # says how the stitches are spread along the edge
            return
        problems = len(self.problems)
        body = self.sequence(CLOSERS[opener.text])
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
                    tuple(_settled(body)),
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
            more = cursor.takes("more")
            items.append(
                Repeated(
                    tuple(_settled(body)),
                    place,
                    times=times,
                    star=False,
                    custom="in all" if not more else "more" if False else "in all",
                )
            )
            return
        cursor.takes("all", "both")
        cursor.takes("made", "worked")
        if cursor.sees(*PREPOSITIONS) or cursor.sees("all"):
            mark = cursor.at
            until = bound(cursor)
            if until is not None and until.kind == "last":
                items.append(Repeated(tuple(_settled(body)), place, until=until, star=False))
                return
            cursor.at = mark
            if runs_on(cursor):
                stop = bound(cursor)
                items.append(Repeated(tuple(_settled(body)), place, until=stop, star=False))
                return
            where = target(cursor)
            if where is not None:
                items.append(self._in_one(body, where, cursor.place(start)))
                again = times_after(cursor)
                if again is not None and again > 1:
                    group = items.pop()
                    items.append(Repeated((group,), place, times=again, star=False))
                return
        if (
            self.problems[problems:]
            and is_remark(inner)
            and not any(token.kind in ("stitch", "unit", "sign") for token in inner)
        ):
            del self.problems[problems:]
            items.append(Act("remark", place, " ".join(token.raw for token in inner)))
            return
        items += body

    def _in_one(self, body: list[Instruction], where: Target, place: Place) -> Instruction:
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
        return GroupIn(tuple(_settled(body)), where, place)

    def _passing_bracket(self, inner: Sequence[Token], items: list[Instruction]) -> bool:  # noqa: PLR0911
        """Pass a bracket that holds a colour, a side, a remark such as "(corner made)"."""
        if not inner:
            return True
        if any(token.is_("row", "rnd") for token in inner) and not any(
            token.kind == "num" or token.is_(*PREPOSITIONS) for token in inner
        ):
            return True
        if len(inner) == 1 and (_colour_name(inner[0]) and inner[0].kind == "word"):
            if inner[0].text in ("rs", "ws"):
                return True
            items.append(Act("colour", inner[0].place, inner[0].raw))
            return True
        said = counts_as_remark(inner)
        if said is not None:
            for index in range(len(items) - 1, -1, -1):
                item = items[index]
                if isinstance(item, Chain) and item.counts_as is None:
                    items[index] = replace(item, counts_as=said[0], throughout=said[1])
                    break
                if isinstance(item, Skip) and item.target.noun.of is Of.FROM_HOOK:
                    items[index] = replace(item, counts_as=said[0])
                    break
            return True
        if inner[0].is_("sk") and any(t.is_("behind") for t in inner):
            return True
        return any(token.is_("made", "completed", "formed") for token in inner) or (
            not any(token.kind in ("stitch", "unit") for token in inner)
            and not any(token.is_("ch", "inc", "dec", "sk") for token in inner)
            and not any(token.is_("*", "x") for token in inner)
            and is_remark(inner)
        )

    # -- repeats -----------------------------------------------------------------------------

    def repeat(self, items: list[Instruction], marks: Marks) -> list[Instruction]:
        """ "rep from * across", "rep from ** 3 more times", "repeat between *s"."""
        cursor = self.cursor
        start = cursor.at
        cursor.next()
        cursor.takes("rep")
        cursor.takes("that", "this", "these", "it")
        mark = _mark_named(cursor, marks)
        tail = repeat_tail(cursor, mark or "*")
        if mark is None:
            words = cursor.tokens[start : cursor.at]
            if not marks.starts:
                if items and not any(token.is_("row", "rnd") for token in words):
                    cut = self.sentence if 0 < self.sentence < len(items) else 0
                    if not cut and isinstance(items[0], Chain) and len(items) > 1:
                        cut = 1
                    head, body = items[:cut], items[cut:]
                    return [
                        *head,
                        Repeated(
                            tuple(_settled(body)),
                            cursor.place(start),
                            times=tail.times,
                            custom=tail.custom,
                            until=tail.until,
                            loose=tail.times is None and cut < 2,
                        ),
                    ]
                cursor.at = _clause_end(cursor.tokens, cursor.at)
                return items
            mark = next(reversed(marks.starts))
        if mark not in marks.starts:
            self.problem(
                Verdict.BROKEN_NOTATION,
                cursor.place(start),
                f"It says to repeat from {mark}, but there is no {mark} before it.",
                f"Put {mark} where the repeat begins.",
            )
            return items
        self.fold(mark, tail, items, marks)
        return items

    def trailing(self, items: list[Instruction]) -> bool:  # noqa: PLR0911, PLR0912, PLR0915
        """ "six times in all", "keep doing that all the way round", "all in same sp" after a list."""
        cursor = self.cursor
        start = cursor.at
        worked = [index for index, item in enumerate(items) if not isinstance(item, Act)]
        if not worked:
            return False
        begin = 1 if isinstance(items[worked[0]], Chain) and len(worked) > 1 else 0
        begin = worked[begin] if begin < len(worked) else worked[0]
        if cursor.takes("all", "both"):
            if cursor.sees("in", "into"):
                where = target(cursor)
                if where is not None:
                    cut = len(items)
                    while cut > 0 and _bare(items[cut - 1]):
                        cut -= 1
                    if cut < len(items):
                        group = self._in_one(items[cut:], where, cursor.place(start))
                        del items[cut:]
                        items.append(group)
                        return True
            cursor.at = start
            return False
        if (
            cursor.takes("do", "work", "make", "you", "we")
            and (cursor.takes("do", "work") or True)
            and cursor.takes("that", "this", "it", "these", "those", "all")
        ):
            cursor.takes("st", "all", "again")
            cut = self.sentence if 0 < self.sentence < len(items) else begin
            if cursor.takes_all("for", "the", "other") or cursor.takes_all("for", "other"):
                number = cursor.number()
                if number is not None:
                    cursor.at = _clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
                    body = tuple(_settled(items[cut:]))
                    del items[cut:]
                    items.append(Repeated(body, cursor.place(start), times=number + 1, star=False))
                    return True
            times = times_after(cursor)
            if times is not None:
                runs_on(cursor)
                body = tuple(_settled(items[cut:]))
                del items[cut:]
                items.append(Repeated(body, cursor.place(start), times=times, star=False))
                return True
            cursor.at = start
        cursor.at = start
        if (
            runs_on(cursor)
            and (cursor.now is None or cursor.sees(",", ".", ";"))
            and not any(_is_open(item) for item in items[begin:])
        ):
            body = tuple(_settled(items[begin:]))
            del items[begin:]
            items.append(Repeated(body, cursor.place(start), star=False, loose=True))
            return True
        cursor.at = start
        if _keeps_on(cursor):
            until = None
            if not runs_on(cursor):
                until = bound(cursor)
            body = tuple(_settled(items[begin:]))
            del items[begin:]
            items.append(Repeated(body, cursor.place(start), until=until, star=False, loose=True))
            return True
        times = times_after(cursor)
        if (
            times is not None
            and times > 1
            and (
                cursor.tokens[cursor.at - 1].is_("all", "total")
                or cursor.now is None
                or cursor.sees(".", ";", ",", "(")
            )
        ):
            body = tuple(_settled(items[begin:]))
            del items[begin:]
            items.append(Repeated(body, cursor.place(start), times=times, star=False))
            return True
        cursor.at = start
        return False

    # -- what cannot be read -----------------------------------------------------------------

    def unknown(self, items: list[Instruction]) -> None:
        """A clause that is no instruction: a remark, or a word nobody knows."""
        cursor = self.cursor
        start = cursor.at
        end = _clause_end(cursor.tokens, start, stop_at_comma=True)
        words = cursor.tokens[start:end]
        place = cursor.place(start)
        first = next((token for token in words if token.kind in ("word", "clash", "tog")), None)
        clash = next((token for token in words if token.kind == "clash"), None)
        if clash is not None:
            self._clash(clash)
        elif end < len(cursor.tokens) and cursor.tokens[end].is_(":") and not items:
            items.append(Act("remark", place, " ".join(token.raw for token in words)))
        elif first is not None and self._unknown_stitch(words, first):
            hint = self.suggest(first.text)
            self.problem(
                Verdict.UNKNOWN_WORD,
                first.place,
                f'"{first.raw}" is no stitch known here, and the pattern does not define it.',
                f'Is "{hint}" meant?'
                if hint
                else "Define it among the special stitches, or correct it.",
            )
        elif is_remark(words):
            items.append(Act("remark", place, " ".join(token.raw for token in words)))
        else:
            strange = next(
                (token for token in words if token.kind == "word" and looks_abbreviated(token)),
                first or (words[0] if words else None),
            )
            if strange is not None:
                hint = self.suggest(strange.text)
                self.problem(
                    Verdict.UNKNOWN_WORD,
                    strange.place,
                    f'"{strange.raw}" is not a word that the coach can follow here.',
                    f'Is "{hint}" meant?'
                    if hint
                    else "Say it with a stitch and a place, or define it.",
                )
        cursor.at = max(end, start + 1)

    def _unknown_stitch(self, words: Sequence[Token], first: Token) -> bool:
        """A strange word with a place after it ("crumb in next st") is a stitch nobody defined."""
        from coach.notation.remarks import KNOWN  # noqa: PLC0415

        if first.text in KNOWN and first.text not in ("de", "do", "so"):
            return False
        index = list(words).index(first)
        if index > 1:
            return False
        rest = words[index + 1 :]
        if rest and rest[0].is_("st"):
            rest = rest[1:]
        return (
            bool(rest)
            and rest[0].is_(*PREPOSITIONS)
            and any(
                token.is_("next", "each", "st", "sp", "first", "last", "same")
                or token.kind in ("stitch", "unit", "num")
                for token in rest
            )
        )

    def problem(self, code: Verdict, place: Place, message: str, hint: str) -> None:
        """Note what cannot be read."""
        self.problems.append(Problem(code, place, message, hint))


def items_before(reader: RowReader) -> bool:
    """Tell whether something was worked before the cursor (a picot needs a stitch to sit on)."""
    return any(
        token.kind in ("stitch", "unit")
        for token in reader.cursor.tokens[: max(reader.cursor.at - 6, 0)]
    )


def _stops_before_last(items: Sequence[Instruction]) -> bool:
    """Tell whether the stitches before stop at the last place, which is still to be worked."""
    for item in reversed(items):
        if isinstance(item, Make | GroupIn) and item.target is not None:
            until = item.target.until
        elif isinstance(item, Repeated | EachOf):
            until = item.until
        else:
            continue
        return until is not None and until.kind == "last" and until.count == 1
    return False


def _worked_yet(items: Sequence[Instruction]) -> bool:
    return any(isinstance(item, Make | GroupIn | EachOf | Repeated) for item in items)


def _bare(item: Instruction) -> bool:
    return isinstance(item, Chain) or (isinstance(item, Make) and item.target is None)


def _same_kind(one: Make | GroupIn, two: Make | GroupIn) -> bool:
    return one.target is not None and two.target is not None and one.target.noun == two.target.noun


def _is_open(item: Instruction) -> bool:
    if isinstance(item, Repeated):
        return item.times is None
    if isinstance(item, Make | GroupIn):
        return item.target is not None and item.target.which is Which.EACH
    return isinstance(item, EachOf)


def _only_what_it_is(inner: Sequence[Token]) -> tuple[str, bool] | None:
    """ "ch 5 (dc and ch 2)": a bracket that only names what the chain stands for."""
    if not any(token.kind == "stitch" for token in inner) or not all(
        token.kind in ("stitch", "num") or token.is_("and", "ch", "+", ",", "-", "first", "sp", "a")
        for token in inner
    ):
        return None
    return counts_as_remark([replace(inner[0], kind="word", text="counts"), *inner])


def _count_like(inner: Sequence[Token]) -> bool:
    return bool(inner) and inner[0].kind == "num" and len(inner) > 1


def _ended(items: Sequence[Instruction]) -> bool:
    """Tell whether the row was closed: joined, turned or fastened off."""
    return bool(items) and (
        isinstance(items[-1], Join)
        or (isinstance(items[-1], Act) and items[-1].kind in ("turn", "fasten off", "do not turn"))
    )


def _more_work(tokens: Sequence[Token]) -> bool:
    return any(
        token.kind in ("num", "stitch", "unit") or token.is_("x", "times", "in", "rep")
        for token in tokens
    )


def _along_an_edge(item: Instruction) -> bool:
    return isinstance(item, Make) and item.target is not None and item.target.noun.of is Of.ROW_END


def _first_chain(words: Sequence[Token]) -> bool:
    """ "first ch", "first of the 4 ch": the chain closes on itself."""
    return any(token.is_("ch") for token in words) or len(words) == 1


def _same_name(one: str, two: str) -> bool:
    plain = [re.sub(r"[^a-z0-9]+", " ", name.lower()).strip() for name in (one, two)]
    return plain[0].replace("cluster", "cl") == plain[1].replace("cluster", "cl")


def _lone_one(token: Token | None) -> bool:
    return token is not None and token.kind == "word" and token.raw in ("l", "I")


def _colour_name(token: Token | None) -> bool:
    """A colour is a capital letter, MC or CC, or a capitalised name that is no word of the craft."""
    if token is None or token.kind not in ("word", "unit"):
        return False
    return (
        (len(token.raw) == 1 and token.raw.isupper() and token.raw != "I")
        or token.raw in ("MC", "CC", "CA", "CB", "RS", "WS")
        or (token.raw[:2] == "CC" and token.raw[2:].isdigit())
    )


def _joins_yarn(words: Sequence[Token]) -> bool:
    return any(_colour_name(token) for token in words[:2]) and any(
        token.is_("any", "corner", "sp", "place") for token in words
    )


def _closing(tokens: Sequence[Token], start: int) -> int | None:
    """Return where the bracket at *start* closes, whatever its kind."""
    depth = 0
    for index in range(start, len(tokens)):
        if tokens[index].is_("(", "[", "{"):
            depth += 1
        elif tokens[index].is_(")", "]", "}"):
            depth -= 1
            if depth == 0:
                return index
    return None


def _clause_end(tokens: Sequence[Token], start: int, *, stop_at_comma: bool = False) -> int:
    stops = (".", ";", "*", "**") + (
        (",", "(", "[", ")", "]", "–", ":", '"') if stop_at_comma else (")", "]")
    )
    index = start
    while index < len(tokens) and not tokens[index].is_(*stops):
        index += 1
    return index


def _repeated_marks(tokens: Sequence[Token]) -> set[str]:
    """Return the signs that the row says to repeat from."""
    out: set[str] = set()
    for index, token in enumerate(tokens):
        if token.is_("rep"):
            for ahead in tokens[index + 1 : index + 4]:
                if ahead.is_(*STARS):
                    out.add(ahead.text)
                    break
                if not ahead.is_("from", "between", "the", "to", "instructions"):
                    break
    return out


def _mark_named(cursor: Cursor, marks: Marks) -> str | None:
    start = cursor.at
    cursor.takes("from", "between", "instructions", "after")
    cursor.skip_fillers()
    token = cursor.now
    if token is not None and token.is_(*STARS):
        cursor.next()
        return token.text
    if cursor.takes("star", "asterisk"):
        return next(reversed(marks.starts), "*")
    cursor.at = start
    return None


def _keeps_on(cursor: Cursor) -> bool:
    """Take "you keep doing that", "continue in this way", "and so on"."""
    start = cursor.at
    cursor.takes("you", "we", "and")
    if cursor.takes("keep", "continue", "cont", "carry"):
        cursor.takes("on")
        while cursor.takes(
            "doing",
            "going",
            "on",
            "that",
            "this",
            "rep",
            "in",
            "manner",
            "way",
            "like",
            "these",
            "pattern",
            "est",
            "established",
            "as",
            "the",
            "same",
            "working",
            "with",
            "it",
        ):
            pass
        if cursor.sees("all", "around", "across", "to", "round", "rnd", "until"):
            return True
        return cursor.now is None or cursor.sees(",", ".", ";")
    if cursor.takes("do", "same") and cursor.takes("that", "this", "it", "again", "the"):
        cursor.takes("again", "same")
        return cursor.sees("all", "around", "across", "to", "rnd")
    cursor.at = start
    return False


def _and_again(cursor: Cursor) -> tuple[Target, ...] | None:
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


def _chained(inner: Noun) -> Noun:
    return Noun(Of.CHAIN) if inner.of in (Of.FROM_HOOK, Of.STITCH) else inner


def _settled(items: Sequence[Instruction]) -> list[Instruction]:
    """Give bare stitches before a slip-stitch ring their ring, drop empty things."""
    return [item for item in items if item is not None]
