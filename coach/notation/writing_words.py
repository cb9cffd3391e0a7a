"""The words that a row is written back with: stitches in US or UK terms, places, bounds.

The counterpart of `words` and `nouns`: what is written here is read there as the same thing.
It knows no whole row and no order of instructions.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from coach.craft.instruction import Bound, Noun, Of, Target, Which
from coach.craft.stitch import called
from coach.notation.cleaning import CleanLine
from coach.notation.tokens import Token, tokens_of
from coach.notation.words import Vocabulary, understood

LOOPS = {
    "back": "back loop",
    "front": "front loop",
    "third": "3rd loop",
}
_IN_TALK = ("single", "double", "triple", "treble", "half double", "half treble", "double triple")
_SURE_WORDS = frozenset(["miss", "skip", "sk", "missed", "skipped", "missing", "skipping"])


class WordlessError(ValueError):
    """The written language has no words that would be read as this again."""


@dataclass(frozen=True, slots=True)
class Terms:
    """US or UK terms, as what is written uses them."""

    uk: bool

    @property
    def name(self) -> str:
        """ "US" or "UK"."""
        return "UK" if self.uk else "US"

    @property
    def skip(self) -> str:
        """The word for passing over a place."""
        return "miss" if self.uk else "sk"

    @property
    def slip(self) -> str:
        """The slip stitch."""
        return self.stitch("sl st")

    def stitch(self, us: str) -> str:
        """Return the stitch that US terms call *us* ("FPdc", "sc2tog", "shell") in these terms."""
        return called(us, uk=self.uk)

    def counted(self, us: str) -> str:
        """Return what a beginning chain stands for in words: "dc", "dc and ch 2", "a st"."""
        stitch, _, chains = us.partition("+ch-")
        words = {"st": "a st", "": ""}.get(stitch, self.stitch(stitch))
        if not chains:
            return words
        return f"{words} and ch {chains}" if words else f"ch {chains}"


def ordinal(number: int) -> str:
    """Return 1st, 2nd, 3rd, 11th."""
    ending = {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{'th' if number % 100 in (11, 12, 13) else ending}"


def noun_words(noun: Noun, terms: Terms, *, many: bool = False) -> str:
    """Return what a place is called: "st", "dc", "ch-2 sps".

    Raises:
        WordlessError: no words are read as this noun.
    """
    word = _noun_word(noun, terms)
    if not many or noun.of in (Of.CHAIN, Of.NAMED) or word.endswith("s"):
        return word
    return f"{word}s"


def _noun_word(noun: Noun, terms: Terms) -> str:  # noqa: PLR0911 - one for each kind
    match noun.of:
        case Of.STITCH if noun.length is None:
            return "st"
        case Of.NAMED if noun.name:
            return terms.stitch(noun.name)
        case Of.SPACE if noun.name is None:
            return f"ch-{noun.length} sp" if noun.length is not None else "sp"
        case Of.CHAIN if noun.length is None:
            return "ch"
        case Of.UNIT | Of.SQUARE if noun.name:
            return noun.name
        case Of.TURNING_CHAIN:
            return "turning ch"
    plain = {
        Of.RING: "ring",
        Of.STITCH_OR_SPACE: "st or sp",
        Of.FREE_LOOP: "free loop",
        Of.ROW_END: "row end",
        Of.SKIPPED: "skipped st",
    }.get(noun.of)
    if plain is None:
        raise WordlessError(f"no word for {noun}")
    return plain


def bound_words(bound: Bound, terms: Terms) -> str:
    """Return where something stops: "to last 3 sts", "to next ch-2 sp"."""
    if bound.kind == "last":
        if bound.count == 1:
            return f"to last {noun_words(bound.noun, terms)}"
        return f"to last {bound.count} {noun_words(bound.noun, terms, many=True)}"
    if bound.noun.of is Of.MARKER:
        return "to marker"
    return f"to next {noun_words(bound.noun, terms)}"


def target_words(target: Target, terms: Terms, *, around: str = "across") -> str:
    """Return where something goes, with its preposition: "in each of next 3 sts".

    around: the word for "to the end" where the target runs on.
    """
    before = "around" if target.around else "over" if target.together else "in"
    words = [f"{before} {place_words(target, terms, around=around)}"]
    words += [f"and in {place_words(each, terms, around=around)}" for each in target.also]
    return " ".join(words)


def place_words(target: Target, terms: Terms, *, around: str = "across") -> str:
    """Return the places themselves: "each st to last 2 sts", "top of turning ch"."""
    words = _which_words(target, terms)
    if target.within is not None:
        which = "each" if target.which is Which.EACH else "next"
        words += f" of {which} {noun_words(target.within.noun, terms)}"
    if target.loop:
        words += f" in {LOOPS[target.loop]} only" if target.loop in LOOPS else f" in {target.loop}"
    if target.rows_below:
        words += f" {target.rows_below} row{'s' if target.rows_below > 1 else ''} below"
    if target.together:
        words += " tog"
    if target.until is not None and not any(each.until == target.until for each in target.also):
        words += f" {around}" if target.open else ""
        words += f" {bound_words(target.until, terms)}"
    elif target.open:
        words += f" {around}"
    return words


def _which_words(target: Target, terms: Terms) -> str:  # noqa: PLR0911 - one for each kind
    noun = target.noun
    one = noun_words(noun, terms)
    if noun.of is Of.TURNING_CHAIN and target.which is Which.LAST:
        return f"{ordinal(target.nth)} ch of turning ch" if target.nth else "top of turning ch"
    if noun.of is Of.RING:
        return "same ring" if target.which is Which.SAME else "ring"
    many = target.count > 1
    several = noun_words(noun, terms, many=many)
    match target.which:
        case Which.NEXT | Which.FIRST | Which.LAST:
            if many and not target.together:
                return f"each of {target.which.value} {target.count} {several}"
            return f"{target.which.value} {f'{target.count} ' if many else ''}{several}"
        case Which.NTH if noun.of is Of.FROM_HOOK:
            return f"{ordinal(target.nth)} ch from hook"
        case Which.NTH if target.nth > 1:
            return f"{ordinal(target.nth)} {one}"
        case Which.CORNER:
            return f"next {f'{target.count} ' if many else ''}corner {several}"
        case Which.ANY if noun.of is Of.SPACE:
            return one
        case Which.EACH | Which.SAME | Which.CENTER | Which.ANY:
            return f"{target.which.value} {one}"
    raise WordlessError(f"no words for {target}")


def respelled(text: str, source: Vocabulary, terms: Terms, *, prose: bool = False) -> str:
    """Return *text* with its stitches named in *terms*, and nothing else changed.

    prose: the text is no row, so a lone "double" or "single" may be an everyday word.
    """
    if source.uk == terms.uk:
        return text
    out: list[str] = []
    for line in text.splitlines() or [""]:
        tokens = understood(tokens_of([(CleanLine(1, line), 0, len(line))]), source)
        out.append(_line_respelled(line, tokens, terms, prose=prose))
    return "\n".join(out)


def _line_respelled(line: str, tokens: Sequence[Token], terms: Terms, *, prose: bool) -> str:
    out: list[str] = []
    at = 0
    for index, token in enumerate(tokens):
        word = _other_word(token, terms, prose=prose)
        after = tokens[index + 1] if index + 1 < len(tokens) else None
        if token.raw.lower() == "single" and after is not None and after.kind == "stitch":
            out.append(
                line[at : token.place.column - 1]
            )  # "the next single dc": no stitch of its own
            at = after.place.column - 1
            continue
        if word is None:
            continue
        start = token.place.column - 1
        out += [line[at:start], word]
        at = start + token.place.length
    return "".join([*out, line[at:]])


def _other_word(token: Token, terms: Terms, *, prose: bool) -> str | None:
    """Return the word of the other terms for a token, None where it stays as it is."""
    if token.kind == "stitch":
        if prose and token.raw.lower().rstrip("s") in _IN_TALK:
            return None
        plural = (
            "s" if token.raw.lower().endswith("s") and not token.raw.lower().endswith("ss") else ""
        )
        return terms.stitch(token.text) + plural
    if token.raw.lower() in ("yo", "yrh", "yoh"):
        return "yrh" if terms.uk else "yo"
    if token.raw.lower() in _SURE_WORDS and token.text in ("sk", "skipped") and not prose:
        return {"sk": terms.skip, "skipped": "missed" if terms.uk else "skipped"}[token.text]
    return None
