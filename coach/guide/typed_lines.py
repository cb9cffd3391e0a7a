"""Which order a typed line gives: a phrase, a phrase and a number, a width, a list of colours.

It decides which command a line means, never what follows from it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from fractions import Fraction

from coach.guide.bindings import BINDINGS
from coach.guide.commands import TAKES_NUMBER, Binding, Command, Order


def order_for(line: str, number_in: Callable[[str], int | None]) -> Order | None:
    """Return the order that a typed line gives, or None if it gives none.

    A line is a phrase of the list, a phrase and a number (in figures or in words), a number
    alone (a count, or the answer to what was asked), a single key's sign, or a lone letter.
    number_in: reads a number from words, None where there is none.
    """
    stripped = line.strip()
    with_words = _measured(stripped) or _colours(stripped)
    if with_words is not None:
        return with_words
    words = plain_words(stripped)
    if not words:
        return _BY_SIGN.get(stripped)
    text = " ".join(words)
    whole = _BY_PHRASE.get(text)
    if whole is not None:
        return Order(whole.command)
    number = number_in(text)
    if number is not None:
        return Order(Command.COUNT, number)
    return _numbered(words, number_in) or _by_key(text)


def _numbered(words: list[str], number_in: Callable[[str], int | None]) -> Order | None:
    """Read "i have 74 stitches": the longest phrase that takes a number, the number, a unit."""
    for at in range(len(words) - 1, 0, -1):
        binding = _BY_PHRASE.get(" ".join(words[:at]))
        if binding is None or binding.command not in TAKES_NUMBER:
            continue
        rest, unit = without_unit(words[at:], binding)
        number = number_in(" ".join(rest))
        if number is not None:
            return numbered_order(binding.command, number, unit)
    number = number_in(" ".join(words[:-1])) if len(words) > 1 else None
    if number is not None:  # "74 stitches", "12 cm"
        for binding in BINDINGS:
            if words[-1] in binding.units:
                return numbered_order(binding.command, number, words[-1])
    return None


def without_unit(words: Sequence[str], binding: Binding) -> tuple[Sequence[str], str]:
    """Part off the word that may follow a number: "74 stitches" gives "74" and "stitches"."""
    if len(words) > 1 and words[-1] in binding.units:
        return words[:-1], words[-1]
    return words, ""


def numbered_order(command: Command, number: int, unit: str = "") -> Order:
    """Return the order with its number; of a width the unit that was named counts too."""
    if command is Command.WIDTH and unit:
        return Order(command, measure=Fraction(number), unit=_UNITS.get(unit[0], "in"))
    return Order(command, number)


_MEASURE = re.compile(
    r"(?:(?:it (?:measures|is)|width|measures) +)?"
    r"(?P<whole>\d{1,4})(?:[.,](?P<decimals>\d{1,3})| +(?P<top>\d)/(?P<bottom>[1-9]))? *"
    r"(?P<unit>cm|centimet(?:re|er)s?|inch(?:es)?|in|\"|″|hands?|(?:hand[ -]?)?spans?)",
    re.IGNORECASE,
)


_COLOURS = re.compile(r"(?:my )?colou?rs?(?: are)?[:\s]+(?!list\W*$)(?P<list>.*\w.*)", re.I)


def _colours(line: str) -> Order | None:
    """Read a maker's own list: "colours blue, white and red"."""
    found = _COLOURS.fullmatch(line)
    return Order(Command.COLOURS, text=found["list"].strip()) if found else None


_UNITS = {"c": "cm", "h": "hand", "s": "hand"}


def _measured(line: str) -> Order | None:
    """Read a width with its unit: "12.5 in", "it measures 31,5 cm", "12 1/2 inches"."""
    found = _MEASURE.fullmatch(line.rstrip(". "))
    if found is None:
        return None
    measure = Fraction(found["whole"])
    if found["decimals"]:
        measure += Fraction(int(found["decimals"]), 10 ** len(found["decimals"]))
    elif found["top"]:
        measure += Fraction(int(found["top"]), int(found["bottom"]))
    unit = _UNITS.get(found["unit"].lower()[0], "in")
    return Order(Command.WIDTH, measure=measure, unit=unit)


def _by_key(text: str) -> Order | None:
    order = _BY_SIGN.get(text)
    return order if len(text) == 1 else None


def plain_words(line: str) -> list[str]:
    """Return the words of *line* as they are compared: lower case, no marks but the apostrophe."""
    lowered = line.lower().replace("’", "'")
    kept = (sign if sign.isalnum() or sign == "'" else " " for sign in lowered)
    return "".join(kept).split()


_BY_PHRASE = {
    " ".join(plain_words(phrase)): binding
    for binding in BINDINGS
    for phrase in (binding.command.value, *binding.typed, *binding.spoken)
}
_BY_SIGN = {
    key: Order(binding.command) for binding in BINDINGS for key in binding.keys if len(key) == 1
}
