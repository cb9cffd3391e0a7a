"""The vocabulary: every name of a stitch in US and UK terms, and the words round them.

A phrase is matched by its words alone: "half-double crochet", "h d c" and "hdc" are one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from coach.craft.problem import Place
from coach.craft.stitch import UK_TO_US
from coach.notation.numbers_read import numbered
from coach.notation.stitch_names import (
    ONLY_UK,
    ONLY_US,
    PLAIN,
    UK_NAMES,
    UNIT_NAMES,
    UNITS,
    US_NAMES,
)
from coach.notation.tokens import Token

_TOG = re.compile(r"^(?P<post>fp|bp)?(?P<base>[a-z]*?)(?P<legs>\d+)tog$")
LONGEST = 7
_POSTS_AFTER_A_SLASH = {
    "rf": "FP", "rb": "BP", "f": "FP", "b": "BP", "fp": "FP", "bp": "BP", "front": "FP", "back": "BP",
}  # fmt: skip


class Vocabulary:
    """The names that one pattern may use: its terms, its own special stitches."""

    def __init__(
        self,
        terms: str | None,
        specials: Iterable[str] = (),
        also_called: Mapping[str, str] | None = None,
    ) -> None:
        """also_called: a special's other names, each with the one that it is known by."""
        self.uk = terms == "UK"
        self.names: dict[str, tuple[str, str]] = {}
        for us, phrases in self._stitches():
            self._add_stitch(us, phrases)
        if self.uk:
            for phrase in ONLY_US:
                self.names[phrase] = ("clash", phrase)
        else:
            for phrase in ONLY_UK:
                self.names.setdefault(phrase, ("clash", phrase))
        for phrase in UNITS:
            self._add_unit(phrase, UNIT_NAMES.get(phrase, phrase))
        self.own: set[str] = set()
        for name in specials:
            known = (also_called or {}).get(name, name)
            for called in _ways_to_call(name):
                self.own.add(called.lower())
                phrase = " ".join(re.findall(r"[a-z0-9]+", called.lower()))
                if (phrase and phrase not in self.names) or phrase in UNITS or _is_unit(phrase):
                    self._add_unit(phrase, known, own=True)
                if phrase in ("inv dec", "invisible dec"):
                    self.names.pop(phrase, None)

    def _stitches(self) -> Iterable[tuple[str, tuple[str, ...]]]:
        if not self.uk:
            return US_NAMES.items()
        return [(UK_TO_US[uk], phrases) for uk, phrases in UK_NAMES.items()]

    def _add_stitch(self, us: str, phrases: tuple[str, ...]) -> None:
        for phrase in phrases:
            self.names.setdefault(phrase, ("stitch", us))
            last = phrase.split()[-1]
            if last == "crochet":
                self.names.setdefault(f"{phrase}ing", ("stitch", us))
            for plural in (f"{phrase}s", f"{phrase}es") if len(last) > 1 else ():
                self.names.setdefault(plural, ("stitch", us))
            if us == "sl st":
                continue
            self._add_posts(us, phrase)
            for reach in (
                "long",
                "spike",
            ):  # set into a row further down: the names are from memory
                self.names.setdefault(f"{reach} {phrase}", ("stitch", f"{reach} {us}"))
            self.names.setdefault(f"foundation {phrase}", ("stitch", "f" + us))
            self.names.setdefault(f"extended {phrase}", ("stitch", "e" + us))
            self.names.setdefault(f"standing {phrase}", ("stitch", us))
            self.names.setdefault(f"reverse {phrase}", ("stitch", "rev " + us))
            self.names.setdefault(f"rev {phrase}", ("stitch", "rev " + us))
            if " " not in phrase:
                self.names.setdefault(f"f{phrase}", ("stitch", "f" + us))
                self.names.setdefault(f"e{phrase}", ("stitch", "e" + us))
                self.names.setdefault(f"rev{phrase}", ("stitch", "rev " + us))
        if us == "sc":
            for phrase in ("rsc", "crab st", "crab stitch"):
                self.names.setdefault(phrase, ("stitch", "rev sc"))

    def _add_posts(self, us: str, phrase: str) -> None:
        """Add the names of a stitch worked round a post, from the front and from behind."""
        for post, side in (
            ("fp", "FP"),
            ("bp", "BP"),
            ("rf", "FP"),  # raised front, raised back: UK leaflets, from memory
            ("rb", "BP"),
            ("front post", "FP"),
            ("back post", "BP"),
        ):
            self.names.setdefault(f"{post} {phrase}", ("stitch", side + us))
            self.names.setdefault(f"{phrase} {post}", ("stitch", side + us))
            if " " not in phrase and len(post) == 2:
                self.names.setdefault(f"{post}{phrase}", ("stitch", side + us))
                self.names.setdefault(f"{phrase}{post}", ("stitch", side + us))
                self.names.setdefault(f"{post}{phrase}s", ("stitch", side + us))
        for raised in ("raised", "relief"):  # "relief" is from memory
            for told in (
                f"{raised} {phrase}",
                f"front {raised} {phrase}",
                f"{raised} {phrase} front",
            ):
                self.names.setdefault(told, ("stitch", "FP" + us))
            for told in (f"back {raised} {phrase}", f"{raised} {phrase} back"):
                self.names.setdefault(told, ("stitch", "BP" + us))
        for after, side in _POSTS_AFTER_A_SLASH.items():
            self.names.setdefault(f"{phrase}/{after}", ("stitch", side + us))
        if " " not in phrase:
            self.names.setdefault(f"r{phrase}f", ("stitch", "FP" + us))
            self.names.setdefault(f"r{phrase}b", ("stitch", "BP" + us))

    def _add_unit(self, phrase: str, name: str, *, own: bool = False) -> None:
        self.names[phrase] = ("unit", name)
        if not phrase.endswith("s"):
            for plural in (f"{phrase}s", f"{phrase}es"):
                if own and self.names.get(plural, ("unit",))[0] == "unit":
                    self.names.pop(plural, None)
                self.names.setdefault(plural, ("unit", name))
        if phrase.endswith(" st") or phrase == "v st":
            self.names.setdefault(f"{phrase}itch", ("unit", name))
            self.names.setdefault(f"{phrase}itches", ("unit", name))
            self.names.setdefault(phrase.replace(" ", ""), ("unit", name))
            self.names.setdefault(phrase.replace(" ", "") + "s", ("unit", name))

    def drawn_together(self, text: str) -> str | None:
        """Return the US name of "sc2tog", "fpdc3tog"; "2tog" alone gives "2tog"."""
        found = _TOG.match(text)
        if not found or not 1 < int(found["legs"][:3]) < 60:
            return None
        base = found["base"]
        if not base:
            return f"{found['legs']}tog"
        kind, us = self.names.get(base, ("", ""))
        if kind == "clash":
            return f"clash {base}"
        if kind != "stitch":
            return None
        return f"{(found['post'] or '').upper()}{us}{found['legs']}tog"


