"""Yarn as it is named: "A", "MC", "Heather", "dark green", and rows as they are listed beside it."""

from __future__ import annotations

import re

from coach.notation.clauses import COLOUR_WORDS

ROW = r"(?:rows?|rnds?|rounds?|rws?|r(?=\s?\d))\.?"

JOIN = r"\s*(?:-|–|to|through)\s*"

SPAN = rf"\d{{1,4}}(?:{JOIN}(?:{ROW}\s*)?\d{{1,4}})?"

SPANS = rf"{SPAN}(?:\s*(?:,\s*and|,|and|&)\s*(?:{ROW}\s*)?{SPAN}(?!\s*(?:rows?|rnds?|rounds?)\b))*(?!\d)"

COUNT = r"(?:\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten|twelve)"

_SHADE = rf"(?:(?:light|dark|pale|deep|bright|soft)\s+)?(?:{'|'.join(sorted(COLOUR_WORDS))})"

_CODE = r"(?-i:MC|CC\s?\d?|C[A-F](?![A-Za-z])|[A-HJ-Z](?![\w'.]\w))(?!\w)"

_NAME = r"(?-i:[A-Z][a-z]{2,}(?:\s[A-Z][a-z]{2,}){0,2})(?!\w)"

# A name may stand where "in", "with" or "using" makes a yarn of it; a code and a shade anywhere.
YARN = rf"(?:(?:the\s+)?(?:main|contrast(?:ing)?)\s+colou?r|colou?r\s+(?:\d|{_CODE})|(?:colou?r\s+|yarn\s+)?(?:{_CODE}|{_SHADE}\b))"

ANY = rf"(?:{YARN}|{_NAME})"

IN = r"(?:in|with|using|of)"

BETWEEN = re.compile(r"(?:[\s,;.]|\band\b|\bthen\b|\bfollowed\s+by\b|\bwith\b)*", re.IGNORECASE)

_NO_YARN = re.compile(
    r"(?:the|sc|hdc|dc|tr|htr|dtr|sts?|slip|stitch|single|double|half|treble|pattern|patt|blo|flo|back|front|both|loops?|each|every|turn|chain|repeat|rep|work|row|rows|round|rounds|rnd|rnds|note|notes|next|last|spiral|one|two|join|size|right|wrong|left)\b",
    re.IGNORECASE,
)


def yarn_name(words: str | None) -> str | None:
    """Return the yarn's name as the coach keeps it: "A", "MC", "Heather"; None if it is none."""
    if not words:
        return None
    name = re.sub(r"\s+", " ", words.strip())
    name = re.sub(r"^(?:the\s+)?main\s+colou?r$", "MC", name, flags=re.IGNORECASE)
    name = re.sub(r"^(?:the\s+)?contrast(?:ing)?\s+colou?r$", "CC", name, flags=re.IGNORECASE)
    name = re.sub(r"^(?:colou?r|yarn)\s+(?=[A-Z]\b|MC|CC)", "", name, flags=re.IGNORECASE)
    return None if _NO_YARN.match(name) else name
