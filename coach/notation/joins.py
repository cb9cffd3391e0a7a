"""How a round closes and where new yarn begins: "join with sl st in first sc".

What the join makes is decided by the proof.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.instruction import (
    Act,
    Chain,
    Instruction,
    Join,
    Make,
    Noun,
    Of,
    Skip,
    Target,
    Which,
)
from coach.notation.clauses import clause_end, colour_name, first_chain, joins_yarn, worked_yet
from coach.notation.nouns import PREPOSITIONS
from coach.notation.row_state import RowState
from coach.notation.targets import target
from coach.notation.tokens import Token


def joins(reader: RowState, items: list[Instruction]) -> list[Instruction] | None:  # noqa: PLR0911
    """ "join with sl st in first sc", "sl st in first ch to form ring", "ss to top of 3ch"."""
    cursor = reader.cursor
    start = cursor.at
    ring = False
    if cursor.sees("attach", "rejoin", "reattach"):
        return join_yarn(reader)
    if cursor.takes("join", "close", "connect"):
        if cursor.sees_kind("word") and (
            cursor.sees("yarn", "new", "next") or colour_name(cursor.now)
        ):
            cursor.at = start
            return join_yarn(reader)
        end = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
        words = cursor.tokens[cursor.at : end]
        ring = any(token.is_("ring", "circle", "twist", "twisting") for token in words)
        with_ = cursor.takes("with", "by")
        if with_:
            chained = closing_space(reader)
            if chained:
                return chained
        name = next((t.text for t in words if t.kind == "stitch"), "sl st") if with_ else "sl st"
        if with_slip_stitch(reader, words):
            name = "sl st"
        into = " ".join(token.raw for token in words)
        cursor.at = end
        if not worked_yet(items) and name not in ("sl st",) and not ring:
            cursor.at = start
            return join_yarn(reader)
        if joins_yarn(words):
            cursor.at = start
            return join_yarn(reader)
        return [Join(cursor.place(start), "sl st" if name == "sl st" else name, into, ring=ring)]
    token = cursor.now
    if token is not None and token.kind == "stitch" and token.text == "sl st":
        return slip_join(reader, items)
    return None


def closing_space(reader: RowState) -> list[Instruction] | None:
    """ "close with ch 1, dc in first dc": the join makes the last space."""
    cursor = reader.cursor
    start = cursor.at
    if cursor.takes("ch"):
        count = cursor.number() or 1
        cursor.takes(",")
        cursor.takes("and")
        token = cursor.now
        if token is not None and token.kind == "stitch":
            cursor.next()
            cursor.at = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
            place = cursor.place(start)
            return [Chain(count, place), Join(place, token.text, "first stitch")]
    cursor.at = start
    return None


def with_slip_stitch(reader: RowState, words: Sequence[Token]) -> bool:
    """Tell whether the clause names a slip stitch."""
    return any(token.kind == "stitch" and token.text == "sl st" for token in words)


def slip_join(reader: RowState, items: list[Instruction]) -> list[Instruction] | None:
    """A slip stitch into the first stitch or the beginning chain closes the round."""
    cursor = reader.cursor
    start = cursor.at
    cursor.next()
    cursor.takes("join")
    if not cursor.takes("in", "into", "to", "with", "through", "on"):
        if cursor.takes("join"):
            return [Join(cursor.place(start))]
        return None
    end = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
    words = cursor.tokens[cursor.at : end]
    ring = any(token.is_("ring", "circle") for token in words)
    first = any(token.is_("first") for token in words)
    to_join = any(token.is_("join") for token in words)
    top = any(token.is_("top") for token in words) or (
        any(token.kind == "ord" for token in words)
        and any(token.is_("ch", "beg", "tch") for token in words)
    )
    begins = any(token.is_("beg", "starting", "tch") for token in words)
    made = worked_yet(items)
    only_chain = bool(items) and all(isinstance(item, Chain | Act) for item in items)
    from_hook = any(token.is_("hook") for token in words)
    if from_hook:
        return None
    if (
        ring
        or (only_chain and first and first_chain(words))
        or (made and (first or top or begins or to_join))
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


def join_yarn(reader: RowState) -> list[Instruction] | None:
    """ "join B in any corner sp": a new beginning at a place."""
    cursor = reader.cursor
    start = cursor.at
    cursor.next()
    end = clause_end(cursor.tokens, cursor.at, stop_at_comma=True)
    end = next((at for at in range(cursor.at, end) if _goes_on(cursor.tokens[at : at + 3])), end)
    text = " ".join(token.raw for token in cursor.tokens[cursor.at : end])
    out: list[Instruction] = []
    while cursor.at < end:
        if cursor.takes("with"):
            cursor.skip_fillers()
            stitch = cursor.now
            if stitch is not None and stitch.kind == "stitch" and stitch.text != "sl st":
                out += _standing_where_joined(reader, out)
                break  # a standing stitch: it is worked
            continue
        if cursor.sees(*PREPOSITIONS):
            where = target(cursor)
            if where is not None:
                out.append(Skip(replace(where, which=Which.ANY), cursor.place(start)))
                continue
        cursor.next()
    else:
        cursor.at = end
    named = [token for token in cursor.tokens[start + 1 : end] if not token.is_(*_OF_YARN)]
    color = named[0].raw if named and colour_name(named[0]) else None
    return [Act("join yarn", cursor.place(start), text, color), *out]


def _standing_where_joined(reader: RowState, out: Sequence[Instruction]) -> list[Instruction]:
    """ "join B in first st with a standing sc": the stitch stands where the yarn was joined.

    Nothing is taken where the stitch names its own place, or no place was named before it.
    """
    cursor = reader.cursor
    where = next((item.target for item in out if isinstance(item, Skip)), None)
    if where is None or (
        cursor.peek() is not None and not cursor.ahead_is(1, ",", ".", ";", "and", "then")
    ):
        return []
    place = cursor.place(cursor.at)
    stitch = cursor.next().text
    of = Of.SPACE if where.noun.of is Of.SPACE else Of.STITCH
    return [Make(stitch, 1, Target(Which.SAME, Noun(of)), place)]


def _goes_on(words: Sequence[Token]) -> bool:
    """Tell whether "and work sc ...", "and sc ..." goes on after the joining."""
    return (
        len(words) > 2
        and words[0].is_("and", "then")
        and (
            words[1].kind == "stitch"
            or (words[1].is_("work") and words[2].kind in ("stitch", "num"))
        )
    )


_OF_YARN = ("with", "the", "in", "new", "yarn", "colour")
