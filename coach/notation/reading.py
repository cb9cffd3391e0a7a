"""Pattern text to a draft: lines to rows, headings, foundations and notes.

The whole text is read once for its facts (terms, sizes, special stitches) and once for its
rows. Nothing is proved here, and nothing is thrown away silently: what is no row is kept as
front matter, note or finishing, in the pattern's own words.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from coach.craft.pattern import (
    Act,
    Draft,
    Entry,
    Instruction,
    Line,
    NoWords,
    Part,
    Rerun,
    SpecialStitch,
    Start,
    StatedMultiple,
)
from coach.craft.problem import Place, Problem, Verdict
from coach.notation import front_matter
from coach.notation.cleaning import CleanLine, clean_lines
from coach.notation.counts import parted
from coach.notation.headers import Header, header_at, headers_in
from coach.notation.remarks import BY_COLOUR, SHOWN
from coach.notation.row_grammar import RowReader
from coach.notation.sizes import for_size, sizes_in
from coach.notation.tokens import Token, tokens_of
from coach.notation.words import Vocabulary, understood

MOST_CHARACTERS = 1_500_000
LONGEST_LINE = 60_000
MOST_TOKENS = 2_000

_FOUNDATION = re.compile(
    r"^\W*(?:(?:foundation|base|starting)(?:\s+(?:chain|ch))?\s*[:–-]\s*)?"
    r"(?:(?:with|using)\s+[^,:]{1,45}?(?:[,:]\s*|\s+(?=make|ch|chain|\d+\s?ch))|[A-Za-z][\w' ]{2,40},\s*|(?:to\s+(?:start|begin)|begin(?:ning)?|start(?:ing)?|set[- ]?up)[^:,]{0,20}:\s*)?"
    r"(?:(?:make|begin|start|work|loosely|to\s+begin)\s+(?:with\s+)?(?:a\s+)?(?:foundation\s+)?)?"
    r"(?:(?:chain|ch)(?![a-z])\s*-?\s*(?P<after>\d+|[a-z]+(?:-[a-z]+)?)\b|(?P<before>\d+)\s*(?:chain|ch)s?\b)",
    re.IGNORECASE,
)
_NOT_FOUNDATION = re.compile(
    r"\bcounts?\b|at the (?:start|beginning)|\bbegins?\b|=|\bsp\b|\bspaces?\b", re.IGNORECASE
)
_RERUN = re.compile(
    r"^\W*(?:(?:with|using|in)\s+[\w ]{1,20}[,:]\s*)?(?:(?:now|then|work|continue(?: to)?)\s+)?(?P<verb>rep(?:eat)?s?|work(?:ed)?(?:\s+(?:as(?:\s+for)?|same as))?|as(?:\s+for)?|same\s+as|like|work\s+rows?)\s+"
    r"(?:(?P<word>rows?|rnds?|rounds?|r)\.?\s*(?P<numbers>\d+(?:\s*(?:-|–|to|and|&|,|through)\s*(?:(?:rows?|rnds?|rounds?|r)\s*)?\d+)*)"
    r"|(?:the\s+)?(?:last|previous)\s+(?:(?P<last>\d+|two|three|four|five|six)\s+)?(?P<word2>rows?|rnds?|rounds?))",
    re.IGNORECASE,
)
_TIMES = re.compile(
    r"\b(?P<number>\d+|once|twice|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)(?:-[a-z]+)?)\s*(?:more\s+|additional\s+)?(?:times?\b|x\b)?\s*(?P<more>more)?",
    re.IGNORECASE,
)
_UNTIL = re.compile(
    r"(?:until|till|for|to)\b[^.]*?\bmeasures?\b[^.\d]*(?P<whole>\d+(?:\.\d+)?)\s*(?P<part>[¼½¾⅓⅔⅛])?\s*(?P<unit>\"|''|in\b|inch(?:es)?\b|cm\b|mm\b)",
    re.IGNORECASE,
)
_ENDING_SIDE = re.compile(
    r"ending\s+(?:with|on|after)\s+(?:a\s+)?(RS|WS|right[- ]side|wrong[- ]side)", re.IGNORECASE
)
_EVEN = re.compile(
    r"^\W*work\s+(?:even\s+(?:for\s+)?)?(?P<number>\d+|\w+)\s+(?:more\s+)?(?P<word>rows?|rnds?|rounds?)\s*(?P<how>even|straight|plain|in\s+(?:sc|dc|hdc|tr|htr))?",
    re.IGNORECASE,
)
_FURNITURE = re.compile(
    r"^\W*(?:page\s+\d+(?:\s+of\s+\d+)?|\d+\s*/\s*\d+|.*[–-]\s*page\s+\d+\s+of\s+\d+|https?://\S+|www\.\S+.*|pin it!?|save\b.*|share\b.*|advertisement|print this|\(?c\)?\s*\d{4}\b.*|©.*|all rights reserved.*|copyright.*)\W*$",
    re.IGNORECASE,
)
_CORRECTION = re.compile(
    r"^\W*(?:erratum|errata|correction)?\W*(?P<head>(?:rows?|rnds?|rounds?)\s*\d+(?:\s*[-–]\s*\d+)?)\s+(?:should|ought to|now)\s+reads?\s*[:–-]?\s*(?P<text>.+)$",
    re.IGNORECASE,
)
_CHANGE = re.compile(
    r"(?:erratum|errata|correction)\W+.*?(?:in\s+|on\s+)?(?P<head>(?:row|rnd|round)\s*\d+)?[,:]?\s*(?:change|replace)\s+\"?(?P<old>[^\"]+?)\"?\s+(?:to|with|by)\s+\"?(?P<new>[^\".]+)\"?",
    re.IGNORECASE,
)
_VERBS = re.compile(
    r"^\W*(?:fasten|weave|sew|join|block|cut|finish|begin|stuff|insert|leave|fold|turn|do not|don't|repeat|rep|work|make|with|note|lay|wet|pin|thread|change|keep|move|place|attach|embroider|close|press)\b",
    re.IGNORECASE,
)
_FINISHING = re.compile(
    r"\b(?:fasten off|f\.o\.|weave|sew|block|steam|stuff|embroider|finish|assemble|make up|seam|pin|tail|cut)\b",
    re.IGNORECASE,
)
_FRONT_HEADS = (
    "materials", "yarn", "hook", "gauge", "tension", "size", "sizes", "abbreviations", "notes", "note", "finished",
    "supplies", "measurements", "terms", "special", "stitch", "pattern notes", "you will need", "skill", "instructions", "stitches",
)  # fmt: skip
_SMALL = {
    "once": 1, "one": 1, "twice": 2, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
    "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "seventy": 70,
    "eighty": 80,
    "ninety": 90,
    "forty": 40, "fifty": 50, "sixty": 60,
}  # fmt: skip
_FRACTIONS = {
    "¼": Fraction(1, 4),
    "½": Fraction(1, 2),
    "¾": Fraction(3, 4),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "⅛": Fraction(1, 8),
}


class Unreadable(Exception):  # noqa: N818
    """The input can't be a pattern: says why, and what to do."""

    def __init__(self, message: str, remedy: str) -> None:
        super().__init__(message)
        self.message = message
        self.remedy = remedy


