"""Parts begun in a sentence: "Now make the tail.", "The ears are worked in grey. Make two.", "ears".

Only things that a piece is made of begin a part so, and only where a piece of work follows.
"""

from __future__ import annotations

import re

THINGS = (
    r"antennae?|antlers?|arms?|back|base|beak|bell(?:y|ies)|belt|body|bodies|bottom|bow\s+ties?|bows?|brim|buttons?|cap|cheeks?|collar|crown|cuffs?|"
    "dress|ears?|eyes?|eyelids?|face|feet|fins?|flaps?|flippers?|flowers?|flukes?|foot|front|gusset|hair|hands?|handles?|hat|head|hood|"
    "hooves|horns?|lea(?:f|ves)|legs?|lid|mane|mouth|muzzle|neck|nose|paws?|petals?|pockets?|scarf|side|sides|skirt|sleeves?|snout|"
    "soles?|spikes?|spots?|stalk|stem|straps?|tail|thumbs?|ties?|toes?|tongue|top|trunk|tusks?|udder|wheels?|whiskers?|wings?|yoke"
)
_NUMBER = r"(?:\d{1,2}|one|two|three|four|five|six|seven|eight)"
_SIDE = r"(?:(?:first|second|left|right|front|back|inner|outer|upper|lower|hind|fore)\s+)"
_THING = rf"(?P<name>{_SIDE}?(?:{THINGS}))\b"
_MORE = rf"(?:\s*,?\s+(?:in|with|using|from)\s+[\w ]{{2,30}}?)?(?:\s*[,(–-]?\s*(?:make|work)\s+{_NUMBER}\b[^.:]{{0,20}})?(?:\s+(?:as\s+follows|like\s+this|this\s+way))?"
_SENTENCES = (
    re.compile(
        rf"\W*(?:(?:next|now|then|also|finally|lastly|first)\b[\s,]*)?(?:(?:we(?:'ll|\s+will)?|you)\s+)?(?:make|work|crochet|begin|start)\s+(?:on\s+)?(?:with\s+)?(?:the\s+|a\s+|an\s+)?(?:{_NUMBER}\s+)?{_THING}{_MORE}\s*[.:,]\s*",
        re.IGNORECASE,
    ),
    re.compile(
        rf"\W*(?:(?:now|next|then)\b[\s,]*)?(?:for|to\s+(?:make|work|begin|start))\s+(?:the\s+|a\s+|an\s+|each\s+)?(?:{_NUMBER}\s+)?{_THING}{_MORE}\s*(?:[,:.]|(?=\s+make\s))\s*",
        re.IGNORECASE,
    ),
    re.compile(
        rf"\W*(?:you|we)(?:'ll|\s+will)?\s+(?:also\s+|then\s+)?need\s+(?:the\s+|a\s+|an\s+)?(?:{_NUMBER}\s+)?(?:[a-z]+\s+)?{_THING}{_MORE}\s*[.:,]\s*",
        re.IGNORECASE,
    ),
    re.compile(
        rf"\W*(?:now|next)\b[\s,]*(?:for\s+)?the\s+{_THING}{_MORE}\s*[.:]\s*", re.IGNORECASE
    ),
    re.compile(
        rf"\W*the\s+{_THING}\s+(?:is|are)\s+(?:made|worked|crocheted|begun)\b[^.]*\.\s*(?:\(?(?:make|work)\s+{_NUMBER}[^.]{{0,15}}[.)]\s*)?",
        re.IGNORECASE,
    ),
    re.compile(
        rf"[\W_]*(?:{_NUMBER}\s+)?{_THING}(?:\s*[(–:-]\s*(?:make|work)?\s*(?:{_NUMBER}|a\s+pair)\b(?!\s*(?:sc|hdc|dc|htr|tr|ch|sts?)\b)[^.]{{0,20}})?[\W_]*$",
        re.IGNORECASE,
    ),
)
_PLURAL_COUNT = re.compile(rf"\b(?P<number>{_NUMBER})\s+{_SIDE}?(?:{THINGS})\b", re.IGNORECASE)


def part_in_prose(text: str) -> tuple[str, int] | None:
    """Return the part that a line begins with a sentence, and where the sentence ends; None for none."""
    for sentence in _SENTENCES:
        found = sentence.match(text)
        if found is not None:
            return found["name"].title(), found.end()
    return None


def copies_in_prose(text: str) -> str | None:
    """Return the number of "make two ears"; None where none is said."""
    found = _PLURAL_COUNT.search(text)
    return found["number"] if found else None
