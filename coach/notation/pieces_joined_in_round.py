"""A round over pieces that were made before: two legs joined into a body, with or without a chain.

"Ch 3, 15 sc around the first leg, 3 sc along the ch, 15 sc around the second leg, 3 sc along the
other side of the ch (36)": each clause gives its stitches in all, and none lies on the row just
worked (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from coach.craft.instruction import Act, Instruction, Make, Noun, Of, Target, Which
from coach.craft.pattern import Stated
from coach.craft.problem import Place
from coach.notation.tokens import Token

_WHICH = r"(?:first|second|third|fourth|other|left|right|next|previous|same|1st|2nd|3rd|4th)"
_THING = r"(?:leg|arm|ear|foot|paw|piece|panel|strap|half|toe|sleeve|finger|tube)"
_PIECE = re.compile(
    rf"\b(?:{_WHICH}\s+(?:\w+\s+)?{_THING}\b|{_THING}\s+(?:\d|one|two|three|a|b|c)\b|both\s+{_THING}s?)"
)
_CHAIN = re.compile(r"\b(?:ch|chs|chain|chains)\b")
_OVER = r"(?:a?round|along|across|on|onto|over|in|into|down|up|from|of)"
_PLACES = r"(?:(?:the|each|every|all|any|next|of|st|sts|around)\s+)*"
_CLAUSES = (
    re.compile(rf"(?P<n>\d+) §(?P<stitch>\S+) (?:evenly )?{_OVER} (?P<where>.+)"),
    re.compile(rf"§(?P<stitch>\S+) (?:evenly )?(?P<n>\d+) (?:st |sts )?{_OVER} (?P<where>.+)"),
    re.compile(
        rf"§(?P<stitch>\S+) (?:evenly )?(?:in|into) {_PLACES}(?P<n>\d+) (?P<where>(?:st|sts|ch|chs|§\S+)(?: .*)?)"
    ),
    re.compile(
        rf"(?:(?P<n>1) )?§(?P<stitch>\S+) (?:evenly )?(?:in|into) (?P<one>any|a|1|first|next) (?:st|§\S+) (?P<where>{_OVER} .*)"
    ),
    re.compile(rf"§(?P<stitch>\S+) (?:evenly )?{_OVER} {_PLACES}(?P<where>.+)"),
)
_NOTHING_WORKED = re.compile(
    r"\b(?:join(?:ing)?|attach|hold(?:ing)?|insert|hook|line|place|mark(?:er)?|careful|gap|twist|begin|body)\b"
)


@dataclass(frozen=True, slots=True)
class _Clause:
    """One clause: so many of a stitch (None: as many as are there), and where they go."""

    stitch: str
    number: int | None
    where: str
    place: Place


def over_pieces(
    tokens: Sequence[Token], stated: Sequence[Sequence[Stated]]
) -> tuple[Instruction, ...] | None:
    """Return the instructions of a round that is worked over other pieces; None for any other row."""
    words = _written(tokens)
    if not _PIECE.search(words) or "*" in words or "[" in words:
        return None
    read: list[_Clause | Act] = []
    for clause in _clauses(tokens):
        said = _read(clause)
        if said is None:
            return None
        read.append(said)
    worked = [each for each in read if isinstance(each, _Clause)]
    if not worked or not any(_PIECE.search(each.where) for each in worked):
        return None
    share = _share(worked, stated)
    if share is None:
        return None
    return tuple(
        each
        if isinstance(each, Act)
        else Make(
            each.stitch,
            each.number or share,
            Target(Which.NEXT, Noun(Of.ROW_END), remark=each.where),
            each.place,
        )
        for each in read
    )


def _written(tokens: Sequence[Token]) -> str:
    return " ".join(f"§{each.text}" if each.kind == "stitch" else each.text for each in tokens)


def _clauses(tokens: Sequence[Token]) -> list[list[Token]]:
    """Part the words at commas, full stops and "then"; a bracket is a number of its clause."""
    out: list[list[Token]] = [[]]
    for token in tokens:
        if token.is_(",", ";", ".", ":", "then"):
            out.append([])
        elif not token.is_("(", ")"):
            out[-1].append(token)
    return [clause for clause in out if clause]


def _read(clause: Sequence[Token]) -> _Clause | Act | None:
    """Return what a clause works and where, or what it does besides; None where it is neither."""
    words = _written(clause).removeprefix("and ").removeprefix("work ")
    place = clause[0].place
    if re.fullmatch(r"(?:make )?(?:ch \d+|\d+ ch)(?: (?:more|to join|for .*))?", words):
        return Act("remark", place, f"Chain {re.sub(r'[^0-9]', '', words)}")
    found = next((each for pattern in _CLAUSES if (each := pattern.fullmatch(words))), None)
    if found is not None:
        return _worked(found, place)
    if _NOTHING_WORKED.search(words) and "§" not in words.replace("§sl st", ""):
        return Act("remark", place, " ".join(token.raw for token in clause))
    return None


def _worked(found: re.Match[str], place: Place) -> _Clause | None:
    given = found.groupdict()
    where = given["where"]
    over_chain = _CHAIN.search(where) is not None
    if not (_PIECE.search(where) or over_chain or re.fullmatch(r"sts?(?: around)?", where)):
        return None
    number = given.get("n") or ("1" if given.get("one") else None)
    if number is None and (last := re.search(r" (\d+)$", where)):  # "around first leg (15)"
        number, where = last[1], where[: last.start()]
    if number is None and over_chain:
        return None
    return _Clause(given["stitch"], int(number) if number else None, _told(where), place)


def _told(where: str) -> str:
    """Return where a clause goes, as it is told: "the first leg", "the other side of the chain"."""
    words = re.sub(rf"^(?:(?:st|sts|§\S+)\s+)?(?:{_OVER}\s+)?", "", where)
    words = re.sub(r"\bchs?\b", "chain", words.replace("§", "")).strip()
    return words if words.startswith(("the ", "other", "both")) else f"the {words}"


def _share(worked: Sequence[_Clause], stated: Sequence[Sequence[Stated]]) -> int | None:
    """Return how many go over each piece whose number is not said; 0 where all are, None where none fits."""
    unsaid = sum(each.number is None for each in worked)
    if not unsaid:
        return 0
    total = sum(figure.number for figure in stated[0]) if stated else 0
    share, rest = divmod(total - sum(each.number or 0 for each in worked), unsaid)
    return share if share > 0 and not rest else None