@dataclass(slots=True)
class Piece:
    """One stretch of lines that belongs together: a row with its header, or other text."""

    kind: str  # "row", "rerun", "start", "even", "part", "text"
    spans: list[tuple[CleanLine, int, int]]
    header: Header | None = None
    part: str | None = None

    @property
    def text(self) -> str:
        """The words of the piece on one line."""
        return " ".join(line.text[start:end].strip() for line, start, end in self.spans).strip()

    @property
    def place(self) -> Place:
        """Where it begins."""
        line, start, _ = self.spans[0]
        return Place(line.number, line.column(start))


@dataclass(slots=True)
class Facts:
    """What the whole text says before any row is read."""

    terms: str | None
    clues: tuple[str, ...]
    vocabulary: Vocabulary
    specials: dict[str, SpecialStitch] = field(default_factory=dict)
    rules: dict[int, str] = field(default_factory=dict)


def read(text: str, *, terms: str | None = None, size: str | None = None) -> Draft:
    """Read a pattern's text.

    Args:
        text: the pattern as it came.
        terms: "US" or "UK" where that is known already; else the text decides.
        size: one of the pattern's sizes; else the first.

    Raises:
        Unreadable: nothing in it can be a pattern (empty, no text, far too long).

    """
    _refuse(text)
    lines = clean_lines(text)
    sizes = sizes_in(lines)
    chosen = _chosen_size(sizes, size)
    if sizes:
        lines = for_size(lines, sizes, chosen)
    pieces = segmented(lines)
    facts = facts_of(lines, pieces, terms)
    entries, problems, _corrections = _entries(pieces, facts)
    front, notes, finishing = _texts(pieces)
    return Draft(
        title=_title(lines),
        terms=facts.terms,
        entries=tuple(entries),
        clues=facts.clues,
        counts_as=facts.rules,
        specials=facts.specials,
        problems=tuple(problems),
        multiple=_multiple(lines),
        sizes=sizes,
        size=sizes[chosen] if sizes else None,
        gauge=front_matter.gauge_line(lines),
        colors=_colours(lines),
        materials=_materials(front),
        finishing=tuple(finishing),
        notes=tuple(notes),
        spiral=bool(re.search(r"\bspiral\b|do not join", text, re.IGNORECASE)),
    )


