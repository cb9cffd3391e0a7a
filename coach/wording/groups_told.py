"""What goes into one place together: a shell, a V stitch, a corner, as short sentences.

First where, then what, each in a sentence of its own: hands go to the place while the ear takes
in the list. A list that needs a second sentence says again that it is the same place.
"""

from __future__ import annotations

from collections.abc import Sequence

from coach.craft.working import Into, Where
from coach.wording.places import loop_told, place, the_places
from coach.wording.short_sentences import is_short
from coach.wording.stitch_names import plural

Thing = tuple[str, str]  # what is worked, and a sentence on it ("It counts as ...") or ""
STILL_THERE = "Then in the same place"


def named_together(name: str, where: Where, terms: str, times: int, things: Sequence[Thing]) -> str:
    """Return "shell, all in the next stitch. That is: 5 double crochet"."""
    there = place(where, terms, places=times)
    if times > 1:
        head = f"{times} {plural(name, times)}, one {there}"
        return f"{head}. {listed('Each is', things)}"
    return f"{name}, all {there}".rstrip() + f". {listed('That is', things)}"


def together(where: Where, terms: str, times: int, things: Sequence[Thing]) -> str:
    """Return "work into the next chain-2 space. Make all of these: 3 double crochet, chain 2, ..."."""
    if where.into is Into.NOTHING:
        return listed("make all of these", things)
    lead = "Make all of these in each one" if times > 1 else "Make all of these"
    return f"{_where(where, terms, times)}. {listed(lead, things)}"


def _where(where: Where, terms: str, times: int) -> str:
    if where.into is Into.FREE_LOOP:
        loops = f"work in {the_places(where, terms, times)}{loop_told(where)}"
        return f"{loops}. That is on the other side of the foundation chain"
    verb = "stay" if where.into is Into.SAME else "work"
    return f"{verb} {place(where, terms, places=times)}"


def listed(lead: str, things: Sequence[Thing]) -> str:
    """Return *things* after *lead*, in as many sentences as keep each of them short."""
    told: list[str] = []
    held: list[str] = []

    def sentence_of(these: Sequence[str]) -> str:
        return f"{lead if not told else STILL_THERE}: {', '.join(these)}"

    for thing, note in things:
        if held and not is_short(sentence_of([*held, thing])):
            told.append(sentence_of(held))
            held = []
        held.append(thing)
        if note:
            told.extend((sentence_of(held), note))
            held = []
    if held:
        told.append(sentence_of(held))
    return ". ".join(told)
