"""Stitches of the trade: names in US terms, heights, families, and the UK names beside them.

Every stitch inside the program has its US abbreviation. What a pattern calls by another name
(UK terms, words in full) is turned at the door, by the reader.

The US and UK pairs are those of the trade's published tables (single crochet = UK double
crochet, half double = half treble, double = treble, treble = double treble, double treble =
triple treble).
"""

from __future__ import annotations

import re
from collections.abc import Mapping

HEIGHTS: Mapping[str, int] = {
    "sl st": 0,
    "sc": 1,
    "hdc": 2,
    "dc": 3,
    "tr": 4,
    "dtr": 5,
    "trtr": 6,
}
"""Turning chain of each stitch (common practice, as the handbooks print it)."""

FULL_NAMES: Mapping[str, str] = {
    "sl st": "slip stitch",
    "sc": "single crochet",
    "hdc": "half double crochet",
    "dc": "double crochet",
    "tr": "treble crochet",
    "dtr": "double treble crochet",
    "trtr": "triple treble crochet",
    "ch": "chain",
}

UK_TO_US: Mapping[str, str] = {
    "ss": "sl st",
    "sl st": "sl st",
    "dc": "sc",
    "htr": "hdc",
    "tr": "dc",
    "dtr": "tr",
    "ttr": "dtr",
    "trtr": "dtr",
    "qtr": "trtr",
}

US_TO_UK: Mapping[str, str] = {
    "sl st": "ss",
    "sc": "dc",
    "hdc": "htr",
    "dc": "tr",
    "tr": "dtr",
    "dtr": "trtr",
    "trtr": "qtr",
}

UK_FULL_NAMES: Mapping[str, str] = {
    "ss": "slip stitch",
    "dc": "double crochet",
    "htr": "half treble",
    "tr": "treble",
    "dtr": "double treble",
    "trtr": "triple treble",
    "qtr": "quadruple treble",
}

ONE_TOP = frozenset({"bobble", "puff", "popcorn", "pc", "cl", "cluster", "mb", "bo", "tuft"})
"""Stitches of several legs that close to one top, whatever the pattern calls them."""

LEG = "leg"
"""What a beginning chain counts as that is only one leg of a decrease or cluster: no top of its own."""

CLUSTERS = frozenset({"cl", "cluster"})
_LEGGED = re.compile(r"^(?:beg )?\d+-[\w ]+? (?=\w+$)")
_TOGETHER = re.compile(r"^(?P<base>.+?)(?P<legs>\d+)tog$")
_POST = re.compile(r"^(?P<side>FP|BP)(?P<base>.+)$")
_IN_ONE = re.compile(r"^(?P<base>.+?)(?P<legs>\d+tog)$")
_BEFORE = re.compile(
    r"^(?P<before>FP|BP|rev |long |spike |f|e|lsc |x)?(?P<base>sl st|sc|hdc|dc|trtr|dtr|tr)$"
)
_PREFIX = re.compile(r"^(?:f|e|rev |long |spike |lsc |x)(?=(?:sc|hdc|dc|tr)$)")


def called(stitch: str, *, uk: bool) -> str:
    """Return what a pattern in its own terms calls *stitch*: UK "dc" for "sc", "tr2tog" for "dc2tog"."""
    if not uk:
        return stitch
    if found := _IN_ONE.match(stitch):
        return called(found["base"], uk=uk) + found["legs"]
    if found := _BEFORE.match(stitch):
        return (found["before"] or "") + US_TO_UK[found["base"]]
    return stitch


def full_name(stitch: str, *, uk: bool) -> str:
    """Return the name of *stitch* in full: "front post double crochet", UK "front post treble"."""
    side = {"FP": "front post ", "BP": "back post "}.get(stitch[:2], "")
    plain = stitch[2:] if side else stitch
    if uk and plain in US_TO_UK:
        return side + UK_FULL_NAMES[US_TO_UK[plain]]
    name = FULL_NAMES.get(plain)
    return side + name if name else called(stitch, uk=uk)


def family(stitch: str) -> str:
    """Return the plain stitch that *stitch* is a kind of: "FPdc", "dc3tog" and "fdc" are "dc"."""
    if found := _TOGETHER.match(stitch):
        stitch = found["base"]
    if found := _POST.match(stitch):
        stitch = found["base"]
    return _PREFIX.sub("", stitch)


def legs(stitch: str) -> int:
    """Return how many places a decrease draws together: 2 for "sc2tog", 1 for plain stitches."""
    found = _TOGETHER.match(stitch)
    return int(found["legs"]) if found else 1


def height(stitch: str) -> int | None:
    """Return the chains that stand for *stitch* at a row's beginning, None if it has no height."""
    return HEIGHTS.get(family(stitch))


def answers_to(stitch: str, name: str) -> bool:
    """Tell whether a stitch below may be called *name*: "dc" takes FPdc and dc2tog too."""
    if stitch in (name, "st"):
        return True
    base = family(stitch)
    if base == name or base == family(name):
        return True
    stitch, name = _LEGGED.sub("", stitch), _LEGGED.sub("", name)
    if stitch in ONE_TOP and name in ONE_TOP and (stitch == name or {stitch, name} <= CLUSTERS):
        return True
    return stitch.removeprefix("beg ") == name.removeprefix("beg ")