def read_row(
    text: str,
    *,
    terms: str | None = None,
    specials: Mapping[str, str] | None = None,
    refs: Mapping[str, str] | None = None,
    kind: str = "row",
    sizes: Sequence[str] = (),
    size: int = 0,
) -> tuple[Draft, list[Line]]:
    """Read a single row; return its draft, and the earlier rows of *refs* that it may repeat.

    Raises:
        Unreadable: nothing in it can be a row.

    """
    _refuse(text)
    lines = clean_lines(text)
    if sizes:
        lines = for_size(lines, sizes, size)
    pieces = segmented(lines)
    if not any(piece.kind in ("row", "rerun", "start", "even") for piece in pieces):
        spans = [span for piece in pieces for span in piece.spans]
        pieces = [Piece("row", spans)] if spans else []
    facts = facts_of(lines, pieces, terms)
    defined = {
        made.name: made
        for name, words in (specials or {}).items()
        for made in [
            front_matter.special_stitch(name, words, Vocabulary(facts.terms, specials or ()))
        ]
    }
    facts.vocabulary = Vocabulary(facts.terms, {**facts.specials, **defined})
    facts.specials = {**facts.specials, **defined}
    entries, problems, _ = _entries(pieces, facts)
    entries = [
        replace(entry, kind=kind) if isinstance(entry, Line) and entry.number is None else entry
        for entry in entries
    ]
    earlier: list[Line] = []
    for name, words in (refs or {}).items():
        for piece in segmented(clean_lines(f"{name}: {words}")):
            earlier += [
                entry for entry in _row(piece, facts, "sc", None) if isinstance(entry, Line)
            ]
    draft = Draft(
        title="",
        terms=facts.terms,
        entries=tuple(entry for entry in entries if not isinstance(entry, Part)),
        clues=facts.clues,
        counts_as=facts.rules,
        specials=facts.specials,
        problems=tuple(problems),
        multiple=_multiple(lines),
        sizes=tuple(sizes),
        size=sizes[size] if sizes else None,
    )
    return draft, earlier


def _refuse(text: str) -> None:
    if not text.strip():
        raise Unreadable("There is nothing in it.", "Give a file with the pattern's words.")
    if "\0" in text:
        raise Unreadable(
            "This is no text: it holds bytes that no letter has.",
            "Save the pattern as plain text and try again.",
        )
    if len(text) > MOST_CHARACTERS:
        raise Unreadable(
            f"It is {len(text):,} characters long; a pattern has fewer than {MOST_CHARACTERS:,}.",
            "Give the pattern alone, without what surrounds it.",
        )
    longest = max((len(line) for line in text.splitlines()), default=0)
    if longest > LONGEST_LINE:
        raise Unreadable(
            f"It has a line of {longest:,} characters; no row is that long.",
            "Put each row on a line of its own.",
        )


def _chosen_size(sizes: Sequence[str], size: str | None) -> int:
    if not sizes or size is None:
        return 0
    for index, name in enumerate(sizes):
        if name.lower() == size.strip().lower():
            return index
    raise Unreadable(
        f"There is no size {size} in this pattern.", f"Choose one of: {', '.join(sizes)}."
    )


# -- pieces ------------------------------------------------------------------------------------


def segmented(lines: Sequence[CleanLine]) -> list[Piece]:
    """Cut the lines into pieces: rows with what continues them, foundations, headings, text."""
    named = any(
        (header := header_at(line.text, bare=False)) is not None and not header.spoken
        for line in lines
    )
    pieces: list[Piece] = []
    current: Piece | None = None
    started = False
    for line in lines:
        text = line.text
        if not text.strip():
            current = None if current is None or _finished(current.text) else current
            continue
        if _FURNITURE.match(text) and not re.match(
            r"\W*(?:save|share)\b.*\b(?:sc|dc|ch|st)\b", text, re.IGNORECASE
        ):
            continue
        going_on = current is not None and current.kind == "row" and _goes_on(current, text)
        if going_on and current is not None:
            current.spans.append((line, 0, len(text)))
            continue
        cut = _cut(line, bare=not named or (started and _numbered_bare(pieces)))
        if cut is not None:
            current = _add(pieces, cut)
            started = True
            continue
        whole = (line, 0, len(text))
        if (
            current is not None
            and current.kind in ("row", "start", "rerun", "even")
            and _continues(current, text)
        ):
            current.spans.append(whole)
            continue
        kind = "text"
        if started and (name := _heading(text)) is not None:
            kind = "part"
            pieces.append(Piece(kind, [whole], part=name))
            current = None
            continue
        if not started and (name := _heading(text)) is not None and pieces:
            pieces.append(Piece("part", [whole], part=name))
            current = None
            continue
        pieces.append(Piece(kind, [whole]))
        current = pieces[-1]
    return _rows_or_rounds(pieces)


