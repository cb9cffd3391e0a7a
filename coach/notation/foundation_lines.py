"""A foundation's line to its entry: so many chains, a joined chain, a ring, or a first round on it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from coach.craft.pattern import Line, Start
from coach.notation.counts import parted
from coach.notation.facts import Facts
from coach.notation.lead import FOUNDATION
from coach.notation.number_words import number_of
from coach.notation.open_foundation import open_foundation
from coach.notation.piece import Piece
from coach.notation.row_text import read_line
from coach.notation.run_in_headings import RING_ALONE
from coach.notation.tokens import Token, tokens_of
from coach.notation.words import understood


def start_of(piece: Piece, facts: Facts) -> Start | Line:
    """A foundation on a line of its own."""
    tokens = understood(tokens_of(piece.spans), facts.vocabulary)
    body, _stated = parted(tokens)
    if (opened := open_foundation(piece.text)) is not None:
        joined = any(token.is_("join", "ring", "twist") for token in body)
        multiple = None if opened.sample else (opened.of, opened.plus)
        kind = "joined chain" if joined else "chain"
        return Start(opened.chains, kind, piece.place, open_multiple=multiple)
    if (ring := RING_ALONE.fullmatch(piece.text)) is not None:
        return Start(None, "magic ring", piece.place, ring["color"])
    found = FOUNDATION.match(piece.text)
    assert found is not None  # noqa: S101
    word = (found["after"] or found["before"]).lower()
    chains = number_of(word) or 0
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
    return Start(chains, kind, piece.place, _begun_in(piece.text))


# "With the larger hook, ch 13" names a tool, and "With the main shade" no name but a role.
_BEGUN_IN = re.compile(
    r"\W*(?:with|using)\s+(?:(?:the\s+)?[\w.]+\s+(?:mm\s+)?hook\s+and\s+)?"
    r"(?:the\s+)?(?:(?P<role>main|contrast(?:ing)?)\s+(?:colou?r|shade|yarn)\b"
    r"|(?:colou?r\s+|yarn\s+)?(?!(?:the|(?-i:a|an)|your|both|two|larger|smaller|hook|yarn|colou?r)\b"
    r"|[\w.]+\s+(?:size\s+)?hook\b)(?P<name>[A-Za-z]\w*))",
    re.IGNORECASE,
)


def _begun_in(text: str) -> str | None:
    """Return the yarn that a foundation is made in, where its words name one."""
    found = _BEGUN_IN.match(text)
    if found is None:
        return None
    if found["role"]:
        return "MC" if found["role"].lower() == "main" else "CC"
    return found["name"]


def _from_start(tokens: Sequence[Token]) -> bool:
    """Tell whether a foundation line goes on to work stitches into its chain."""
    for index, token in enumerate(tokens):
        if token.kind == "stitch" and token.text != "sl st":
            following = tokens[index + 1] if index + 1 < len(tokens) else None
            if following is not None and following.is_("in", "into", "across"):
                return True
    return False
