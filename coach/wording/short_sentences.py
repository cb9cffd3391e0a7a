"""Long sentences of the coach's own told as several short ones, broken only between clauses.

Twelve words are held in the head while the hands work (goals of accessibility: at most 12
words a sentence). What stands after a colon is one list, and stays whole.
"""

from __future__ import annotations

import re

MOST_WORDS = 12

_SENTENCES = re.compile(r"(?<=[.?!]) ")
_HEARD_APART = re.compile(r"(?<=[:;]) ")  # a voice pauses at these as well
# A clause that says more of the words just before it cannot stand alone.
_CLAUSES = re.compile(r", (?!which |where |each )")


def in_short_sentences(text: str) -> str:
    """Return *text* with each sentence that is too long told as several."""
    return " ".join(
        each if is_short(each) else _broken(each) for each in _SENTENCES.split(text) if each
    )


def is_short(text: str) -> bool:
    """Return whether no sentence of *text* has more than twelve words between two pauses."""
    sentences = _SENTENCES.split(text)
    parts = [part for each in sentences for part in _HEARD_APART.split(each)]
    return all(len(part.split()) <= MOST_WORDS for part in parts)


def _broken(sentence: str) -> str:
    head, colon, contents = sentence.partition(": ")
    first, *clauses = _CLAUSES.split(head)
    told = [first]
    for clause in clauses:
        longer = f"{told[-1]}, {clause}"
        # After "all in the one place" a chain would sound like one thing more in that place.
        apart = clause.startswith("then ") or told[-1].endswith("in the one place")
        if apart or not is_short(longer):
            told.append(clause.removeprefix("and "))
        else:
            told[-1] = longer
    whole = ". ".join(_capital(_place_first(each)) for each in told)
    by_place = _place_first(contents)
    if by_place != contents:
        return f"{whole}. {_capital(by_place)}"
    return whole + colon + _in_breaths(contents)


def _place_first(clause: str) -> str:
    """Tell where before what, with a pause between, where both have long names."""
    found = None if is_short(clause) or ":" in clause else _EACH_OF.fullmatch(clause)
    if found is None:
        return clause
    what = found["what"]
    return f"{found['where']}: {what[:1].lower()}{what[1:]}{found['end']}"


_EACH_OF = re.compile(r"(?P<what>.+?) (?P<where>(?:in|into|around) each of .+?)(?P<end>[.?!]?)")


def _in_breaths(contents: str) -> str:
    """Break a long list of what goes into one place, so that it still sounds like one list."""
    if is_short(contents):
        return contents
    first, *things = contents.split(", ")
    told = [first]
    for thing in things:
        longer = f"{told[-1]}, {thing}"
        if is_short(longer):
            told[-1] = longer
        else:
            told.append(f"then {thing}")
    return "; ".join(told)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