def _rows_or_rounds(pieces: list[Piece]) -> list[Piece]:
    """A bare "R3" is a row where the pattern turns its work, else a round."""
    short = [piece for piece in pieces if piece.header is not None and piece.header.short]
    if any(re.search(r"\bturn\b", piece.text, re.IGNORECASE) for piece in short):
        for piece in short:
            assert piece.header is not None  # noqa: S101
            piece.header = replace(piece.header, kind="row")
    return pieces


def _add(pieces: list[Piece], cut: list[Piece]) -> Piece:
    pieces += cut
    return cut[-1]


def _numbered_bare(pieces: Sequence[Piece]) -> bool:
    return any(piece.header is not None and piece.header.bare for piece in pieces)


def _cut(line: CleanLine, *, bare: bool) -> list[Piece] | None:
    """Cut one line where rows, foundations and repeats begin; None if it is other text."""
    text = line.text
    if _CORRECTION.match(text) or _CHANGE.match(text):
        return None
    heads = headers_in(text, bare=bare)
    out: list[Piece] = []
    first = heads[0].start if heads else len(text)
    lead = text[:first]
    if lead.strip(" \t•*–—>-"):
        kind = _lead_kind(lead)
        if kind is None and not heads:
            return None
        out.append(Piece(kind or "text", [(line, 0, first)]))
    for index, header in enumerate(heads):
        end = heads[index + 1].start if index + 1 < len(heads) else len(text)
        out.append(Piece("row", [(line, header.end, end)], header=header))
    return out or None


def _lead_kind(lead: str) -> str | None:
    found = _FOUNDATION.match(lead)
    if found and not _NOT_FOUNDATION.search(
        lead[: found.end() + 25].split("multiple", maxsplit=1)[0]
    ):
        number = found["after"] or found["before"]
        if number.isdigit() or number.lower() in _SMALL:
            return "start"
    if _RERUN.match(lead) and not re.match(
        r"^\W*(?:work|as|like)\s+rows?\s*\d+\s*[,;]", lead, re.IGNORECASE
    ):
        return "rerun"
    even = _EVEN.match(lead)
    if even and (even["how"] or re.match(r"\W*work\s+even", lead, re.IGNORECASE)):
        return "even"
    return None


def _finished(text: str) -> bool:
    return bool(re.search(r"[.)\]}!:;]\s*$", text))


def _goes_on(current: Piece, text: str) -> bool:
    """Tell whether a row broke off in the middle of a sentence, so that this line belongs to it."""
    header = header_at(text, bare=False)
    if header is not None and not header.spoken:
        return False
    if re.match(
        r"\s*(?:rep|repeat)\s+(?:from|between)\b|\s*(?:ending|end) last\b", text, re.IGNORECASE
    ):
        return True
    before = current.text
    return (
        bool(before)
        and not _finished(before)
        and bool(
            re.search(
                r"[,&–-]$|\b(?:in|next|of|each|to|the|and|last|first|sk|ch|\d+|from|into|around|sts?|sc|dc|hdc|tr)$",
                before,
                re.IGNORECASE,
            )
        )
        and _heading(text) is None
    )


def _continues(current: Piece, text: str) -> bool:
    """Tell whether a line goes on with the row before it."""
    if re.match(r"\s*(?:[(\[{*]|[a-z0-9]|=|–)", text) and not _VERBS.match(text):
        return not re.match(r"\s*\d+\s*(?:\.|\))\s*[A-Z]", text)
    if re.match(r"\s*[(\[{]\s*\d", text):
        return True
    if _VERBS.match(text) and text.strip()[:1].isupper():
        return False
    return not _finished(current.text) and not _heading_like(text)


def _heading_like(text: str) -> bool:
    return _heading(text) is not None


