"""Lines of a pattern to pieces: rows with what continues them, foundations, headings, other text.

Only where things begin and end is decided here; what the words say is read elsewhere.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import replace

from coach.notation.cleaning import CleanLine
from coach.notation.color_pieces import without_color_lines
from coach.notation.corrections import is_correction
from coach.notation.growing import GROWS
from coach.notation.headers import Header, header_at, headers_in, numbered_step
from coach.notation.number_words import in_figures, number_of
from coach.notation.open_foundation import open_foundation
from coach.notation.pattern_rows import CONTINUES, FORMS
from coach.notation.piece import Piece
from coach.notation.row_repeats import EVEN, RERUN, even_length

FOUNDATION = re.compile(
    r"^\W*(?:(?:foundation|base|starting)(?:\s+(?:chain|ch))?\s*[:–-]\s*)?"
    r"(?:(?:with|using)\s+[^,:]{1,45}?(?:[,:]\s*|\s+(?=make|ch|chain|\d+\s?ch))|[A-Za-z][\w' ]{2,40},\s*|(?:to\s+(?:start|begin)|begin(?:ning)?|start(?:ing)?|set[- ]?up)[^:,]{0,20}:\s*)?"
    r"(?:(?:make|begin|start|commence|work|loosely|to\s+begin)\s+(?:with\s+)?(?:a\s+)?(?:foundation\s+)?)?"
    r"(?:(?:chain|ch)(?![a-z])\s*-?\s*(?:of\s+)?(?P<after>\d+|[a-z]+(?:-[a-z]+)?)\b|(?P<before>\d+)\s*(?:chain|ch)s?\b)",
    re.IGNORECASE,
)
NOT_FOUNDATION = re.compile(
    r"\bcounts?\b|at the (?:start|beginning)|\bbegins?\b|=|\bsp\b|\bspaces?\b", re.IGNORECASE
)
FURNITURE = re.compile(
    r"^\W*(?:page\s+\d+(?:\s+of\s+\d+)?|\d+\s*/\s*\d+|.*[–-]\s*page\s+\d+\s+of\s+\d+|https?://\S+|www\.\S+.*|pin it!?|save\b.*|share\b.*|advertisement|print this|\(?c\)?\s*\d{4}\b.*|©.*|all rights reserved.*|copyright.*)\W*$",
    re.IGNORECASE,
)
_VERBS = re.compile(
    r"^\W*(?:fasten|weave|sew|join|block|cut|finish|begin|stuff|insert|leave|fold|turn|do not|don't|repeat|rep|work|make|with|note|lay|wet|pin|thread|change|keep|move|place|attach|embroider|close|press)\b",
    re.IGNORECASE,
)


def segmented(lines: Sequence[CleanLine]) -> list[Piece]:
    """Cut the lines into pieces: rows with what continues them, foundations, headings, text."""
    named = any(
        (header := header_at(line.text, bare=False)) is not None and not header.spoken
        for line in lines
    )
    pieces: list[Piece] = []
    current: Piece | None = None
    started = False
    for line in without_color_lines(lines):
        if isinstance(line, Piece):
            _set_under(pieces, line)
            current = None
            continue
        text = line.text
        if not text.strip():
            current = None if current is None or _finished(current.text) else current
            continue
        if FURNITURE.match(text) and not re.match(
            r"\W*(?:save|share)\b.*\b(?:sc|dc|ch|st)\b", text, re.IGNORECASE
        ):
            continue
        going_on = current is not None and current.kind == "row" and _goes_on(current, text)
        if going_on and current is not None:
            current.spans.append((line, 0, len(text)))
            continue
        bare = not named or (started and _numbered_bare(pieces))
        cut = _cut(line, bare=bare) or _step_due(line, pieces)
        if cut is not None:
            current = _add(pieces, cut)
            started = True
            continue
        whole = (line, 0, len(text))
        if current is not None and current.kind == "start" and _ON_THE_CHAIN.match(text):
            current = _first_row(*whole)
            pieces.append(current)
            continue
        if (
            current is not None
            and current.kind in ("row", "start", "rerun", "even", "grow")
            and _continues(current, text)
        ):
            current.spans.append(whole)
            continue
        kind = "text"
        if started and (name := heading(text)) is not None:
            kind = "part"
            pieces.append(Piece(kind, [whole], part=name))
            current = None
            continue
        if not started and (name := heading(text)) is not None and pieces:
            pieces.append(Piece("part", [whole], part=name))
            current = None
            continue
        pieces.append(Piece(kind, [whole]))
        current = pieces[-1]
    return _named_first_rows(_rows_or_rounds(_without_open_foundations(pieces)))


def _without_open_foundations(pieces: list[Piece]) -> list[Piece]:
    """Where "ch a multiple of 6 + 2" is followed by "ch 62", only the number is the foundation."""
    worked = [piece for piece in pieces if piece.kind != "text"]
    for piece, following in itertools.pairwise(worked):
        if piece.kind == following.kind == "start" and open_foundation(piece.text) is not None:
            piece.kind = "text"
    return pieces


def _set_under(pieces: list[Piece], colour: Piece) -> None:
    """Add what tells colours; a heading that stands over it alone ("Stripes") begins no part."""
    if pieces and pieces[-1].kind == "part" and _COLOUR_HEADING.search(pieces[-1].text):
        pieces[-1].kind = "text"
    pieces.append(colour)


_COLOUR_HEADING = re.compile(r"\bstrip|\bcolou?rs?\b|\bnotes?\b|\byarn", re.IGNORECASE)


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


def _step_due(line: CleanLine, pieces: Sequence[Piece]) -> list[Piece] | None:
    """Return the row of a numbered line whose number is due: "6. Fold flat and work 4 sc ..."."""
    last = next((piece.header for piece in reversed(pieces) if piece.header is not None), None)
    if last is None or not last.bare:
        return None
    header = numbered_step(line.text, last.numbers[-1] + 1)
    return [Piece("row", [(line, header.end, len(line.text))], header=header)] if header else None


def _cut(line: CleanLine, *, bare: bool) -> list[Piece] | None:
    """Cut one line where rows, foundations and repeats begin; None if it is other text."""
    text = line.text
    if is_correction(text):
        return None
    begin, out = 0, []
    if (opened := _run_in_heading(text)) is not None:
        name, begin = opened
        out.append(Piece("part", [(line, 0, begin)], part=name))
    heads = [
        header
        for header in headers_in(" " * begin + text[begin:], bare=bare)
        if not FORMS.match(text, header.start)
    ]
    if not heads and _FOUNDATION_STITCHES.match(text, begin):
        return [*out, Piece("row", [(line, begin, len(text))], header=Header(0, 0, "row", (1,)))]
    first = heads[0].start if heads else len(text)
    if text[begin:first].strip(" \t•*–—>-#_"):
        lead = _lead(line, begin, first)
        if all(piece.kind == "text" for piece in lead) and not heads and not out:
            return None
        out += lead
    for index, header in enumerate(heads):
        end = heads[index + 1].start if index + 1 < len(heads) else len(text)
        out += _row_and_after(line, header, end)
    return out or None


_FOUNDATION_STITCHES = re.compile(
    r"\W*(?:(?:with|using)\s+[\w ]{1,20}[:,]\s*)?(?:(?:work|make)\s+)?"
    r"(?:\d+\s*f(?:sc|dc|hdc|tr)\b|f(?:sc|dc|hdc|tr)\s*\d+\b|\d+\s+foundation\s+(?:single|double|half|sc|dc|hdc|tr)\b)",
    re.IGNORECASE,
)


def _run_in_heading(text: str) -> tuple[str, int] | None:
    """Return the heading that a line of work begins with ("SOLE–With white, ch 11."), and its end."""
    found = re.match(r"\s*(?P<name>[A-Z][A-Z &'/]{2,40}?)\s*[–:.]\s*(?=\S)", text)
    if found is None or re.match(r"(?:ROW|RND|ROUND|R|NOTE|CH)S?\b", found["name"]):
        return None
    rest = text[found.end() :]
    header = header_at(rest, bare=False)
    if header is None and _lead_kind(rest) != "start" and not _later_header(rest):
        return None
    return found["name"].strip().title(), found.end()


def _later_header(text: str) -> bool:
    return bool(headers_in(text, bare=False)) and not re.search(
        r"\bcounts?\b", text.split(".", maxsplit=1)[0]
    )


def _row_and_after(line: CleanLine, header: Header, end: int) -> list[Piece]:
    """Return a row's piece, and after it what the line says of the pattern rows."""
    for found in re.finditer(r"(?<=[.)\]!])\s+(?=[A-Z0-9])", line.text[header.end : end]):
        at = header.end + found.end()
        if (
            FORMS.match(line.text, at)
            or _CONTINUES_FOR.match(line.text, at)
            or _repeats_rows(line.text[at:end])
        ):
            row = Piece("row", [(line, header.end, at)], header=header)
            return [row, *_lead(line, at, end)]
    return [Piece("row", [(line, header.end, end)], header=header)]


