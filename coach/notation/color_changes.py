"""Changes of yarn at a row: "change to B at the end of Row 21", "use C from Row 7 on", "now use B"."""

from __future__ import annotations

import re
from dataclasses import dataclass

from coach.craft.color_plan import ColorStretch, Stripe
from coach.notation.yarn_named import ANY, ROW, yarn_name

_CHANGE = re.compile(
    rf"(?:(?:(?:and\s+|then\s+)*(?:change|switch)\s+(?:colou?rs?\s+)?(?:back\s+)?|(?:and\s+|then\s+)+(?:back\s+)?)to\s+"
    rf"|(?:and\s+|then\s+)*(?:use|join(?:\s+in)?|add|attach|(?:work|begin|start|continue)\s+(?:in|with|using))\s+)(?P<any>{ANY})\s*,?\s*"
    rf"(?P<when>(?:(?:at|in|on|with|during|after|from)\s+)?(?:the\s+)?(?:very\s+)?(?:end|last\s+[^.,]{{1,30}}?)\s+of|(?:(?:at|in|from)\s+)?(?:the\s+)?(?:beg(?:inning)?|start)\.?\s+of|after|at|on|for|in|before|from|with)\s+{ROW}\s*(?P<row>\d{{1,4}})"
    rf"(?:(?:\s*(?:-|–|to|through|until|(?P<both>and|&))\s*(?:the\s+end\s+of\s+)?(?:{ROW}\s*)?(?P<last>\d{{1,4}}))|\s+on(?:wards?)?)?",
    re.IGNORECASE,
)

_CHANGE_AFTER = re.compile(
    rf"(?P<when>(?:at|in|on)\s+(?:the\s+)?(?:end|last\s+[^.,]{{1,30}}?)\s+of|after|from|before|for|on|in)\s+{ROW}\s*(?P<row>\d{{1,4}})(?:\s*(?:-|–|to|through|until|(?P<both>and|&))\s*(?:{ROW}\s*)?(?P<last>\d{{1,4}})|\s+on(?:wards?)?)?\s*,?\s*"
    rf"(?:(?:change|switch)\s+(?:colou?rs?\s+)?(?:back\s+)?to|use|work\s+(?:in|with)|with|in|join|begin\s+(?:using|with))\s+(?P<any>{ANY})",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class ColorsTold:
    """What one sentence tells: stretches of named rows, or stripes from the next row on.

    again: the words may as well ask to work rows again that were written before ("Work Rows 2-5
    in B"), and which.
    """

    stretches: tuple[ColorStretch, ...] = ()
    stripes: tuple[Stripe, ...] = ()
    repeats: bool = False
    now: str | None = None
    again: tuple[int, int] | None = None


_UP_TO_ITS_END = re.compile(r"\b(?:end|last|after)\b", re.IGNORECASE)


def changes(words: str, at: int) -> ColorsTold | None:
    """Return the changes of yarn that *words* tell from *at* on, if they tell nothing else."""
    stretches: list[ColorStretch] = []
    while at < len(words):
        found = _CHANGE.match(words, at) or _CHANGE_AFTER.match(words, at)
        color = yarn_name(found["any"]) if found else None
        if found is None or color is None:
            return None
        row = int(found["row"]) + (1 if _UP_TO_ITS_END.search(found["when"]) else 0)
        last = found["last"]
        if found["both"] and last and int(last) != row + 1:
            return None
        if last and int(last) >= row:
            stretches.append(ColorStretch(row, int(last), (Stripe(color, int(last) - row + 1),)))
        else:
            stretches.append(ColorStretch(row, None, (Stripe(color),), change=True))
        between = _PUT_DOWN.match(words, found.end())
        at = between.end() if between else found.end()
    return ColorsTold(tuple(stretches)) if stretches else None


# What becomes of the yarn before: "Join C at beginning of Row 9, fasten off A."
_PUT_DOWN = re.compile(
    rf"(?:[\s,;.]|(?:and\s+)?(?:fasten(?:ing)?\s+off|cut(?:ting)?|break(?:ing)?\s+off|drop(?:ping)?|leav(?:e|ing))\s+{ANY})*",
    re.IGNORECASE,
)
