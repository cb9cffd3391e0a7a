"""Yarn told by rows: "Rows 4-21 in A, Rows 22-42 in B", "2 rows A, 2 rows B, rep", "change to B
at the end of Row 21".

Only sentences that tell nothing else are read here; what a row's own words say is the row's.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from coach.craft.color_plan import ColorStretch, Stripe
from coach.notation.color_changes import ColorsTold, changes
from coach.notation.number_words import in_figures, number_of
from coach.notation.yarn_named import ANY, BETWEEN, COUNT, IN, JOIN, ROW, SPANS, YARN, yarn_name

_ROWS_THEN_YARN = re.compile(
    rf"(?:\*\s*)?(?:work(?:ing|ed)?\s+)?(?P<word>{ROW}\s*)?(?P<rows>{SPANS})\s*(?:rows?\s+)?(?:(?:are|is)\s+)?(?:all\s+)?(?:work(?:ed)?\s+)?"
    rf"(?:{IN}\s+(?P<any>{ANY})|[:=–-]?\s*(?P<yarn>{YARN}))(?:\s+only)?",
    re.IGNORECASE,
)
_YARN_THEN_ROWS = re.compile(
    rf"(?:(?:in|with|using|use)\s+(?P<any>{ANY})|(?P<yarn>{YARN}))\s*[,:=–-]?\s*(?:for|on|work|in)?\s*(?:the\s+)?(?P<word>{ROW})\s*(?P<rows>{SPANS})",
    re.IGNORECASE,
)

_LEAD = re.compile(
    r"(?:(?:the\s+)?(?:stripes?|striping|colou?rs?)(?:\s+(?:stripes?|pattern|patt|sequence|order|plan|changes?|key|repeat))*\s*(?:(?:is|as\s+follows)\s*)?(?:[:–-]\s*|(?=[\s*]\d))"
    r"|(?:work(?:ed|ing)?\s+)?(?:in\s+)?stripes?\s+(?:of\s+|as\s+follows\s*:?\s*)?|work(?:ing|ed)?\s+|alternat(?:e|ing)\s+(?:between\s+)?|notes?\s*:\s*|at\s+the\s+same\s+time,?\s+|\*+\s*)+",
    re.IGNORECASE,
)
_CALLED = re.compile(r"strip|colou?r|alternat", re.IGNORECASE)
_STRIPE = re.compile(
    rf"(?:\*\s*)?(?P<rows>{COUNT})\s+(?:rows?|rnds?|rounds?)\s*(?:(?:{IN}\s+)(?P<any>{ANY})|[:–-]?\s*(?P<yarn>{YARN}))"
    rf"|(?:\*\s*)?(?P<yarn2>{YARN})\s*[:–-]?\s*(?:for\s+)?(?P<rows2>{COUNT})\s+(?:rows?|rnds?|rounds?)\b",
    re.IGNORECASE,
)
_EACH_OF = re.compile(
    rf"(?P<rows>{COUNT})\s+(?:rows?|rnds?|rounds?)\s+(?:each\s+)?(?:of|in|with)\s+(?:each\s+of\s+)?(?P<list>{ANY}(?:\s*(?:,\s*and|,\s*then|,|and|&)\s*{ANY})+)(?:\s+each)?",
    re.IGNORECASE,
)
_IN_TURN = re.compile(
    rf"(?P<list>{ANY}(?:\s*(?:,\s*and|,|and|&|with)\s*{ANY})+)\s*,?\s*(?:every|each|changing\s+(?:colou?rs?\s+)?(?:every|each|after\s+(?:every|each)))\s+(?P<rows>{COUNT})?\s*(?:st|nd|rd|th)?\s*(?:rows?|rnds?|rounds?)",
    re.IGNORECASE,
)
_FOR_EVER = re.compile(
    r"\s*(?:[;,.]|\*|\band\b)*\s*(?:(?:rep(?:eat)?(?:ing|ed)?|repeat|throughout|and\s+so\s+on|etc|alternat\w+|continu\w+)\b[^.]*|in\s+turn\b[^.]*|for\s+(?:the\s+)?(?:whole|entire|rest)\b[^.]*)?[\s.]*",
    re.IGNORECASE,
)
_CHANGE_NOW = re.compile(
    rf"(?:fasten\s+off(?:\s+{ANY})?[.,;]?\s*|cut\s+{ANY}[.,;]?\s*)?(?:now\s+|then\s+)?"
    rf"(?:(?:change|switch)\s+(?:colou?rs?\s+)?to\s+(?P<any>{ANY})|(?:(?:continue|cont|carry\s+on)\s+(?:in|with)|join(?:\s+in)?|join\s+(?:new\s+)?yarn|using|with|in|use)\s+(?P<yarn>{YARN}))\s*[:.]?\s*",
    re.IGNORECASE,
)


def colors_told(text: str) -> ColorsTold | None:
    """Return what *text* tells of the rows' yarn, or None where it tells anything else."""
    words = in_figures(text.strip().lstrip("•·–-").strip())
    if not words or len(words) > 600:
        return None
    if (striped := _striped_from(words) or _in_order(words)) is not None:
        return striped
    lead = _LEAD.match(words)
    for begin in dict.fromkeys((0, lead.end() if lead else 0)):
        found = (
            _named_rows(words, begin)
            or _stripes(words, begin, called=bool(lead and begin and _CALLED.search(lead.group())))
            or changes(words, begin)
        )
        if found is not None:
            return found
    now = _CHANGE_NOW.fullmatch(words)
    if now is not None and (color := yarn_name(now["any"] or now["yarn"])):
        return ColorsTold(now=color)
    return None


