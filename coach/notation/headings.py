"""Headings that stand alone on their line: "BORDER", "Heel:", "Heel flap" over its first row."""

from __future__ import annotations

import re

from coach.notation.headers import header_at
from coach.notation.number_words import number_of
from coach.notation.parts_in_prose import copies_in_prose, part_in_prose
from coach.notation.run_in_headings import begins_work

VERBS = re.compile(
    r"^\W*(?:fasten|weave|sew|join|block|cut|finish|begin|stuff|insert|leave|fold|turn|do not|don't|repeat|rep|work|make|with|note|lay|wet|pin|thread|change|keep|move|place|attach|embroider|close|press)\b",
    re.IGNORECASE,
)
_HOW_MANY = re.compile(
    r"\s*(?:[–:,-]?\s*\b(?:make|work)\s+(?:\d+|two|three|four|five|six|eight|ten|twelve)\b.*|\s[x×]\s?\d+)$",
    re.IGNORECASE,
)
_COPIES = re.compile(
    r"(?:\b(?:make|work|crochet)\s+(?:a\s+)?|[(:–-]\s*)(?P<said>pair|\d{1,2}|two|three|four|five|six|eight|ten|twelve)\b"
    r"(?!\s*(?:sc|hdc|dc|htr|tr|ch|st|sts|rows?|rnds?|rounds?|in|cm|mm|inch\w*|sizes?)\b)"
    r"|[x×]\s?(?P<times>\d{1,2})\b|\b(?P<ahead>\d{1,2})\s?[x×](?!\w)",
    re.IGNORECASE,
)


_FROM_TO = re.compile(
    r"[a-z]s\s+(\d{1,2}|[a-z]+)\s*(?:to|through|-|–)\s*(\d{1,2}|[a-z]+)\s*:?\s*$", re.IGNORECASE
)  # "Motifs Three to Seven"


def copies_of(text: str) -> int:
    """Return how many of a part its heading asks for: "EARS (make 2)", "Leg x 4"; else 1."""
    found = _COPIES.search(text)
    if found is None and (number := copies_in_prose(text)):
        return max(number_of(number) or 1, 1)
    if found is None:
        span = _FROM_TO.search(text)
        first, last = (number_of(span[1]), number_of(span[2])) if span else (None, None)
        return last - first + 1 if first and last and last > first else 1
    word = found["said"] or found["times"] or found["ahead"]
    return 2 if word.lower() == "pair" else max(number_of(word) or 1, 1)


_DRESS = " \t*~=#_–-•>|+"


def heading(text: str) -> str | None:
    """Return the name of a part ("BORDER", "Heel") if the line is a heading."""
    bare = re.sub(r"\([^)]*\)", "", text).strip(_DRESS).rstrip(":").strip(_DRESS)
    bare = _HOW_MANY.sub("", bare)
    if not bare or len(bare) > 42 or len(bare.split()) > 5 or re.search(r"[.,;=!?]|\d{2,}", bare):
        return None
    if VERBS.match(bare) and not bare.isupper():
        return None
    words = bare.split()
    if (
        bare.isupper()
        or (text.strip().endswith(":") and len(words) <= 3)
        or (
            all(
                word[:1].isupper() or word in ("and", "of", "the", "for", "to", "a")
                for word in words
            )
            and len(words) <= 3
        )
    ):
        return bare.title()
    return None


_BEFORE_WORK = re.compile(
    r"(?:(?:pattern|stitch|special|general|designer'?s?|important|helpful|a few|before you begin)\s+)*"
    r"(?:notes?|tips?|materials?|supplies|tools|yarns?|hooks?|gauge|tension|swatch|abbreviations?|terms|terminology|key|legend|stitch(?:es)?(?:\s+(?:key|guide|used))?"
    r"|sizes?|sizing|(?:finished\s+)?(?:size|measurements?|dimensions)|skill(?:\s+level)?|instructions|directions|pattern|method|schematic|you will need|what you(?:'ll| will)? need)",
    re.IGNORECASE,
)


def stands_before_work(name: str) -> bool:
    """Tell whether a heading is over what is told before the work, or over all of it: "NOTES", "PATTERN"."""
    return _BEFORE_WORK.fullmatch(name.strip()) is not None


def heading_over(text: str, following: str) -> str | None:
    """Return the name of a part written as a plain phrase ("Heel flap") over its own first row."""
    told = part_in_prose(text)
    if told is not None and not text[told[1] :].strip() and begins_work(following):
        return told[0]
    bare = _HOW_MANY.sub("", re.sub(r"\([^)]*\)", "", text).strip(_DRESS).rstrip(":").strip(_DRESS))
    if _OTHER_SIDE.fullmatch(bare) and header_at(following, bare=False) is not None:
        return bare.title()
    verb = VERBS.match(bare) is not None and _STEP.fullmatch(bare) is None
    if not _PHRASE.fullmatch(bare) or verb or _NO_NAME.search(bare):
        return None
    return bare.title() if begins_work(following) else None


# A step of the making that has rows of its own, though it begins as what is done: "Turn heel".
_STEP = re.compile(
    r"(?:turn|shape|divide|join|close|begin|work)\s+(?:for\s+)?(?:the\s+)?"
    r"(?:heel|toes?|thumb|neck|neckline|armholes?|crown|sole|shoulders?|sleeves?|cap|gusset|legs?|body|yoke|brim|cuff)",
    re.IGNORECASE,
)
# Its rows have the numbers of the side before it, so they begin with any.
_OTHER_SIDE = re.compile(
    r"(?:the\s+)?(?:first|second|other|opposite|left|right)\s+(?:side|half|shoulder|strap|front|back|neck(?:\s+edge)?)(?:\s+of\s+(?:the\s+)?(?:neck|front|back))?",
    re.IGNORECASE,
)

_PHRASE = re.compile(r"[A-Z][a-z'-]+(?: (?:[A-Za-z][a-z'-]*|&|#?\d)){1,4}")
# What tells how to work, or with what, is no part's name though rows begin under it.
_NO_NAME = re.compile(
    r"^(?:using|in|on|at|to|from|now|then|next|continue|cont|start|switch|hold|working|worked|this|these|you|your|all|please|see|read)\b"
    r"|\b(?:is|are|as|it|facing|hook|needle|yarn|colou?rs?|terms|sizes?|rows?|rnds?|rounds?|only|note|notes|tip|tips|chart|gauge|tension|swatch|"
    r"sc|hdc|dc|htr|tr|ch|st|sts|chain|stitch|stitches|crochet|abbreviations)\b",
    re.IGNORECASE,
)