def _heading(text: str) -> str | None:
    """Return the name of a part ("BORDER", "Heel") if the line is a heading."""
    bare = re.sub(r"\([^)]*\)", "", text).strip().rstrip(":").strip()
    if not bare or len(bare) > 42 or len(bare.split()) > 5 or re.search(r"[.,;=!?]|\d{2,}", bare):
        return None
    if _VERBS.match(bare) and not bare.isupper():
        return None
    words = bare.split()
    if (
        bare.isupper()
        or (text.strip().endswith(":") and len(words) <= 3)
        or (
            all(
                word[:1].isupper() or word in ("and", "of", "the", "for", "to", "a")
                for word in words
            )
            and len(words) <= 3
        )
    ):
        return bare.title()
    return None


# -- facts -------------------------------------------------------------------------------------


def facts_of(lines: Sequence[CleanLine], pieces: Sequence[Piece], terms: str | None) -> Facts:
    """Return the facts of the whole text: terms, vocabulary, special stitches, counting rules."""
    stated = terms or front_matter.stated_terms(lines)
    working = "\n".join(piece.text for piece in pieces if piece.kind in ("row", "rerun", "start"))
    guessed, clues = front_matter.guessed_terms(working)
    if guessed is None and stated is None:
        everything = "\n".join(line.text for line in lines)
        guessed, more = front_matter.guessed_terms(everything)
        clues = tuple(dict.fromkeys(clues + more))
    settled = stated or guessed
    vocabulary = Vocabulary(settled)
    facts = Facts(settled, clues, vocabulary)
    texts = [piece for piece in pieces if piece.kind == "text"]
    specials: dict[str, SpecialStitch] = {}
    for piece in texts:
        for special in front_matter.definition(piece.text, vocabulary):
            specials.setdefault(special.name, special)
        for special in front_matter.inline_definitions(piece.text, vocabulary):
            specials.setdefault(special.name, special)
    facts.vocabulary = Vocabulary(settled, specials)
    facts.specials = with_usual(specials, facts.vocabulary)
    facts.rules = front_matter.counting_rules(
        "\n".join(piece.text for piece in texts), facts.vocabulary
    )
    return facts


def with_usual(
    specials: Mapping[str, SpecialStitch], vocabulary: Vocabulary
) -> dict[str, SpecialStitch]:
    """Return *specials* and the groups that the trade knows without a definition."""
    out = dict(front_matter.usual_specials(vocabulary))
    out.update(specials)
    return out


# -- entries -----------------------------------------------------------------------------------


def _entries(
    pieces: Sequence[Piece], facts: Facts
) -> tuple[list[Entry], list[Problem], list[Piece]]:
    entries: list[Entry] = []
    problems: list[Problem] = []
    base = "sc"
    part: str | None = None
    corrections = {
        _corrected(piece.text)[0]: piece
        for piece in pieces
        if piece.kind == "text" and _CORRECTION.match(piece.text)
    }
    for piece in pieces:
        if piece.kind == "part":
            part = piece.part
            entries.append(Part(piece.part or "", piece.place))
        elif piece.kind == "start":
            start = _start(piece, facts)
            if isinstance(start, Line):
                entries.append(replace(start, part=part))
            else:
                entries.append(replace(start, part=part))
        elif piece.kind == "even":
            entries.append(_even_rows(piece))
        elif piece.kind in ("row", "rerun"):
            made = _row(piece, facts, base, part)
            for entry in made:
                if isinstance(entry, Line):
                    base = entry.base_stitch or base
            entries += made
    if corrections:
        entries = [_mended(entry, corrections, facts) for entry in entries]
    return entries, problems, []


def _corrected(text: str) -> tuple[tuple[str, int], str]:
    found = _CORRECTION.match(text)
    if not found:
        return ("", 0), text
    number = int(re.findall(r"\d+", found["head"])[0])
    kind = "row" if found["head"].lower().startswith("row") else "round"
    return (kind, number), found["text"]


def _mended(entry: Entry, corrections: Mapping[tuple[str, int], Piece], facts: Facts) -> Entry:
    """Put a correction ("Row 12 should read: ...") in the place of the row it mends."""
    if not isinstance(entry, Line) or entry.number is None:
        return entry
    piece = corrections.get((entry.kind, entry.number))
    if piece is None:
        return entry
    line, _, _ = piece.spans[0]
    at = line.text.lower().find("read")
    at = at + len(re.match(r"reads?\s*[:–-]?\s*", line.text[at:], re.IGNORECASE).group())  # type: ignore[union-attr]
    fresh = Piece("row", [(line, at, len(line.text)), *piece.spans[1:]], header=None)
    made = read_line(fresh, facts, entry.base_stitch or "sc")
    return replace(
        made,
        label=entry.label,
        kind=entry.kind,
        number=entry.number,
        side=entry.side,
        part=entry.part,
    )


