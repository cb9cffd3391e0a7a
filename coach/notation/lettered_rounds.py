"""Rounds called by a letter of their part ("C1:"), and steps that have only their number ("6.")."""

from __future__ import annotations

import re
from collections.abc import Iterable

from coach.notation.header import Header

_LETTERED = re.compile(r"[\s•*]*(?P<letter>[A-QS-Z])(?P<number>\d{1,2})\s*[:.)–-]\s*(?=\S)")

_LETTERED_WORK = re.compile(r"\b(?:sc|hdc|dc|htr|tr|inc|dec|sl\s+st|ss|mr|ch)\b", re.IGNORECASE)


def lettered_letters(texts: Iterable[str]) -> frozenset[str]:
    """Return the letters that the rounds of a part are called by: "C1:", "C2:", "C3:" in turn."""
    seen: dict[str, list[int]] = {}
    for text in texts:
        found = _LETTERED.match(text)
        if found and _LETTERED_WORK.search(text, found.end()):
            seen.setdefault(found["letter"], []).append(int(found["number"]))
    return frozenset(
        letter for letter, numbers in seen.items() if len(numbers) > 1 and numbers[:2] == [1, 2]
    )


def lettered(text: str, letters: frozenset[str]) -> Header | None:
    """Return the header of "C2: ch 2, dc2tog around", where *letters* are names of rounds."""
    found = _LETTERED.match(text) if letters else None
    if found is None or found["letter"] not in letters:
        return None
    kind = "row" if re.search(r"\bturn\b", text, re.IGNORECASE) else "round"
    label = f"{found['letter']}{found['number']}"
    return Header(0, found.end(), kind, (), label=label)


def numbered_step(text: str, number: int) -> Header | None:
    """Return the header of "6. Fold flat and work 4 sc ..." where 6 is the number that is due."""
    found = re.match(rf"[\s•*]*{number}\s*[.)]\s+(?=[A-Za-z])", text)
    if not found or not re.search(r"\d\s*(?:sc|hdc|dc|htr|tr)\b", text, re.IGNORECASE):
        return None
    return Header(0, found.end(), "round", (number,), bare=True)
