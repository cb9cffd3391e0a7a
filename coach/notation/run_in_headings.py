"""Headings that stand in the line where their work begins: "SOLE–With white, ch 11.".

In capitals, or small ("Left ear: With brown, ch 6."), where a chain or a ring follows at once.
"""

from __future__ import annotations

import re

from coach.notation.headers import header_at, headers_in
from coach.notation.lead import FOUNDATION, lead_kind
from coach.notation.number_words import number_of
from coach.notation.parts_in_prose import part_in_prose

_RING = r"(?:magic|adjustable|sliding|thread)\s+(?:ring|circle|loop)"
RING_START = re.compile(
    rf"\W*(?:(?:with|using|in)\s+[\w ]{{1,20}}?(?:[:,]\s*|\s+(?=make|begin|start|form)))?(?:(?:make|begin\s+with|start\s+with|form)\s+)?(?:a\s+|an\s+)?{_RING}\s*(?:[,;:]|\band\b)\s*(?:(?:and|work|crochet|make|then|ch\s*\d\s*,?)\s+)*(?:\d+\s*(?:sc|hdc|dc|htr|tr)|(?:sc|hdc|dc|htr|tr)\s*\d+)\b"
    r"|\W*(?:(?:with|using|in)\s+[\w ]{1,20}[:,]\s*)?(?:(?:work|make)\s+)?"
    r"(?:\d+\s*(?:sc|hdc|dc|htr|tr)|(?:sc|hdc|dc|htr|tr)\s*\d+)\s+in(?:to|side)?\s+(?:a\s+|an\s+|the\s+)?(?:(?:magic|adjustable|sliding|thread)\s+(?:ring|circle|loop)|MR\b)(?=\s*(?:$|[.,;(\[–]|and\b|join|turn))",
    re.IGNORECASE,
)


RING_ALONE = re.compile(
    rf"\W*(?:(?:with|using|in)\s+(?P<color>[\w ]{{1,20}})[:,]\s*)?(?:make|begin\s+with|start\s+with|form|start|begin)\s+(?:a\s+|an\s+|the\s+)?{_RING}\W*",
    re.IGNORECASE,
)


# The first round of a part, called by a bare number. A note may be numbered too: "1. Ch 3 counts as dc."
FIRST_STEP = re.compile(
    r"\s*1\s*[.):]\s*(?:with\s+\w+,?\s+)?(?:\d+\s*(?:sc|hdc|dc|htr|tr)\b|(?:sc|hdc|dc|htr|tr)\s*\d|mr\b|(?:make\s+)?(?:an?\s+)?(?:magic|adjustable)\b|ch\s*\d+\s*[,.;])(?!.*\bcounts?\b)",
    re.IGNORECASE,
)


def run_in_heading(text: str) -> tuple[str, int] | None:
    """Return the heading that a line of work begins with ("SOLE–With white, ch 11."), and its end."""
    if (told := part_in_prose(text)) is not None and begins_work(text[told[1] :]):
        return told
    found = re.match(r"\s*(?P<name>[A-Z][A-Z &'/]{2,40}?)\s*[–:.]\s*(?=\S)", text)
    if found is None or re.match(r"(?:ROW|RND|ROUND|R|NOTE|CH)S?\b", found["name"]):
        return _small_run_in_heading(text)
    rest = text[found.end() :]
    header = header_at(rest, bare=False)
    if header is None and lead_kind(rest) != "start" and not _later_header(rest):
        return None
    return found["name"].strip().title(), found.end()


_SMALL_HEADING = re.compile(
    r"\s*(?P<name>(?:[A-Z][a-z']+|[A-Z]|[0-9])(?:\s(?:[A-Z]?[a-z']+|[A-Z]|[0-9]|&)){0,3})(?:\s*\([^()]{1,40}\))?\s*[:–]\s+(?=\S)"
)
# A swatch, a chain or a stitch that is defined begins no part of the work.
_NO_PART = re.compile(
    r"\b(?:gauge|tension|swatch|notes?|tips?|special|abbreviations?|multiple|pattern|foundation|base|start(?:ing)?|begin(?:ning)?|"
    r"set[- ]?up|chain|ch|rows?|rnds?|rounds?|with|using|work|make|then|next|colou?r|yarn|hook|size|repeat|option|example|correction|"
    r"shell|cluster|v-?stitch|st(?:itch)?|puff|popcorn|bobble|picot|fan|mesh|spike|cable|block|tile|ring|loop|crochet|decrease|increase)\b",
    re.IGNORECASE,
)


def _small_run_in_heading(text: str) -> tuple[str, int] | None:
    """Return the heading of "Left ear: With brown, ch 11." and its end, where work starts after it."""
    found = _SMALL_HEADING.match(text)
    if found is None or _NO_PART.search(found["name"]):
        return None
    rest = text[found.end() :]
    chain = FOUNDATION.match(rest)
    length = number_of(chain["after"] or chain["before"]) if chain else None
    begins = length is not None and length > 3 and lead_kind(rest) == "start"
    if not begins and not RING_START.match(rest):
        return None
    return found["name"].strip().title(), found.end()


def begins_work(text: str) -> bool:
    """Tell whether a piece of work begins with *text*: a chain, a ring, or its first row."""
    header = header_at(text, bare=False)
    if header is not None:
        return header.numbers[:1] == (1,)
    chain = FOUNDATION.match(text)
    length = number_of(chain["after"] or chain["before"]) if chain else None
    begins = (chain is None or (length is not None and length > 1)) and lead_kind(text) == "start"
    ring = RING_START.match(text) or RING_ALONE.match(text)
    return begins or ring is not None or FIRST_STEP.match(text) is not None


def _later_header(text: str) -> bool:
    return bool(headers_in(text, bare=False)) and not re.search(
        r"\bcounts?\b", text.split(".", maxsplit=1)[0]
    )