def _row(piece: Piece, facts: Facts, base: str, part: str | None) -> list[Entry]:
    header = piece.header
    text = piece.text
    numbers = header.numbers if header else ()
    first, last = (numbers[0], numbers[-1]) if numbers else (None, None)
    kind = header.kind if header else "row"
    label = header.label if header and header.label else None
    if _shown_only(text):
        span = (first, last if last is not None else first) if first is not None else None
        return [NoWords(span, label or _label(kind, first), piece.place, kind, part, text)]
    rerun = _RERUN.match(text)
    if rerun and (piece.kind == "rerun" or _really_rerun(text, rerun)):
        return [_rerun(piece, rerun, facts, part)]
    line = read_line(piece, facts, base)
    line = replace(
        line,
        kind=kind,
        number=first,
        label=label or _label(kind, first),
        side=header.side if header else None,
        part=part,
    )
    out: list[Entry] = []
    if (
        len(numbers) == 2
        and header is not None
        and last is not None
        and first is not None
        and last > first
    ):
        count = last - first + 1
        count = min(count, 20000)
        source = (line.label,)
        out.append(replace(line, stated=line.stated[:1]))
        out.append(
            Rerun(
                (first + 1, first + count - 1),
                source,
                piece.place,
                kind,
                stated=line.stated[1:] if len(line.stated) > 1 else line.stated,
                part=part,
                text=text,
            )
        )
        return out
    if len(numbers) > 2:
        out.append(line)
        for number in numbers[1:]:
            out.append(
                Rerun(
                    (number, number),
                    (line.label,),
                    piece.place,
                    kind,
                    part=part,
                    stated=line.stated[:1],
                    text=text,
                )
            )
        return out
    if header is not None and header.every:
        return [
            line,
            Rerun(
                None, (line.label,), piece.place, kind, alternate=header.every, part=part, text=text
            ),
        ]
    return [line]


def _label(kind: str, number: int | None) -> str:
    short = "Row" if kind == "row" else "Rnd"
    return f"{short} {number}" if number is not None else short


def _shown_only(text: str) -> bool:
    """Tell whether a row rests on a chart or a photo alone, or on colour alone."""
    lowered = text.lower()
    if any(re.search(rf"\b{word}\b", lowered) for word in SHOWN):
        return not re.search(r"\b\d+\s*(?:sc|dc|hdc|tr)\b|\b(?:sc|dc|hdc|tr) in\b", lowered)
    return bool(
        re.search(
            rf"\b(?:{'|'.join(BY_COLOUR)})\s+(?:st|sts|stitch|stitches|sp|sps|ones)\b", lowered
        )
    )


def _really_rerun(text: str, found: re.Match[str]) -> bool:
    rest = text[found.end() :].lstrip()
    return not (
        found["verb"].lower().startswith(("work", "as", "like")) and re.match(r"[,;]?\s*\*", rest)
    )


def _rerun(piece: Piece, found: re.Match[str], facts: Facts, part: str | None) -> Rerun:
    header = piece.header
    text = piece.text
    rest = text[found.end() :]
    numbers = header.numbers if header else ()
    word = (found["word"] or found["word2"] or "row").lower()
    kind = header.kind if header else ("row" if word.startswith(("row", "r ")) else "round")
    if found["numbers"]:
        source = _numbers(found["numbers"])
        names = tuple(str(number) for number in source)
    else:
        count = found["last"] or "1"
        names = (
            f"last {_SMALL.get(count.lower(), 0) or int(count) if count.isdigit() or count.lower() in _SMALL else 1}",
        )
    times, _more = _times_in(rest)
    length = _UNTIL.search(rest)
    side = _ENDING_SIDE.search(rest)
    tokens = understood(tokens_of(piece.spans), facts.vocabulary)
    _, stated = parted(tokens)
    span: tuple[int, int] | None = None
    if numbers:
        span = (numbers[0], numbers[-1])
    alternate = header.every if header else None
    spread = re.search(r"\bfor\s+(?:all|every)\s+(even|odd|alternate|other)", rest, re.IGNORECASE)
    if spread:
        alternate = spread[1].lower()
    return Rerun(
        span,
        names,
        piece.place,
        kind,
        times=times,
        stated=stated,
        length_cm=_length(length) if length else None,
        ending_side=side[1].upper()[:1] + "S" if side else None,
        part=part,
        alternate=alternate,
        text=text,
        tail=_tail_acts(rest, piece.place),
    )