def _repeats_rows(text: str) -> bool:
    """Tell whether a sentence within a row's line repeats whole rows: "Repeat Row 2 ten times"."""
    found = RERUN.match(in_figures(text))
    return found is not None and bool(
        re.match(r"[^.]*\b(?:times?|once|twice|until|till|more)\b", text, re.IGNORECASE)
    )


_CONTINUES_FOR = re.compile(rf"{CONTINUES.pattern}[^.]*\b(?:for|until|till|\d+)\b", re.IGNORECASE)


def _lead(line: CleanLine, begin: int, end: int) -> list[Piece]:
    """Cut the words before a header, or a line without one, into its sentences' kinds."""
    text = line.text[begin:end]
    kind = _lead_kind(text)
    if kind == "start" and (at := _row_on_the_chain(text)):
        return [Piece(kind, [(line, begin, begin + at)]), _first_row(line, begin + at, end)]
    if kind in ("start", "rerun", "even", "grow"):
        return [Piece(kind, [(line, begin, end)])]
    out: list[Piece] = []
    cuts = [begin, *(begin + found.end() for found in _SENTENCE.finditer(text)), end]
    for start, stop in itertools.pairwise(cuts):
        kind = _sentence_kind(line.text[start:stop], alone=start == begin)
        if kind == "talk":
            talked = _TALKED_START.match(line.text, start, stop)
            at = talked.start("chain") if talked else start
            out += [Piece("text", [(line, start, at)]), Piece("start", [(line, at, stop)])]
            continue
        if kind == "text" and out:
            last_line, last_start, _ = out[-1].spans[0]
            out[-1].spans[0] = (last_line, last_start, stop)
        else:
            out.append(Piece(kind, [(line, start, stop)]))
    return out


