"""What a sentence says of shaping: by how much, at which end, how often, how far."""

from __future__ import annotations

import re
from dataclasses import dataclass

from coach.notation.how_many_rows import NUMBER
from coach.notation.number_words import number_of

_STITCHES = r"(?:sts?|stitch(?:es)?|sc|hdc|dc|htr|tr)"

_NAMED_EDGE = r"(?:neck|armhole|side|front|center|centre|sleeve|shoulder|raglan|outer|inner|same|other)\s+edge"

_BOTH = r"(?:each|both)\s+(?:ends?|sides?|edges?)|beg(?:inning)?\s+and\s+(?:at\s+)?(?:the\s+)?end|(?:each|both)\s+(?:armhole|side|neck|sleeve)\s+edges?"

_EDGE = rf"(?P<both>{_BOTH})|(?P<beg>beg(?:inning)?|start)|(?P<end>end)|(?P<named>{_NAMED_EDGE})"

_FREQUENCY = r"(?:(?:every|each)\s+)?(?:foll(?:owing)?\s+)?(?:(?P<nth>\d+)(?:st|nd|rd|th)|(?P<other>other|alt(?:ernate)?|second)|(?P<facing>RS|WS))?\s*(?:foll(?:owing)?\s+)?rows?\b"

_WHEN = (
    rf"(?:(?P<next>next)(?:\s+row)?\s*(?:,\s*|\s)(?:and\s+|then\s+)+(?:(?:on|in|of|at)\s+)?{_FREQUENCY}"
    r"|(?P<every>(?:every|each)\s+(?:foll(?:owing)?\s+)?(?:(?P<nth2>\d+)(?:st|nd|rd|th)\s+|(?P<other2>other|alt(?:ernate)?|second)\s+|(?P<facing2>RS|WS)\s+)?(?:foll(?:owing)?\s+)?rows?\b)"
    r"|(?P<one>(?:(?:the\s+)?next\s+|this\s+|the\s+)?row)\b(?!\s*\d))"
)

_SHAPES = re.compile(
    rf"\b(?P<verb>dec(?:reas(?:e|ing))?|inc(?:reas(?:e|ing))?)\s+(?:(?P<number>\d+)\s*{_STITCHES}?\s+)?(?:(?:at|on|in|along)\s+)?(?:the\s+)?(?:{_EDGE})"
    rf"(?:\s*,?\s*(?:(?:of|on|in|at)\s+)?(?:the\s+)?{_WHEN})?",
    re.IGNORECASE,
)

_UNTIL = re.compile(rf"\b(?:until|till|to|leaving)\b[^.;]*?\b(?P<sts>\d+)\s*{_STITCHES}\b", re.I)

_TIMES = re.compile(r"\b(?P<times>\d+)\s+(?:more\s+|further\s+)?times\b", re.IGNORECASE)

_ROWS = re.compile(r"\bfor\s+(?:the\s+next\s+)?(?P<rows>\d+)\s+(?:more\s+)?rows\b", re.IGNORECASE)

_LEAD = re.compile(
    r"\W*(?:(?:cont(?:inue|inuing)?|work(?:ing)?|keep(?:ing)?|rep(?:eat)?(?:ing)?|now|then|and|also|in|on|as|set|established|even|straight|patt(?:ern)?|the|last|row|rows|with|sc|hdc|dc|htr|tr|single|double|half|treble|crochet|stitch|st|ch|turn|\d+)\b[\s,.;:]*)*",
    re.IGNORECASE,
)

_VERB = re.compile(r"\b(?:inc|dec)", re.IGNORECASE)
_AT_ONCE = re.compile(r"\bat\s+the\s+same\s+time\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Shaping:
    """What a sentence says: by how much, at which end, how often, and how far."""

    increase: bool
    edge: str  # "both", "beg", "end" or "named"
    every: int = 1
    at_once: bool = True  # the first row is shaped
    facing: str | None = None
    until: int | None = None
    times: int | None = None
    rows: int | None = None

    @property
    def change(self) -> int:
        """How many stitches a shaped row adds; below 0 for those that it takes away."""
        return (1 if self.increase else -1) * (2 if self.edge == "both" else 1)


def shaping_told(text: str) -> Shaping | None:
    """Return the shaping that a sentence tells of whole rows, or None where it is no such sentence."""
    if _VERB.search(text) is None:
        return None  # nearly every line: its numbers need not be put in figures
    words = _in_figures(text)
    lead = _LEAD.match(words)
    found = _SHAPES.match(words, lead.end() if lead else 0)
    if found is None or int(found["number"] or 1) != 1 or _AT_ONCE.search(words):
        return None
    every = int(found["nth"] or found["nth2"] or 1)
    if found["other"] or found["other2"] or found["facing"] or found["facing2"]:
        every = 2
    rest = words[found.end() :]
    until, times, rows = _UNTIL.match(rest.lstrip(" ,;")), _TIMES.search(rest), _ROWS.search(rest)
    edge = next(name for name in ("both", "beg", "end", "named") if found[name])
    return Shaping(
        increase=found["verb"].lower().startswith("inc"),
        edge=edge,
        every=every,
        at_once=every == 1 or found["next"] is not None,
        facing=(found["facing"] or found["facing2"] or "").upper() or None,
        until=int(until["sts"]) if until else None,
        times=int(times["times"]) if times else None,
        rows=int(rows["rows"]) if rows else (1 if found["one"] else None),
    )


_WORDED = re.compile(rf"\b(?!first|second\b){NUMBER}\b", re.IGNORECASE)


def _in_figures(text: str) -> str:
    for word, times in (("once", 1), ("twice", 2), ("thrice", 3)):
        text = re.sub(rf"\b{word}\b", f"{times} times", text, flags=re.IGNORECASE)
    return _WORDED.sub(lambda found: str(number_of(found.group()) or found.group()), text)
