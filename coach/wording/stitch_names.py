"""What each stitch is called aloud, in US or UK terms. Never an abbreviation, never a sign.

Source of the US and UK pairs: "Crochet terms by country" and "Difference between UK and US
crochet terms"; UK "quadruple treble" is from memory.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from coach.wording.plain_text import say

BASES: Mapping[str, Mapping[str, str]] = {
    "US": {
        "sl st": "slip stitch",
        "sc": "single crochet",
        "hdc": "half double crochet",
        "dc": "double crochet",
        "tr": "treble crochet",
        "dtr": "double treble crochet",
        "trtr": "triple treble crochet",
    },
    "UK": {
        "sl st": "slip stitch",
        "sc": "double crochet",
        "hdc": "half treble crochet",
        "dc": "treble crochet",
        "tr": "double treble crochet",
        "dtr": "triple treble crochet",
        "trtr": "quadruple treble crochet",
    },
}

# Stitches that are called alike in both terms. Where a designer defines one of these names
# anew, the definition goes with the pattern, not with this table.
NAMES: Mapping[str, str] = {
    "ch": "chain",
    "st": "stitch",
    "sp": "space",
    "bobble": "bobble",
    "bo": "bobble",
    "mb": "bobble",
    "tuft": "tuft",
    "puff": "puff stitch",
    "puff st": "puff stitch",
    "pc": "popcorn",
    "popcorn": "popcorn",
    "cl": "cluster",
    "cluster": "cluster",
    "shell": "shell",
    "fan": "fan",
    "v-st": "V stitch",
    "v st": "V stitch",
    "picot": "picot",
    "p": "picot",
    "loop st": "loop stitch",
    "bullion": "bullion stitch",
    "bead st": "bead stitch",
    "star st": "star stitch",
    "bean st": "bean stitch",
    "x-st": "crossed stitch",
    "y-st": "Y stitch",
    "cross st": "crossed stitch",
    "block": "block",
    "bl": "block",
    "lacet": "lacet",
    "love knot": "love knot",
}

_BEFORE: Mapping[str, str] = {
    "beg": "beginning",
    "beginning": "beginning",
    "standing": "standing",
    "half": "half",
    "inv": "invisible",
    "invisible": "invisible",
    "crossed": "crossed",
    "cross": "crossed",
    "spike": "spike",
    "long": "long",
    "linked": "linked",
    "extended": "extended",
    "ext": "extended",
    "foundation": "foundation",
    "fnd": "foundation",
    "reverse": "reverse",
    "rev": "reverse",
    "camel": "camel",
    "moss": "moss",
    "corner": "corner",
    "large": "large",
    "small": "small",
    "double": "double",
    "triple": "triple",
    "front": "front",
    "back": "back",
    "tall": "tall",
    "center": "middle",
    "centre": "middle",
    "waistcoat": "waistcoat",
    "herringbone": "herringbone",
}

_POSTS = {"fp": "front post", "bp": "back post"}
_LETTERS = {"f": "foundation", "e": "extended", "r": "reverse", "l": "linked", "x": "crossed"}

_BASE = r"trtr|dtr|hdc|sc|dc|tr|sl st"
_POST = re.compile(rf"(fp|bp)({_BASE})", re.I)
_POST_AFTER = re.compile(rf"({_BASE})(fp|bp)", re.I)
_TOGETHER = re.compile(rf"(fp|bp)?({_BASE}|puff|bobble|cl)(\d+)tog", re.I)
_LETTER = re.compile(r"([fserlx])(sc|hdc|dc|tr|dtr)", re.I)
_MADE_OF = re.compile(rf"(\d+)-?\s?({_BASE})\s?-?\s?(.+)", re.I)

_PLURAL_ALIKE = re.compile(r"(crochet|together|single|double|treble)$")


def stitch_name(stitch: str, terms: str = "US") -> str:
    """Return the whole spoken name of *stitch* (a US abbreviation) in *terms*."""
    plain = stitch.strip()
    key = plain.lower()
    bases = BASES["UK" if terms.upper() == "UK" else "US"]
    known = bases.get(key) or NAMES.get(key) or _PHRASES.get(key)
    return known or _composed(plain, key, terms, bases) or say(plain, terms)


def stitches_named(stitch: str, count: int, terms: str = "US") -> str:
    """Return *count* and the name: "3 double crochet", "1 bobble", "2 bobbles"."""
    return f"{count} {plural(stitch_name(stitch, terms), count)}"


def plural(name: str, count: int) -> str:
    """Return *name* for *count* of it: the trade says "3 double crochet", but "3 bobbles"."""
    whole, of, parts = name.partition(" of ")
    if of:  # "2 clusters of 3 double crochet"
        return f"{plural(whole, count)}{of}{parts}"
    if count == 1 or _PLURAL_ALIKE.search(name):
        return name
    if name.endswith(("s", "ch", "sh", "x")):
        return f"{name}es"
    return f"{name}s"


def short_name(stitch: str, terms: str = "US") -> str:
    """Return the name as it dominates a screen: "front post double" needs no "crochet"."""
    name = stitch_name(stitch, terms)
    if name.count(" ") >= 2 and name.endswith(" crochet"):
        return name.removesuffix(" crochet")
    return name


def family_name(stitch: str, terms: str = "US") -> str:
    """Return the short name of the stitch that a decrease is made of: "half double"."""
    return short_name(re.sub(r"\d+tog$", "", stitch), terms)


def is_post(stitch: str) -> bool:
    """Return whether *stitch* goes around a post, not into a top."""
    return stitch.lower().startswith(("fp", "bp")) or stitch.lower().endswith(("fp", "bp"))


def other_name(stitch: str, terms: str) -> str:
    """Return what the makers of the other terms call this stitch."""
    return stitch_name(stitch, "US" if terms.upper() == "UK" else "UK")


_PHRASES: Mapping[str, str] = {
    "sk": "skip",
    "inc": "increase",
    "dec": "decrease",
    "inv dec": "invisible decrease",
    "mr": "adjustable ring",
    "crab st": "reverse single crochet",
    "turning ch": "turning chain",
    "tch": "turning chain",
}


def _composed(plain: str, key: str, terms: str, bases: Mapping[str, str]) -> str | None:
    """Return the name of a stitch that is put together from others, or None."""
    if name := _of_posts(plain, terms, bases):
        return name
    if (match := _LETTER.fullmatch(plain)) and match[1].lower() in _LETTERS:
        return f"{_LETTERS[match[1].lower()]} {bases[match[2].lower()]}"
    if match := _MADE_OF.fullmatch(plain):
        return f"{stitch_name(match[3], terms)} of {match[1]} {bases[match[2].lower()]}"
    first, _, rest = plain.partition(" ")
    if rest and first.lower() in _BEFORE:
        return f"{_BEFORE[first.lower()]} {stitch_name(rest, terms)}"
    return f"{say(plain[:-3], terms)} stitch" if key.endswith(" st") else None


def _of_posts(plain: str, terms: str, bases: Mapping[str, str]) -> str | None:
    """Return the name of a post stitch, a decrease, or both in one."""
    if match := _POST.fullmatch(plain):
        return f"{_POSTS[match[1].lower()]} {bases[match[2].lower()]}"
    if match := _POST_AFTER.fullmatch(plain):
        return f"{_POSTS[match[2].lower()]} {bases[match[1].lower()]}"
    if match := _TOGETHER.fullmatch(plain):
        post = f"{_POSTS[match[1].lower()]} " if match[1] else ""
        return f"{post}{stitch_name(match[2], terms)} {match[3]} together"
    return None