_ON_THE_CHAIN = re.compile(
    r"\s*(?:[Ww]ork\s+)?(?:1|one)?\s*(?:sc|hdc|dc|htr|tr|(?:half\s+)?(?:single|double|treble)(?:\s+crochet)?)\s+in(?:to)?\s+(?:the\s+)?(?:\d|second|third|fourth)[^.]*?"
    r"\b(?:hook|chain|ch)\b[^.]*\b(?:across|each|every|to\s+end|along)\b",
    re.IGNORECASE,
)


def _row_on_the_chain(text: str) -> int:
    """Return where the first row begins in "Ch 26. Sc in 2nd ch from hook and in each ch across"."""
    found = FOUNDATION.match(text)
    after = re.compile(
        r"\s*(?:sts?|stitches|chains?|loosely)?\s*[.,;]\s*(?:turn\s*[.,;]\s*)?", re.I
    )
    between = after.match(text, found.end()) if found else None
    return between.end() if between and _ON_THE_CHAIN.match(text, between.end()) else 0


def _first_row(line: CleanLine, begin: int, end: int) -> Piece:
    """A first row that has no name of its own."""
    return Piece("row", [(line, begin, end)], header=Header(0, 0, "row", (1,), unnamed=True))


def _named_first_rows(pieces: list[Piece]) -> list[Piece]:
    """Where the next row is called Row 1, a first row without a name is the foundation row."""
    for index, piece in enumerate(pieces):
        if piece.header is None or not piece.header.unnamed:
            continue
        after = itertools.takewhile(
            lambda each: each.kind not in ("part", "start"), pieces[index + 1 :]
        )
        following = next((each.header for each in after if each.header is not None), None)
        if following is not None and following.numbers[:1] == (1,):
            piece.header = replace(piece.header, numbers=(), label="Foundation Row")
    return pieces


_SENTENCE = re.compile(r"(?<=[.;!])\s+(?=[A-Z])")


def _sentence_kind(sentence: str, *, alone: bool) -> str:
    if FORMS.match(sentence):
        return "pattern"
    if CONTINUES.match(sentence) and not RERUN.match(sentence):
        return "continue"
    if _TALKED_START.match(sentence):
        return "talk"
    if alone:
        return "text"
    found = FOUNDATION.match(sentence)
    if (
        found
        and _lead_kind(sentence) == "start"
        and re.fullmatch(_AFTER_CHAINS, sentence[found.end() :], re.IGNORECASE)
    ):
        return "start"
    return "text"


_TALKED_START = re.compile(
    r"(?:[^.:]*\b(?:slip\s?knot|go\s+ahead|start(?:ing)?|begin(?:ning)?|you'll|we'll|let's|you're|we're|want|need)\b)"
    r"(?![^.]*\b(?:single|double|half|treble|crochet|sc|dc|row|round|multiple|counts?)\b)"
    r"[^.:]*?\b(?P<chain>(?:chain|ch)\s+(?:\d+|[a-z]+(?:-[a-z]+)?)\b)(?!\s*(?:sp|space|st))",
    re.IGNORECASE,
)
_AFTER_CHAINS = (
    r"(?:\s*(?:sts?|stitches|chains?|ch|loosely|and\s+turn|turn|for\s+\w+|in\s+\w+))*\s*[.,;]?\s*"
)