_AGAIN_IN = re.compile(
    rf"\s*,?\s*(?:again\s+)?(?:(?:once\s+)?each\s+)?(?:in|with|using)\s+(?P<list>{ANY}(?:\s*(?:,\s*and|,\s*then|,|and|&|then)\s*{ANY})*)",
    re.IGNORECASE,
)
_BEGUN_WITH = re.compile(rf"\W*(?:with|using|in)\s+(?P<any>{ANY})\s*[,:]", re.IGNORECASE)


def stripes_of_repeat(text: str, rest: str, period: int) -> tuple[Stripe, ...]:
    """Return the yarns of rows worked again: "Rep Rows 2-5 in B, C, A", "With B, rep Rows 2-5".

    text: the whole; rest: what follows the rows that are named; period: how many they are.
    """
    begun = _BEGUN_WITH.match(text)
    if begun is not None and (color := yarn_name(begun["any"])):
        return (Stripe(color, period),)
    again = _AGAIN_IN.match(rest)
    if again is not None:
        names = [yarn_name(each.group()) for each in re.finditer(ANY, again["list"], re.I)]
        return tuple(Stripe(name, period) for name in names if name) if all(names) else ()
    for bracket in re.finditer(r"[(\[]([^()\[\]]*)[)\]]", rest):
        if (told := _bracketed(bracket[1], period)) is not None:
            return told
    for clause in (rest, *re.split(r"[,;:]\s*|\.\s+", rest, maxsplit=1)[1:]):
        if (stripes := stripes_at_end(clause)) is not None:
            return stripes
    return ()


def _bracketed(inside: str, period: int) -> tuple[Stripe, ...] | None:
    """Return the yarns of "(2 rows A, 2 rows B)" or "[B, B, C, C]" behind a repeat of rows."""
    if re.fullmatch(rf"\s*{ANY}(?:\s*(?:,\s*and|,|and|&)\s*{ANY})+\s*", inside, re.IGNORECASE):
        names = [yarn_name(each.group()) for each in re.finditer(ANY, inside, re.I)]
        return tuple(Stripe(name, period) for name in names if name) if all(names) else None
    return stripes_at_end(inside)


def stripes_at_end(clause: str) -> tuple[Stripe, ...] | None:
    """Return the stripes that a clause of a row tells: "alternating 2 rows A and 2 rows B"."""
    words = clause.strip(" .,;:")
    lead = _LEAD.match(words)
    told = _stripes(words, lead.end(), called=True) if lead else _stripes(words, 0, called=False)
    return told.stripes if told else None


