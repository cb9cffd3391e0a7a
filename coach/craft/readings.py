"""Every reading, decided by the sums: the customs of wording tried on the whole pattern."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import combinations

from coach.craft.customs import Key, choice, flipped, likely, what
from coach.craft.instruction import makes_in
from coach.craft.multiple import derived, stated_fault
from coach.craft.pattern import Draft, Line, Rerun, Start
from coach.craft.problem import Verdict
from coach.craft.proof import Proof, Question, Reading
from coach.craft.proving import walked
from coach.craft.row_bench import Switches
from coach.craft.silent_chains import row_counts, silent_chain_of_two
from coach.craft.usual_edge import told_of_edges
from coach.craft.walk import Opening, Walk

MOST_READINGS = 24


def prove(
    draft: Draft, opening: Opening | None = None, *, settled: tuple[Key, ...] | None = None
) -> Proof:
    """Prove *draft* under the reading that its own counts decide.

    The usual customs come first; others are tried only where the usual ones do not fit, or
    where a custom is no custom (a beginning chain of 2).
    """
    if settled is not None:
        said = walked(draft, flipped(settled), opening)
        told = [Reading(what(key), choice(key, usual=False), "you said so") for key in settled]
        return _proof(draft, said, [*_as_written(draft), *told], [])
    usual = walked(draft, Switches(), opening)
    chosen = usual
    keys: tuple[Key, ...] = ()
    questions: list[Question] = []
    readings = _as_written(draft)
    if usual.problems:
        chosen, keys = _best(draft, usual)
        readings += _taken(usual, chosen, keys)
    else:
        more, asked = _weighed(draft, usual)
        readings += more
        questions += asked
    return _proof(draft, chosen, readings, questions)


def _as_written(draft: Draft) -> list[Reading]:
    """Tell what the words alone settled: chains for a multiple, rows that go by one number."""
    return [*_chains_chosen(draft), *_one_number(draft), *_old_single(draft)]


# "single" alone, not "single crochet" or "a single strand"
_SINGLE = re.compile(
    r"\b(?:\d+|one|a)\s+singles?\b(?=\s+(?:in|into|on|over|to)\b)|\bsingles?\s+(?:in|into)\b",
    re.IGNORECASE,
)


def _old_single(draft: Draft) -> list[Reading]:
    """Tell how "single" is taken: old books mean a slip stitch by it (the trade's reference, part 4)."""
    if not any(_SINGLE.search(line.text) for line in lines_of(draft)):
        return []
    because = "the word is used so today; in an old book it may be a slip stitch, so ask"
    return [Reading('what "single" means', "single crochet", because)]


def _one_number(draft: Draft) -> list[Reading]:
    """Tell where several rows go by one number, as the number of the row after them shows."""
    return [
        Reading(
            f"how many rows {label} stands for",
            f"{entry.times + 1} in all",
            "its words say so, and the next number follows on",
        )
        for entry in draft.entries
        if isinstance(entry, Rerun) and entry.under is not None and entry.times
        for label in entry.source
    ]


def _chains_chosen(draft: Draft) -> list[Reading]:
    """Tell how many chains are taken where the pattern gives only a multiple."""
    return [
        Reading(
            "how many chains to begin with",
            f"{start.chains}, which is {(start.chains - plus) // of} times {of} and {plus} more",
            "the pattern leaves it open; write a number of chains to make it wider",
        )
        for start in draft.entries
        if isinstance(start, Start) and start.chains is not None and start.open_multiple
        for of, plus in (start.open_multiple,)
    ]


def _best(draft: Draft, usual: Walk) -> tuple[Walk, tuple[Key, ...]]:
    best: Walk = usual
    taken: tuple[Key, ...] = ()
    for keys in _subsets(usual.looked):
        other = walked(draft, flipped(keys), usual.opening)
        if _worse(other) < _worse(best):
            best, taken = other, keys
        if not best.problems:
            break
    return best, taken


def _worse(walk: Walk) -> tuple[int, int]:
    """Order ways through a pattern: by their faults, then by how many rows do not fit."""
    return len(walk.problems), sum(row.verdict is not Verdict.OK for row in walk.rows)


def _subsets(looked: Iterable[Key]) -> Iterator[tuple[Key, ...]]:
    keys = sorted(looked, key=likely)
    tried = 0
    for size in (1, 2, 3):
        for chosen in combinations(keys, size):
            tried += 1
            if tried > MOST_READINGS:
                return
            yield chosen


def _taken(usual: Walk, chosen: Walk, keys: tuple[Key, ...]) -> list[Reading]:
    if not keys:
        return []
    rows = [row.label for row in usual.rows if row.verdict is not Verdict.OK][:3]
    because = f"{' and '.join(rows)} fit only so" if rows else "the stated counts fit only so"
    return [Reading(what(key), choice(key, usual=False), because) for key in keys]


def _weighed(draft: Draft, usual: Walk) -> tuple[list[Reading], list[Question]]:
    """The usual reading fits: say what was taken, and ask where nothing decides."""
    readings: list[Reading] = []
    questions: list[Question] = []
    short = tuple(key for key in usual.looked if key[0] in ("chain", "skipped") and key[1] == 2)
    if short:
        found = silent_chain_of_two(
            draft, usual, walked(draft, flipped(short), usual.opening), short
        )
        if isinstance(found, Question):
            questions.append(found)
        else:
            readings.append(found)
    bare = ("bare", 0)
    if bare in usual.looked:
        asked = None if _says_increase(draft) else _bare_question(draft, usual)
        questions += [asked] if asked else []
    for key in sorted(usual.looked - {*short, bare}, key=likely):
        if key[0] == "mesh":
            continue
        other = walked(draft, flipped((key,)), usual.opening)
        if not other.problems and _sums(other) == _sums(usual):
            continue  # both ways come to the same: there is nothing to tell
        because = (
            "the counts fit only so"
            if other.problems
            else "it is the usual custom, and the pattern does not say"
        )
        readings.append(Reading(what(key), choice(key, usual=True), because))
    return readings, questions


def _sums(walk: Walk) -> list[tuple[int | None, int, int]]:
    """Return what each row uses and makes."""
    return [(row.worked, row.made, row.spaces) for row in walk.rows]


def _says_increase(draft: Draft) -> bool:
    """A writer who says "inc", or "2 sc in next st", does not mean two in one by "2 sc"."""
    return any(
        make.increase or (make.each > 1 and make.target is not None)
        for entry in draft.entries
        if isinstance(entry, Line)
        for make in makes_in(entry.items)
    )


def _bare_question(draft: Draft, usual: Walk) -> Question | None:
    other = walked(draft, flipped((("bare", 0),)), usual.opening)
    if other.problems or [row.made for row in other.rows] == [row.made for row in usual.rows]:
        return None
    for index, row in enumerate(usual.rows):
        if index < len(other.rows) and other.rows[index].made != row.made:
            usual.rows[index] = replace(row, verdict=Verdict.UNCLEAR)
    return Question(
        "Is a number with a stitch, such as 2 sc, two in one stitch or one in each of two? Both fit, and no count decides.",
        (
            f"One in each of so many: {row_counts(usual)}.",
            f"All in one stitch: {row_counts(other)}.",
        ),
        keys=(("bare", 0),),
    )


def _proof(draft: Draft, walk: Walk, readings: list[Reading], questions: list[Question]) -> Proof:
    multiple = derived(draft, walk)
    problems = list(walk.problems)
    readings = [*readings, *told_of_edges(walk.rows, walk.usual_edges)]
    wrong = stated_fault(draft, walk, multiple)
    if wrong is not None and not problems:
        problems.append(wrong)
    return Proof(
        title=draft.title,
        terms=draft.terms,
        foundation=walk.foundation,
        rows=tuple(walk.rows),
        problems=tuple(problems),
        readings=tuple(readings),
        questions=tuple(questions),
        multiple=multiple,
        sizes=draft.sizes,
        size=draft.size,
        gauge=draft.gauge,
        finishing=draft.finishing,
        materials=draft.materials,
        special_stitches={name: special.definition for name, special in draft.specials.items()},
        colors=draft.colors,
        not_in_words=draft.not_in_words,
    )


def lines_of(draft: Draft) -> list[Line]:
    """Return the rows that are written out."""
    return [entry for entry in draft.entries if isinstance(entry, Line)]
