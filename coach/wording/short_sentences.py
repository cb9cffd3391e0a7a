"""Long sentences of the coach's own told as several short ones, broken only between clauses.

Twelve words are held in the head while the hands work, counted from full stop to full stop.
"""

from __future__ import annotations

import re

MOST_WORDS = 12

_SENTENCES = re.compile(r"(?<=[.?!]) ")
# A clause that says more of the words just before it cannot stand alone.
_CLAUSES = re.compile(r", (?!which |where |each |all |one )|; ")


def in_short_sentences(text: str) -> str:
    """Return *text* with each sentence that is too long told as several."""
    return " ".join(
        each if is_short(each) else _broken(each) for each in _SENTENCES.split(text) if each
    )


def is_short(text: str) -> bool:
    """Return whether no sentence of *text* has more than twelve words."""
    return all(len(each.split()) <= MOST_WORDS for each in _SENTENCES.split(text))


def _broken(sentence: str) -> str:
    head, colon, contents = sentence.partition(": ")
    if not colon:
        return _by_clauses(sentence)
    gone_to = contents if is_short(f"{head}: {contents}") else _gone_to(contents)
    if gone_to != contents:
        return f"{_by_clauses(head)}. {_capital(gone_to)}"
    whole = _by_clauses(head)
    first, *rest = _by_clauses(contents).split(". ", 1)
    led = f"{whole}: {first[:1].lower()}{first[1:]}"
    return ". ".join([led, *rest])


def _by_clauses(text: str) -> str:
    first, *clauses = _CLAUSES.split(text)
    told = [first]
    for clause in clauses:
        longer = f"{told[-1]}, {clause}"
        if clause.startswith("then ") or not is_short(longer):
            told.append(clause.removeprefix("and "))
        else:
            told[-1] = longer
    return ". ".join(_capital(_go_first(each)) for each in told)


def _go_first(clause: str) -> str:
    """Send the hook to the places first, then tell what is worked, where both have long names."""
    return clause if is_short(clause) or ":" in clause else _gone_to(clause)


def _gone_to(clause: str) -> str:
    found = _EACH_OF.fullmatch(clause)
    if found is None:
        return clause
    then, what = found["then"] or "", found["what"]
    return (
        f"{then}go to {found['places']}. "
        f"{_capital(found['how'])} each one: {what[:1].lower()}{what[1:]}{found['end']}"
    )


_EACH_OF = re.compile(
    r"(?P<then>[Tt]hen )?(?P<what>.+?) (?P<how>in|into|around) each of (?P<places>.+?)(?P<end>[.?!]?)"
)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