def _named_rows(words: str, at: int) -> ColorsTold | None:
    stretches: list[ColorStretch] = []
    first_word = None
    while at < len(words):
        found = _ROWS_THEN_YARN.match(words, at) or _YARN_THEN_ROWS.match(words, at)
        color = yarn_name(found["any"] or found["yarn"]) if found else None
        if found is None or color is None or (not stretches and not found["word"]):
            return None
        first_word = first_word or found.group().split()[0].lower()
        for span in re.finditer(rf"(\d+)(?:{JOIN}\D*(\d+))?", found["rows"]):
            first, last = int(span[1]), int(span[2] or span[1])
            stretches.append(ColorStretch(first, last, (Stripe(color),), repeats=False))
        between = BETWEEN.match(words, found.end())
        at = between.end() if between else found.end()
        if _ASIDE.fullmatch(words, at):
            break
        if (others := _OTHERS.fullmatch(words, at)) and (
            rest := yarn_name(others["any"] or others["yarn"])
        ):
            every = ColorStretch(1, None, (Stripe(rest),), repeats=True)
            return ColorsTold((every, *_settled(stretches)))
    if not stretches:
        return None
    settled = _settled(stretches)
    only = settled[0]
    again = (only.first, only.last or only.first) if len(settled) == 1 else None
    return ColorsTold(settled, again=again if first_word in ("work", "working") else None)


def _settled(stretches: Sequence[ColorStretch]) -> tuple[ColorStretch, ...]:
    return tuple(
        ColorStretch(each.first, each.last, (Stripe(each.stripes[0].color, _rows(each)),))
        for each in stretches
    )


_OTHERS = re.compile(
    rf"(?:all\s+)?(?:the\s+)?(?:others?(?:\s+rows)?|rest|remaining\s+rows|other\s+(?:rows|rounds|rnds))\s+(?:(?:is|are)\s+)?(?:all\s+)?(?:work(?:ed)?\s+)?{IN}\s+(?P<any>{ANY})[\s.]*"
    rf"|(?P<yarn>{YARN})\s*[:=–-]?\s*(?:for\s+|in\s+)?(?:all\s+)?(?:the\s+)?(?:others?(?:\s+(?:rows|rounds|rnds))?|rest|remaining\s+(?:rows|rounds|rnds))[\s.]*",
    re.IGNORECASE,
)
# How the yarn is changed, said after which yarn it is.
_ASIDE = re.compile(
    r"[(\s]*(?:always|carry\w*|changing|change|cutting|cut|without|weav\w*|see|fasten\w*|join\w*|leav\w*|work\w*)\b(?!\s+to\b)[^\d]*",
    re.IGNORECASE,
)


def _rows(stretch: ColorStretch) -> int:
    return max(1, (stretch.last or stretch.first) - stretch.first + 1)


def _stripes(words: str, at: int, *, called: bool) -> ColorsTold | None:
    stripes: list[Stripe] = []
    lists = 0
    while at < len(words):
        again = _EACH_AGAIN.match(words, at) if len(stripes) > 1 else None
        shared = again or _EACH_OF.match(words, at) or _IN_TURN.match(words, at)
        one = None if shared else _STRIPE.match(words, at)
        if again is not None:
            names = list(dict.fromkeys(each.color for each in stripes))
            stripes += [Stripe(name, number_of(again["rows"]) or 1) for name in names]
        elif shared is not None:
            rows = number_of(shared["rows"]) or 1
            listed = [yarn_name(each.group()) for each in re.finditer(ANY, shared["list"], re.I)]
            stripes += [Stripe(name, rows) for name in listed if name]
            lists += 1
        elif one is not None and (color := yarn_name(one["any"] or one["yarn"] or one["yarn2"])):
            stripes.append(Stripe(color, number_of(one["rows"] or one["rows2"]) or 1))
        else:
            break
        found = shared or one
        between = BETWEEN.match(words, found.end()) if found else None
        at = between.end() if between else len(words)
    called = called or (lists > 0 and len(stripes) > 1 and not _told_once(stripes))
    rest = _FOR_EVER.fullmatch(words, at)
    if not stripes or (rest is None and not _ASIDE.fullmatch(words, at)):
        return None
    for_ever = bool(rest and rest.group().strip(" .,;*"))
    if len(stripes) < 2 and not (called or for_ever):
        return None
    return ColorsTold(stripes=tuple(stripes), repeats=called or for_ever)


