"""Filet squares by a designer's own names: "open mesh (om)", "blk", "beg sp".

A square is worked by what lies below it: over an open one 2 dc go into its space, over a filled
one a stitch into each stitch (common practice, no source; the counts are the Encyclopedia of
Needlework's: n squares are 3n + 1 stitches).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from coach.craft.instruction import Instruction

_STITCH = r"(?P<stitch>dc|tr|dtr|hdc|htr|double crochet|treble crochet|treble)"
_CHAINS = r"(?:(?:ch|chain)\s*(?P<one>[125])|(?P<two>[125])\s*ch)\b(?![-\s]*(?:sp|lp|loop))"
_OPEN = re.compile(
    rf"\W*{_CHAINS}[^.;]*?\b(?:sk|skip|miss)\b[^.;]*?\b(?:1\s*)?{_STITCH}\s+in(?:to)?\s+(?:the\s+)?next\b[^.;]*",
    re.IGNORECASE,
)
_FILLED = re.compile(
    rf"(?P<number>[12])\s*{_STITCH}\s+in(?:to)?\s+(?:[^,.;]{{1,40}}\bor\s+(?:in(?:to)?\s+)?)?(?:the\s+)?(?:next\s+)?(?:ch[-\s]?\d?[-\s]?|\d?[-\s]?ch[-\s]?)?(?:sp|space)\b(?:\s+or\s+[^,.;]{{1,40}})?,?\s*(?:and\s+)?(?:1\s*)?(?P=stitch)\s+in(?:to)?\s+(?:the\s+)?next\b",
    re.IGNORECASE,
)
_FILLED_OF_TWO = re.compile(
    rf"\W*(?P<number>1\s*)?{_STITCH}\s+in(?:to)?\s+(?:the\s+)?(?:next\s+)?"
    r"(?:(?:st|stitch|dc|tr)\s+or\s+(?:in(?:to)?\s+)?(?:next\s+)?(?:ch[-\s]?1[-\s]?|1[-\s]?ch[-\s]?)?(?:sp|space)"
    r"|(?:ch[-\s]?1[-\s]?|1[-\s]?ch[-\s]?)?(?:sp|space)\s+or\s+(?:in(?:to)?\s+)?(?:next\s+)?(?:st|stitch|dc|tr))\b,?\s*(?:and\s+)?"
    r"(?:1\s*)?(?P=stitch)\s+in(?:to)?\s+(?:the\s+)?next\b",
    re.IGNORECASE,
)
_PLAIN_OPEN = re.compile(
    rf"\W*{_CHAINS}\s*,\s*(?:1\s*)?{_STITCH}\s+in(?:to)?\s+(?:the\s+)?next\s+(?:dc|tr|st|stitch)\b\W*$",
    re.IGNORECASE,
)
_PLAIN_FILLED = re.compile(
    rf"\W*(?:1\s*)?{_STITCH}\s+in(?:to)?\s+(?:each\s+of\s+)?(?:the\s+)?next\s+(?P<number>[23])\b[^.;]*\W*$"
    rf"|\W*(?P<count>[23])\s*(?P<kind>dc|tr)\b(?:,?\s*(?:plus|and|after)\s+the\s+(?:dc|tr|st)\s+before(?:\s+it)?)?\W*$",
    re.IGNORECASE,
)
_SQUARE_NAME = re.compile(
    r"\b(?:open|filled|solid|closed|mesh(?:es)?|squares?|blocks?|bl[ks]?|blks|sps?|windows?|om|sm|ob|cb|os|fs)\b",
    re.IGNORECASE,
)
_BEGINNING = re.compile(
    r"\W*(?:(?:ch|chain)\s*(?P<one>[1-6])|(?P<two>[1-6])\s*ch)\b", re.IGNORECASE
)


# The abbreviations of the trade that a filet pattern defines as squares: "Sp: ch 2, sk 2 dc, dc in next dc".
_SHORT_NAME = re.compile(
    r"(?P<name>(?:beg(?:inning)?\s+|first\s+)?(?:sps?|bls?|blks?))(?P<over>\s+over\s+(?:an?\s+|the\s+)?[a-z -]+)?$",
    re.IGNORECASE,
)
# Where the next square of a list is defined: "Sp: ch 2, ... in next dc. Blk: ...".
_NEXT_DEFINITION = re.compile(r"[.;|]\s+(?=[A-Za-z][\w '()-]{0,30}\s*[:=])")
_OVER = re.compile(r"\s+over\s+(?:an?\s+|the\s+)?[a-z -]+$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Square:
    """How a square is worked over stitches, and how over a chain space."""

    over_stitches: tuple[Instruction, ...]
    over_space: tuple[Instruction, ...]


def filet_square(
    name: str, text: str, read: Callable[[str], tuple[Instruction, ...]]
) -> Square | None:
    """Return the filet square that *text* defines, or None if it is none."""
    text = _NEXT_DEFINITION.split(text, maxsplit=1)[0]
    begins = re.match(r"(?:beg|first|starting)", name.strip(), re.IGNORECASE) is not None
    named = _SQUARE_NAME.search(name) is not None
    plain = _PLAIN_FILLED.match(text) if named else None
    if (filled := _FILLED.search(text) or _FILLED_OF_TWO.match(text) or plain) is not None:
        number, stitch = _size_of_filled(filled)
        stitches = f"{stitch} in next {number + 1} sts"
        space = f"{number} {stitch} in next ch-{number} sp, {stitch} in next st"
        chain = f"ch {_standing(text, number)} (counts as {stitch}), "
    elif (opened := _OPEN.match(text) or (_PLAIN_OPEN.match(text) if named else None)) is not None:
        number, stitch = int(opened["one"] or opened["two"]), opened["stitch"]
        number = number - 3 if number > 3 else number
        over = f"ch {number}, sk next {{}}, {stitch} in next st"
        stitches, space = over.format(f"{number} sts"), over.format(f"ch-{number} sp")
        chain = f"ch {number + 3} (counts as {stitch} and ch {number}), "
        if begins:
            stitches, space = (words.split(", ", 1)[1] for words in (stitches, space))
    else:
        return None
    before = chain if begins else ""
    return Square(read(before + stitches), read(before + space))


def defines_square(name: str, text: str) -> bool:
    """Tell whether a bare "Sp" or "Bl", or a square told apart by the one below, is defined."""
    name, text = name.strip(), _NEXT_DEFINITION.split(text, maxsplit=1)[0]
    named = _SHORT_NAME.match(name) or (_OVER.search(name) and _SQUARE_NAME.search(name))
    return bool(named) and bool(
        _FILLED.search(text)
        or _FILLED_OF_TWO.match(text)
        or _PLAIN_FILLED.match(text)
        or _OPEN.match(text)
        or _PLAIN_OPEN.match(text)
    )


def name_of_square(name: str) -> str:
    """Return the name of a square less what lies below it: "bl" of "Bl over a sp"."""
    return _OVER.sub("", name)


def _size_of_filled(found: re.Match[str]) -> tuple[int, str]:
    """Return (how many stitches go into the space, the stitch) of a filled square."""
    groups = found.groupdict()
    if groups.get("count"):
        return int(groups["count"]) - 1, groups["kind"]
    number = int(groups["number"] or 1)
    wide = found.re in (_FILLED, _FILLED_OF_TWO)
    return (number if wide else number - 1), groups["stitch"]


def _standing(text: str, number: int) -> int:
    """Return how long the chain at a filled square's beginning is: as said, or 3."""
    found = _BEGINNING.match(text)
    said = int(found["one"] or found["two"]) if found else 0
    return said if said > number else 3
