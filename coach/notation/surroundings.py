"""What stands around the rows: title, colours, materials, notes and finishing words."""

from __future__ import annotations

import re
from collections.abc import Sequence

from coach.craft.pattern import StatedMultiple
from coach.notation import front_matter
from coach.notation.cleaning import CleanLine
from coach.notation.corrections import is_correction
from coach.notation.headers import header_at
from coach.notation.lead import FOUNDATION
from coach.notation.piece import Piece

_FRONT_HEADS = (
    "materials", "yarn", "hook", "gauge", "tension", "size", "sizes", "abbreviations", "notes", "note", "finished",
    "supplies", "measurements", "terms", "special", "stitch", "pattern notes", "you will need", "skill", "instructions", "stitches",
)  # fmt: skip


def texts_of(
    pieces: Sequence[Piece],
) -> tuple[list[Piece], list[tuple[int, str]], list[tuple[int, str]]]:
    """Return the front matter, the notes between the rows and the finishing sentences."""
    worked = [
        index
        for index, piece in enumerate(pieces)
        if piece.kind in ("row", "rerun", "start", "even", "grow", "again")
    ]
    first = worked[0] if worked else len(pieces)
    last = worked[-1] if worked else len(pieces)
    front = [piece for piece in pieces[:first] if piece.kind in ("text", "part")]
    notes = [
        (piece.place.line, piece.text)
        for piece in pieces[first:last]
        if piece.kind in ("text", "pattern", "continue")
    ]
    finishing: list[tuple[int, str]] = []
    if worked:
        finishing += _finishing_of(pieces[last])
    for piece in pieces[last + 1 :]:
        if piece.kind == "text" and not is_correction(piece.text):
            finishing += _sentences(piece)
    return front, notes, finishing


def _sentences(piece: Piece) -> list[tuple[int, str]]:
    return [
        (line.number, sentence)
        for line, start, end in piece.spans
        for sentence in re.split(r"(?<=[.!?)\]])\s+(?=[A-Z])", line.text[start:end].strip())
        if sentence
    ]


def _finishing_of(piece: Piece) -> list[tuple[int, str]]:
    """Return the finishing sentences that stand in the last row's own lines: "Fasten off."."""
    sentences = _sentences(piece)
    for index, (_, sentence) in enumerate(sentences):
        if _FINISHING.match(sentence):
            return sentences[index:]
    return []


_FINISHING = re.compile(
    r"\W*(?:fasten\s+off|f\.?\s?/?o\b|finish\s+off|end\s+off|bind\s+off|break\s+(?:off|yarn)|cut\s+(?:the\s+|your\s+)?yarn|weave|sew|darn|block)\b",
    re.IGNORECASE,
)


def title_of(lines: Sequence[CleanLine]) -> str:
    """Return the title: the first line that is no row; of a mail, the first that it quotes."""
    quoted = [line for line in lines if line.quoted]
    for line in quoted or lines:
        text = _closed_up(_MAIL_SUBJECT.sub("", line.text.strip()))
        if text and header_at(text) is None and not _MAIL_HEAD.match(text):
            text = re.sub(r"\s*\((?:US|UK)\s+terms?\)\s*$", "", text, flags=re.IGNORECASE)
            text = re.split(r"\s[–-]\s|\s{3,}", text)[0].strip().rstrip(".")
            if len(text) > 90 or FOUNDATION.match(text):
                return ""
            return text.title() if text.isupper() else text
    return ""


_MAIL_SUBJECT = re.compile(r"^subject:\s*(?:(?:fwd?|re):\s*)*", re.IGNORECASE)
_MAIL_HEAD = re.compile(r"(?:from|to|cc|date|sent|reply-to):\s", re.IGNORECASE)
_LETTERS_APART = re.compile(r"(?:[^\W\d_]|[&'-]) (?:(?:[^\W\d_]|[&'-]) {1,4})+[^\W\d_]")


def _closed_up(text: str) -> str:
    """Return a title set with its letters apart ("S H A W L") as its words."""
    if not _LETTERS_APART.fullmatch(text):
        return text
    return " ".join(word.replace(" ", "") for word in re.split(r" {2,}", text))


def multiple_of(lines: Sequence[CleanLine]) -> StatedMultiple | None:
    """Return the multiple that the pattern states, if it does."""
    for line in lines:
        found = front_matter.stated_multiple(line)
        if found is not None:
            return found
    return None


def colours_of(lines: Sequence[CleanLine]) -> tuple[str, ...]:
    """Return the colours listed with their letters: "A Slate"."""
    names: dict[str, None] = {}
    for line in lines:
        for found in re.finditer(r"\b([A-Z][\w-]+)\s*\(([A-H]|MC|CC\d?)\)", line.text):
            names[f"{found[2]} {found[1]}"] = None
    return tuple(names)


def materials_of(front: Sequence[Piece]) -> tuple[str, ...]:
    """Return the lines of the materials."""
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
