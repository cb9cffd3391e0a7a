"""Headers by a name or in speech: "Dec Rnd 3:", "Last Row:", "okay, the second round"."""

from __future__ import annotations

import re

from coach.notation.header import Header
from coach.notation.header_parts import JOIN, PAR, ROW, side_in
from coach.notation.number_words import number_of

_UNITS = "one|two|three|four|five|six|seven|eight|nine"

_NUMBER_WORD = (
    rf"(?:(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:[- ](?:{_UNITS})\b)?"
    r"|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
    rf"|{_UNITS})"
)

_WORD_ORDINALS = {
    word: value
    for value, word in enumerate(
        [
            "first",
            "second",
            "third",
            "fourth",
            "fifth",
            "sixth",
            "seventh",
            "eighth",
            "ninth",
            "tenth",
        ],
        1,
    )
}

_NAMED = re.compile(
    rf"(?P<name>[A-Za-z][A-Za-z-]*(?:\s[A-Za-z-]+)?)\s+{ROW}\s*(?P<a>\d+)?(?P<more>(?:{JOIN}\d+)*){PAR}\s*(?P<sep>[:–—])\s*",
    re.IGNORECASE,
)

_LAST = re.compile(
    rf"(?:(?:[Oo]n|[Ff]or|[Ii]n)\s+)?(?:[Tt]he\s+)?(?P<name>(?i:last|final))\s+(?P<word>(?i:row|rnd|round))\s*{PAR}\s*(?P<sep>[:.–—-])\s*"
)

_SPOKEN = re.compile(
    r"(?:(?:okay|ok|alright|so|now|and|then|right)[,\s]+)*(?:(?:for|on|in|to)\s+)?(?:the\s+)?"
    r"(?:(?:we're|we are|you're|this is)\s+(?:now\s+)?(?:on\s+|at\s+)?(?:to\s+)?)?"
    rf"(?:{ROW}\s+(?:number\s+)?(?P<number>{_NUMBER_WORD})(?:\s+(?P<join>to|through|until|and)\s+(?P<last>{_NUMBER_WORD}))?|(?P<next>next|(?<=in )this|(?<=for )this|(?<=on )this)\s+(?P<word2>row|round|rnd)"
    rf"|(?P<ordinal>{'|'.join(_WORD_ORDINALS)})\s+(?P<word3>row|round|rnd)"
    r"|(?:the\s+)?(?P<named>decrease|increase|dec|inc|plain|even|set-up|setup)\s+(?P<word4>row|round|rnd)(?=\s*[:,]))\b\s*[:,.–-]?\s*",
    re.IGNORECASE,
)

_NEXTROWS = re.compile(
    rf"(?:(?:for|work)\s+)?(?:the\s+)?(?:next|following)\s+(?P<rows>\d+|{_NUMBER_WORD})\s+{ROW}\s*{PAR}\s*[:–]\s*",
    re.IGNORECASE,
)

_NOT_NAMES = (
    "rep",
    "repeat",
    "of",
    "the",
    "each",
    "every",
    "this",
    "last",
    "in",
    "for",
    "from",
    "work",
    "as",
    "work as",
    "note",
    "notes",
    "tip",
)


def begins_work(rest: str) -> bool:
    """Tell whether work begins *rest*: a stitch, a chain, a bracket, a number."""
    return bool(
        re.match(
            r"\s*(?:[(\[*{]|\d|ch\b|sc\b|dc\b|hdc\b|tr\b|htr\b|inc\b|dec\b|sl\b|ss\b|rep|with\b|in\b|turn|sk\b|miss|work|fp|bp|join|beg|follow|as\b|same|single|double|half|chain|\w+ in )",
            rest,
            re.IGNORECASE,
        )
    )


def next_rows_header(text: str, start: int) -> Header | None:
    """Return the header of "Next 5 rounds:": how many, but no number."""
    found = _NEXTROWS.match(text, start)
    if not found:
        return None
    kind = "row" if found["word"].lower().startswith(("row", "rw")) else "round"
    label = "Next Row" if kind == "row" else "Next Rnd"
    return Header(start, found.end(), kind, (), label=label, rows=number_of(found["rows"]))


