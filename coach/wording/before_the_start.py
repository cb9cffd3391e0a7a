"""What a maker must know before the first stitch: rows that are at fault or can't be guided."""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.problem import NotInWords
from coach.wording.numbers_told import counted
from coach.wording.plain_text import say
from coach.wording.short_sentences import in_short_sentences, is_short
from coach.wording.words import Words


def faults_found(labels: Sequence[str]) -> Words:
    """Return what is told before starting of rows that the proof found fault with."""
    named = [say(each) for each in labels[:FAULTS_NAMED]]
    more = f" and {len(labels) - FAULTS_NAMED} more" if len(labels) > FAULTS_NAMED else ""
    rows = counted(len(labels), "row")
    head, listed = f"Take care: the pattern has a fault in {rows}", f"{', '.join(named)}{more}."
    told = f"{head}: {listed}"
    if not is_short(told):
        told = in_short_sentences(f"{head}. They are {listed}")
    return Words(f"{told} I'll say so there.", f"{rows} with a fault")


FAULTS_NAMED = 4


def rows_without_words(labels: Sequence[str]) -> Words:
    """Return what is told before starting of rows that can't be guided (user need R47)."""
    listed = labels[0] if len(labels) == 1 else f"{labels[0]} to {labels[-1]}"
    verb, they = ("has", "it") if len(labels) == 1 else ("have", "they")
    told = f"{listed} {verb} no words; {they} can't be guided."
    return Words(in_short_sentences(told), f"{listed}: no words")


def not_in_words(told: Sequence[NotInWords]) -> Words:
    """Return what is told before starting of words that rest on a picture, or on two shapings at once."""
    where = f"on line {told[0].line}" if len(told) == 1 else f"in {len(told)} places"
    shown = all(each.why == "picture" for each in told)
    why = "rests on a picture" if shown else "can't be led through"
    first = f"The first is on line {told[0].line}. " if len(told) > 1 else ""
    full = f"Take care. The pattern {why} {where}. {first}Ask for it in words before you start."
    return Words(full, f"{where}: not in words")