def _is_foundation(lead: str, found: re.Match[str]) -> bool:
    """Tell a foundation from a note on a beginning chain: "ch 3 counts as a dc" is none."""
    number = number_of(found["after"] or found["before"])
    if number is None:
        return False
    name = "after" if found["after"] else "before"
    if number < _LONGER_THAN_A_TURNING_CHAIN and _NAMES_A_STITCH.search(lead[: found.start(name)]):
        return False  # "Beginning shell (beg shell): ch 3, ..."
    told = lead[found.start(name) : found.end() + 25].split("multiple", maxsplit=1)[0]
    if number >= _LONGER_THAN_A_TURNING_CHAIN:
        told = re.sub(r"\bcounts?\b", "", told, flags=re.IGNORECASE)
    return not NOT_FOUNDATION.search(told)


_LONGER_THAN_A_TURNING_CHAIN = 9
_NAMES_A_STITCH = re.compile(
    r"[()]|\b(?:shell|cluster|cl|v-?st|st(?:itch)?|puff|popcorn|bobble|picot|fan|mesh)\b",
    re.IGNORECASE,
)


def _lead_kind(lead: str) -> str | None:
    found = FOUNDATION.match(lead)
    if (found and _is_foundation(lead, found)) or open_foundation(lead) is not None:
        return "start"
    if RERUN.match(in_figures(lead)) and not re.match(
        r"^\W*(?:work|as|like)\s+rows?\s*\d+\s*[,;]", lead, re.IGNORECASE
    ):
        return "rerun"
    even = EVEN.match(lead)
    if even and (even["how"] or even["first"] or re.match(_EVENLY, lead, re.IGNORECASE)):
        return "even"
    if even_length(lead):
        return "even"
    return "grow" if GROWS.match(lead) else None


_EVENLY = r"\W*(?:(?:now|then)\s+)?(?:work|continue|cont)\s+(?:even|straight)\b"


def _finished(text: str) -> bool:
    return bool(re.search(r"[.)\]}!:;]\s*$", text)) or bool(_STATED_LAST.search(text))


# "Turn. 120 sts": the count is the end of a row, with a stop behind it or without.
_STATED_LAST = re.compile(r"(?:\.|=)\s*\d+\s*(?:sts?|stitches|sc|hdc|dc|htr|tr)\s*$", re.IGNORECASE)


def _goes_on(current: Piece, text: str) -> bool:
    """Tell whether a row broke off in the middle of a sentence, so that this line belongs to it."""
    header = header_at(text, bare=False)
    if header is not None and not header.spoken:
        return False
    if FORMS.match(text) or CONTINUES.match(text):
        return False
    if re.match(
        r"\s*(?:rep|repeat)\s+(?:from|between)\b|\s*(?:ending|end) last\b", text, re.IGNORECASE
    ):
        return True
    if (_VERBS.match(text) and text.strip()[:1].isupper()) or _lead_kind(text) in (
        "rerun",
        "even",
        "grow",
    ):
        return False
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
        and heading(text) is None
    )


def _continues(current: Piece, text: str) -> bool:
    """Tell whether a line goes on with the row before it."""
    if re.match(r"\s*(?:[(\[{*]|[a-z0-9]|=|–)", text) and not _VERBS.match(text):
        return not re.match(r"\s*\d+\s*(?:\.|\))\s*[A-Z]", text)
    if re.match(r"\s*[(\[{]\s*\d", text):
        return True
    if _WORK_LINE.match(text) and not _COUNTED.search(current.text):
        kind = _lead_kind(text)
        return kind != "start" or len(text.split()) > 3
    if _VERBS.match(text) and text.strip()[:1].isupper():
        return False
    return not _finished(current.text) and not _heading_like(text)


_WORK_LINE = re.compile(
    r"\s*(?:\d+\s*)?(?:sc|dc|hdc|tr|htr|sl\s+st|ss|sk|skip|miss|[fb]pdc|[fb]psc|(?:single|double|half\s+double)\s+crochet)\s+(?:in|into|the|next|\d)",
    re.IGNORECASE,
)
_COUNTED = re.compile(r"(?:[)\]}>]|\d\s*(?:sts?|sc|dc|hdc|tr|htr)?)[\s.]*$", re.IGNORECASE)


def _heading_like(text: str) -> bool:
    return heading(text) is not None


_HOW_MANY = re.compile(
    r"\s*(?:[–:,-]?\s*\bmake\s+(?:\d+|two|three|four|five|six|eight|ten|twelve)\b.*|\s[x×]\s?\d+)$",
    re.IGNORECASE,
)
_DRESS = " \t*~=#_–-•>|+"


def heading(text: str) -> str | None:
    """Return the name of a part ("BORDER", "Heel") if the line is a heading."""
    bare = re.sub(r"\([^)]*\)", "", text).strip(_DRESS).rstrip(":").strip(_DRESS)
    bare = _HOW_MANY.sub("", bare)
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