def _ways_to_call(name: str) -> list[str]:
    """Return a stitch's names where it is defined with both: "C4F (cable 4 front)"."""
    found = re.fullmatch(r"\s*([^()]*\S)\s*\(([^()]+)\)\s*", name)
    return [name, found[1], found[2]] if found else [name]


def _is_unit(phrase: str) -> bool:
    return phrase.rstrip("s") in UNITS


def understood(tokens: Sequence[Token], vocabulary: Vocabulary) -> list[Token]:
    """Return *tokens* with stitches and units named, numbers in words turned, words made plain."""
    out: list[Token] = []
    index = 0
    tokens = numbered(tokens)
    while index < len(tokens):
        token = tokens[index]
        if token.kind == "tog":
            name = vocabulary.drawn_together(token.text)
            kind = "stitch" if name else "word"
            if name and name.startswith("clash"):
                kind, name = "clash", name.removeprefix("clash ")
            out.append(replace(token, kind=kind, text=name or token.text))
            index += 1
            continue
        if token.text == "invdec":
            out += [replace(token, text="inv"), replace(token, text="dec", glued=True)]
            index += 1
            continue
        if token.kind != "word":
            out.append(token)
            index += 1
            continue
        matched = _longest(tokens, index, vocabulary)
        if matched and matched[0][0] == "unit":
            after = tokens[matched[1]] if matched[1] < len(tokens) else None
            if _is_plain_space(token, out) or _is_plain_corner(token, out, after):
                matched = None
        if matched:
            (kind, name), end = matched
            last = tokens[end - 1]
            whole = " ".join(each.raw for each in tokens[index:end])
            length = last.place.column + last.place.length - token.place.column
            if last.place.line != token.place.line:
                length = token.place.length
            out.append(
                replace(
                    token,
                    kind=kind,
                    text=name,
                    raw=whole,
                    form=kind,
                    line_end=last.line_end,
                    place=replace(token.place, length=max(length, 1)),
                )
            )
            index = end
            continue
        plain = PLAIN.get(token.text)
        out.append(token if plain is None else replace(token, text=plain))
        index += 1
    return out


