"""A beginning chain of 2 of which nothing is said: decided by the counts or the words, or asked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from coach.craft.customs import Key, choice, what
from coach.craft.instruction import Act, Chain, GroupIn, Make, Of, Which
from coach.craft.pattern import Draft, Line, Stated
from coach.craft.problem import Verdict
from coach.craft.proof import Question, Reading
from coach.craft.walk import Walk


def silent_chain_of_two(
    draft: Draft, usual: Walk, other: Walk, short: tuple[Key, ...]
) -> Reading | Question:
    """Return how a silent chain of 2 is taken, or the question where nothing decides.

    usual: worked with chains that do not count; other: with chains that count. The rows that the
    question is about are marked as unclear.
    """
    made = [row.made for row in usual.rows]
    if other.problems or [row.made for row in other.rows] == made:
        return _taken(short, "the counts fit only so")
    if _leaves_untold(draft, usual, other):
        return _taken(short, "the counts fit only so")
    if _begins_in_the_first(draft):
        return _taken(short, "the stitch after it goes into the first stitch")
    for index, (row, counted) in enumerate(zip(usual.rows, other.rows, strict=False)):
        if counted.made != row.made:
            usual.rows[index] = replace(row, verdict=Verdict.UNCLEAR)
    return Question(
        "Does the beginning chain of 2 count as a stitch? The pattern does not say, and no count decides.",
        (
            f"It does not count: {row_counts(usual)}, and each row starts in the very first stitch.",
            f"It counts: {row_counts(other)}; skip the first stitch, and end in the top of the turning chain.",
        ),
        keys=short,
    )


def _taken(short: tuple[Key, ...], because: str) -> Reading:
    return Reading(what(short[0]), choice(short[0], usual=True), because)


def row_counts(walk: Walk) -> str:
    """Return what the first rows come to, in words."""
    counts = [f"{row.label} has {row.made}" for row in walk.rows[:2]]
    return " and ".join(counts)


def _leaves_untold(draft: Draft, usual: Walk, other: Walk) -> bool:
    """Tell whether a count that names every stitch of a row holds all of them only in *usual*.

    "Ch 2, puff in first st, ... (16 puffs)": a counted chain would be a stitch that is not told.
    """
    told = {
        entry.place.line: sum(figure.number for figure in _stitches_in(entry.stated[0]))
        for entry in draft.entries
        if isinstance(entry, Line) and entry.stated and _names_each(entry.stated[0])
    }
    return any(
        row.line in told and row.made == told[row.line] != counted.made
        for row, counted in zip(usual.rows, other.rows, strict=False)
    )


def _begins_in_the_first(draft: Draft) -> bool:
    """Tell whether every row that begins with a silent chain of 2 works into the first stitch next.

    "Ch 2, hdc in first st": a chain that counts would stand on that stitch.
    """
    begun = [
        [item for item in entry.items if not isinstance(item, Act)]
        for entry in draft.entries
        if isinstance(entry, Line)
    ]
    silent = [
        items[1]
        for items in begun
        if len(items) > 1
        and isinstance(items[0], Chain)
        and (items[0].count, items[0].counts_as) == (2, None)
    ]
    return bool(silent) and all(
        isinstance(item, Make | GroupIn)
        and item.target is not None
        and item.target.which in (Which.FIRST, Which.SAME)
        for item in silent
    )


def _names_each(figures: Sequence[Stated]) -> bool:
    return all(
        figure.noun is not None and figure.noun.of in (Of.NAMED, Of.UNIT)
        for figure in _stitches_in(figures)
    )


def _stitches_in(figures: Sequence[Stated]) -> list[Stated]:
    return [each for each in figures if each.noun is None or each.noun.of is not Of.SPACE]
