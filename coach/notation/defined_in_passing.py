"""Groups defined where they are first worked: "shell (5 dc) in next sc", "(V-st: dc, ch 1, dc) in next st".

The bracket tells what the name is, once for all; the work is the name (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Sequence

from coach.notation.clauses import closing_bracket
from coach.notation.facts import Facts
from coach.notation.special_stitches import special_stitch, usual_specials
from coach.notation.tokens import Token


def defined_in_passing(tokens: Sequence[Token], facts: Facts) -> list[Token]:
    """Return *tokens* less such brackets; what they define is noted in *facts*, if nothing was before."""
    out: list[Token] = []
    index = 0
    while index < len(tokens):
        token = tokens[index]
        end = closing_bracket(tokens, index) if token.is_("(", "[") else None
        inner = tokens[index + 1 : end] if end else ()
        named = out[-1] if out and out[-1].kind == "unit" else None
        if len(inner) > 2 and inner[0].kind == "unit" and inner[1].is_(":", "=", "-", "–"):
            named, inner = inner[0], inner[2:]
        if end is None or named is None or not _tells_a_group(inner) or not _placed(tokens, end):
            out.append(token)
            index += 1
            continue
        if out[-1:] != [named]:
            out.append(named)
        usual = usual_specials(facts.vocabulary).get(named.text)
        if facts.specials.get(named.text) == usual:
            words = " ".join(each.raw for each in inner)
            facts.specials[named.text] = special_stitch(
                named.text, f"({words}) in same st", facts.vocabulary
            )
        index = end + 1
    return out


def _tells_a_group(inner: Sequence[Token]) -> bool:
    return any(token.kind == "stitch" for token in inner) and all(
        token.kind in ("stitch", "num") or token.is_(",", "ch", "-", "and", "+") for token in inner
    )


def _placed(tokens: Sequence[Token], end: int) -> bool:
    return end + 1 < len(tokens) and tokens[end + 1].is_("in", "into")
