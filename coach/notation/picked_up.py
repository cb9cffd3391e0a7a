"""Rows picked up along an edge: how many, where the words leave it to the count or tell it by sides.

"Sc evenly around (52)", "work sc evenly round: 6 along the short side, 20 along the other",
"3 sc in the corner, 18 sc evenly down the side": an edge has no stitches of its own to count,
so what is stated is taken (common practice, no source).
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TypeGuard

from coach.craft.instruction import Act, Chain, Instruction, Make, Noun, Of, Skip, Target, Which
from coach.craft.pattern import Stated
from coach.notation.edges_named import MOST_IN_ONE
from coach.notation.tokens import Token

_SIDE = re.compile(
    r"(?:\b(?:and|then)\s+)?(?<![-\w])(\d+)\s+(?:[a-z]+\s+)?(?:along|across|down|up|on|around|over|to)\b"
    r"(?P<all>\s+(?:each|every|both|all|the\s+(?:two|four))(?:\s+of\s+the)?(?:\s+(?:two|four|2|4))?\s+(?P<which>long\w*|short\w*|other|opposite)?)?",
    re.IGNORECASE,
)
_CORNERS = re.compile(
    r"(?<![-\w])(\d+)\s+(?:[a-z]+\s+)?(?:in|at|into)\s+(?:each|every|all(?:\s+four)?)\s+corners?\b",
    re.IGNORECASE,
)
_EDGE = Target(Which.NEXT, Noun(Of.ROW_END))


def row_ends_named(tokens: Sequence[Token]) -> list[Token]:
    """Return *tokens* with "the end of each row" and "the side of every row" as "each row end"."""
    out: list[Token] = []
    index = 0
    if len(tokens) > 3 and tokens[0].is_("pick") and tokens[1].is_("up"):
        tokens = tokens[3:] if tokens[2].is_("and") else tokens[2:]
    while index < len(tokens):
        after = [token.text for token in tokens[index + 1 : index + 5]]
        length = 3 if after[:1] == ["of"] and after[1:2] == ["each"] else 0
        if after[:3] == ["of", "the", "each"]:
            length = 4
        row = tokens[index + length] if index + length < len(tokens) else None
        if (
            tokens[index].is_("end", "side")
            and length
            and row is not None
            and row.is_("row", "rnd")
        ):
            if out and out[-1].is_("the"):
                out.pop()
            each = next(token for token in tokens[index:] if token.is_("each"))
            out += [each, row, replace(tokens[index], text="end")]
            index += length + 1
            continue
        out.append(tokens[index])
        index += 1
    return out


def along_edges(
    items: tuple[Instruction, ...],
    stated: Sequence[Sequence[Stated]],
    rules: Mapping[int, str] | None = None,
) -> tuple[Instruction, ...]:
    """Return *items* of a row that is picked up along edges, with the number that each edge has.

    rules: what the pattern's notes say that a chain of so many counts as.
    """
    edges = [item for item in items if _is_edge(item)]
    if not edges:
        return items
    out = tuple(_counted(item) for item in items if not _begins_at_corner(item))
    open_edges = [item for item in out if _is_edge(item) and item.each == 1 and item.times == 1]
    if len(open_edges) != 1 or any(_lies_below(item) for item in out):
        return out
    told = _by_sides(out)
    total = _total(stated)
    others = sum(item.each * item.times for item in out if isinstance(item, Make)) - 1
    others += sum(1 for item in out if isinstance(item, Chain) and _counts(item, rules or {}))
    number = told or (total - others if total else 0)
    if number < 1:
        return out
    return tuple(replace(item, each=number) if item is open_edges[0] else item for item in out)


def _counts(chain: Chain, rules: Mapping[int, str]) -> bool:
    """Tell whether a beginning chain is one of the stitches, by its own words or by the notes."""
    return bool(rules.get(chain.count) if chain.counts_as is None else chain.counts_as)


def _is_edge(item: Instruction) -> TypeGuard[Make]:
    return (
        isinstance(item, Make)
        and item.target is not None
        and item.target.noun.of is Of.ROW_END
        and item.target.which is Which.NEXT
        and item.target.count == 1
    )


def _begins_at_corner(item: Instruction) -> bool:
    """Tell whether yarn is joined "in any corner": an edge has one with or without a space."""
    return isinstance(item, Skip) and item.target.noun == Noun(Of.SPACE, "corner")


def _counted(item: Instruction) -> Instruction:
    """A corner of an edge, and "18 sc across the top", which is eighteen in all."""
    if not isinstance(item, Make) or item.target is None:
        return item
    where = item.target
    if where.which is Which.CORNER and where.noun == Noun(Of.SPACE, "corner"):
        return replace(item, target=replace(_EDGE, count=where.count))
    if where.which is Which.EACH and where.open and where.until is None and item.each > MOST_IN_ONE:
        return replace(item, target=_EDGE)
    return item


def _lies_below(item: Instruction) -> bool:
    """Tell whether how many it makes depends on what lies below."""
    if not isinstance(item, Make) or item.target is None:
        return not isinstance(item, Make | Act | Chain) and type(item).__name__ != "Join"
    return item.target.which is Which.EACH


def _by_sides(items: Sequence[Instruction]) -> int:
    """Return the sum of "6 along the short side, 20 along the foundation edge ..."."""
    told = 0
    for before, item in itertools.pairwise((None, *items)):
        if not isinstance(item, Act) or item.kind != "remark":
            continue
        text = item.text
        if isinstance(before, Make) and before.target is None:  # "10 sc | along each short side"
            text = f"{before.each} {before.stitch} {text}"
            told -= before.each
        sides = [(int(found[1]), _sides_meant(found)) for found in _SIDE.finditer(text)]
        told += sum(number * times for number, times in sides)
        if any(times > 1 for _, times in sides):
            told += sum(4 * int(found[1]) for found in _CORNERS.finditer(text))
    return told


def _sides_meant(found: re.Match[str]) -> int:
    """Return how many sides of the four have the number: "each side", "both short sides", "the top"."""
    if not found["all"]:
        return 1
    two = found["which"] or re.search(r"\b(?:both|two|2)\b", found["all"], re.IGNORECASE)
    return 2 if two else 4


def _total(stated: Sequence[Sequence[Stated]]) -> int:
    """Return the stitches that are stated, chain spaces apart."""
    if not stated:
        return 0
    return sum(
        each.number for each in stated[0] if each.noun is None or each.noun.of is not Of.SPACE
    )
