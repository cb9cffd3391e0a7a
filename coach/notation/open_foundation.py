"""Foundations that leave the number of chains open: "Ch a multiple of 6 + 2 (sample: ch 62)"."""

from __future__ import annotations

import re
from dataclasses import dataclass

_OPEN = re.compile(
    r"^\W*(?:(?:foundation|base|starting)(?:\s+(?:chain|ch|row))?\s*[:–-]\s*)?"
    r"(?:(?:with|using)\s+[^,:]{1,45}?[,:]\s*)?"
    r"(?:(?:make|begin|start)\s+(?:with\s+)?(?:a\s+)?)?"
    r"(?:(?:chain|ch)\s+|(?<=[:–-])\s*|(?<=[:–-]\s))(?:(?:in|of|any|an|a)\s+)*"
    r"(?:multiples?\s+of\s+(?P<of>\d{1,3})(?:\s*(?:sts?|stitches|chs?|chains?)\b)?"
    r"(?:\s*,?\s*(?:\+|plus|and)\s*(?P<plus>\d{1,3})\b)?"
    r"(?:[^.\d(]{0,15}?\(?\s*(?:\+|plus|add)\s*(?P<more>\d{1,2})\b[^.)]{0,40}\bfor\b)?"
    r"|(?P<parity>even|odd)\s+number)",
    re.IGNORECASE,
)
_SAMPLE = re.compile(
    r"\b(?:ch|chain(?:ed)?|chains|with|is|used|uses|has|sample|shown|mine|example)\b\s*[:=]?\s*(?P<after>\d{1,4})\b"
    r"|\b(?P<before>\d{1,4})\s*(?:ch|chs|chains?|sts?|stitches)\b",
    re.IGNORECASE,
)
FEWEST = 20  # enough to see the repeat a few times over


@dataclass(frozen=True, slots=True)
class OpenFoundation:
    """of, plus: the multiple. chains: how many are taken; sample: the pattern names so many."""

    of: int
    plus: int
    chains: int
    sample: bool


def open_foundation(text: str) -> OpenFoundation | None:
    """Return the foundation of a line that gives a multiple in place of a number, or None."""
    found = _OPEN.match(text)
    if found is None:
        return None
    if found["parity"]:
        of, plus = 2, int(found["parity"].lower() == "odd")
    else:
        of = int(found["of"])
        plus = int(found["plus"] or 0) + int(found["more"] or 0)
    if not of:
        return None
    sample = _SAMPLE.search(text, found.end())
    if sample is not None:
        return OpenFoundation(of, plus, int(sample["after"] or sample["before"]), True)
    repeats = max(2, -(-(FEWEST - plus) // of))
    return OpenFoundation(of, plus, of * repeats + plus, False)
