"""One row's words to instructions and counts."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Mapping, Sequence

from coach.craft.pattern import Line, SpecialStitch
from coach.craft.problem import Problem, Verdict
from coach.notation.counts import parted
from coach.notation.counts_listed import counts_in
from coach.notation.defined_in_passing import defined_in_passing
from coach.notation.edges_named import edges_in_short, without_how_they_lie
from coach.notation.facts import Facts
from coach.notation.joined_pieces import joined_to_others
from coach.notation.left_out import without_none
from coach.notation.picked_up import along_edges, row_ends_named
from coach.notation.piece import Piece
from coach.notation.pieces_joined_in_round import over_pieces
from coach.notation.repeat_announced import announced_in_brackets
from coach.notation.row_grammar import RowReader
from coach.notation.same_words import moved_line, words_of
from coach.notation.tokens import Token, tokens_of
from coach.notation.words import Vocabulary, understood

MOST_TOKENS = 2_000


def read_line(piece: Piece, facts: Facts, base: str) -> Line:
    """Read one row's words into instructions and counts; the same words are read only once."""
    words = words_of(piece)
    if words is None:
        return _read(piece, facts, base)
    known = facts.rows_read.get((words, base))
    if known is not None:
        return moved_line(known, piece.place)
    line = _read(piece, facts, base)
    if not line.problems:
        facts.rows_read[words, base] = line
    return line


def _read(piece: Piece, facts: Facts, base: str) -> Line:
    from coach.notation.prose import plainly  # noqa: PLC0415

    spans = list(piece.spans)
    if piece.header is not None and piece.header.counted is not None:
        spans.append((spans[0][0], *piece.header.counted))
    tokens = understood(plainly(tokens_of(spans)), facts.vocabulary)
    if len(tokens) > MOST_TOKENS:
        too_long = Problem(
            Verdict.BROKEN_NOTATION,
            piece.place,
            f"This row has {len(tokens)} words and signs; no row can be followed that is so long.",
            "Put each row on a line of its own, and use repeats.",
        )
        return Line("", "row", None, (), piece.place, problems=(too_long,), text=piece.text[:200])
    if len(tokens) > 2 and tokens[0].is_("start", "begin", "commence") and tokens[1].is_("with"):
        tokens = tokens[2:]
    body, stated = parted(tokens)
    body = announced_in_brackets(defined_in_passing(body, facts))
    body = without_none(without_how_they_lie(edges_in_short(row_ends_named(body))))
    if piece.count is not None:
        stated = counts_in(understood(tokens_of([piece.count]), facts.vocabulary)) or stated
    base = base_stitch(body) or base
    reader = RowReader(
        body,
        base=base,
        specials=facts.specials,
        suggest=suggester(facts.vocabulary, facts.specials),
    )
    over = over_pieces(body, stated)
    items = over or joined_to_others(along_edges(reader.read(), stated, facts.rules))
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
        known = vocabulary.names
        plurals = {f"{phrase}es" for phrase in known}
        names = [
            phrase
            for phrase in known
            if " " not in phrase and len(phrase) > 1 and phrase not in plurals
        ]
        names += [name.lower() for name in specials]
        close = difflib.get_close_matches(word, names, n=1, cutoff=0.6)
        return close[0] if close else ""

    return nearest