def _tail_acts(rest: str, place: Place) -> tuple[Instruction, ...]:
    out: list[Instruction] = []
    facing = re.search(r"\b(RS|WS)\s+is\s+facing|with\s+(RS|WS)\s+facing", rest, re.IGNORECASE)
    if facing:
        out.append(Act("facing", place, (facing[1] or facing[2]).upper()))
    return tuple(out)


def _numbers(text: str) -> list[int]:
    """Return the rows of "2-5", "2 and 3", "3, 4 and 5"."""
    out: list[int] = []
    for found in re.finditer(
        r"(\d+)(?:\s*(?:-|–|to|through)\s*(?:[a-z]+\s*)?(\d+))?", text, re.IGNORECASE
    ):
        first = int(found[1])
        last = int(found[2]) if found[2] else first
        out += (
            range(first, min(last, first + 5000) + 1)
            if last >= first
            else range(first, last - 1, -1)
        )
    return out


def _times_in(rest: str) -> tuple[int | None, bool]:
    rest = re.split(r"[.:;(]", rest, maxsplit=1)[0]
    for found in _TIMES.finditer(rest):
        text = found.group().lower()
        if (
            "time" not in text
            and "x" not in text
            and found["number"].lower() not in ("once", "twice")
            and not found["more"]
        ):
            continue
        word = found["number"].lower()
        if word.isdigit():
            return int(word), bool(found["more"] or "more" in text)
        tens, _, units = word.partition("-")
        value = _SMALL.get(tens, 0) + _SMALL.get(units, 0)
        if value:
            return value, "more" in text
    return None, False


def _length(found: re.Match[str]) -> Fraction:
    """Return the length in centimetres, exactly."""
    value = Fraction(found["whole"]) + _FRACTIONS.get(found["part"] or "", Fraction(0))
    unit = found["unit"].lower()
    if unit == "cm":
        return value
    if unit == "mm":
        return value / 10
    return value * Fraction(254, 100)


def _even_rows(piece: Piece) -> Rerun:
    found = _EVEN.match(piece.text)
    assert found is not None  # noqa: S101
    number = found["number"].lower()
    count = int(number) if number.isdigit() else _SMALL.get(number, 1)
    kind = "row" if found["word"].lower().startswith("row") else "round"
    return Rerun(None, ("even",), piece.place, kind, times=count, text=piece.text)


def _start(piece: Piece, facts: Facts) -> Start | Line:
    """A foundation on a line of its own."""
    tokens = understood(tokens_of(piece.spans), facts.vocabulary)
    body, _stated = parted(tokens)
    found = _FOUNDATION.match(piece.text)
    assert found is not None  # noqa: S101
    word = (found["after"] or found["before"]).lower()
    chains = int(word) if word.isdigit() else _SMALL[word]
    texts = [token.text for token in body]
    kind = "chain"
    made = _from_start(body)
    if made:
        line = read_line(piece, facts, "sc")
        return replace(line, label="Start", kind="round")
    if (
        "join" in texts
        or "ring" in texts
        or "twist" in texts
        or any(t.text == "sl st" for t in body)
    ):
        kind = "joined chain"
    colour = re.match(
        r"\W*(?:with|using)\s+(?:colou?r\s+)?([A-Za-z]\w*)", piece.text, re.IGNORECASE
    )
    return Start(chains, kind, piece.place, colour[1] if colour else None)


def _from_start(tokens: Sequence[Token]) -> bool:
    """Tell whether a foundation line goes on to work stitches into its chain."""
    for index, token in enumerate(tokens):
        if token.kind == "stitch" and token.text != "sl st":
            following = tokens[index + 1] if index + 1 < len(tokens) else None
            if following is not None and following.is_("in", "into", "across"):
                return True
    return False


