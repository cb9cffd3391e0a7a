"""What stands before and after the rows, written back: title, terms, gauge, rules, special stitches."""

from __future__ import annotations

from coach.craft.pattern import Draft, SpecialStitch
from coach.notation.special_stitches import usual_specials
from coach.notation.words import Vocabulary
from coach.notation.writing_colors import color_lines
from coach.notation.writing_words import Terms, respelled

UNTITLED = "Untitled Pattern"


def front_lines(draft: Draft, terms: Terms, source: Vocabulary) -> list[str]:
    """Return the lines before the first row."""
    out = [draft.title or UNTITLED, f"Written in {terms.name} terms."]
    if draft.size is not None:
        out.append(f"Worked in size {draft.size}.")
    if draft.gauge:
        gauge = respelled(draft.gauge, source, terms, prose=True)
        out.append(f"{'Tension' if terms.uk else 'Gauge'}: {gauge}")
    out += [line for line in (_multiple(draft), _colours(draft)) if line]
    out += [_rule(length, stands_for, terms) for length, stands_for in draft.counts_as.items()]
    out += _specials(draft, terms, source)
    if draft.spiral:
        out.append("Work in a spiral where the rounds are not joined.")
    if draft.materials:
        first, *more = draft.materials
        out += [f"Materials: {first}", *more]
    out += color_lines(draft, None)
    return [*out, ""]


def _multiple(draft: Draft) -> str:
    stated = draft.multiple
    if stated is None:
        return ""
    unit = {"chains": " ch", "stitches": " sts"}.get(stated.unit or "", "")
    words = f"Multiple of {stated.of}{unit}"
    if stated.plus or stated.chains:
        words += f" + {stated.plus}"
    if stated.chains:
        words += f", plus {stated.chains} for the foundation ch"
    return f"{words}."


def _colours(draft: Draft) -> str:
    named = [
        f"{name} ({letter})" for letter, _, name in (each.partition(" ") for each in draft.colors)
    ]
    return f"Colours used are {', '.join(named)}." if named else ""


def _rule(length: int, stands_for: str, terms: Terms) -> str:
    chain = f"ch-{length}" if length else "turning ch"
    if not stands_for:
        return f"The {chain} at the start of a row does not count as a st."
    words = terms.counted(stands_for)
    article = "" if words.startswith(("a ", "ch ")) else "a "
    return f"The {chain} at the start of a row counts as {article}{words}."


def _specials(draft: Draft, terms: Terms, source: Vocabulary) -> list[str]:
    usual = usual_specials(source)
    return [
        f"{name}: {_definition(special, source, terms)}"
        for name, special in draft.specials.items()
        if usual.get(name) != special
    ]


def _definition(special: SpecialStitch, source: Vocabulary, terms: Terms) -> str:
    return respelled(" ".join(special.definition.split()), source, terms)


def finishing_lines(draft: Draft, terms: Terms, source: Vocabulary) -> list[str]:
    """Return the lines after the last row."""
    if not draft.finishing:
        return []
    by_line: dict[int, list[str]] = {}
    for line, sentence in draft.finishing:
        by_line.setdefault(line, []).append(respelled(sentence, source, terms, prose=True))
    return ["", "FINISHING", *(" ".join(sentences) for sentences in by_line.values())]
