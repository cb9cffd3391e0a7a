"""Rows picked up along an edge: how many, where the words leave it to the count or tell it by sides.

"Sc evenly around (52)", "work sc evenly round: 6 along the short side, 20 along the other",
"3 sc in the corner, 18 sc evenly down the side": an edge has no stitches of its own to count,
so what is stated is taken (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TypeGuard

from coach.craft.pattern import Act, Chain, Instruction, Make, Noun, Of, Skip, Stated, Target, Which
from coach.notation.edges_named import MOST_IN_ONE
from coach.notation.tokens import Token

_SIDE = re.compile(
    r"(?:\b(?:and|then)\s+)?(?<![-\w])(\d+)\s+(?:[a-z]+\s+)?(?:along|across|down|up|on|around|over|to)\b",
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


_EDGES = frozenset(
    [
        "edge",
        "edges",
        "outside",
        "border",
        "perimeter",
        "sides",
        "blanket",
        "mat",
        "piece",
        "square",
        "afghan",
        "throw",
        "shawl",
        "cloth",
        "rug",
        "cushion",
        "panel",
        "scarf",
        "cover",
        "bag",
        "motif",
        "pattern",
        "work",
        "project",
        "swatch",
        "body",
        "top",
        "bottom",
        "brim",
        "opening",
        "neckline",
        "neck",
        "armhole",
        "cuff",
        "hem",
        "runner",
        "coaster",
        "pad",
    ]
)
_AROUND_WHAT = (
    "the",
    "all",
    "entire",
    "whole",
    "outer",
    "complete",
    "of",
    "four",
    "this",
    "your",
    "finished",
    "each",
)


def is_edging(text: str) -> bool:
    """Tell whether a sentence is a round along the edges that states its count."""
    return _EDGING.match(text) is not None and _STATES.search(text) is not None


_EDGING = re.compile(
    r"\W*(?:(?:with|using)\s+[^.:]{1,40}?[.,]\s*)*(?:(?:re)?(?:join|attach)[^.]{0,50}[.,;]\s*)?(?:ch\s*1\s*[.,;]\s*)?(?:then\s+)?"
    r"(?:work\s+)?(?:(?:one|1|a)\s+(?:round|rnd|row)\s+(?:of|in)\s+)?(?:\d+\s*)?(?:sc|hdc|dc|htr|(?:single|half\s+double|double)\s+crochet)\s+(?:evenly\s+)?(?:all\s+)?(?:a?round|along)\b",
    re.IGNORECASE,
)
_STATES = re.compile(
    r"[(\[]\s*\d+\s*(?:sts?|stitches|sc|hdc|dc|htr|tr)?[^()\[\]]*[)\]][\s.]*$|\b\d+\s*(?:sts?|stitches|sc|hdc|dc|htr|tr)?(?:\s+in\s+all)?[\s.]*$",
    re.IGNORECASE,
)


def edges_named(tokens: Sequence[Token]) -> list[Token]:
    """Return *tokens* with "sc around the blanket", "sc all round the outer edge" as "sc evenly around"."""
    out: list[Token] = []
    index = _one_round_of(tokens)
    while index < len(tokens):
        end = _edge_phrase(tokens, index)
        after_stitch = any(token.kind == "stitch" for token in out[-3:])
        if not end or not after_stitch or any(token.is_("evenly") for token in out[-3:]):
            out.append(tokens[index])
            index += 1
            continue
        word = tokens[index]
        out += [replace(word, text="evenly"), replace(word, text="around")]
        index = end
    return out


def _one_round_of(tokens: Sequence[Token]) -> int:
    """Return the end of "work one round of" before a stitch; 0 without it."""
    begin = next((at for at, each in enumerate(tokens[:2]) if not each.is_("work")), 0)
    words = [token.text for token in tokens[begin : begin + 3]]
    told = (
        len(words) == 3
        and words[0] in ("1", "one", "a")
        and words[1:] in (["rnd", "of"], ["rnd", "in"])
    )
    return (
        begin + 3 if told and len(tokens) > begin + 3 and tokens[begin + 3].kind == "stitch" else 0
    )


def _edge_phrase(tokens: Sequence[Token], index: int) -> int:
    """Return the end of "around the outer edge of the blanket" that begins at *index*; 0 for none."""
    at = index + tokens[index].is_("all", "right")
    if at >= len(tokens) or not tokens[at].is_("around", "round", "along"):
        return 0
    at += 1
    begin = at
    named = False
    while at < len(tokens) and tokens[at].kind == "word":
        if tokens[at].text in _EDGES:
            named = True
        elif not tokens[at].is_(*_AROUND_WHAT):
            break
        at += 1
    whole = (
        tokens[begin].is_("the", "all", "entire", "whole", "outer", "outside", "this")
        if begin < len(tokens)
        else False
    )
    return at if named and whole else 0


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
    told = [
        int(found[1])
        for item in items
        if isinstance(item, Act) and item.kind == "remark"
        for found in _SIDE.finditer(item.text)
    ]
    return sum(told)


def _total(stated: Sequence[Sequence[Stated]]) -> int:
    """Return the stitches that are stated, chain spaces apart."""
    if not stated:
        return 0
    return sum(
        each.number for each in stated[0] if each.noun is None or each.noun.of is not Of.SPACE
    )