def named_header(text: str, start: int) -> Header | None:
    """Return the header of "Dec Rnd 3: ...", where the name is no word of a sentence."""
    found = _NAMED.match(text, start)
    if (
        not found
        or found["name"].lower() in _NOT_NAMES
        or found["name"].split()[0].lower() in _NOT_NAMES
    ):
        return None
    word = found["word"].lower()
    kind = "row" if word.startswith(("row", "rw")) else "round"
    name = found["name"].strip().title()
    short = "Row" if kind == "row" else "Rnd"
    numbers = [int(found["a"])] if found["a"] else []
    numbers += [int(each) for each in re.findall(r"\d+", found["more"] or "")]
    ordinal = _WORD_ORDINALS.get(name.lower())
    side = side_in(found["par"]) if found["par"] else None
    if ordinal and not numbers:
        return Header(start, found.end(), kind, (ordinal,), side=side)
    label = f"{name} {short}" + (f" {numbers[0]}" if numbers else "")
    return Header(start, found.end(), kind, tuple(numbers), label=label, side=side)


def last_header(text: str, start: int) -> Header | None:
    """Return the header of "Last Rnd: ch 1, sc in each st around", where work follows.

    "Rep last row: ..." and "The last row: it is wavy" are none; nor is a line that only goes on
    from the one before ("... to end of / last row. Sc in next st").
    """
    found = _LAST.match(text, start)
    if found is None or not begins_work(text[found.end() :]):
        return None
    if found["sep"] != ":" and not text[start].isupper():
        return None
    kind = "row" if found["word"].lower() == "row" else "round"
    label = f"{found['name'].title()} {'Row' if kind == 'row' else 'Rnd'}"
    side = side_in(found["par"]) if found["par"] else None
    return Header(start, found.end(), kind, (), label=label, side=side)


def row_like(text: str) -> bool:
    """Tell whether a line looks like a row with a name that is not known: "This round: sc in ..."."""
    found = re.match(r"\W*[A-Za-z][\w' -]{0,40}?\b(?:row|rnd|round)s?\b[^:.]{0,20}:\s*", text, re.I)
    return found is not None and works_in_places(text[found.end() :])


def works_in_places(text: str) -> bool:
    """Tell whether *text* begins with stitches that go somewhere: "ch 1, 2 sc in each st"."""
    return re.match(_WORK, text, re.IGNORECASE) is not None


_WORK = (
    r"[(\[*]*\s*(?:with\s+\w+,\s*)?(?:ch\s+\d+,\s*)?(?:turn,\s*)?[(\[*]*\s*"
    r"(?:\d+\s*)?(?:sc|hdc|dc|htr|tr|inc|dec|sl\s+st|ss)\b[^.]*?\b(?:in|into|around|across|next|each)\b"
)


def spoken_header(text: str, start: int) -> Header | None:
    """Return the header of "okay, the second round", "for row seventeen", "in the next row"."""
    found = _SPOKEN.match(text, start)
    if not found:
        return None
    word = (found["word"] or found["word2"] or found["word3"] or found["word4"]).lower()
    kind = "row" if word.startswith("row") else "round"
    if found["next"]:
        return Header(
            start,
            found.end(),
            kind,
            (),
            label="Next Row" if kind == "row" else "Next Rnd",
            spoken=True,
        )
    if found["named"]:
        short = "Row" if kind == "row" else "Rnd"
        name = f"{found['named'].title()} {short}"
        return Header(start, found.end(), kind, (), label=name, spoken=True)
    if found["ordinal"]:
        numbers: tuple[int, ...] = (_WORD_ORDINALS[found["ordinal"].lower()],)
    else:
        words = [found["number"], found["last"]]
        numbers = tuple(number_of(word.replace(" ", "-")) or 0 for word in words if word)
    listed = (found["join"] or "").lower() == "and"
    return Header(start, found.end(), kind, numbers, spoken=True, listed=listed)