def read_line(piece: Piece, facts: Facts, base: str) -> Line:
    """Read one row's words into instructions and counts."""
    from coach.notation.prose import plainly  # noqa: PLC0415

    tokens = understood(plainly(tokens_of(piece.spans)), facts.vocabulary)
    if len(tokens) > MOST_TOKENS:
        too_long = Problem(
            Verdict.BROKEN_NOTATION,
            piece.place,
            f"This row has {len(tokens)} words and signs; no row can be followed that is so long.",
            "Put each row on a line of its own, and use repeats.",
        )
        return Line("", "row", None, (), piece.place, problems=(too_long,), text=piece.text[:200])
    body, stated = parted(tokens)
    base = base_stitch(body) or base
    reader = RowReader(
        body,
        base=base,
        specials=facts.specials,
        suggest=suggester(facts.vocabulary, facts.specials),
    )
    items = reader.read()
    return Line(
        label="",
        kind="row",
        number=None,
        items=items,
        place=piece.place,
        stated=stated,
        problems=tuple(reader.problems),
        text=piece.text,
        base_stitch=base,
    )


def base_stitch(tokens: Sequence[Token]) -> str | None:
    """Return the stitch that "inc" and "dec" of a row mean: the row's own plain stitch."""
    for token in tokens:
        if token.kind == "stitch" and token.text in ("sc", "hdc", "dc", "tr", "dtr"):
            return token.text
    return None


def suggester(
    vocabulary: Vocabulary, specials: Mapping[str, SpecialStitch]
) -> Callable[[str], str]:
    """Return the function that finds the nearest known name of a strange word."""
    misread = {
        "de": "dc",
        "se": "sc",
        "hde": "hdc",
        "do": "dc",
        "so": "sc",
        "sl": "sl st",
        "cn": "ch",
        "oh": "ch",
    }

    def nearest(word: str) -> str:
        word = word.lower()
        if word in misread:
            return misread[word]
        names = [phrase for phrase in vocabulary.names if " " not in phrase and len(phrase) > 1]
        names += [name.lower() for name in specials]
        close = difflib.get_close_matches(word, names, n=1, cutoff=0.6)
        return close[0] if close else ""

    return nearest


# -- the rest of the text ----------------------------------------------------------------------


def _texts(
    pieces: Sequence[Piece],
) -> tuple[list[Piece], list[tuple[int, str]], list[tuple[int, str]]]:
    worked = [
        index
        for index, piece in enumerate(pieces)
        if piece.kind in ("row", "rerun", "start", "even")
    ]
    first = worked[0] if worked else len(pieces)
    last = worked[-1] if worked else len(pieces)
    front = [piece for piece in pieces[:first] if piece.kind in ("text", "part")]
    notes = [(piece.place.line, piece.text) for piece in pieces[first:last] if piece.kind == "text"]
    finishing: list[tuple[int, str]] = []
    for piece in pieces[last + 1 :]:
        if piece.kind == "part":
            continue
        for line, start, end in piece.spans:
            for sentence in re.split(r"(?<=[.!?])\s+(?=[A-Z])", line.text[start:end].strip()):
                if sentence:
                    finishing.append((line.number, sentence))
    return front, notes, finishing


def _title(lines: Sequence[CleanLine]) -> str:
    for line in lines:
        text = line.text.strip()
        if text and header_at(text) is None:
            text = re.sub(r"\s*\((?:US|UK)\s+terms?\)\s*$", "", text, flags=re.IGNORECASE)
            text = re.split(r"\s[–-]\s|\s{3,}", text)[0].strip().rstrip(".")
            if len(text) > 90 or _FOUNDATION.match(text):
                return ""
            return text.title() if text.isupper() else text
    return ""


def _multiple(lines: Sequence[CleanLine]) -> StatedMultiple | None:
    for line in lines:
        found = front_matter.stated_multiple(line)
        if found is not None:
            return found
    return None


def _colours(lines: Sequence[CleanLine]) -> tuple[str, ...]:
    names: dict[str, None] = {}
    for line in lines:
        for found in re.finditer(r"\b([A-Z][\w-]+)\s*\(([A-H]|MC|CC\d?)\)", line.text):
            names[f"{found[2]} {found[1]}"] = None
    return tuple(names)


def _materials(front: Sequence[Piece]) -> tuple[str, ...]:
    out: list[str] = []
    taking = False
    for piece in front:
        if re.match(
            r"\W*(?:materials|you will need|supplies|yarn)\b", piece.text, re.IGNORECASE
        ) or (
            piece.part and re.match(r"(?:materials|supplies|you will)", piece.part, re.IGNORECASE)
        ):
            taking = True
            if ":" in piece.text:
                out.append(piece.text.split(":", 1)[1].strip())
            continue
        if piece.kind == "part" or re.match(
            rf"\W*(?:{'|'.join(_FRONT_HEADS[4:])})\b", piece.text, re.IGNORECASE
        ):
            taking = False
        elif taking:
            out += [line.text.strip(" •-*") for line, _, _ in piece.spans]
    return tuple(text for text in out if text)
