"""The vocabulary: every name of a stitch in US and UK terms, and the words round them.

A phrase is matched by its words alone: "half-double crochet", "h d c" and "hdc" are one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from coach.craft.problem import Place
from coach.craft.stitch import UK_TO_US
from coach.notation.number_words import TENS, TO_NINETEEN
from coach.notation.tokens import Token

US_NAMES: Mapping[str, tuple[str, ...]] = {
    "sl st": ("sl st", "slst", "ss", "slip stitch", "slip st", "sl stitch", "s st", "slst st"),
    "sc": ("sc", "single crochet", "s c", "single", "sgl crochet"),
    "hdc": ("hdc", "half double crochet", "half double", "h d c", "half dc", "hlf dc"),
    "dc": ("dc", "double crochet", "d c", "double", "dbl crochet"),
    "tr": (
        "tr",
        "treble crochet",
        "treble",
        "triple crochet",
        "tr c",
        "t r",
        "trc",
        "triple",
        "t c",
    ),
    "dtr": ("dtr", "double treble crochet", "double treble", "d tr", "dbl tr", "double triple"),
    "trtr": ("trtr", "triple treble crochet", "triple treble", "tr tr", "ttr"),
}
UK_NAMES: Mapping[str, tuple[str, ...]] = {
    "sl st": ("ss", "sl st", "slst", "slip stitch", "slip st", "s s"),
    "dc": ("dc", "double crochet", "d c", "double"),
    "htr": ("htr", "half treble crochet", "half treble", "h tr", "half tr", "h t r"),
    "tr": ("tr", "treble crochet", "treble", "t r"),
    "dtr": ("dtr", "double treble crochet", "double treble", "d tr"),
    "ttr": ("ttr", "trtr", "triple treble crochet", "triple treble", "tr tr"),
    "qtr": ("qtr", "quadruple treble crochet", "quadruple treble", "quad tr"),
}
ONLY_US = ("sc", "hdc", "single crochet", "half double crochet", "s c", "half double", "h d c")
ONLY_UK = ("htr", "half treble crochet", "half treble", "h tr", "half tr", "qtr")
UNITS = (
    "shell", "v st", "v stitch", "vst", "bobble", "puff", "puff st", "puff stitch", "popcorn",
    "popcorn st", "pc", "cluster", "cl", "picot", "half shell", "fan", "corner shell", "beg cl",
    "beg cluster", "beg puff", "beg popcorn", "beg pc", "beg shell", "beg v st", "half v st",
    "bo", "mb", "sh", "y st", "x st", "p", "double v st", "dv st", "large shell", "small shell",
)  # fmt: skip
_UNIT_NAMES = {
    "v stitch": "V-st", "v st": "V-st", "vst": "V-st", "puff st": "puff", "puff stitch": "puff",
    "popcorn st": "popcorn", "cluster": "cl", "half shell": "half shell", "beg cluster": "beg cl",
    "beg v st": "beg V-st", "half v st": "half V-st", "sh": "shell", "bo": "bobble", "mb": "bobble",
    "p": "picot",
}  # fmt: skip

PLAIN: Mapping[str, str] = {
    "sts": "st", "stitch": "st", "stitches": "st", "stich": "st", "sttiches": "st", "stiches": "st",
    "sps": "sp", "space": "sp", "spaces": "sp", "spc": "sp", "arch": "sp", "arches": "sp",
    "arc": "sp", "arcs": "sp", "lps": "lp", "loop": "lp", "loops": "lp",
    "chs": "ch", "chain": "ch", "chains": "ch", "chn": "ch",
    "skip": "sk", "miss": "sk", "skipping": "sk", "missing": "sk", "omit": "sk",
    "missed": "skipped", "skipped": "skipped", "sk'd": "skipped",
    "repeat": "rep", "repeats": "rep", "repeating": "rep", "rpt": "rep", "repeated": "rep", "reps": "rep",
    "rnds": "rnd", "round": "rnd", "rounds": "rnd", "rows": "row", "rd": "rnd", "rds": "rnd",
    "beginning": "beg", "begin": "beg", "begins": "beg", "starting": "beg", "initial": "beg",
    "foll": "next", "following": "next", "nxt": "next", "nex": "next",
    "till": "until", "remaining": "rem", "remain": "rem", "remainder": "rem", "unworked": "unworked",
    "ea": "each", "every": "each", "centre": "center", "middle": "center", "ctr": "center",
    "together": "tog", "corners": "corner", "bet": "between", "btw": "between", "btwn": "between",
    "joining": "join", "joined": "join", "turned": "turn", "ends": "end", "thru": "through",
    "hk": "hook",
    "tch": "tch", "increase": "inc", "incr": "inc", "increases": "inc", "incs": "inc",
    "decrease": "dec", "decr": "dec", "decreases": "dec", "decs": "dec", "invisible": "inv",
    "color": "colour", "colors": "colour", "colours": "colour", "col": "colour",
    "thrice": "thrice", "posts": "post", "rings": "ring", "circle": "ring", "place": "place",
    "spot": "place",
    "groups": "group", "grp": "group", "squares": "square", "blocks": "block", "bl": "block",
    "bls": "block", "meshes": "mesh", "onto": "into", "count": "counts", "counted": "counts",
    "previous": "prev", "blos": "blo", "flos": "flo", "bl only": "blo", "tbl": "blo", "flp": "flo",
    "blp": "blo", "edges": "edge", "time": "times", "×": "x", "sl": "sl",
}  # fmt: skip

_ORDINALS = {
    "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8,
    "ninth": 9, "tenth": 10, "eleventh": 11, "twelfth": 12, "thirteenth": 13,
}  # fmt: skip

_TOG = re.compile(r"^(?P<post>fp|bp)?(?P<base>[a-z]*?)(?P<legs>\d+)tog$")
LONGEST = 7


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
            self._add_unit(phrase, _UNIT_NAMES.get(phrase, phrase))
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
            for raised, side in (("raised", "FP"), ("front raised", "FP"), ("back raised", "BP")):
                self.names.setdefault(f"{raised} {phrase}", ("stitch", side + us))
            self.names.setdefault(f"raised {phrase} front", ("stitch", "FP" + us))
            self.names.setdefault(f"raised {phrase} back", ("stitch", "BP" + us))
            if " " not in phrase:
                self.names.setdefault(f"r{phrase}f", ("stitch", "FP" + us))
                self.names.setdefault(f"r{phrase}b", ("stitch", "BP" + us))
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
    tokens = _numbered(tokens)
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


def _numbered(tokens: Sequence[Token]) -> list[Token]:
    """Turn numbers in words into numbers: "twenty-four", "seventeen", "second"."""
    out: list[Token] = []
    index = 0
    while index < len(tokens):
        token = tokens[index]
        if token.kind != "word":
            out.append(token)
            index += 1
            continue
        value, end = _number_in_words(tokens, index)
        if value is not None:
            out.append(
                replace(
                    token,
                    kind="num",
                    value=value,
                    text=str(value),
                    line_end=tokens[end - 1].line_end,
                )
            )
            index = end
        elif token.text in _ORDINALS:
            out.append(replace(token, kind="ord", value=_ORDINALS[token.text]))
            index += 1
        else:
            out.append(token)
            index += 1
    return out


def _number_in_words(tokens: Sequence[Token], index: int) -> tuple[int | None, int]:
    word = tokens[index].text
    if word in TENS:
        value, index = TENS[word], index + 1
        after = index + 1 if index < len(tokens) and tokens[index].text == "-" else index
        if after < len(tokens) and 0 < TO_NINETEEN.get(tokens[after].text, 0) < 10:
            return value + TO_NINETEEN[tokens[after].text], after + 1
        return value, index
    if word in TO_NINETEEN:
        value = TO_NINETEEN[word]
        index += 1
        if index < len(tokens) and tokens[index].text == "hundred":
            value, index = value * 100, index + 1
            if index < len(tokens) and tokens[index].text == "and":
                index += 1
            more, end = _number_in_words(tokens, index) if index < len(tokens) else (None, index)
            if more is not None:
                return value + more, end
        return value, index
    return None, index


def place_of(tokens: Sequence[Token], start: int, end: int) -> Place:
    """Return the place that spans tokens *start* to *end*, on the first one's line."""
    first = tokens[start].place
    last = tokens[max(start, end - 1)].place
    if last.line != first.line:
        return first
    return Place(first.line, first.column, max(1, last.column + last.length - first.column))
