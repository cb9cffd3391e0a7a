"""Two columns of a page pasted line by line into each other: told plainly, never proved as it stands.

Sure signs only: twice or more, two rows begin on lines one after the other, both broken off, and
two lines in small letters follow that go on with them.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from coach.craft.problem import Place, Problem, Verdict
from coach.notation.cleaning import CleanLine
from coach.notation.headers import header_at

_ENDED = re.compile(r"[.;:)\]}!?*]\s*$")
_GOES_ON = re.compile(r"\s*(?:[a-z(\[*]|\d+\s*(?:sc|hdc|dc|htr|tr|sts?|ch)\b)")
_FEWEST = 2


def interleaved(lines: Sequence[CleanLine]) -> Problem | None:
    """Return the fault of two columns that were pasted into each other; None where none shows."""
    written = [line for line in lines if line.text.strip()]
    found = [at for at in range(len(written) - 3) if _crossed(written[at : at + 4])]
    if len(found) < _FEWEST:
        return None
    first, last = written[found[0]].number, written[found[-1] + 3].number
    return Problem(
        Verdict.BROKEN_NOTATION,
        Place(first, 1),
        f"Lines {first} to {last} look like two columns of a page, pasted line by line into each other.",
        "Paste the left column first, then the right one, each row whole.",
        label=f"Lines {first} to {last}",
    )


def _crossed(four: Sequence[CleanLine]) -> bool:
    """Tell whether two rows begin and break off, and two lines go on with them."""
    begun = all(_is_broken_row(line.text) for line in four[:2])
    return begun and all(_goes_on(line.text) for line in four[2:])


def _is_broken_row(text: str) -> bool:
    header = header_at(text, bare=False)
    if header is None or header.spoken or _ENDED.search(text):
        return False
    return len(text[header.end :].split()) > 1


def _goes_on(text: str) -> bool:
    return _GOES_ON.match(text) is not None and header_at(text, bare=False) is None