def _is_plain_space(token: Token, before: Sequence[Token]) -> bool:
    """Where a filet pattern calls a square "sp", "ch-2 sp" and "next sp" still mean a space."""
    if PLAIN.get(token.text, token.text) not in ("sp", "st", "ch"):
        return False
    if not before or before[-1].is_(",", ".", ";", ":", "(", "[", "*"):
        return False
    if before[-1].kind == "num":
        return len(before) > 1 and (before[-2].is_("-", *_WHICH) or before[-2].text == "ch")
    return True


def _is_plain_corner(token: Token, before: Sequence[Token], after: Token | None) -> bool:
    """Where a pattern calls a group "corner", "in next corner" and "corner sp" still mean a place."""
    if token.text not in ("corner", "corners"):
        return False
    if after is not None and PLAIN.get(after.text, after.text) in ("sp", "lp"):
        return True
    towards = next(
        (each for each in reversed(before) if each.kind != "num" and each.text not in _WHICH), None
    )
    return towards is not None and towards.text in ("in", "into", "to", "at", "around")


_WHICH = ("next", "each", "every", "same", "first", "last", "any", "the", "a", "of", "this", "that")


def _longest(
    tokens: Sequence[Token], start: int, vocabulary: Vocabulary
) -> tuple[tuple[str, str], int] | None:
    """Return the longest name that begins at *start*, and where it ends."""
    words: list[str] = []
    best: tuple[tuple[str, str], int] | None = None
    index = start
    while index < len(tokens) and len(words) < LONGEST:
        token = tokens[index]
        if (
            token.text == "-"
            and token.glued
            and words
            and index + 1 < len(tokens)
            and tokens[index + 1].glued
        ):
            index += 1
            continue
        if token.text == "/" and token.glued and words and index + 1 < len(tokens):
            if tokens[index + 1].glued and tokens[index + 1].kind == "word":
                words[-1] += f"/{tokens[index + 1].text}"
                index += 2
                if (phrase := " ".join(words)) in vocabulary.names:
                    best = (vocabulary.names[phrase], index)
                continue
            break
        if (
            words
            and token.glued
            and token.kind in ("num", "word")
            and _named_with_digits(words[-1] + token.raw.lower(), vocabulary)
        ):
            words[-1] += token.raw.lower()  # "C4F": one name
        elif token.kind == "word":
            words.append(token.text)
        else:
            break
        index += 1
        phrase = " ".join(words)
        if phrase in vocabulary.names and not _only_a_letter(phrase, vocabulary):
            best = (vocabulary.names[phrase], index)
    return best


def _named_with_digits(beginning: str, vocabulary: Vocabulary) -> bool:
    """Tell whether a name of the pattern's own, with a digit in it, begins so: "C4", "CL3", "T2R"."""
    return any(
        name.startswith(beginning) or name == beginning.removesuffix("s")
        for name in vocabulary.own
        if any(sign.isdigit() for sign in name)
    )


def _only_a_letter(phrase: str, vocabulary: Vocabulary) -> bool:
    """A lone "p" or "x" is no name, unless the pattern itself defines it so."""
    return len(phrase) == 1 and phrase not in vocabulary.own


def place_of(tokens: Sequence[Token], start: int, end: int) -> Place:
    """Return the place that spans tokens *start* to *end*, on the first one's line."""
    first = tokens[start].place
    last = tokens[max(start, end - 1)].place
    if last.line != first.line:
        return first
    return Place(first.line, first.column, max(1, last.column + last.length - first.column))
