"""What stands before and between the rows: title, terms, gauge, multiple, notes, special stitches."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from coach.craft.pattern import StatedMultiple
from coach.craft.problem import Place
from coach.notation.cleaning import CleanLine, clean_line
from coach.notation.counts_as import counts_as_remark
from coach.notation.tokens import Token, tokens_of
from coach.notation.words import Vocabulary, understood

_TERMS = re.compile(
    r"\b(US|U\.S\.?|USA|American|UK|U\.K\.?|British)\b[\s:-]*(?:crochet\s+)?(?:terms?|terminology|abbreviations)?",
    re.IGNORECASE,
)
_STATED_TERMS = re.compile(
    r"\bterms?\s*(?:used)?\s*[:–-]?\s*(US|U\.S\.|UK|U\.K\.|American|British)\b"
    r"|\b(US|U\.S\.|UK|U\.K\.|American|British)\s+(?:crochet\s+)?(?:terms?|terminology|abbreviations|notation)\b"
    r"|\b(?:abbreviations|stitches used|stitch key|stitches)[^\n]{0,20}\(?\b(US|UK)\b"
    r"|\bwritten in\s+(US|UK|American|British)\b",
    re.IGNORECASE,
)
_GAUGE = re.compile(r"^\W*(?:gauge|tension)\b\s*[:–-]?\s*(.*)$", re.IGNORECASE)
_MULTIPLE = re.compile(
    r"multiples?\b[^.\n\d]{0,40}?(?P<of>\d+)\s*(?P<unit1>ch|chs|chains|sts?|stitches)?\s*(?:,?\s*(?:\+|plus)\s*(?P<plus>\d+))?\s*"
    r"(?P<unit2>ch|chs|chains|sts?|stitches)?"
    r"(?:[^.\n\d]{0,30}?(?:add|plus|\+)\s*(?P<chains>\d+)\s*(?:ch\s*)?(?:more\s*)?(?:for|to)\b[^.\n]{0,12}?(?P<what>foundation|base|turning|beginning|starting|first|the)?)?",
    re.IGNORECASE,
)
_US_CLUES = re.compile(
    r"\b(sc|hdc|single crochet|half double crochet|sc2tog|hdc2tog|fsc|sk|skip|gauge)\b",
    re.IGNORECASE,
)
_UK_CLUES = re.compile(
    r"\b(htr|half treble|miss|tension|yrh|yoh|htr2tog)\b|\b\d*ss\b", re.IGNORECASE
)
_SURE_US = re.compile(
    r"(?<![a-z])(?:sc|s c|h d c|hdc|single crochets?|half double crochets?|[fb]psc|fsc|hdc\d?tog|sc\dtog)(?![a-z])",
    re.IGNORECASE,
)
_SURE_UK = re.compile(r"(?<![a-z])(?:htr|half treble)(?![a-z])", re.IGNORECASE)


def stated_terms(lines: Iterable[CleanLine]) -> str | None:
    """Return "US" or "UK" where the text says so, else None."""
    for line in lines:
        for found in _STATED_TERMS.finditer(line.text):
            word = next(group for group in found.groups() if group).upper().replace(".", "")
            if re.search(
                r"\b(us|american)\b.{0,20}\b(uk|british)\b|\b(uk|british)\b.{0,20}\b(us|american)\b",
                line.text,
                re.IGNORECASE,
            ):
                continue
            return "UK" if word in ("UK", "BRITISH") else "US"
    return None


def guessed_terms(text: str) -> tuple[str | None, tuple[str, ...]]:
    """Return the terms that the words prove, or None, and the clues seen."""
    us = [found.group().lower() for found in _SURE_US.finditer(text)]
    uk = [found.group().lower() for found in _SURE_UK.finditer(text)]
    clues = tuple(
        dict.fromkeys(
            [f"US: {word}" for word in us]
            + [f"UK: {word}" for word in uk]
            + [f"UK: {found.group().lower()}" for found in _UK_CLUES.finditer(text)]
            + [f"US: {found.group().lower()}" for found in _US_CLUES.finditer(text)]
        )
    )
    if us and not uk:
        return "US", clues
    if uk and not us:
        return "UK", clues
    if us and uk:
        return ("US" if len(us) >= len(uk) else "UK"), clues
    if by_height := _terms_by_height(text):
        return by_height, clues
    weak = [found.group().lower() for found in _UK_CLUES.finditer(text)]
    weak_us = re.findall(r"\b(?:sk|skip|gauge)\b", text, re.IGNORECASE)
    if weak and not weak_us:
        return "UK", clues
    return None, clues


_COUNTED_CHAIN = re.compile(
    r"\b(?:ch(?:ain)?[\s-]*(?P<after>\d)|(?P<before>\d)\s?ch)\b[^.;\n]{0,45}?\bcounts?\s+as\s+(?:the\s+|a\s+|an\s+|first\s+|one\s+|1\s*|1st\s+)*"
    r"(?P<stitch>dc|tr|dtr)\b(?:\s*(?:,|\+|and|&|plus)\s*(?:a\s+)?(?:ch[\s-]*(?P<more>\d)|(?P<more2>\d)\s?ch))?",
    re.IGNORECASE,
)
# How many chains are as tall as the stitch: common practice (see craft.stitch).
_HEIGHTS = {(3, "dc"): "US", (4, "tr"): "US", (1, "dc"): "UK", (3, "tr"): "UK", (4, "dtr"): "UK"}


def _terms_by_height(text: str) -> str | None:
    """Return the terms in which the counted chains are as tall as the stitch that they stand for."""
    told = set()
    for found in _COUNTED_CHAIN.finditer(text):
        chains = int(found["after"] or found["before"]) - int(found["more"] or found["more2"] or 0)
        told.add(_HEIGHTS.get((chains, found["stitch"].lower())))
    told.discard(None)
    return told.pop() if len(told) == 1 else None


def gauge_line(lines: Sequence[CleanLine]) -> str | None:
    """Return the gauge as the designer wrote it."""
    for index, line in enumerate(lines):
        found = _GAUGE.match(line.text)
        if found:
            if found[1].strip():
                return found[1].strip()
            if index + 1 < len(lines) and lines[index + 1].text.strip():
                return lines[index + 1].text.strip()
    return None


def stated_multiple(line: CleanLine) -> StatedMultiple | None:
    """Return the multiple that a line states: "multiple of 8 + 5, plus 2 for the foundation chain"."""
    found = _MULTIPLE.search(line.text)
    if not found or int(found["of"]) < 1:
        return None
    unit = found["unit1"] or found["unit2"]
    if unit:
        unit = "chains" if unit.lower().startswith("ch") else "stitches"
    place = Place(line.number, line.column(found.start()), len(found.group().rstrip()))
    return StatedMultiple(
        int(found["of"]), int(found["plus"] or 0), int(found["chains"] or 0), unit, place
    )


def counting_rules(text: str, vocabulary: Vocabulary) -> dict[int, str]:
    """Return what beginning chains count as, from notes: number of chains (0 for all) to stitch."""
    rules: dict[int, str] = {}
    clauses: list[str] = []
    text = re.sub(
        r"\b(?:takes?|taking) the place of|\bstands? (?:in )?for|\breplaces?\b",
        "counts as",
        text,
        flags=re.IGNORECASE,
    )
    text = re.sub(
        r"\b(?:is|are)\s+(?=(?:the |a |one |first )*(?:dc|tr|hdc|htr|sc|dtr|st|stitch)\b)",
        "counts as ",
        text,
        flags=re.IGNORECASE,
    )
    text = re.sub(r"\bis not a st(?:itch)?\b", "does not count as a st", text, flags=re.IGNORECASE)
    for sentence in re.split(r"[.;\n]", text):
        sentence = re.sub(r",?\s+(?:as|so)\s+do(?:es)?\b.*", "", sentence)  # noqa: PLW2901
        parts = re.split(
            r",\s+(?:and\s+)?(?=(?:the\s+|beg\w*\s+)?(?:ch[- ]?\d|\d\s?ch\b))", sentence
        )
        counting = re.search(r"count", sentence, re.IGNORECASE)
        clauses += [
            part
            if re.search(r"count", part, re.IGNORECASE) or not counting
            else re.sub(r"\b(as|for)\b", r"counts \1", part, count=1)
            for part in parts
        ]
    for number, clause in enumerate(clauses, 1):
        if not re.search(r"count", clause, re.IGNORECASE):
            continue
        tokens = understood(tokens_of([(clean_line(number, clause), 0, len(clause))]), vocabulary)
        texts = [token.text for token in tokens]
        if (
            "ch" not in texts and "tch" not in texts and "turning" not in texts
        ) or "counts" not in texts:
            continue
        said = counts_as_remark(tokens)
        if said is None:
            continue
        before = tokens[: texts.index("counts")]
        if any(token.is_("skipped", "foundation") for token in before) and "beg" not in texts:
            continue
        length = _chain_length(before)
        rules.setdefault(length, said[0])
    return rules


def _chain_length(tokens: Sequence[Token]) -> int:
    for index, token in enumerate(tokens):
        if token.text == "ch":
            for near in (index + 1, index + 2, index - 1, index - 2):
                if (
                    0 <= near < len(tokens)
                    and tokens[near].kind == "num"
                    and tokens[near].value < 12
                ):
                    return tokens[near].value
    return 0