_EACH_AGAIN = re.compile(
    rf"(?P<rows>{COUNT})\s+(?:rows?|rnds?|rounds?)\s+(?:of|in|with)\s+each\b(?:\s+(?:colou?r|yarn|shade))?(?:,?\s*(?:in\s+)?(?:the\s+)?same\s+(?:order|sequence))?",
    re.IGNORECASE,
)


def _told_once(stripes: Sequence[Stripe]) -> bool:
    """Tell whether a list comes back to a yarn ("A, B, C, B, A"): it is the whole piece's."""
    return len({each.color for each in stripes}) < len(stripes)


_FROM = re.compile(
    rf"(?:work\s+)?(?:in\s+)?(?:stripes?|striped)\s+(?:from|for|in|over)\s+{ROW}\s*(?P<first>\d{{1,4}})(?:{JOIN}(?:{ROW}\s*)?(?P<last>\d{{1,4}}))?(?:\s+on(?:wards?)?)?\s*[:,–-]\s*",
    re.IGNORECASE,
)


def _striped_from(words: str) -> ColorsTold | None:
    """ "Stripes from Row 4 to Row 20: 2 rows A, 2 rows B": stripes over rows that are named."""
    found = _FROM.match(words)
    told = _stripes(words, found.end(), called=True) if found else None
    if found is None or told is None:
        return None
    last = int(found["last"]) if found["last"] else None
    return ColorsTold((ColorStretch(int(found["first"]), last, told.stripes, repeats=True),))


_EVERY = re.compile(
    rf"\b(?:every|each)\s+(?:(?P<rows>{COUNT})(?:st|nd|rd|th)?\s+)?(?:rows?|rnds?|rounds?)\b(?:\s+(?P<nth>\d+)\b)?|\b(?P<rows2>{COUNT})\s+(?:rows?|rnds?|rounds?)\s+(?:in|of|with)\s+each\b",
    re.IGNORECASE,
)
_ORDER = re.compile(
    rf"\b(?:sequence|order|colou?r)\b\s*(?:of\s+)?[:,]?\s*(?P<list>{ANY}(?:\s*(?:,\s*and|,|and|&)\s*{ANY})+)(?:\s*,?\s*(?:rep\w*|and\s+so\s+on|throughout))?[\s.]*$",
    re.IGNORECASE,
)


def _in_order(words: str) -> ColorsTold | None:
    """ "Change colour every 2nd row, in the sequence A, B, C": so many rows of each, over and over."""
    every, order = _EVERY.search(words), _ORDER.search(words)
    if every is None or order is None or every.start() > order.start():
        return None
    rows = number_of(every["rows"] or every["nth"] or every["rows2"] or "1") or 1
    names = [yarn_name(each.group()) for each in re.finditer(ANY, order["list"], re.I)]
    stripes = tuple(Stripe(name, rows) for name in names if name)
    return ColorsTold(stripes=stripes, repeats=True) if len(stripes) == len(names) > 1 else None


def one_stripe(text: str) -> bool:
    """Tell whether a line of a list is one stripe: "2 rows A"."""
    found = _STRIPE.match(text.strip(" \t•-–*"))
    return found is not None and not text.strip(" \t•-–*")[found.end() :].strip(" .,;")


def stripe_heading(text: str) -> bool:
    """Tell whether a line is the heading of a list of stripes."""
    return bool(
        re.fullmatch(
            r"\W*(?:the\s+)?(?:strip(?:es?|ing)|colou?rs?)\s+(?:strip(?:es?|ing)\s+)?(?:pattern|patt|sequence|order|plan|changes?|repeat)s?\W*|\W*stripes\W*",
            text,
            re.IGNORECASE,
        )
    )
